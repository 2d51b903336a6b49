package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Formula;
import strokewright.quantity.Why;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class RatesTest {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private static final Map<String, Formula> FORMULAS =
            Stream.<Formula>concat(
                            Arrays.stream(CostingFormula.values()),
                            Arrays.stream(Arithmetic.values()))
                    .collect(Collectors.toMap(Formula::code, Function.identity()));

    record Case(String name, double tolerance, List<Why> steps, JsonNode figures) {

        @Override
        public String toString() {
            return name;
        }
    }

    static Stream<Case> cases() throws IOException {
        try (InputStream in = RatesTest.class.getResourceAsStream("/costing/rates.json")) {
            return JSON.readTree(in).valueStream().map(RatesTest::read).toList().stream();
        }
    }

    private static Case read(JsonNode stated) {
        List<Why> steps =
                stated.has("machine")
                        ? JSON.treeToValue(stated.get("machine"), MachineHourRate.class).steps("")
                        : JSON.treeToValue(stated.get("labour"), LabourRate.class).steps("");
        return new Case(
                stated.get("name").asString(),
                stated.get("tolerance").asDouble(),
                steps,
                stated.get("figures"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cases")
    void everyStepIsTheOneOfTheSource(Case rate) {
        rate.figures()
                .properties()
                .forEach(
                        figure ->
                                assertThat(step(rate.steps(), figure.getKey()))
                                        .as(figure.getKey())
                                        .isCloseTo(
                                                figure.getValue().asDouble(),
                                                within(rate.tolerance())));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cases")
    void everyStepFollowsFromTheInputsBesideIt(Case rate) {
        for (Why step : rate.steps()) {
            double[] inputs = step.inputs().stream().mapToDouble(Why.Input::value).toArray();
            assertThat(step.value()).isEqualTo(FORMULAS.get(step.formula()).apply(inputs));
        }
    }

    static IntStream seeds() {
        return IntStream.range(0, 200);
    }

    /** The whole in one line, without the steps. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void stepsGiveWhatOneLineGives(int seed) {
        Random random = new Random(seed);
        double value = random.nextDouble(1_000, 500_000);
        double paid = random.nextDouble(1_000, 200_000);
        double life = random.nextDouble(3, 20);
        double interest = random.nextDouble(0, 12);
        double area = random.nextDouble(0, 60);
        double space = random.nextDouble(0, 20);
        double power = random.nextDouble(0, 30);
        double kwh = random.nextDouble(0, 0.6);
        double upkeep = random.nextDouble(0, 9_000);
        double hours = random.nextDouble(50, 4_000);
        MachineHourRate machine =
                JSON.treeToValue(
                        JSON.createObjectNode()
                                .put("replacementValue", value)
                                .put("acquisitionValue", paid)
                                .put("lifeYears", life)
                                .put("interestPercent", interest)
                                .put("areaM2", area)
                                .put("spacePerM2Month", space)
                                .put("powerKw", power)
                                .put("loadFactor", 0.5)
                                .put("energyPerKwh", kwh)
                                .put("maintenancePerYear", upkeep)
                                .put("runningHoursPerYear", hours),
                        MachineHourRate.class);
        double year = value / life + paid / 2 * interest / 100 + area * space * 12 + upkeep;

        assertThat(machine.perHour())
                .isCloseTo(year / hours + power / 2 * kwh, within(1e-9 * year));
    }

    @Test
    void aRateSurvivesJson() {
        LabourRate labour = new LabourRate(24.0, 21.0, 2080.0, 392.0, 85.0);
        String written = JSON.writeValueAsString(labour);

        assertThat(written).doesNotContain("null").doesNotContain("inDays");
        assertThat(JSON.readValue(written, LabourRate.class)).isEqualTo(labour);
    }

    /** Stevenson, Operations Management, chapter 7: 15 % on a normal time of 18 minutes. */
    @Test
    void allowanceOnNormalTime() {
        assertThat(CostingFormula.STANDARD_MINUTES.apply(18, 15)).isEqualTo(20.7);
    }

    /** Set-up and quantity times unit time (work-study scheme, from memory): 168 minutes. */
    @Test
    void setUpAndRunOfTheWorkStudyScheme() {
        assertThat(30 + CostingFormula.RUN_MINUTES.apply(10, 12, 0, 0, 15)).isEqualTo(168.0);
    }

    private static double step(List<Why> steps, String figure) {
        Optional<Why> found = steps.stream().filter(s -> s.figure().equals(figure)).findFirst();
        assertThat(found).as(figure + " among " + steps).isPresent();
        return found.get().value();
    }
}
