package strokewright.forming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.forming.ToolPlan.Option;
import strokewright.forming.ToolPlan.Step;
import strokewright.forming.ToolPlan.Work;

class ToolPlanTest {

    /** More take brute force too long. */
    private static final int MOST_VISITS = 9;

    @Test
    void partsInterleaveWhereThatSavesAChange() {
        // Both parts want tool 0 and then tool 1: two changes in all, not four.
        List<Work> part = List.of(once(new Option(0, 10)), once(new Option(1, 10)));
        ToolPlan plan = ToolPlan.of(List.of(part, part), new double[] {3, 3});

        assertThat(plan.changes()).isEqualTo(2);
        assertThat(plan.minutes()).isEqualTo(46);
        assertThat(plan.exact()).isTrue();
    }

    @Test
    void slowerToolIsKeptWhereAChangeWouldCostMore() {
        List<Work> part =
                List.of(
                        once(new Option(0, 10)),
                        once(new Option(0, 5), new Option(1, 4)),
                        once(new Option(0, 10)));
        ToolPlan plan = ToolPlan.of(List.of(part), new double[] {3, 3});

        assertThat(plan.steps()).extracting(Step::tool).containsExactly(0, 0, 0);
    }

    @Test
    void annealedOperationKeepsItsToolAndLetsOthersIn() {
        // While part 0 cools, part 1 is worked; both with tool 0, so nothing is changed.
        List<Work> annealed = List.of(new Work(3, List.of(new Option(0, 9), new Option(1, 9))));
        List<Work> other = List.of(once(new Option(0, 4)));
        ToolPlan plan = ToolPlan.of(List.of(annealed, other), new double[] {3, 3});

        assertThat(plan.changes()).isEqualTo(1);
        assertThat(plan.minutes()).isEqualTo(16);
    }

    @Test
    void nothingToDoTakesNothing() {
        assertThat(ToolPlan.of(List.of(), new double[] {3}).minutes()).isZero();
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void equalsBruteForceOnSmallCases(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 100; i++) {
            int tools = random.nextInt(1, 4);
            double[] mount = random.doubles(tools, 0.5, 6).toArray();
            List<List<Work>> parts = randomParts(random, tools, 3, 3);
            while (visits(parts) > MOST_VISITS) {
                parts = randomParts(random, tools, 3, 3);
            }
            ToolPlan plan = ToolPlan.of(parts, mount);

            assertThat(plan.minutes()).isCloseTo(leastByBruteForce(parts, mount), within(1e-9));
            assertThat(plan.minutes())
                    .isCloseTo(minutesOf(plan.steps(), parts, mount), within(1e-9));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {5, 6})
    void greedyPlanIsCompleteAndSaysThatItIsGreedy(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 100; i++) {
            double[] mount = {2, 3, 4};
            List<List<Work>> parts = randomParts(random, 3, 4, 4);
            ToolPlan exact = ToolPlan.of(parts, mount);
            ToolPlan greedy = ToolPlan.of(parts, mount, 0);

            assertThat(greedy.exact()).isFalse();
            assertThat(greedy.minutes())
                    .isCloseTo(minutesOf(greedy.steps(), parts, mount), within(1e-9))
                    .isGreaterThanOrEqualTo(exact.minutes() - 1e-9);
        }
    }

    private static int visits(List<List<Work>> parts) {
        return parts.stream().flatMap(List::stream).mapToInt(Work::visits).sum();
    }

    private static Work once(Option... options) {
        return new Work(1, List.of(options));
    }

    private static List<List<Work>> randomParts(
            SplittableRandom random, int tools, int mostParts, int mostWork) {
        List<List<Work>> parts = new ArrayList<>();
        for (int p = random.nextInt(1, mostParts + 1); p > 0; p--) {
            List<Work> works = new ArrayList<>();
            for (int o = random.nextInt(0, mostWork + 1); o > 0; o--) {
                List<Option> options = new ArrayList<>();
                for (int tool = 0; tool < tools; tool++) {
                    if (options.isEmpty() || random.nextBoolean()) {
                        options.add(new Option(random.nextInt(tools), random.nextDouble(1, 20)));
                    }
                }
                works.add(new Work(random.nextInt(3) == 0 ? random.nextInt(2, 4) : 1, options));
            }
            parts.add(works);
        }
        return parts;
    }

    /** Every order with every choice of tools, one after the other. */
    private static double leastByBruteForce(List<List<Work>> parts, double[] mount) {
        return least(
                parts,
                mount,
                new int[parts.size()],
                new int[parts.size()],
                new int[parts.size()],
                -1);
    }

    private static double least(
            List<List<Work>> parts,
            double[] mount,
            int[] operation,
            int[] visit,
            int[] option,
            int tool) {
        double best = Double.POSITIVE_INFINITY;
        boolean done = true;
        for (int p = 0; p < parts.size(); p++) {
            if (operation[p] == parts.get(p).size()) {
                continue;
            }
            done = false;
            Work work = parts.get(p).get(operation[p]);
            for (int i = 0; i < work.options().size(); i++) {
                if (visit[p] > 0 && option[p] != i) {
                    continue;
                }
                Option o = work.options().get(i);
                int[] nextOperation = operation.clone();
                int[] nextVisit = visit.clone();
                int[] nextOption = option.clone();
                nextOption[p] = i;
                if (++nextVisit[p] == work.visits()) {
                    nextVisit[p] = 0;
                    nextOperation[p]++;
                }
                best =
                        Math.min(
                                best,
                                o.minutes() / work.visits()
                                        + (o.tool() == tool ? 0 : mount[o.tool()])
                                        + least(
                                                parts,
                                                mount,
                                                nextOperation,
                                                nextVisit,
                                                nextOption,
                                                o.tool()));
            }
        }
        return done ? 0 : best;
    }

    private static double minutesOf(List<Step> steps, List<List<Work>> parts, double[] mount) {
        assertThat(steps).hasSize(visits(parts));
        double minutes = 0;
        int tool = -1;
        for (Step step : steps) {
            Work work = parts.get(step.part()).get(step.operation());
            minutes +=
                    work.options().stream()
                                    .filter(o -> o.tool() == step.tool())
                                    .mapToDouble(Option::minutes)
                                    .min()
                                    .orElseThrow()
                            / work.visits();
            minutes += step.tool() == tool ? 0 : mount[step.tool()];
            tool = step.tool();
        }
        return minutes;
    }
}
