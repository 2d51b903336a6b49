package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A set of test strips as it is told: what was noted, the fit, and whether it was adopted.
 *
 * @param shopBookEdition that it was fitted with
 * @param enteredBy display name
 * @param adoptedEdition edition that brought the figures into the shop book; null when none did
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record StripSetDocument(
        UUID id,
        String tool,
        String machine,
        String family,
        List<TestStrips.Strip> strips,
        @JsonUnwrapped StripFit fit,
        int shopBookEdition,
        Instant enteredAt,
        String enteredBy,
        @Nullable Integer adoptedEdition,
        @Nullable Instant adoptedAt) {

    static StripSetDocument of(StripSet set, String enteredBy) {
        TestStrips notes = set.notes();
        return new StripSetDocument(
                set.id(),
                notes.tool(),
                notes.machine(),
                notes.family(),
                notes.strips(),
                set.fit(),
                set.edition(),
                set.enteredAt(),
                enteredBy,
                set.adoptedEdition(),
                set.adoptedAt());
    }

    TestStrips notes() {
        return new TestStrips(tool, machine, family, strips);
    }

    /** As it stands in the list of them. */
    Entry entry() {
        return new Entry(
                id,
                tool,
                machine,
                family,
                fit.biteStrain(),
                fit.strokeWorkJ(),
                fit.feedEfficiency(),
                fit.refused(),
                enteredAt,
                enteredBy,
                adoptedEdition);
    }

    /**
     * @param refused nothing could be fitted
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record Entry(
            UUID id,
            String tool,
            String machine,
            String family,
            @Nullable Fitted biteStrain,
            @Nullable Fitted strokeWorkJ,
            @Nullable Fitted feedEfficiency,
            boolean refused,
            Instant enteredAt,
            String enteredBy,
            @Nullable Integer adoptedEdition) {}
}
