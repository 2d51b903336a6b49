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
import strokewright.sheet.Nest;
import strokewright.sheet.Nesting;
import strokewright.sheet.Nesting.Blank;
import strokewright.sheet.StockSheet;

/** How long blanks take to be laid on stock sheets. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class NestingBenchmark {

    private static final StockSheet SHEET = new StockSheet(2500, 1250, 2, 5, 300);

    private static final List<Blank> FRAME =
            List.of(
                    new Blank("Rim", 1950, 120, 20, true),
                    new Blank("Back", 620, 620, 20, true),
                    new Blank("Strut", 560, 80, 80, false));

    private static final List<Blank> CASE =
            List.of(
                    new Blank("Side", 900, 480, 40, true),
                    new Blank("Top", 860, 430, 20, true),
                    new Blank("Front", 430, 470, 20, true),
                    new Blank("Flap", 400, 150, 60, true),
                    new Blank("Bracket", 120, 70, 160, true),
                    new Blank("Washer plate", 60, 60, 320, true));

    /** Small pieces of one size, lying and turned mixed. */
    @Benchmark
    public Nest oneSize() {
        return Nesting.of(List.of(new Blank("Tab", 97, 41, 100_000, true)), SHEET);
    }

    /** Three sizes: every choice that a sheet can hold is looked at. */
    @Benchmark
    public Nest frame() {
        return Nesting.of(FRAME, SHEET);
    }

    /** The same for a hundred thousand items. */
    @Benchmark
    public Nest hundredThousandFrames() {
        return Nesting.of(
                FRAME.stream()
                        .map(
                                b ->
                                        new Blank(
                                                b.name(),
                                                b.lengthMm(),
                                                b.widthMm(),
                                                b.count() * 5000,
                                                b.mayTurn()))
                        .toList(),
                SHEET);
    }

    /** Six sizes, down to small ones: filled by rules. */
    @Benchmark
    public Nest sixSizes() {
        return Nesting.of(CASE, SHEET);
    }

    public static void main(String[] args) throws Exception {
        new Runner(new OptionsBuilder().include(NestingBenchmark.class.getSimpleName()).build())
                .run();
    }
}
