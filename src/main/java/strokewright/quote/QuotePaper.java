package strokewright.quote;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.office.Paper;
import strokewright.office.Pdf;

/**
 * The customer's copy of a revision on paper. It is made of what the customer may know: quantities,
 * prices, terms and what is done for them, and of nothing else of the estimate.
 */
final class QuotePaper {

    static final String NO_PRICE = "no price";

    private static final String LIMITS =
            "This quote is for making what is described. It says nothing about strength or fitness"
                    + " for a purpose: design and release are with you, or with a licensed person on"
                    + " your behalf.";

    private final QuoteDocument quote;
    private final Stationery stationery;
    private final PaperTerms terms;
    private final Scope scope;

    /**
     * @param book as the revision was reckoned with
     */
    QuotePaper(QuoteDocument quote, Stationery stationery, ShopBook book) {
        this.quote = quote;
        this.stationery = stationery;
        this.terms = new PaperTerms(quote, stationery, book);
        this.scope = new Scope(stationery, book);
    }

    /**
     * @param edition of the shop book that the revision was priced with
     */
    static byte[] of(QuoteDocument quote, Stationery stationery, ShopBook edition) {
        QuotePaper made = new QuotePaper(quote, stationery, quote.pricedWith(edition));
        return Pdf.of("quote", made.paper(), made.view());
    }

    /** What the template shows, in words and figures as they stand on the page. */
    record View(
            String currency,
            List<Line> items,
            List<Line> options,
            @Nullable Sums sums,
            @Nullable String refusal,
            List<Paper.Field> terms,
            List<Included> included,
            List<String> assumptions,
            List<String> exclusions,
            List<String> remarks,
            String limits,
            List<String> conditions) {}

    /**
     * @param mainNote beside the quantity that counts, where there are several
     */
    record Line(int position, String title, String mainNote, List<Priced> quantities) {}

    record Priced(String quantity, String each, String all, boolean main) {}

    record Sums(String net, String taxLabel, String tax, String withTax) {

        static Sums of(QuoteDocument.Total total, String taxLabel, Stationery stationery) {
            return new Sums(
                    stationery.amount(total.net()),
                    taxLabel,
                    stationery.amount(total.tax()),
                    stationery.amount(total.withTax()));
        }
    }

    /** What is done of one item. */
    record Included(int position, String title, List<String> lines) {}

    Paper paper() {
        return new Paper(
                stationery.size(),
                "Quote",
                quote.number(),
                String.valueOf(quote.revision()),
                stationery.date(quote.date()),
                quote.title(),
                quote.createdBy(),
                quote.approvedBy() == null ? "" : quote.approvedBy(),
                stationery.sender(),
                addressee(quote, quote.customer().address()),
                terms.references(),
                stamp());
    }

    /**
     * Name, contact and address, line by line.
     *
     * @param address with line ends
     */
    static List<String> addressee(QuoteDocument quote, @Nullable String address) {
        List<String> lines = new ArrayList<>(List.of(quote.customer().name()));
        if (quote.contact() != null) {
            lines.add(quote.contact());
        }
        lines.addAll(Stationery.lines(address));
        return lines;
    }

    private @Nullable String stamp() {
        if (quote.replacedBy() != null) {
            return "REPLACED BY REVISION " + quote.replacedBy();
        }
        return switch (quote.state()) {
            case DRAFT, LAPSED, WITHDRAWN -> quote.state().name();
            case ISSUED, ACCEPTED, DECLINED -> null;
        };
    }

    View view() {
        return new View(
                quote.total().net().currency().getCurrencyCode(),
                lines(false),
                lines(true),
                hasTotal() ? Sums.of(quote.total(), terms.taxLabel(), stationery) : null,
                quote.feasible() ? null : "No offer: something here cannot be made as described.",
                terms.ofQuote(),
                quote.items().stream()
                        .filter(item -> item.estimate().feasible())
                        .map(item -> new Included(item.position(), item.title(), scope.of(item)))
                        .toList(),
                quote.terms().assumptions(),
                quote.terms().exclusions(),
                Stationery.lines(quote.terms().remarks()),
                LIMITS,
                Stationery.lines(stationery.letterhead().conditions()));
    }

    /** Whether all of what is no option can be made, and there is some. */
    boolean hasTotal() {
        Stream<PricedItem> firm = quote.items().stream().filter(item -> !item.option());
        return quote.items().stream().anyMatch(item -> !item.option())
                && firm.allMatch(item -> item.estimate().feasible());
    }

    private List<Line> lines(boolean option) {
        return quote.items().stream()
                .filter(item -> item.option() == option)
                .map(
                        item ->
                                new Line(
                                        item.position(),
                                        item.title(),
                                        item.option() ? "offered" : "in the total",
                                        priced(item)))
                .toList();
    }

    /** What cannot be made has no price. */
    private List<Priced> priced(PricedItem item) {
        int main = item.takeOff().mainQuantity();
        if (!item.estimate().feasible()) {
            return List.of(new Priced(stationery.whole(main), NO_PRICE, NO_PRICE, true));
        }
        return item.estimate().quantities().stream()
                .map(
                        q ->
                                new Priced(
                                        stationery.whole(q.quantity()),
                                        stationery.amount(q.priceEach()),
                                        stationery.amount(q.price().offer()),
                                        q.quantity() == main))
                .toList();
    }
}
