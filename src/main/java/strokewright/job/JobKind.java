package strokewright.job;

import com.fasterxml.jackson.annotation.JsonProperty;
import jakarta.persistence.AttributeConverter;
import java.util.Locale;

/** Why a job was released. */
public enum JobKind {
    /** An accepted quote. */
    @JsonProperty("quote")
    QUOTE("Ordered"),
    /** The customer said yes without a written quote. */
    @JsonProperty("verbal")
    VERBAL("Agreed by word"),
    /** The customer waits for it. */
    @JsonProperty("repair")
    REPAIR("Repair while they wait"),
    /** Work that is put right; nothing is earned with it. */
    @JsonProperty("warranty")
    WARRANTY("Warranty");

    private final String words;

    JobKind(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    /** As it is stored and sent. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    static JobKind of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT));
    }

    /** How it stands in the database. */
    static final class InWords implements AttributeConverter<JobKind, String> {

        @Override
        public String convertToDatabaseColumn(JobKind kind) {
            return kind.word();
        }

        @Override
        public JobKind convertToEntityAttribute(String word) {
            return of(word);
        }
    }
}
