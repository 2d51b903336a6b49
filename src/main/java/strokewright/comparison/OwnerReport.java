package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.Margins;
import strokewright.quantity.Money;

/**
 * What the owner looks at: what earns and what loses, which orders are won, where the hours go, and
 * what has to be decided.
 *
 * @param jobs finished in the period, all together
 * @param works jobs by the kind of work that most of their quoted hours are of
 * @param operations every kind of work over all jobs
 * @param sizes jobs by what the customer pays
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record OwnerReport(
        LocalDate from,
        LocalDate to,
        String currency,
        Group jobs,
        List<Group> works,
        List<Group> customers,
        List<Group> sizes,
        List<PeriodComparison.Row> operations,
        List<Won> wonBySize,
        List<Won> wonByCustomer,
        Won won,
        Hours hours,
        List<Decision> decisions) {

    /**
     * Whole jobs.
     *
     * @param net of what was made, after discounts
     * @param hours of people
     */
    record Group(String name, int jobs, Money net, Figures hours, Margins margin) {}

    /**
     * Orders won over quotes decided in the period; lapsed counts as lost, withdrawn does not
     * count.
     *
     * @param percent won of decided; null where nothing was decided
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record Won(
            String name,
            int won,
            int declined,
            int lapsed,
            @Nullable BigDecimal percent,
            Money netWon,
            Money netDecided) {}

    /**
     * Hours of people in the period.
     *
     * @param onJobs booked
     * @param onNoJob booked
     * @param presence entered; null where nobody entered any
     * @param onJobsWhilePresent booked on days on which presence was entered
     * @param productivePercent of presence that was booked on jobs
     * @param productivePercentInBook what the labour rates of the shop book are built on; null
     *     where none is
     * @param available presence at the book's productive share: what should be on jobs
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record Hours(
            BigDecimal onJobs,
            BigDecimal onNoJob,
            @Nullable BigDecimal presence,
            @Nullable BigDecimal onJobsWhilePresent,
            @Nullable BigDecimal productivePercent,
            @Nullable BigDecimal productivePercentInBook,
            @Nullable BigDecimal available) {}
}
