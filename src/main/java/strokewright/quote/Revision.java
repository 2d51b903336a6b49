package strokewright.quote;

import jakarta.persistence.Convert;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.annotations.TenantId;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Money;
import strokewright.takeoff.TakeOffReading;
import strokewright.web.Problem;

/**
 * One revision of a quote. A draft is priced anew each time it is saved; issuing freezes it with
 * take-offs, edition and estimates, and the database refuses any later change.
 */
@Entity
@Table(name = "quote_revision")
class Revision {

    /** Of the JSON of its items; counted up when records change so that old JSON needs help. */
    static final int FORMAT_VERSION = 1;

    @Id private UUID id;

    @TenantId private UUID shopId;

    private UUID quoteId;

    private int n;

    @Convert(converter = State.InWords.class)
    private State state;

    private String title;

    private UUID customerId;

    private int edition;

    private int methodVersion;

    private int formatVersion;

    private boolean feasible;

    private Currency currency;

    private BigDecimal net;

    private BigDecimal tax;

    private int mainQuantity;

    private String information;

    /** Null of one that is older than the column. */
    private @Nullable Instant begunAt;

    private @Nullable UUID begunBy;

    private Instant changedAt;

    private UUID changedBy;

    @JdbcTypeCode(SqlTypes.JSON)
    private Terms terms;

    private @Nullable LocalDate validUntil;

    private @Nullable Instant issuedAt;

    private @Nullable UUID issuedBy;

    /** For Hibernate. */
    protected Revision() {}

    Revision(UUID id, UUID quoteId, int n) {
        this.id = id;
        this.quoteId = quoteId;
        this.n = n;
        this.state = State.DRAFT;
    }

    /** Takes over what it is to offer. */
    void price(
            String title,
            UUID customerId,
            Terms terms,
            ShopBook book,
            List<PricedItem> items,
            Instant now,
            UUID who) {
        requireDraft();
        QuoteDocument.Total total = QuoteDocument.Total.of(items);
        this.title = title;
        this.customerId = customerId;
        this.terms = terms;
        this.validUntil = terms.validUntil();
        this.edition = book.edition();
        this.methodVersion = Estimating.METHOD_VERSION;
        this.formatVersion = FORMAT_VERSION;
        this.feasible = items.stream().allMatch(i -> i.estimate().feasible());
        this.currency = total.net().currency();
        this.net = total.net().amount();
        this.tax = total.tax().amount();
        this.mainQuantity = items.get(0).takeOff().mainQuantity();
        this.information = TakeOffReading.kebab(items.get(0).takeOff().information());
        if (begunAt == null) {
            this.begunAt = now;
            this.begunBy = who;
        }
        this.changedAt = now;
        this.changedBy = who;
    }

    /**
     * Gives it to the customer; whether its items can be made was asked before.
     *
     * @param lastDay on which it can be taken
     */
    void issue(LocalDate lastDay, Instant now, UUID who) {
        requireDraft();
        terms = terms.withValidUntil(lastDay);
        validUntil = lastDay;
        state = State.ISSUED;
        issuedAt = now;
        issuedBy = who;
    }

    void requireDraft() {
        if (state != State.DRAFT) {
            throw Problem.wrongState("Revision " + n + " is issued and never changes.");
        }
    }

    UUID id() {
        return id;
    }

    int n() {
        return n;
    }

    State state() {
        return state;
    }

    String title() {
        return title;
    }

    Terms terms() {
        return terms;
    }

    @Nullable LocalDate validUntil() {
        return validUntil;
    }

    UUID customerId() {
        return customerId;
    }

    int edition() {
        return edition;
    }

    int methodVersion() {
        return methodVersion;
    }

    boolean feasible() {
        return feasible;
    }

    /** When it was issued, or last changed while it is a draft. */
    Instant at() {
        return issuedAt == null ? changedAt : issuedAt;
    }

    Optional<Instant> begunAt() {
        return Optional.ofNullable(begunAt);
    }

    Optional<UUID> begunBy() {
        return Optional.ofNullable(begunBy);
    }

    @Nullable Instant issuedAt() {
        return issuedAt;
    }

    @Nullable UUID issuedBy() {
        return issuedBy;
    }

    QuoteDocument.Total total() {
        Money before = Money.rounded(net, currency);
        Money tax = Money.rounded(this.tax, currency);
        return new QuoteDocument.Total(before, tax, before.plus(tax));
    }
}
