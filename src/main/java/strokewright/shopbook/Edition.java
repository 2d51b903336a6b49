package strokewright.shopbook;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.annotations.TenantId;
import org.hibernate.type.SqlTypes;
import strokewright.estimate.ShopBook;

/** One edition as it was added; the database refuses to change it. */
@Entity
@Immutable
@Table(name = "shop_book_edition")
class Edition {

    /** Of the JSON in {@code book}; counted up when records change so that old JSON needs help. */
    static final int FORMAT_VERSION = 1;

    @Id private Integer n;

    @TenantId private UUID shopId;

    private int formatVersion;

    @JdbcTypeCode(SqlTypes.JSON)
    private ShopBook book;

    private UUID addedBy;

    private Instant addedAt;

    private String note;

    /** For Hibernate. */
    protected Edition() {}

    Edition(int n, ShopBook book, UUID addedBy, Instant addedAt, String note) {
        this.n = n;
        this.formatVersion = FORMAT_VERSION;
        this.book = book.withEdition(n);
        this.addedBy = addedBy;
        this.addedAt = addedAt;
        this.note = note;
    }

    ShopBook book() {
        return book;
    }
}
