package strokewright.quote;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.List;
import java.util.UUID;
import org.hibernate.annotations.Immutable;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.annotations.TenantId;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Route;
import strokewright.estimate.TakeOff;

/** One item of a revision as stored; saving a draft again replaces its items. */
@Entity
@Immutable
@Table(name = "quote_item")
class Item {

    @Id private UUID id;

    @TenantId private UUID shopId;

    private UUID revisionId;

    private int position;

    private boolean optional;

    private String title;

    @JdbcTypeCode(SqlTypes.JSON)
    private TakeOff takeOff;

    @JdbcTypeCode(SqlTypes.JSON)
    private Estimate estimate;

    /** Null without any. */
    @JdbcTypeCode(SqlTypes.JSON)
    private @Nullable List<Route> alternatives;

    private String[] grades;

    private String[] kinds;

    private @Nullable Double thicknessMm;

    private @Nullable Double sizeMm;

    private Double hours;

    /** For Hibernate. */
    protected Item() {}

    Item(UUID id, UUID revisionId, PricedItem item, ItemFacts facts) {
        this.id = id;
        this.revisionId = revisionId;
        this.position = item.position();
        this.optional = item.option();
        this.title = item.title();
        this.takeOff = item.takeOff();
        this.estimate = item.estimate();
        this.alternatives = item.alternatives().isEmpty() ? null : item.alternatives();
        this.grades = facts.grades().toArray(String[]::new);
        this.kinds = facts.kinds().toArray(String[]::new);
        this.thicknessMm = facts.thicknessMm();
        this.sizeMm = facts.sizeMm();
        this.hours = facts.hours();
    }

    UUID revisionId() {
        return revisionId;
    }

    PricedItem priced() {
        return new PricedItem(
                position,
                title,
                optional,
                takeOff,
                estimate,
                alternatives == null ? List.of() : alternatives);
    }
}
