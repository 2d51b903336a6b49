package strokewright.shopbook;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * One field of the shop book: the label table of the pages that edit it and of the pages that tell
 * what changed.
 *
 * @param path steps from its row to it in JSON, parted by "/"; empty for the row itself
 * @param unit printed behind it; "¤" stands for the book's currency; empty for none
 * @param help what to type or what counts when it is left empty; empty for none
 * @param inTable whether a long list of rows shows it
 */
record BookField(String path, String label, String unit, Kind kind, String help, boolean inTable) {

    private static final Map<String, String> NOTHING_ELSE = Map.of();

    static BookField text(String path, String label) {
        return of(path, label, "", new Kind.Text());
    }

    static BookField number(String path, String label, String unit) {
        return of(path, label, unit, new Kind.Figure(Kind.Manner.PLAIN, false));
    }

    static BookField whole(String path, String label, String unit) {
        return of(path, label, unit, new Kind.Figure(Kind.Manner.WHOLE, false));
    }

    static BookField length(String path, String label) {
        return of(path, label, "mm", new Kind.Figure(Kind.Manner.LENGTH, false));
    }

    static BookField thickness(String path, String label) {
        return of(path, label, "mm", new Kind.Figure(Kind.Manner.THICKNESS, false))
                .saying("mm, inch or gauge with its metal");
    }

    /** A share in the book that people say in per cent. */
    static BookField share(String path, String label) {
        return of(path, label, "%", new Kind.Figure(Kind.Manner.PLAIN, true));
    }

    static BookField money(String path, String label, String per) {
        return of(path, label, "¤" + per, new Kind.Cash());
    }

    static BookField yesNo(String path, String label) {
        return of(path, label, "", new Kind.YesNo());
    }

    static BookField choice(String path, String label, Map<String, String> words) {
        return of(path, label, "", new Kind.Choice(words, null));
    }

    static BookField choiceOr(
            String path, String label, String nothing, Map<String, String> words) {
        return of(path, label, "", new Kind.Choice(words, nothing));
    }

    static BookField named(String path, String label, String section) {
        return of(path, label, "", new Kind.Named(section, NOTHING_ELSE, null));
    }

    static BookField namedOr(String path, String label, String section, String nothing) {
        return of(path, label, "", new Kind.Named(section, NOTHING_ELSE, nothing));
    }

    static BookField namedOrOther(
            String path, String label, String section, Map<String, String> also) {
        return of(path, label, "", new Kind.Named(section, also, null));
    }

    static BookField built(String path, String label, String stated, String built) {
        return of(path, label, "", new Kind.Built(stated, built));
    }

    static BookField lines(String path, String label, String noun, BookField... fields) {
        return of(path, label, "", new Kind.Lines(noun, List.of(fields)));
    }

    static BookField origin() {
        return text("origin", "Origin").saying("measured, published where, invoice of, assumed …");
    }

    private static BookField of(String path, String label, String unit, Kind kind) {
        return new BookField(path, label, unit, kind, "", false);
    }

    BookField saying(String newHelp) {
        return new BookField(path, label, unit, kind, newHelp, inTable);
    }

    BookField listed() {
        return new BookField(path, label, unit, kind, help, true);
    }

    boolean isOrigin() {
        return path.equals("origin");
    }

    boolean isFigure() {
        return kind instanceof Kind.Figure || kind instanceof Kind.Cash;
    }

    boolean isText() {
        return kind instanceof Kind.Text;
    }

    /** With the currency of the book. */
    String unitIn(Kind.With with) {
        return unit.replace("¤", with.currency().getCurrencyCode());
    }

    String sayWithUnit(@Nullable JsonNode value, Kind.With with) {
        String said = kind.say(value, with);
        boolean bare = unit.isEmpty() || Kind.isNothing(value) || Kept.gaugeIn(value).isPresent();
        return bare ? said : said + "\u00a0" + unitIn(with);
    }
}
