package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.BOOK;
import static strokewright.takeoff.SmallShop.DE;
import static strokewright.takeoff.SmallShop.EN;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;

class FindingWordsTest {

    private static final String RIM = "/parts/p1/operations/o1";

    @Test
    void tellsWhatTheMachineTakesAndWhatWouldClearIt() {
        FindingWords.Told told = told("over-capacity", roundFrame("thicknessMm", "20"));
        assertThat(told.word()).isEqualTo("Not possible");
        assertThat(told.style()).isEqualTo("refusal");
        assertThat(told.text()).startsWith("Machine takes ").contains("MPa; this is ");
        assertThat(told.change()).matches("Cleared by a thickness of at most [0-9.]+\u00a0mm\\.");
    }

    @Test
    void theChangeThatItNamesReallyClearsIt() {
        FindingWords.Told told = told("over-capacity", roundFrame("thicknessMm", "20"));
        String thickness = told.change().replaceAll(".*at most ([0-9.]+)\u00a0mm.*", "$1");
        assertThat(codes(roundFrame("thicknessMm", thickness))).doesNotContain("over-capacity");
    }

    @Test
    void aRadiusIsRoundedUpAndAHeightDownSoThatBothStayCleared() {
        Finding finding =
                new Finding(
                        "not-annealable",
                        Severity.REFUSAL,
                        "/parts/0/operations/0",
                        Map.of(
                                "grade",
                                "hard",
                                "strain",
                                0.21,
                                "strainWithoutAnneal",
                                0.15,
                                "anneals",
                                1),
                        Map.of("heightMm", 33.39));
        assertThat(new FindingWords(EN).change(finding))
                .isEqualTo("Cleared by a flange height of at most 33.3\u00a0mm.");
        Finding radius =
                new Finding(
                        finding.code(),
                        finding.severity(),
                        finding.pointer(),
                        finding.values(),
                        Map.of("radiusMm", 1250.01));
        assertThat(new FindingWords(DE).change(radius))
                .isEqualTo("Cleared by a radius of at least 1\u202f250,1\u00a0mm.");
        assertThat(new FindingWords(EN).text(finding))
                .contains("hard takes a strain of 15.0\u00a0%", "this needs 21.0\u00a0%");
    }

    @Test
    void everyFindingThatTheCalculationKnowsHasASentence() {
        List<String> codes =
                List.of(
                        "no-tool",
                        "marks-on-visible-surface",
                        "starting-radius-too-tight",
                        "depth-over-half-diameter",
                        "rim-buckles",
                        "height-not-under-radius",
                        "over-capacity",
                        "over-tool-capacity",
                        "beyond-throat",
                        "anneals-needed",
                        "no-anneal-standard",
                        "not-annealable",
                        "corners-in-outline",
                        "longer-than-stock",
                        "longer-than-folder",
                        "bend-radius-too-small",
                        "bend-force-over-press",
                        "leg-shorter-than-die",
                        "leg-inside-bend",
                        "blank-not-developed",
                        "no-k-factor",
                        "outline-straight",
                        "no-metal-price",
                        "customers-metal",
                        "no-blank-to-nest",
                        "blank-over-sheet",
                        "cheaper-at-break",
                        "size-beyond-tolerances",
                        "tolerance-finer-than-forming",
                        "template-gap-tighter-than-class",
                        "sample-is-whole-lot",
                        "already-so",
                        "size-stays",
                        "amount-follows",
                        "own-minutes-follow",
                        "over-full-turn");
        for (String code : codes) {
            Finding finding = new Finding(code, Severity.NOTE, "/parts/0", Map.of());
            assertThat(new FindingWords(EN).text(finding))
                    .as(code)
                    .isNotEqualTo(code.replace('-', ' ') + ".")
                    .endsWith(".");
        }
    }

    @Test
    void otherMachinesAndToolsAreNamedBesideTheSizes() {
        Map<String, Object> change = new LinkedHashMap<>();
        change.put("thicknessMm", 3.4567);
        change.put("machine", "Large");
        change.put("tool", "Soft");
        change.put("crownTool", "Dome");
        change.put("stretchTool", "Edge");
        change.put("heightMm", 0.04); // nothing is left of it when it is rounded
        Finding finding =
                new Finding("over-capacity", Severity.REFUSAL, "/parts/0", Map.of(), change);
        assertThat(new FindingWords(EN).change(finding))
                .isEqualTo(
                        "Cleared by a thickness of at most 3.45\u00a0mm, or on the machine “Large”, or"
                                + " with the tool “Soft”, or with the tool “Dome” for the crown, or"
                                + " with the tool “Edge” for what stretches.");
        assertThat(
                        new FindingWords(EN)
                                .change(
                                        new Finding(
                                                "over-capacity",
                                                Severity.REFUSAL,
                                                "/parts/0",
                                                Map.of(),
                                                Map.of("machine", "Large"))))
                .isEqualTo("Cleared on the machine “Large”.");
        assertThat(
                        new FindingWords(EN)
                                .change(
                                        new Finding(
                                                "over-capacity",
                                                Severity.REFUSAL,
                                                "/parts/0",
                                                Map.of(),
                                                Map.of("thicknessMm", 0.009))))
                .isNull();
    }

    @Test
    void cornersAndLengthsOfAnOutlineAreToldWithTheirJoints() {
        FindingWords words = new FindingWords(EN);
        assertThat(words.text(note("corners-in-outline", "corners", 3, "smallestRadiusMm", 10.0)))
                .isEqualTo(
                        "The outline has 3 corners under a radius of 10\u00a0mm: they are to fold or"
                                + " to join, and that takes no time here.");
        assertThat(words.text(note("corners-in-outline", "corners", 1, "smallestRadiusMm", 12.5)))
                .startsWith("The outline has 1 corner under a radius of 12.5\u00a0mm: it is");
        Finding longer =
                note(
                        "longer-than-stock",
                        "lengthMm",
                        2500.04,
                        "longestMm",
                        2000.0,
                        "pieces",
                        2,
                        "joints",
                        1);
        assertThat(words.text(longer))
                .isEqualTo(
                        "A length of 2\u202f500.04\u00a0mm is longer than the stock of"
                                + " 2\u202f000\u00a0mm: 2 pieces and 1 joint, which take no time here.");
    }

    private static Finding note(String code, Object... namesAndValues) {
        Map<String, Object> values = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            values.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return new Finding(code, Severity.NOTE, "/parts/0/operations/0", values, null);
    }

    @Test
    void whatHasNoSentenceYetIsToldAllTheSame() {
        Finding finding =
                new Finding("new-thing", Severity.NOTE, "/parts/0", Map.of("figureMm", 12.5));
        assertThat(new FindingWords(EN).text(finding)).isEqualTo("new thing: figureMm 12.5.");
    }

    private static TypedTakeOff roundFrame(String field, String text) {
        return SmallShop.roundFrame().with("/parts/p1/" + field, text);
    }

    private static FindingWords.Told told(String code, TypedTakeOff typed) {
        return Reckoned.of(typed, BOOK, EN).findingsAt(RIM).stream()
                .filter(f -> f.code().equals(code))
                .map(new FindingWords(EN)::tell)
                .findFirst()
                .orElseThrow();
    }

    private static List<String> codes(TypedTakeOff typed) {
        return Reckoned.of(typed, BOOK, EN).findingsAt(RIM).stream().map(Finding::code).toList();
    }
}
