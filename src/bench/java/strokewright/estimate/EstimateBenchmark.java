package strokewright.estimate;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;

/** One estimate without HTTP. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class EstimateBenchmark {

    private final ShopBook book = WorkedShop.book();
    private final TakeOff takeOff =
            WorkedShop.withQuantities(
                    WorkedShop.takeOff(part(), part(), part()), List.of(1, 2, 5, 10, 50), 0);

    private static TakeOff.Part part() {
        return WorkedShop.part(
                "al",
                2.0,
                1.27,
                new Blank(1950.0, 120.0),
                null,
                WorkedShop.curve(Sense.SHRINK, 1885, 300, 40, null),
                new Operation.TurnFlange(
                        Sense.STRETCH, 60.0, 12.0, 90.0, 360.0, null, null, null, null),
                new Operation.Dish(400.0, 120.0, null, 5.0, null, null, null, null, null),
                new Operation.Smooth(150_000.0, 2, null, null, null, null));
    }

    private final TakeOff large = edges(8, 60);
    private final TakeOff justExact = edges(7, 35);
    private final TakeOff outlined =
            WorkedShop.takeOff(
                    WorkedShop.part(
                            "al", 2.0, 1.27, new Blank(1950.0, 120.0), null, outline(), outline()));

    /** So many edges, some shrunk and some stretched, spread evenly over the parts. */
    private static TakeOff edges(int parts, int operations) {
        List<TakeOff.Part> list = new java.util.ArrayList<>();
        for (int p = 0; p < parts; p++) {
            List<Operation> work = new java.util.ArrayList<>();
            for (int o = p; o < operations; o += parts) {
                work.add(
                        WorkedShop.curve(
                                o % 3 == 0 ? Sense.STRETCH : Sense.SHRINK,
                                500 + 10 * o,
                                300 + 5 * o,
                                30,
                                null));
            }
            list.add(
                    WorkedShop.part(
                            "al",
                            2.0,
                            1.27,
                            new Blank(1950.0, 120.0),
                            null,
                            work.toArray(Operation[]::new)));
        }
        return WorkedShop.takeOff(list.toArray(TakeOff.Part[]::new));
    }

    private static Operation outline() {
        return new Operation.FollowOutline(
                "M300 0 C300 170 150 300 0 300 S-300 170 -300 0 S-150 -300 0 -300 S300 -170 300 0 Z",
                null,
                40.0,
                null,
                null,
                null,
                null,
                null,
                null);
    }

    /** Twelve operations in three parts for five quantities. */
    @Benchmark
    public Estimate estimate() {
        return Estimating.estimate(takeOff, book);
    }

    /** Sixty operations in eight parts: planned step by step. */
    @Benchmark
    public Estimate sixtyOperations() {
        return Estimating.estimate(large, book);
    }

    /** The most states that are still looked through. */
    @Benchmark
    public Estimate justExact() {
        return Estimating.estimate(justExact, book);
    }

    /** Two outlines of four Béziers each. */
    @Benchmark
    public Estimate outlines() {
        return Estimating.estimate(outlined, book);
    }

    public static void main(String[] args) throws Exception {
        new Runner(new OptionsBuilder().include(EstimateBenchmark.class.getSimpleName()).build())
                .run();
    }
}
