package strokewright.quote;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook;
import strokewright.office.Paper.Field;

/** The terms of a revision in sentences, as its papers say them. */
final class PaperTerms {

    private final QuoteDocument quote;
    private final Terms terms;
    private final Stationery stationery;
    private final PriceScheme scheme;

    /**
     * @param book as the revision was reckoned with
     */
    PaperTerms(QuoteDocument quote, Stationery stationery, ShopBook book) {
        this.quote = quote;
        this.terms = quote.terms();
        this.stationery = stationery;
        this.scheme = book.priceScheme();
    }

    /** For the title block. */
    List<Field> references() {
        List<Field> fields = new ArrayList<>();
        add(fields, "Your reference", terms.customerReference());
        return fields;
    }

    List<Field> ofQuote() {
        List<Field> fields = new ArrayList<>();
        add(fields, "Valid until", validUntil());
        fields.addAll(common());
        return fields;
    }

    /** What a confirmation of the order repeats. */
    List<Field> common() {
        List<Field> fields = new ArrayList<>();
        add(fields, "Lead time", leadTime());
        add(fields, "Delivery", delivery());
        add(fields, "Work on site", terms.siteWork());
        add(fields, "Payment", payment());
        add(fields, "Tax", terms.tax() == null ? null : terms.tax().sentence());
        add(fields, "Your tax number", quote.customer().taxNumber());
        add(fields, "Metal price", terms.metalPriceBasis());
        return fields;
    }

    /** "Tax, 19 %"; without the rate where none is charged. */
    String taxLabel() {
        return scheme.taxPercent() > 0 ? "Tax, " + percent(scheme.taxPercent()) : "Tax";
    }

    private @Nullable String validUntil() {
        LocalDate day = terms.validUntil();
        if (day == null) {
            return quote.state() == State.DRAFT
                    ? stationery.whole(stationery.letterhead().validityDays()) + " days from issue"
                    : null;
        }
        return stationery.date(day);
    }

    private @Nullable String leadTime() {
        Integer days = terms.leadTimeDays();
        return days == null
                ? null
                : days == 1
                        ? "1 working day from your order"
                        : stationery.whole(days) + " working days from your order";
    }

    private @Nullable String delivery() {
        Delivery delivery = terms.delivery();
        if (delivery == null) {
            return null;
        }
        String place = deliveryPlace();
        return delivery.kind() == Delivery.Kind.COLLECTED || place == null
                ? delivery.kind().words()
                : delivery.kind().words() + ": " + String.join(", ", Stationery.lines(place));
    }

    /** Where the goods go; null where only the customer's address is known. */
    @Nullable String deliveryPlace() {
        return terms.delivery() != null && terms.delivery().place() != null
                ? terms.delivery().place()
                : quote.customer().deliveryAddress();
    }

    private @Nullable String payment() {
        Payment payment = terms.payment();
        List<String> parts = new ArrayList<>();
        if (payment.days() != null) {
            parts.add(
                    payment.days() == 0
                            ? "at once"
                            : "within " + days(payment.days()) + " of the invoice");
        }
        double settlement =
                payment.settlementDiscountPercent() == null
                        ? scheme.settlementDiscountPercent()
                        : payment.settlementDiscountPercent();
        if (payment.settlementDays() != null && settlement > 0) {
            parts.add(
                    percent(settlement)
                            + " off when paid within "
                            + days(payment.settlementDays()));
        }
        if (payment.tradeDiscountPercent() != null && payment.tradeDiscountPercent() > 0) {
            parts.add("trade discount " + percent(payment.tradeDiscountPercent()));
        }
        if (!payment.stages().isEmpty()) {
            parts.add(
                    payment.stages().stream()
                            .map(stage -> percent(stage.percent()) + " " + stage.when())
                            .collect(Collectors.joining(", ")));
        }
        return parts.isEmpty() ? null : String.join("; ", parts);
    }

    private String days(int days) {
        return days == 1 ? "1 day" : stationery.whole(days) + " days";
    }

    private String percent(double percent) {
        return stationery.number(percent) + "\u00a0%";
    }

    private static void add(List<Field> fields, String name, @Nullable String value) {
        if (value != null && !value.isBlank()) {
            fields.add(new Field(name, value));
        }
    }
}
