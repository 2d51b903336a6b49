package strokewright.quote;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.TenantId;
import org.jspecify.annotations.Nullable;

/** Somebody who is quoted to. */
@Entity
@Table(name = "customer")
class Customer {

    @Id private UUID id;

    @TenantId private UUID shopId;

    private String name;

    private @Nullable String address;

    private Instant createdAt;

    @Version private int version;

    /** For Hibernate. */
    protected Customer() {}

    Customer(UUID id, String name, @Nullable String address, Instant createdAt) {
        this.id = id;
        this.name = name;
        this.address = address;
        this.createdAt = createdAt;
    }

    QuoteDocument.Addressee addressee() {
        return new QuoteDocument.Addressee(id, name, address);
    }
}
