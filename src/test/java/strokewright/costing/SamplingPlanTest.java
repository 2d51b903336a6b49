package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.EnumSource;

class SamplingPlanTest {

    private static final List<String> LETTERS =
            List.of("A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M", "N", "P", "Q", "R");

    @ParameterizedTest(name = "lots of {0} to {1}")
    @CsvFileSource(resources = "/costing/code-letters.csv", commentCharacter = '#')
    void takesTheCodeLetterOfTheTable(
            int from,
            int to,
            String s1,
            String s2,
            String s3,
            String s4,
            String one,
            String two,
            String three) {
        List<String> printed = List.of(s1, s2, s3, s4, one, two, three);
        for (InspectionLevel level : InspectionLevel.values()) {
            for (int lot : new int[] {from, to}) {
                SamplingPlan plan = SamplingPlan.of(lot, 0, level, 6.5);
                if (!plan.isEveryPiece()) {
                    assertThat(plan.letter())
                            .as("%d %s", lot, level)
                            .isEqualTo(printed.get(level.ordinal()));
                }
            }
        }
    }

    /**
     * Every cell of the printed table, reached through a lot of the cell's letter at level III or
     * II: where it is an arrow, the plan is that of the first cell it points to.
     */
    @Test
    void takesThePlanOfEveryCellOfTheTable() throws IOException {
        List<String[]> printed = rows("/costing/normal-inspection.csv");
        assertThat(printed).hasSize(16);
        int cells = 0;
        for (int row = 0; row < printed.size(); row++) {
            Lot lot = lotOf(LETTERS.get(row));
            for (int column = 0; column < SamplingPlan.AQLS.size(); column++) {
                int at = row;
                while (printed.get(at)[column + 2].equals("v")) {
                    at++;
                }
                while (printed.get(at)[column + 2].equals("^")) {
                    at--;
                }
                int size = Integer.parseInt(printed.get(at)[1]);
                SamplingPlan plan =
                        SamplingPlan.of(lot.pieces, 0, lot.level, SamplingPlan.AQLS.get(column));
                if (size >= lot.pieces) {
                    assertThat(plan).isEqualTo(everyPiece(lot.pieces));
                } else {
                    int accept = Integer.parseInt(printed.get(at)[column + 2]);
                    assertThat(plan)
                            .isEqualTo(
                                    new SamplingPlan(
                                            lot.pieces,
                                            LETTERS.get(row),
                                            LETTERS.get(at),
                                            size,
                                            accept,
                                            accept + 1));
                    cells++;
                }
            }
        }
        assertThat(cells).isGreaterThan(200);
    }

    private record Lot(int pieces, InspectionLevel level) {}

    /** The largest lot that the printed table of code letters gives this letter to. */
    private static Lot lotOf(String letter) throws IOException {
        Lot lot = null;
        for (String[] line : rows("/costing/code-letters.csv")) {
            for (InspectionLevel level : InspectionLevel.values()) {
                int to = Integer.parseInt(line[1]);
                if (line[2 + level.ordinal()].equals(letter) && (lot == null || lot.pieces < to)) {
                    lot = new Lot(to, level);
                }
            }
        }
        return lot;
    }

    @ParameterizedTest(name = "{0} pieces, level {1}, AQL {2}")
    @CsvFileSource(resources = "/costing/sampling-plans.csv", commentCharacter = '#')
    void resolvesTheArrows(
            int lot,
            String level,
            double aql,
            String letter,
            String planLetter,
            int inspected,
            int accept,
            int reject) {
        InspectionLevel of = InspectionLevel.valueOf(level.replace('-', '_'));

        assertThat(SamplingPlan.of(lot, 8, of, aql))
                .isEqualTo(new SamplingPlan(lot, letter, planLetter, inspected, accept, reject));
    }

    @Test
    void everyPieceUpToItsLimitAndASampleAbove() {
        assertThat(SamplingPlan.of(8, 8, InspectionLevel.II, 2.5)).isEqualTo(everyPiece(8));
        assertThat(SamplingPlan.of(9, 8, InspectionLevel.II, 2.5).inspected()).isEqualTo(5);
        assertThat(SamplingPlan.of(12, 12, InspectionLevel.II, 2.5)).isEqualTo(everyPiece(12));
    }

    @Test
    void aSampleThatIsNotSmallerThanItsLotIsTheWholeLot() {
        // 2.5 at letter A leads down to C with 5 pieces
        assertThat(SamplingPlan.of(5, 0, InspectionLevel.II, 2.5)).isEqualTo(everyPiece(5));
        assertThat(SamplingPlan.of(6, 0, InspectionLevel.II, 2.5).inspected()).isEqualTo(5);
        assertThat(SamplingPlan.of(1, 0, InspectionLevel.II, 2.5)).isEqualTo(everyPiece(1));
    }

    @Test
    void aLimitBetweenTheListedOnesTakesTheStricter() {
        assertThat(SamplingPlan.of(1000, 8, InspectionLevel.II, 3.0))
                .isEqualTo(SamplingPlan.of(1000, 8, InspectionLevel.II, 2.5));
        assertThat(SamplingPlan.of(1000, 8, InspectionLevel.II, 0.001))
                .isEqualTo(SamplingPlan.of(1000, 8, InspectionLevel.II, 0.010));
    }

    @Test
    void thereIsNoLotWithoutPieces() {
        assertThatThrownBy(() -> SamplingPlan.of(0, 8, InspectionLevel.II, 2.5))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("0");
    }

    @ParameterizedTest
    @EnumSource(InspectionLevel.class)
    void aLargerLotNeverHasASmallerSample(InspectionLevel level) {
        for (double aql : SamplingPlan.AQLS) {
            int before = 0;
            for (int lot = 1; lot <= 1_000_000; lot = lot < 4000 ? lot + 1 : lot + lot / 7) {
                int inspected = SamplingPlan.of(lot, 0, level, aql).inspected();
                assertThat(inspected).as("%s %s %d", level, aql, lot).isBetween(before, lot);
                before = inspected;
            }
        }
    }

    @ParameterizedTest(name = "{0} pieces, accept {1}, {2} %")
    @CsvFileSource(resources = "/costing/acceptance.csv", commentCharacter = '#')
    void theBinomialGivesTheKnownProbabilities(
            int size, int accept, double percent, double probability) {
        assertThat(accepted(size, accept, percent / 100)).isCloseTo(probability, within(5.1e-7));
    }

    /**
     * A second way to the table: its plans are made so that a lot which is just as good as the AQL
     * is mostly accepted, the more surely the larger its sample (binomial distribution).
     */
    @Test
    void aLotAsGoodAsTheLimitIsAcceptedWithTheUsualProducersRisk() {
        int plans = 0;
        for (InspectionLevel level : InspectionLevel.values()) {
            for (double aql : SamplingPlan.AQLS) {
                for (int lot = 9; lot < 1_000_000; lot += 1 + lot / 5) {
                    SamplingPlan plan = SamplingPlan.of(lot, 8, level, aql);
                    if (!plan.isEveryPiece()) {
                        assertThat(accepted(plan.inspected(), plan.accept(), aql / 100))
                                .as("%s", plan)
                                .isBetween(0.86, 0.9995);
                        assertThat(plan.reject()).isEqualTo(plan.accept() + 1);
                        plans++;
                    }
                }
            }
        }
        assertThat(plans).isGreaterThan(3000);
    }

    /** At most so many failed pieces among so many, each failing with this probability. */
    private static double accepted(int size, int accept, double p) {
        return new BinomialDistribution(size, p).cumulativeProbability(accept);
    }

    private static SamplingPlan everyPiece(int lot) {
        return new SamplingPlan(lot, null, null, lot, null, null);
    }

    private static List<String[]> rows(String resource) throws IOException {
        List<String[]> rows = new ArrayList<>();
        try (InputStream in = SamplingPlanTest.class.getResourceAsStream(resource)) {
            new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .forEach(line -> rows.add(line.split(",")));
        }
        return rows;
    }
}
