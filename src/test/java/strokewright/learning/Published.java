package strokewright.learning;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** Samples of learning/published.csv. */
final class Published {

    private Published() {}

    static double[] sample(String name) {
        try (InputStream file = Published.class.getResourceAsStream("/learning/published.csv")) {
            return new String(file.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> line.startsWith(name + ";"))
                    .map(line -> line.split(";")[3].strip().split(" "))
                    .map(v -> Arrays.stream(v).mapToDouble(Double::parseDouble).toArray())
                    .findFirst()
                    .orElseThrow();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
