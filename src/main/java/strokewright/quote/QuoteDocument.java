package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Money;

/**
 * What one revision of a quote says: the data fields of its title block (ISO 7200), its items and
 * its totals. Sent as JSON, shown on the page and written into the workbook as it is.
 *
 * @param number identification number, e.g. Q-2026-0001
 * @param date of issue, or of the last change while it is a draft, in the shop's time zone
 * @param approvedBy who issued it; null while it is a draft
 * @param shopBookEdition that every item was priced with
 * @param methodVersion of the calculation
 * @param feasible false when any item cannot be made as described
 * @param contact to whom at the customer's
 * @param outcome what became of it; null as long as nothing did
 * @param decidedBy who wrote the outcome down
 * @param job number of the job that was released from it
 * @param replacedBy the revision that came after it; null of the latest
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record QuoteDocument(
        String number,
        int revision,
        State state,
        LocalDate date,
        String title,
        Addressee customer,
        String createdBy,
        @Nullable String approvedBy,
        int shopBookEdition,
        int methodVersion,
        boolean feasible,
        List<PricedItem> items,
        Total total,
        @Nullable String contact,
        Terms terms,
        @Nullable Outcome outcome,
        @Nullable String decidedBy,
        @Nullable Integer replacedBy,
        @Nullable String job) {

    public QuoteDocument {
        items = List.copyOf(items);
    }

    /** The shop book as it was reckoned with: with the customer's tax and discounts. */
    public ShopBook pricedWith(ShopBook edition) {
        return terms.applied(edition);
    }

    /** Of the files made of it, without ending. */
    String fileName() {
        return revision == 1 ? number : number + "-revision-" + revision;
    }

    /** Whom the quote is for. */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Addressee(
            UUID id,
            String name,
            @Nullable String address,
            @Nullable String deliveryAddress,
            @Nullable String taxNumber) {

        String oneLine() {
            return address == null ? name : name + ", " + String.join(", ", address.split("\\R"));
        }
    }

    /** Of the items that are no option, each at its main quantity. */
    public record Total(Money net, Money tax, Money withTax) {

        /**
         * @param items at least one
         */
        static Total of(List<PricedItem> items) {
            Money none = Money.zero(items.get(0).main().priceEach().currency());
            return items.stream()
                    .filter(item -> !item.option())
                    .map(item -> of(item.main()))
                    .reduce(new Total(none, none, none), Total::plus);
        }

        static Total of(Estimate.ForQuantity priced) {
            Money net = priced.price().offer();
            Money tax = priced.price().tax();
            return new Total(net, tax, net.plus(tax));
        }

        Total plus(Total other) {
            return new Total(net.plus(other.net), tax.plus(other.tax), withTax.plus(other.withTax));
        }
    }
}
