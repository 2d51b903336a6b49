package strokewright.shopbook;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Parts of the shop book to read, where {@link BookParts} says all that there is to say. */
final class ReadParts {

    /** Parts that the page has no table of its own for. */
    private static final Set<String> HERE =
            Set.of("proposals", "cutting", "bending", "inspection", "uncertainty", "learned");

    private ReadParts() {}

    record Part(BookPart of, List<Section> sections) {}

    record Section(BookSection of, List<DraftView.Head> heads, List<Row> rows) {}

    /**
     * @param cells in words, one for each head
     * @param origin null where the row has none
     */
    record Row(List<String> cells, @Nullable String origin) {}

    static List<Part> of(BookTree tree, Kind.With with) {
        return BookParts.ALL.stream()
                .filter(p -> HERE.contains(p.key()))
                .map(
                        p ->
                                new Part(
                                        p,
                                        p.sections().stream()
                                                .map(s -> section(s, tree, with))
                                                .toList()))
                .toList();
    }

    private static Section section(BookSection section, BookTree tree, Kind.With with) {
        List<BookField> fields = section.fields().stream().filter(f -> !f.isOrigin()).toList();
        return new Section(
                section,
                fields.stream()
                        .map(f -> new DraftView.Head(f.label(), f.unitIn(with), f.isFigure()))
                        .toList(),
                tree.rows(section).stream().map(r -> row(fields, r, with)).toList());
    }

    private static Row row(List<BookField> fields, Map<String, JsonNode> values, Kind.With with) {
        JsonNode origin = values.get("origin");
        return new Row(
                fields.stream().map(f -> f.kind().say(values.get(f.path()), with)).toList(),
                Kind.isNothing(origin) ? null : origin.asString());
    }
}
