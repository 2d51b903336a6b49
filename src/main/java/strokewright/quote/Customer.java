package strokewright.quote;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.annotations.TenantId;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.Nullable;

/** Somebody who is quoted to. */
@Entity
@Table(name = "customer")
class Customer {

    @Id private UUID id;

    @TenantId private UUID shopId;

    private String name;

    /** With the name, which is a column too to be looked up by. */
    @JdbcTypeCode(SqlTypes.JSON)
    private CustomerCard card;

    private Instant createdAt;

    private @Nullable Instant changedAt;

    @Version private int version;

    /** For Hibernate. */
    protected Customer() {}

    Customer(UUID id, CustomerCard card, Instant now) {
        this.id = id;
        this.createdAt = now;
        write(card);
    }

    void change(CustomerCard card, Instant now) {
        changedAt = now;
        write(card);
    }

    private void write(CustomerCard card) {
        this.name = card.name();
        this.card = card.withId(id);
    }

    int version() {
        return version;
    }

    CustomerCard card() {
        return card;
    }
}
