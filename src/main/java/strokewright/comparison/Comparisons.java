package strokewright.comparison;

import java.time.LocalDate;
import java.util.Currency;
import java.util.List;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.comparison.JobComparison.LabourAt;
import strokewright.estimate.Estimating;
import strokewright.estimate.QuantityPlan;
import strokewright.estimate.ShopBook;
import strokewright.job.JobRecord;
import strokewright.job.JobRecords;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/** Compares jobs with what was quoted for them. */
@Component
public class Comparisons {

    private final JobRecords jobs;
    private final FinishedJobs finished;
    private final CostRates rates;
    private final ShopBooks books;

    Comparisons(JobRecords jobs, FinishedJobs finished, CostRates rates, ShopBooks books) {
        this.jobs = jobs;
        this.finished = finished;
        this.rates = rates;
        this.books = books;
    }

    /**
     * Labour at what people cost for the owner, at the book's rates for others.
     *
     * @throws Problem 404 when there is no such job
     */
    @Transactional(readOnly = true)
    public JobComparison of(String number) {
        return Comparing.of(jobs.of(number), seen(), Comparisons::plan);
    }

    /**
     * Of jobs that were finished in a period, in the order in which they were.
     *
     * @param from null for all before
     * @param to last day; null for all after
     */
    @Transactional(readOnly = true)
    public List<JobComparison> finished(@Nullable LocalDate from, @Nullable LocalDate to) {
        return finished.between(from, to, seen(), Comparisons::plan);
    }

    /**
     * The same put together.
     *
     * @param from null for all before
     * @param to last day; null for all after
     */
    @Transactional(readOnly = true)
    public PeriodComparison of(@Nullable LocalDate from, @Nullable LocalDate to, By by) {
        return PeriodComparison.of(
                finished(from, to),
                from,
                to,
                by,
                seen() == null ? LabourAt.BOOK_RATES : LabourAt.COST_RATES,
                currency());
    }

    Currency currency() {
        return books.current().currency();
    }

    private @Nullable LabourRates seen() {
        return SignedIn.current().role() == Role.OWNER ? rates.all() : null;
    }

    private static IntFunction<QuantityPlan> plan(JobRecord.Line line, ShopBook book) {
        return Estimating.reckon(line.item().takeOff(), book)::plan;
    }
}
