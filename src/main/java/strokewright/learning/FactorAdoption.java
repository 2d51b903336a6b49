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

/** Learned factors that became an edition of the shop book. */
@Entity
@Table(name = "learned_adoption")
@DynamicUpdate // the service may update no other column
class FactorAdoption {

    private static final int FORMAT_VERSION = 1;

    @Id
    @Column(updatable = false)
    private int edition;

    @TenantId private UUID shopId;

    @Column(updatable = false)
    private int formatVersion;

    @Column(updatable = false)
    @JdbcTypeCode(SqlTypes.JSON)
    private Adopted adopted;

    @Column(updatable = false)
    private Instant adoptedAt;

    @Column(updatable = false)
    private UUID adoptedBy;

    private @Nullable Integer undoneEdition;

    /** For Hibernate. */
    protected FactorAdoption() {}

    FactorAdoption(int edition, Adopted adopted, Instant now, UUID by) {
        this.edition = edition;
        this.formatVersion = FORMAT_VERSION;
        this.adopted = adopted;
        this.adoptedAt = now;
        this.adoptedBy = by;
    }

    void undone(int by) {
        if (undoneEdition != null) {
            throw new IllegalStateException("undone before: " + edition);
        }
        undoneEdition = by;
    }

    int edition() {
        return edition;
    }

    Adopted adopted() {
        return adopted;
    }

    Instant adoptedAt() {
        return adoptedAt;
    }

    UUID adoptedBy() {
        return adoptedBy;
    }

    @Nullable Integer undoneEdition() {
        return undoneEdition;
    }
}
