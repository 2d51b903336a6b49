package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonIgnore;
import java.time.Instant;
import java.util.UUID;

/**
 * A drawing that came with a quote.
 *
 * @param name of the file as it came, without any path
 * @param type as told by its content
 * @param size in bytes
 * @param sha256 of the content, in hexadecimal digits
 * @param by who put it in
 */
public record Attachment(
        UUID id, String name, String type, int size, String sha256, Instant at, String by) {

    /** For people: 12 kB, 3.4 MB. */
    @JsonIgnore
    public String shownSize() {
        return size < 100_000
                ? Math.max(1, Math.round(size / 1000f)) + " kB"
                : Math.round(size / 100_000f) / 10f + " MB";
    }
}
