package strokewright.takeoff;

import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.ToolKind;

/**
 * One field of the take-off page.
 *
 * @param name last step of its path
 * @param unit printed behind it; empty for none
 * @param otherwise what counts when it is left empty, as shown in it; empty where it is needed
 * @param hint what to type, in a few words
 * @param options to choose from; null where text is typed
 */
public record Field(
        String name,
        String label,
        Kind kind,
        String unit,
        String otherwise,
        String hint,
        @Nullable Function<ShopBook, List<Option>> options) {

    enum Kind {
        TEXT,
        /** Text of many lines. */
        LINES,
        LENGTH,
        THICKNESS,
        AREA,
        NUMBER,
        WHOLE,
        CHOICE
    }

    /** An amount in the shop's currency. */
    boolean isMoney() {
        return kind == Kind.NUMBER && (name.equals("cost") || name.equals("marketPriceEach"));
    }

    public record Option(String value, String label) {}

    static Field text(String name, String label, String otherwise) {
        return new Field(name, label, Kind.TEXT, "", otherwise, "", null);
    }

    /** An outline in path data, or an SVG file to be read. */
    static Field outline(String name, String label) {
        return new Field(name, label, Kind.LINES, "", "", "", null);
    }

    static Field length(String name, String label, String otherwise) {
        return new Field(name, label, Kind.LENGTH, "mm", otherwise, "", null);
    }

    static Field area(String name, String label) {
        return new Field(name, label, Kind.AREA, "dm²", "", "", null);
    }

    static Field number(String name, String label, String unit, String otherwise) {
        return new Field(name, label, Kind.NUMBER, unit, otherwise, "", null);
    }

    static Field whole(String name, String label, String otherwise) {
        return new Field(name, label, Kind.WHOLE, "", otherwise, "", null);
    }

    static Field choice(String name, String label, Option... options) {
        return choice(name, label, book -> List.of(options));
    }

    static Field choice(String name, String label, Function<ShopBook, List<Option>> options) {
        return new Field(name, label, Kind.CHOICE, "", "", "", options);
    }

    /** A tool of one of these kinds, or the quickest. */
    static Field tool(String name, String label, Set<ToolKind> kinds) {
        return choice(
                name,
                label,
                book ->
                        first(
                                "quickest",
                                book.tools().stream()
                                        .filter(t -> kinds.contains(t.kind()))
                                        .map(ShopBook.Tool::name)
                                        .toList()));
    }

    /** What counts when nothing is chosen, and behind it names to choose from. */
    static List<Option> first(String nothingChosen, List<String> names) {
        List<Option> options = new java.util.ArrayList<>();
        options.add(new Option("", nothingChosen));
        names.forEach(name -> options.add(new Option(name, name)));
        return options;
    }

    Field saying(String newHint) {
        return new Field(name, label, kind, unit, otherwise, newHint, options);
    }
}
