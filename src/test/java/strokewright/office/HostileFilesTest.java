package strokewright.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.office.HostileFiles.Hostile;
import strokewright.quantity.InvalidInput;

/**
 * What is no table, or more than one can take in, is refused with its reason and leaves nothing.
 */
class HostileFilesTest {

    static List<Hostile> hostileFiles() {
        return HostileFiles.all();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("hostileFiles")
    void refuses(Hostile file) {
        List<Path> before = temporaryFiles();
        Throwable refusal = catchThrowable(() -> read(file));
        assertThat(refusal).isInstanceOf(InvalidInput.class);
        assertThat(((InvalidInput) refusal).faults())
                .singleElement()
                .satisfies(f -> assertThat(f.message()).contains(file.reason()))
                .satisfies(f -> assertThat(f.message()).hasSizeLessThan(250));
        List<Path> left = new ArrayList<>(temporaryFiles());
        left.removeAll(before);
        // those of other tests that read files at the same moment go by themselves
        await().until(() -> left.stream().noneMatch(Files::exists));
    }

    private static Table read(Hostile file) {
        return TableFile.read(file.content().get(), file.name(), null, null, Limits.IMPORT);
    }

    private static List<Path> temporaryFiles() {
        try (Stream<Path> all = Files.list(Path.of(System.getProperty("java.io.tmpdir")))) {
            return all.filter(
                            p ->
                                    p.getFileName().toString().startsWith("strokewright-")
                                            && p.toString().endsWith(".xlsx"))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A second process with a heap that a small machine has, four files at a time. */
    @Test
    void aHeapOf512MegabytesSurvivesThemAllFourAtATime() throws Exception {
        Path log = Files.createTempFile(Path.of("target"), "small-heap", ".txt");
        Process small =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-Xmx512m",
                                "-cp",
                                System.getProperty("java.class.path"),
                                SmallHeap.class.getName())
                        .redirectErrorStream(true)
                        .redirectOutput(log.toFile())
                        .start();
        try {
            assertThat(small.waitFor(5, TimeUnit.MINUTES)).isTrue();
            assertThat(Files.readString(log)).contains("all refused").doesNotContain("OutOfMemory");
            assertThat(small.exitValue()).isZero();
        } finally {
            small.destroyForcibly();
        }
    }
}
