package strokewright.quote;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.web.Numbers;

/** What of a quote's terms is said, in rows to be read. */
final class TermsRows {

    private TermsRows() {}

    /** One term, in one line or several. */
    record Row(String name, List<String> lines) {}

    static List<Row> of(QuoteDocument quote, Numbers numbers) {
        Terms terms = quote.terms();
        List<Row> rows = new ArrayList<>();
        row(rows, "Contact", quote.contact());
        row(rows, "Their reference", terms.customerReference());
        row(rows, "Valid until", terms.validUntil());
        row(
                rows,
                "Lead time",
                terms.leadTimeDays() == null
                        ? null
                        : numbers.show(terms.leadTimeDays()) + " working days from the order");
        row(rows, "Delivery", delivery(quote));
        row(rows, "Site work", terms.siteWork());
        lines(rows, "Payment", payment(terms.payment(), numbers));
        row(rows, "Tax", tax(terms.tax(), numbers));
        row(rows, "Metal price", terms.metalPriceBasis());
        lines(rows, "Assumptions", terms.assumptions());
        lines(rows, "Not included", terms.exclusions());
        row(rows, "Remarks", terms.remarks());
        return rows;
    }

    private static void row(List<Row> rows, String name, @Nullable Object said) {
        if (said != null) {
            rows.add(new Row(name, said.toString().lines().toList()));
        }
    }

    private static void lines(List<Row> rows, String name, List<String> said) {
        if (!said.isEmpty()) {
            rows.add(new Row(name, said));
        }
    }

    private static @Nullable String delivery(QuoteDocument quote) {
        Delivery delivery = quote.terms().delivery();
        if (delivery == null) {
            return null;
        }
        return delivery.place() == null
                ? delivery.kind().words()
                : delivery.kind().words() + ": " + delivery.place();
    }

    private static List<String> payment(Payment payment, Numbers numbers) {
        List<String> lines = new ArrayList<>();
        if (payment.days() != null) {
            lines.add(
                    payment.days() == 0
                            ? "At once"
                            : "Within " + payment.days() + " days of the invoice");
        }
        if (payment.settlementDiscountPercent() != null) {
            lines.add(
                    numbers.show(payment.settlementDiscountPercent())
                            + " % settlement discount"
                            + (payment.settlementDays() == null
                                    ? ""
                                    : " within " + payment.settlementDays() + " days"));
        }
        if (payment.tradeDiscountPercent() != null) {
            lines.add(numbers.show(payment.tradeDiscountPercent()) + " % trade discount");
        }
        payment.stages().forEach(s -> lines.add(numbers.show(s.percent()) + " % " + s.when()));
        return lines;
    }

    private static @Nullable String tax(@Nullable TaxRule tax, Numbers numbers) {
        if (tax == null || tax.kind() == TaxRule.Kind.SHOP_RATE) {
            return null;
        }
        return tax.kind() == TaxRule.Kind.OWN_RATE
                ? numbers.show(tax.percent()) + " %"
                : tax.sentence();
    }
}
