package strokewright.job;

import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.annotations.TenantId;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.Nullable;
import strokewright.quote.QuoteDocument;
import strokewright.web.Problem;

/** A job on its way from being released to being closed. */
@Entity
@Table(name = "job")
class Job {

    /** Of the JSON of its plan. */
    private static final int FORMAT_VERSION = 1;

    static final String FROM_A_QUOTE = "quote";

    @Id private UUID id;

    @TenantId private UUID shopId;

    private int year;

    private int n;

    @Convert(converter = JobState.InWords.class)
    private JobState state;

    private String kind;

    private String title;

    private UUID customerId;

    private @Nullable UUID revisionId;

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

    Job(
            UUID id,
            JobNumber number,
            QuoteDocument quote,
            UUID revisionId,
            UUID customerId,
            JobPlan plan,
            @Nullable LocalDate dueOn,
            Instant now,
            UUID who) {
        this.id = id;
        this.year = number.year();
        this.n = number.n();
        this.state = JobState.RELEASED;
        this.kind = FROM_A_QUOTE;
        this.title = quote.title();
        this.customerId = customerId;
        this.revisionId = revisionId;
        this.edition = quote.shopBookEdition();
        this.methodVersion = quote.methodVersion();
        this.formatVersion = FORMAT_VERSION;
        this.plan = plan;
        this.dueOn = dueOn;
        this.releasedAt = now;
        this.releasedBy = who;
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

    void finish(Instant now) {
        if (state == JobState.IN_WORK) {
            state = JobState.FINISHED;
            finishedAt = now;
        } else if (state != JobState.FINISHED) {
            throw wrong(state == JobState.RELEASED ? "start it first" : "reopen it first");
        }
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

    String kind() {
        return kind;
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
