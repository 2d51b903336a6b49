package strokewright.learning;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.DynamicUpdate;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.annotations.TenantId;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.Nullable;

/** Test strips as they were entered, with their fit of then; all that changes is the adoption. */
@Entity
@Table(name = "test_strip_set")
@DynamicUpdate // the service may update no other column
class StripSet {

    /** Of the JSON; counted up when records change so that old JSON needs help. */
    static final int FORMAT_VERSION = 1;

    @Id private UUID id;

    @TenantId private UUID shopId;

    @Column(updatable = false)
    private int formatVersion;

    @Column(updatable = false)
    private int edition;

    @Column(updatable = false)
    @JdbcTypeCode(SqlTypes.JSON)
    private TestStrips notes;

    @Column(updatable = false)
    @JdbcTypeCode(SqlTypes.JSON)
    private StripFit fit;

    @Column(updatable = false)
    private Instant enteredAt;

    @Column(updatable = false)
    private UUID enteredBy;

    private @Nullable Integer adoptedEdition;

    private @Nullable Instant adoptedAt;

    private @Nullable UUID adoptedBy;

    /** For Hibernate. */
    protected StripSet() {}

    StripSet(UUID id, int edition, TestStrips notes, StripFit fit, Instant now, UUID enteredBy) {
        this.id = id;
        this.formatVersion = FORMAT_VERSION;
        this.edition = edition;
        this.notes = notes;
        this.fit = fit;
        this.enteredAt = now;
        this.enteredBy = enteredBy;
    }

    UUID id() {
        return id;
    }

    int edition() {
        return edition;
    }

    TestStrips notes() {
        return notes;
    }

    StripFit fit() {
        return fit;
    }

    Instant enteredAt() {
        return enteredAt;
    }

    UUID enteredBy() {
        return enteredBy;
    }

    @Nullable Integer adoptedEdition() {
        return adoptedEdition;
    }

    @Nullable Instant adoptedAt() {
        return adoptedAt;
    }

    void adopted(int edition, Instant now, UUID by) {
        if (adoptedEdition != null || fit.refused()) {
            throw new IllegalStateException("cannot be adopted: " + id);
        }
        adoptedEdition = edition;
        adoptedAt = now;
        adoptedBy = by;
    }
}
