package strokewright.estimate;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;

/** Four routes of twelve operations in three parts, compared at every quantity, without HTTP. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 2, time = 3)
@Measurement(iterations = 3, time = 3)
public class RoutesBenchmark {

    @Param({"1000", "10000"})
    private int upTo;

    private final ShopBook book = WorkedShop.book();
    private final List<Route> routes =
            List.of(route("A", 300), route("B", 310), route("C", 320), route("D", 330));

    private static Route route(String name, double radius) {
        TakeOff.Part part =
                WorkedShop.part(
                        "al",
                        2.0,
                        1.27,
                        new Blank(1950.0, 120.0),
                        null,
                        WorkedShop.curve(Sense.SHRINK, 1885, radius, 40, null),
                        new Operation.TurnFlange(
                                Sense.STRETCH, 60.0, 12.0, 90.0, 360.0, null, null, null, null),
                        new Operation.Dish(400.0, 120.0, null, 5.0, null, null, null, null, null),
                        new Operation.Smooth(150_000.0, 2, null, null, null, null));
        return new Route(name, WorkedShop.takeOff(part, part, part));
    }

    @Benchmark
    public RouteComparison compare() {
        return Routes.compare(routes, upTo, book).comparison();
    }

    public static void main(String[] args) throws Exception {
        new Runner(new OptionsBuilder().include(RoutesBenchmark.class.getSimpleName()).build())
                .run();
    }
}
