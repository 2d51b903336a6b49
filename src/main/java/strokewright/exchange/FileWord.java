package strokewright.exchange;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A word of a file that is nothing known as it stands, with what it may mean. What is chosen once
 * is remembered and applied to later files.
 *
 * @param kind of thing that it names, such as person
 * @param word as it stands in the file
 * @param rows how many have it
 * @param meant what it was chosen to mean; null while nobody has
 * @param options the nearest first
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record FileWord(
        String kind, String word, int rows, @Nullable String meant, List<Meaning> options) {

    /**
     * @param value that is sent back
     * @param label that is shown
     */
    public record Meaning(String value, String label) {}

    /** What it was chosen to mean, as it is shown. */
    public String meantAs() {
        return options.stream()
                .filter(o -> o.value.equals(meant))
                .map(Meaning::label)
                .findFirst()
                .orElse(String.valueOf(meant));
    }
}
