package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What the rows of a comparison over a period are. */
public enum By {
    @JsonProperty("work-centre")
    WORK_CENTRE("Work centre"),
    @JsonProperty("operation")
    OPERATION("Kind of work"),
    /** By family. */
    @JsonProperty("metal")
    METAL("Metal"),
    @JsonProperty("customer")
    CUSTOMER("Customer"),
    /** Whose quote it was, not who worked. */
    @JsonProperty("estimator")
    ESTIMATOR("Whose quote"),
    @JsonProperty("job")
    JOB("Job");

    private final String words;

    By(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Whether a row holds whole jobs, so that it has a price and a margin. */
    public boolean ofWholeJobs() {
        return this == CUSTOMER || this == ESTIMATOR || this == JOB;
    }

    static Optional<By> of(String word) {
        return Arrays.stream(values()).filter(by -> by.word().equals(word)).findFirst();
    }

    static String all() {
        return Arrays.stream(values()).map(By::word).collect(Collectors.joining(", "));
    }
}
