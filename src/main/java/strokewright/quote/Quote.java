package strokewright.quote;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.TenantId;

/** A quote: a number and, in its revisions, what was offered under it. */
@Entity
@Table(name = "quote")
class Quote {

    @Id private UUID id;

    @TenantId private UUID shopId;

    private int year;

    private int n;

    private int revision;

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

    /** Every change of a revision is one of its quote, so that one tag guards them all. */
    void changed(Instant now) {
        changedAt = now;
    }
}
