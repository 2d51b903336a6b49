package strokewright.job;

import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Currency;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.annotations.TenantId;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.Nullable;
import strokewright.access.SignedIn;
import strokewright.estimate.Estimating;
import strokewright.quantity.Money;
import strokewright.quote.QuoteDocument;
import strokewright.web.Problem;

/** A job on its way from being released to being closed. */
@Entity
@Table(name = "job")
class Job {

    /** Of the JSON of its plan. */
    static final int FORMAT_VERSION = 1;

    @Id private UUID id;

    @TenantId private UUID shopId;

    private int year;

    private int n;

    @Convert(converter = JobState.InWords.class)
    private JobState state;

    @Convert(converter = JobKind.InWords.class)
    private JobKind kind;

    private String title;

    private UUID customerId;

    private @Nullable UUID revisionId;

    private @Nullable String reason;

    /** Agreed without a quote; null where the quote says it. */
    private @Nullable BigDecimal net;

    private @Nullable String currency;

    @JdbcTypeCode(SqlTypes.JSON)
    private @Nullable Made made;

    private int edition;

    private int methodVersion;

    private int formatVersion;

    @JdbcTypeCode(SqlTypes.JSON)
    private JobPlan plan;

    private @Nullable LocalDate dueOn;

    private Instant releasedAt;

    private UUID releasedBy;

    private @Nullable Instant startedAt;

    private @Nullable Instant finishedAt;

    private @Nullable Instant closedAt;

    @Version private int version;

    /** For Hibernate. */
    protected Job() {}

    /** From an accepted quote. */
    Job(
            JobNumber number,
            QuoteDocument quote,
            UUID revisionId,
            UUID customerId,
            JobPlan plan,
            @Nullable LocalDate dueOn,
            Instant now) {
        this(number, JobKind.QUOTE, quote.title(), customerId, plan, dueOn, now);
        this.revisionId = revisionId;
        this.edition = quote.shopBookEdition();
        this.methodVersion = quote.methodVersion();
    }

    /** Without a quote. */
    Job(
            JobNumber number,
            NewJob agreed,
            String title,
            UUID customerId,
            Money net,
            int edition,
            JobPlan plan,
            Instant now) {
        this(number, agreed.kind(), title, customerId, plan, agreed.dueOn(), now);
        this.reason = agreed.reason();
        this.net = net.amount();
        this.currency = net.currency().getCurrencyCode();
        this.edition = edition;
        this.methodVersion = Estimating.METHOD_VERSION;
    }

    private Job(
            JobNumber number,
            JobKind kind,
            String title,
            UUID customerId,
            JobPlan plan,
            @Nullable LocalDate dueOn,
            Instant now) {
        this.id = UUID.randomUUID();
        this.year = number.year();
        this.n = number.n();
        this.state = JobState.RELEASED;
        this.kind = kind;
        this.title = title;
        this.customerId = customerId;
        this.formatVersion = FORMAT_VERSION;
        this.plan = plan;
        this.dueOn = dueOn;
        this.releasedAt = now;
        this.releasedBy = SignedIn.current().userId();
    }

    /** The first who books on it, or somebody by hand; repeats harmlessly. */
    void start(Instant now) {
        if (state == JobState.RELEASED) {
            state = JobState.IN_WORK;
            startedAt = now;
        } else if (state != JobState.IN_WORK) {
            throw wrong("reopen it first");
        }
    }

    /**
     * @param pieces that became of it; what was said before stays when null
     */
    void finish(@Nullable Made pieces, Instant now) {
        if (state == JobState.IN_WORK) {
            state = JobState.FINISHED;
            finishedAt = now;
        } else if (state != JobState.FINISHED) {
            throw wrong(state == JobState.RELEASED ? "start it first" : "reopen it first");
        }
        made = pieces != null ? pieces : made != null ? made : Made.AS_ORDERED;
    }

    void close(Instant now) {
        if (state == JobState.FINISHED) {
            state = JobState.CLOSED;
            closedAt = now;
        } else if (state != JobState.CLOSED) {
            throw wrong("finish it first");
        }
    }

    /** Something was forgotten: it is in work again. */
    void reopen() {
        if (state == JobState.FINISHED || state == JobState.CLOSED) {
            state = JobState.IN_WORK;
            finishedAt = null;
            closedAt = null;
        } else if (state != JobState.IN_WORK) {
            throw wrong("nothing to reopen");
        }
    }

    static void requireOpen(JobNumber number, JobState state) {
        if (state == JobState.CLOSED) {
            throw wrong(number, state, "reopen it to book on it");
        }
    }

    /** More can be agreed until it is finished. */
    void requireRunning() {
        if (state == JobState.FINISHED || state == JobState.CLOSED) {
            throw wrong("reopen it to agree on more");
        }
    }

    private Problem wrong(String whatToDo) {
        return wrong(number(), state, whatToDo);
    }

    private static Problem wrong(JobNumber number, JobState state, String whatToDo) {
        return Problem.wrongState(
                "Job %s is %s: %s.".formatted(number, state.word().replace('-', ' '), whatToDo));
    }

    UUID id() {
        return id;
    }

    JobNumber number() {
        return new JobNumber(year, n);
    }

    JobState state() {
        return state;
    }

    JobKind kind() {
        return kind;
    }

    @Nullable String reason() {
        return reason;
    }

    /** Agreed without a quote; null where the quote says it. */
    @Nullable Money net() {
        return net == null ? null : Money.rounded(net, Currency.getInstance(currency));
    }

    Made made() {
        return made == null ? Made.AS_ORDERED : made;
    }

    int methodVersion() {
        return methodVersion;
    }

    @Nullable Instant finishedAt() {
        return finishedAt;
    }

    String title() {
        return title;
    }

    UUID customerId() {
        return customerId;
    }

    int edition() {
        return edition;
    }

    JobPlan plan() {
        return plan;
    }

    @Nullable LocalDate dueOn() {
        return dueOn;
    }

    Instant releasedAt() {
        return releasedAt;
    }

    UUID releasedBy() {
        return releasedBy;
    }

    int version() {
        return version;
    }
}
