package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.costing.Allowance.Attention;
import strokewright.costing.Allowance.Noise;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Why;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

class AllowanceTest {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    @ParameterizedTest(name = "{0} {1}")
    @CsvFileSource(resources = "/costing/allowances.csv", commentCharacter = '#')
    void everyLineOfTheTable(String field, String value, double percent) {
        ObjectNode stated = JSON.createObjectNode();
        if (field.endsWith("Kg") || field.endsWith("Percent")) {
            stated.put(field, Double.parseDouble(value));
        } else if (field.equals("standing")) {
            stated.put(field, Boolean.parseBoolean(value));
        } else {
            stated.put(field, value);
        }

        assertThat(JSON.treeToValue(stated, Allowance.class).percent())
                .isCloseTo(9 + percent, within(1e-9));
    }

    /**
     * Derived with the table of the ILO (from memory): standing forming work, 10 kg panel, exacting
     * attention, intermittent very loud noise.
     */
    @Test
    void standingWorkAtAFormingMachine() {
        Allowance allowance =
                new Allowance(
                        null,
                        null,
                        true,
                        null,
                        10.0,
                        null,
                        Attention.FINE,
                        Noise.INTERMITTENT_VERY_LOUD,
                        null,
                        null,
                        null,
                        null);

        assertThat(allowance.percent()).isEqualTo(21);
        assertThat(CostingFormula.STANDARD_MINUTES.apply(100, allowance.percent())).isEqualTo(121);
        assertThat(CostingFormula.ALLOWANCE_OF_SHIFT.apply(21)).isCloseTo(17.355, within(5e-4));
    }

    /** Nothing stated is the constant part, and JSON keeps what was stated. */
    @Test
    void constantPartAlone() {
        Allowance none = JSON.readValue("{}", Allowance.class);

        assertThat(none.percent()).isEqualTo(9);
        assertThat(JSON.readValue(JSON.writeValueAsString(none), Allowance.class)).isEqualTo(none);
    }

    @Test
    void stepsAddUp() {
        Allowance none = JSON.readValue("{\"liftedKg\":11,\"standing\":true}", Allowance.class);
        Why last = none.steps("shop book").get(1);

        assertThat(last.inputs().stream().mapToDouble(Why.Input::value).sum())
                .isEqualTo(last.value())
                .isCloseTo(9 + 2 + 3.4, within(1e-9));
    }

    /**
     * Stevenson, Operations Management, chapter 7, table 7.7, solved problem 1 (published): normal
     * time 18.00 min and 15 % of the shift make 21.18 min, 15 % of the job 20.70.
     */
    @Test
    void standardTimeOfThePublishedProblem() {
        assertThat(CostingFormula.STANDARD_MINUTES.apply(18, 15)).isCloseTo(20.70, within(1e-9));
        assertThat(CostingFormula.STANDARD_MINUTES.apply(18, 100 * 0.15 / 0.85))
                .isCloseTo(21.176, within(5.1e-4));
        assertThat(CostingFormula.ALLOWANCE_OF_SHIFT.apply(100 * 0.15 / 0.85))
                .isCloseTo(15, within(1e-9));
    }

    /**
     * REFA, Methodenlehre, time of an order (from memory): basic time 10 min, recovery 5 % and
     * contingency 10 % of it, set-up 30 min, 12 pieces: 30 + 12 · 11.5 = 168.0 min.
     */
    @ParameterizedTest(name = "{0} of it paced by the machine")
    @CsvSource({"0", "4", "10"})
    void timeOfAnOrderIsSetUpAndPiecesWithTheirAllowances(double paced) {
        Practice none = new Practice(1, 1, 1);

        assertThat(CostingFormula.STANDARD_MINUTES.apply(10, 5 + 10)).isCloseTo(11.5, within(1e-9));
        assertThat(
                        Arithmetic.SUM.apply(
                                30,
                                CostingFormula.RUN_MINUTES.apply(
                                        paced, 12, 10 - paced, none.sum(0, 12), 5 + 10)))
                .isCloseTo(168.0, within(1e-9));
    }

    /**
     * Stevenson, Operations Management, equations 7-7 and 7-8 (published): an allowance on the job
     * is 1 + A, on the shift 1 / (1 − A); both sides of the conversion derived.
     */
    @ParameterizedTest
    @CsvSource({"15, 13.0435", "17.6471, 15", "21, 17.355", "0, 0"})
    void shareOfTheShift(double ofNormalTime, double ofShift) {
        double share = CostingFormula.ALLOWANCE_OF_SHIFT.apply(ofNormalTime);

        assertThat(share).isCloseTo(ofShift, within(5.1e-4));
        assertThat(18 / (1 - share / 100))
                .isCloseTo(CostingFormula.STANDARD_MINUTES.apply(18, ofNormalTime), within(1e-9));
    }
}
