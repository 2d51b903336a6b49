package strokewright.quote;

import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.TenantId;
import org.jspecify.annotations.Nullable;

/** A quote: a number and, in its revisions, what was offered under it. */
@Entity
@Table(name = "quote")
class Quote {

    @Id private UUID id;

    @TenantId private UUID shopId;

    private int year;

    private int n;

    private int revision;

    /** Of the latest revision; never {@link State#LAPSED}, which the date tells. */
    @Convert(converter = State.InWords.class)
    private State state;

    private @Nullable LocalDate validUntil;

    private @Nullable String contact;

    private @Nullable UUID copiedFrom;

    private @Nullable String releasedAs;

    /** Null of a copy that is older than the column. */
    private @Nullable Integer copiedRevision;

    private Instant createdAt;

    private UUID createdBy;

    private Instant changedAt;

    @Version private int version;

    /** For Hibernate. */
    protected Quote() {}

    Quote(UUID id, QuoteNumber number, Instant now, UUID createdBy) {
        this.id = id;
        this.year = number.year();
        this.n = number.n();
        this.revision = 1;
        this.state = State.DRAFT;
        this.createdAt = now;
        this.createdBy = createdBy;
        this.changedAt = now;
    }

    UUID id() {
        return id;
    }

    QuoteNumber number() {
        return new QuoteNumber(year, n);
    }

    /** The latest revision. */
    int revision() {
        return revision;
    }

    UUID createdBy() {
        return createdBy;
    }

    int version() {
        return version;
    }

    Instant createdAt() {
        return createdAt;
    }

    @Nullable String contact() {
        return contact;
    }

    /** Every change of a revision is one of its quote, so that one tag guards them all. */
    void changed(Instant now) {
        changedAt = now;
    }

    void to(@Nullable String contact) {
        this.contact = contact == null || contact.isBlank() ? null : contact.strip();
    }

    void copied(Quote from, int revision) {
        copiedFrom = from.id;
        copiedRevision = revision;
        contact = from.contact;
    }

    Optional<UUID> copiedFrom() {
        return Optional.ofNullable(copiedFrom);
    }

    Optional<Integer> copiedRevision() {
        return Optional.ofNullable(copiedRevision);
    }

    void issued(LocalDate lastDay, Instant now) {
        state = State.ISSUED;
        validUntil = lastDay;
        changed(now);
    }

    void decided(State outcome, Instant now) {
        state = outcome;
        changed(now);
    }

    /** Goes on with another revision, a draft. */
    int begin(Instant now) {
        revision++;
        state = State.DRAFT;
        validUntil = null;
        changed(now);
        return revision;
    }

    /** Goes back to the revision before, as that one stood. */
    void drop(State before, @Nullable LocalDate lastDay, Instant now) {
        revision--;
        state = before;
        validUntil = lastDay;
        changed(now);
    }

    void released(String job, Instant now) {
        releasedAs = job;
        changed(now);
    }

    /** The number of the job that was made of it. */
    @Nullable String releasedAs() {
        return releasedAs;
    }

    /** Without regard to the date. */
    State state() {
        return state;
    }

    /** What a stored state is on a day: an open offer lapses when its last day has passed. */
    static State on(LocalDate today, State stored, @Nullable LocalDate lastDay) {
        return stored == State.ISSUED && lastDay != null && lastDay.isBefore(today)
                ? State.LAPSED
                : stored;
    }
}
