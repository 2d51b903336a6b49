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

/** 10,000 trials of twelve operations for five quantities, percentiles and drivers included. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
public class SimulationBenchmark {

    private final ShopBook book = WorkedShop.book(10_000);
    private final TakeOff takeOff =
            WorkedShop.withQuantities(
                    WorkedShop.takeOff(part("al"), part("steel"), part("5xxx")),
                    List.of(1, 2, 5, 10, 50),
                    0);

    private static TakeOff.Part part(String grade) {
        return WorkedShop.part(
                grade,
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

    /** The whole estimate, the simulation with it. */
    @Benchmark
    public Estimate estimate() {
        return Estimating.estimate(takeOff, book);
    }

    public static void main(String[] args) throws Exception {
        new Runner(new OptionsBuilder().include(SimulationBenchmark.class.getSimpleName()).build())
                .run();
    }
}
