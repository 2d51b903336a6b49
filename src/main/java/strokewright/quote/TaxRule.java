package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * How a customer's orders are taxed. Which rule applies is the shop's and its tax adviser's to
 * know; here it only leads to a rate and a sentence on the documents.
 *
 * @param percent of {@link Kind#OWN_RATE} alone
 * @param reason printed where no tax is charged, such as the paragraph that says so
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record TaxRule(Kind kind, @Nullable Double percent, @Nullable String reason) {

    static final TaxRule SHOP_RATE = new TaxRule(Kind.SHOP_RATE, null, null);

    public enum Kind {
        /** The rate of the shop book. */
        @JsonProperty("shop-rate")
        SHOP_RATE,
        /** Another rate, such as a reduced one. */
        @JsonProperty("own-rate")
        OWN_RATE,
        /** The customer owes the tax. */
        @JsonProperty("reverse-charge")
        REVERSE_CHARGE,
        /** Delivered abroad without tax. */
        @JsonProperty("export")
        EXPORT,
        /** The customer or the work is free of tax. */
        @JsonProperty("exempt")
        EXEMPT
    }

    /**
     * @param shopRate of the shop book, in per cent
     */
    double rate(double shopRate) {
        return switch (kind) {
            case SHOP_RATE -> shopRate;
            case OWN_RATE -> percent;
            case REVERSE_CHARGE, EXPORT, EXEMPT -> 0;
        };
    }

    /** What a document says of it; null where a rate says enough. */
    public @Nullable String sentence() {
        String plain =
                switch (kind) {
                    case SHOP_RATE, OWN_RATE -> null;
                    case REVERSE_CHARGE -> "Reverse charge: the customer owes the tax.";
                    case EXPORT -> "Delivery abroad, free of tax.";
                    case EXEMPT -> "Free of tax.";
                };
        return plain == null || reason == null ? plain : plain + " " + reason;
    }

    void check(Faults faults, String at) {
        if (!faults.present(
                at + "/kind", kind, "one of shop-rate, own-rate, reverse-charge, export, exempt")) {
            return;
        }
        if (kind == Kind.OWN_RATE) {
            faults.within(at + "/percent", percent, 0, 100);
        } else if (percent != null) {
            faults.add(at + "/percent", "belongs to the kind own-rate alone: leave it out");
        }
        faults.textIfGiven(at + "/reason", reason);
    }
}
