package strokewright.quote;

import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import strokewright.office.Paper;
import strokewright.office.Pdf;
import strokewright.quantity.Money;

/**
 * The customer's copy of a revision on paper. It is made of what the customer may know: quantities,
 * prices, terms and the words about them, and of nothing else of the estimate.
 */
final class QuotePaper {

    private static final String NO_PRICE = "no price";

    private final QuoteDocument quote;
    private final Locale locale;

    private QuotePaper(QuoteDocument quote, Locale locale) {
        this.quote = quote;
        this.locale = locale;
    }

    static byte[] of(QuoteDocument quote, String shop) {
        QuotePaper made = new QuotePaper(quote, Locale.UK);
        return Pdf.of("quote", made.paper(shop), made.view());
    }

    /** What the template shows, in words and figures as they stand on the page. */
    record View(
            String currency,
            List<Line> items,
            List<Line> options,
            @Nullable Sums sums,
            @Nullable String refusal) {}

    record Line(int position, String title, String mainNote, List<Priced> quantities) {}

    record Priced(String quantity, String each, String all, boolean main) {}

    record Sums(String net, String taxLabel, String tax, String withTax) {}

    private Paper paper(String shop) {
        List<String> addressee = new ArrayList<>(List.of(quote.customer().name()));
        if (quote.customer().address() != null) {
            quote.customer().address().lines().map(String::strip).forEach(addressee::add);
        }
        return new Paper(
                Paper.Size.A4,
                "Quote",
                quote.number(),
                String.valueOf(quote.revision()),
                date(quote.date()),
                quote.title(),
                quote.createdBy(),
                quote.approvedBy() == null ? "" : quote.approvedBy(),
                new Paper.Sender(shop, List.of(), List.of(), List.of(), null),
                addressee,
                List.of(),
                quote.state() == State.DRAFT ? "DRAFT" : null);
    }

    private View view() {
        return new View(
                quote.total().net().currency().getCurrencyCode(),
                lines(false),
                lines(true),
                quote.items().stream().allMatch(i -> i.option() || i.estimate().feasible())
                        ? new Sums(
                                amount(quote.total().net()),
                                "Tax",
                                amount(quote.total().tax()),
                                amount(quote.total().withTax()))
                        : null,
                quote.feasible() ? null : "No offer: something here cannot be made as described.");
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
        if (!item.estimate().feasible()) {
            return List.of(
                    new Priced(whole(item.takeOff().mainQuantity()), NO_PRICE, NO_PRICE, true));
        }
        return item.estimate().quantities().stream()
                .map(
                        q ->
                                new Priced(
                                        whole(q.quantity()),
                                        amount(q.priceEach()),
                                        amount(q.price().offer()),
                                        q.quantity() == item.takeOff().mainQuantity()))
                .toList();
    }

    private String date(LocalDate date) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                .withLocale(locale)
                .format(date);
    }

    private String amount(Money money) {
        BigDecimal amount = money.amount();
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMinimumFractionDigits(amount.scale());
        format.setMaximumFractionDigits(amount.scale());
        return format.format(amount);
    }

    private String whole(int number) {
        return NumberFormat.getIntegerInstance(locale).format(number);
    }
}
