package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import strokewright.estimate.FromShape;
import strokewright.estimate.Operation;
import strokewright.estimate.Shape;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Fault;
import strokewright.web.Numbers;

/** From the panel to rows of the take-off. */
class ShapeAddingTest {

    private static final ShopBook BOOK = SmallShop.BOOK;
    private static final Numbers EN = Numbers.of(Locale.UK);
    private static final Numbers DE = Numbers.of(Locale.GERMANY);

    @Test
    void theFirstShapeTakesThePlaceOfTheEmptyPart() {
        TypedTakeOff begun = TypedTakeOff.begun(BOOK).plus(ring().entries());
        ShapeAdding added = add(begun, EN, 0);
        assertThat(added.replaced()).isEqualTo("/parts/p1");
        assertThat(added.typed().rows("/parts")).isEqualTo(added.parts()).hasSize(1);
        assertThat(Reckoned.of(added.typed(), BOOK, EN).complete()).isTrue();
    }

    @Test
    void aFurtherShapeStandsBehindWhatIsThere() {
        TypedTakeOff frame = SmallShop.roundFrame().plus(ring().entries());
        ShapeAdding added = add(frame, EN, 41);
        assertThat(added.replaced()).isNull();
        assertThat(added.typed().rows("/parts")).hasSize(2).startsWith("/parts/p1");
        // a key above all that the page has given out, so that an undone removal finds its own free
        assertThat(added.parts()).containsExactly("/parts/p42");
        assertThat(added.typed().at("/parts/p1/operations/o1/radiusMm")).isEqualTo("300");
    }

    @Test
    void itsSizesLeaveThePanelAndItsMetalStays() {
        TypedTakeOff added = add(TypedTakeOff.begun(BOOK).plus(ring().entries()), EN, 0).typed();
        assertThat(added.at("/shape/outsideDiameterMm")).isEmpty();
        assertThat(added.at("/shape/thicknessMm")).isEqualTo("2");
        assertThat(added.at("/shape/type")).isEqualTo("ring");
    }

    /** A gauge rounded to the hundredth would be no stock sheet any more. */
    @Test
    void aThicknessInGaugeStaysOne() {
        TypedTakeOff typed =
                TypedTakeOff.begun(BOOK)
                        .plus(ring().with("/shape/thicknessMm", "16 ga steel").entries());
        ShapeAdding added = add(typed, DE, 0);
        assertThat(added.typed().at(added.parts().get(0) + "/thicknessMm"))
                .isEqualTo("16 ga steel");
    }

    @Test
    void readsAndWritesNumbersInTheLanguageOfTheBrowser() {
        TypedTakeOff typed =
                TypedTakeOff.begun(BOOK)
                        .plus(ring().with("/shape/outsideDiameterMm", "600,5").entries());
        TypedTakeOff added = add(typed, DE, 0).typed();
        String line = edge(added);
        assertThat(added.at(line + "/radiusMm")).isEqualTo("300,25");
        assertThat(added.at(line + "/lengthMm")).isEqualTo("1886,53"); // π · 600.5 = 1886.5264
    }

    @Test
    void lengthsAreTypedToTheHundredth() {
        TypedTakeOff added = add(TypedTakeOff.begun(BOOK).plus(ring().entries()), EN, 0).typed();
        Operation.CurveEdge edge =
                (Operation.CurveEdge)
                        Reckoned.of(added, BOOK, EN).takeOff().parts().get(0).operations().stream()
                                .filter(Operation.CurveEdge.class::isInstance)
                                .findFirst()
                                .orElseThrow();
        assertThat(edge.lengthMm()).isEqualTo(1884.96);
    }

    @Test
    void faultsStandAtTheFieldsOfThePanel() {
        TypedTakeOff typed =
                TypedTakeOff.begun(BOOK)
                        .plus(
                                ring().with("/shape/outsideDiameterMm", "1,200")
                                        .with("/shape/flangeHeightMm", "0")
                                        .with("/shape/thicknessMm", "99 ga")
                                        .entries());
        assertThat(ShapeReading.read(typed, BOOK, EN).faults())
                .extracting(Fault::pointer)
                .containsExactlyInAnyOrder(
                        "/shape/outsideDiameterMm", "/shape/flangeHeightMm", "/shape/thicknessMm");
        TypedTakeOff spots =
                SmallShop.typed(
                        "/shape/type", "panel-with-dents",
                        "/shape/grade", "soft",
                        "/shape/thicknessMm", "1",
                        "/shape/lengthMm", "300",
                        "/shape/widthMm", "300",
                        "/shape/spots", "99999999999999999999");
        assertThat(ShapeReading.read(spots, BOOK, EN).faults())
                .extracting(Fault::pointer)
                .containsExactly("/shape/spots");
    }

    /** Fields and JSON of a shape have the same names, so no field is forgotten or misspelt. */
    @ParameterizedTest
    @EnumSource(ShapeKind.class)
    void thePanelAsksForWhatTheShapeIsMadeOf(ShapeKind kind) {
        Class<?> record =
                Stream.of(Shape.class.getPermittedSubclasses())
                        .filter(c -> kebab(c.getSimpleName()).equals(kind.kind()))
                        .findFirst()
                        .orElseThrow();
        Set<String> asked = new HashSet<>();
        kind.fields().forEach(f -> asked.add(f.name()));
        asked.addAll(List.of("name", "surface", "edge")); // those are for the part's own fields
        assertThat(asked)
                .isEqualTo(
                        new HashSet<>(
                                Arrays.stream(record.getRecordComponents())
                                        .map(c -> c.getName())
                                        .toList()));
    }

    /** Every letter of a label stands in the sketch, for each choice that there is. */
    @ParameterizedTest
    @EnumSource(ShapeKind.class)
    void theSketchNamesTheDimensionsThatAreAskedFor(ShapeKind kind) {
        for (String choice : List.of("", "outside", "turned", "shrink")) {
            String svg = ShapeSketches.of(kind, choice, "s");
            assertThat(svg).startsWith("<svg class=\"drawing\"").contains("<desc");
            String drawn = svg.substring(svg.indexOf("</desc>"));
            kind.fields().stream()
                    .map(Field::label)
                    .filter(label -> label.matches(".* [A-Zα]"))
                    .filter(label -> !(kind == ShapeKind.ARCH_EDGE && label.endsWith("α")))
                    .forEach(
                            label ->
                                    assertThat(drawn)
                                            .as(label)
                                            .containsPattern(
                                                    ">(Ø )?"
                                                            + label.charAt(label.length() - 1)
                                                            + "( / 2)?<"));
        }
    }

    private static String edge(TypedTakeOff typed) {
        return typed.rows(typed.rows("/parts").get(0) + "/operations").stream()
                .filter(row -> typed.at(row + "/type").equals("curve-edge"))
                .findFirst()
                .orElseThrow();
    }

    private static ShapeAdding add(TypedTakeOff typed, Numbers numbers, int highestKey) {
        ShapeReading.Read read = ShapeReading.read(typed, BOOK, numbers);
        assertThat(read.faults()).isEmpty();
        return ShapeAdding.of(typed, FromShape.of(read.shape(), BOOK), BOOK, numbers, highestKey);
    }

    private static TypedTakeOff ring() {
        return SmallShop.typed(
                "/shape/type", "ring",
                "/shape/grade", "soft",
                "/shape/thicknessMm", "2",
                "/shape/outsideDiameterMm", "600",
                "/shape/flange", "inside",
                "/shape/flangeHeightMm", "40",
                "/shape/returnMm", "80");
    }

    private static String kebab(String name) {
        return name.replaceAll("(?<=[a-zA-Z])(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
    }
}
