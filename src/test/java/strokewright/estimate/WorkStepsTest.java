package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What people book on adds up to what was planned, whatever the work is. */
class WorkStepsTest {

    private static final ShopBook BOOK = WorkedShop.book();

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void theStepsAndTheReserveAreThePlannedHours(long seed) {
        RandomTakeOffs takeOffs = RandomTakeOffs.withFolds(seed);
        for (int i = 0; i < 10; i++) {
            TakeOff takeOff = takeOffs.next();
            Reckoning reckoning = Estimating.reckon(takeOff, BOOK);
            for (int quantity : List.of(1, takeOff.mainQuantity(), 7)) {
                Estimate.ForQuantity planned = reckoning.forQuantity(quantity);
                List<WorkStep> steps = reckoning.steps(quantity);

                double setup = steps.stream().mapToDouble(WorkStep::setupMinutes).sum();
                double run = steps.stream().mapToDouble(WorkStep::runMinutes).sum();
                assertThat(setup).isCloseTo(planned.setupMinutes(), within(1e-6));
                assertThat(run).isCloseTo(planned.runMinutes(), within(1e-6));
                assertThat((setup + run + planned.reserveMinutes()) / 60)
                        .isCloseTo(planned.hours().plan(), within(1e-6));
                assertThat(byCentre(steps))
                        .allSatisfy(
                                (centre, minutes) ->
                                        assertThat(minutes)
                                                .isLessThanOrEqualTo(
                                                        atCentre(planned, centre) + 1e-6));
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23})
    void everyLineOfTheEstimateThatTakesTimeIsAStep(long seed) {
        RandomTakeOffs takeOffs = new RandomTakeOffs(seed);
        for (int i = 0; i < 20; i++) {
            Reckoning reckoning = Estimating.reckon(takeOffs.next(), BOOK);
            List<WorkStep> steps = reckoning.steps(3);
            for (Estimate.Line line : reckoning.estimate().operations()) {
                assertThat(steps)
                        .anySatisfy(
                                step -> {
                                    assertThat(step.part()).isEqualTo(line.part());
                                    assertThat(step.position()).isEqualTo(line.position());
                                    assertThat(step.workCentre()).isEqualTo(line.workCentre());
                                });
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {31, 32, 33})
    void thePlanWithoutSpreadIsTheEstimateAtPlannedHours(long seed) {
        RandomTakeOffs takeOffs = RandomTakeOffs.withFolds(seed);
        for (int i = 0; i < 8; i++) {
            Reckoning reckoning = Estimating.reckon(takeOffs.next(), BOOK);
            for (int quantity : List.of(1, 7)) {
                Estimate.ForQuantity estimate = reckoning.forQuantity(quantity);
                QuantityPlan plan = reckoning.plan(quantity);
                assertThat(plan.cost()).isEqualTo(estimate.cost());
                assertThat(plan.metal()).isEqualTo(estimate.metal());
                assertThat(plan.steps().stream().map(PlannedStep::work).toList())
                        .isEqualTo(reckoning.steps(quantity));
                assertThat(plan.steps().stream().mapToDouble(PlannedStep::reserveMinutes).sum())
                        .isCloseTo(estimate.reserveMinutes(), within(1e-6));
            }
        }
    }

    private static Map<String, Double> byCentre(List<WorkStep> steps) {
        Map<String, Double> minutes = new TreeMap<>();
        steps.forEach(
                s -> minutes.merge(s.workCentre(), s.setupMinutes() + s.runMinutes(), Double::sum));
        return minutes;
    }

    private static double atCentre(Estimate.ForQuantity planned, String centre) {
        return planned.workCentres().stream()
                .filter(c -> c.workCentre().equals(centre))
                .mapToDouble(c -> c.labourHours() * 60)
                .sum();
    }
}
