package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
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
        Total total) {

    public QuoteDocument {
        items = List.copyOf(items);
    }

    /** Of the files made of it, without ending. */
    String fileName() {
        return revision == 1 ? number : number + "-revision-" + revision;
    }

    /** Whom the quote is for. */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Addressee(UUID id, String name, @Nullable String address) {

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
            Money net = none;
            Money tax = none;
            for (PricedItem item : items) {
                if (!item.option()) {
                    net = net.plus(item.main().price().offer());
                    tax = tax.plus(item.main().price().tax());
                }
            }
            return new Total(net, tax, net.plus(tax));
        }
    }
}
