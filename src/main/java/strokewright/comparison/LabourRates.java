package strokewright.comparison;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** What an hour of a person costs on a day; null where nobody has said it. */
@FunctionalInterface
interface LabourRates {

    /** For whoever may not see what people cost. */
    LabourRates OF_THE_BOOK = (person, day) -> null;

    @Nullable BigDecimal perHour(UUID person, LocalDate day);
}
