package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Faults;

/**
 * What is agreed beside work and price; frozen with its revision. What is left out of tax and
 * payment is filled in from the customer's card, then from the letterhead, when the quote is
 * priced.
 *
 * @param validUntil the last day on which the offer can be taken; so many days as the letterhead
 *     says after issuing, when left out
 * @param customerReference of the inquiry, in the customer's words
 * @param leadTimeDays working days from the order to delivery
 * @param siteWork what is to be done on site, and what the customer provides there
 * @param assumptions what the price rests on
 * @param exclusions what it does not contain
 * @param metalPriceBasis which metal price, and until when it holds
 * @param remarks printed below
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Terms(
        @Nullable LocalDate validUntil,
        @Nullable String customerReference,
        @Nullable TaxRule tax,
        Payment payment,
        @Nullable Integer leadTimeDays,
        @Nullable Delivery delivery,
        @Nullable String siteWork,
        List<String> assumptions,
        List<String> exclusions,
        @Nullable String metalPriceBasis,
        @Nullable String remarks) {

    static final int LONGEST_PROSE = 2000;
    static final int MOST_SENTENCES = 40;
    private static final int MOST_LEAD_DAYS = 1000;

    static final Terms UNSAID =
            new Terms(null, null, null, null, null, null, null, List.of(), List.of(), null, null);

    public Terms {
        payment = payment == null ? Payment.UNSAID : payment;
        assumptions = copy(assumptions);
        exclusions = copy(exclusions);
    }

    private static List<String> copy(@Nullable List<String> sentences) {
        return sentences == null
                ? List.of()
                : Collections.unmodifiableList(new ArrayList<>(sentences));
    }

    /** What is unsaid is as the customer usually has it, then as the shop does. */
    Terms filled(CustomerCard customer, Letterhead shop) {
        return new Terms(
                validUntil,
                customerReference,
                tax == null ? customer.tax() : tax,
                payment.or(customer.payment()).or(shop.payment()),
                leadTimeDays,
                delivery,
                siteWork,
                assumptions,
                exclusions,
                metalPriceBasis,
                remarks);
    }

    Terms withValidUntil(@Nullable LocalDate day) {
        return new Terms(
                day,
                customerReference,
                tax,
                payment,
                leadTimeDays,
                delivery,
                siteWork,
                assumptions,
                exclusions,
                metalPriceBasis,
                remarks);
    }

    /** The same for another inquiry: without what belongs to this one. */
    Terms forAnotherInquiry() {
        return new Terms(
                null,
                null,
                tax,
                payment,
                leadTimeDays,
                delivery,
                siteWork,
                assumptions,
                exclusions,
                null,
                remarks);
    }

    /** The same for somebody else: without what was taken from a customer's card. */
    Terms forAnotherCustomer() {
        return new Terms(
                validUntil,
                null,
                null,
                Payment.UNSAID,
                leadTimeDays,
                delivery == null ? null : new Delivery(delivery.kind(), null),
                siteWork,
                assumptions,
                exclusions,
                metalPriceBasis,
                remarks);
    }

    /** The shop book with this customer's tax and discounts in its price scheme. */
    public ShopBook applied(ShopBook book) {
        PriceScheme scheme = book.priceScheme();
        return book.withPriceScheme(
                scheme.with(
                        payment.settlementDiscountPercent(),
                        payment.tradeDiscountPercent(),
                        tax == null ? null : tax.rate(scheme.taxPercent())));
    }

    void check(Faults faults, String at) {
        faults.textIfGiven(at + "/customerReference", customerReference);
        if (tax != null) {
            tax.check(faults, at + "/tax");
        }
        payment.check(faults, at + "/payment");
        faults.withinIfGiven(at + "/leadTimeDays", leadTimeDays, 0, MOST_LEAD_DAYS);
        if (delivery != null) {
            delivery.check(faults, at + "/delivery");
        }
        prose(faults, at + "/siteWork", siteWork);
        sentences(faults, at + "/assumptions", assumptions);
        sentences(faults, at + "/exclusions", exclusions);
        faults.textIfGiven(at + "/metalPriceBasis", metalPriceBasis);
        prose(faults, at + "/remarks", remarks);
    }

    static void prose(Faults faults, String at, @Nullable String text) {
        if (text != null && text.length() > LONGEST_PROSE) {
            faults.add(at, "is too long: at most " + LONGEST_PROSE + " characters");
        }
    }

    static void sentences(Faults faults, String at, List<String> sentences) {
        if (faults.size(at, sentences, 0, MOST_SENTENCES)) {
            for (int i = 0; i < sentences.size(); i++) {
                if (faults.present(at + "/" + i, sentences.get(i), "a sentence")) {
                    prose(faults, at + "/" + i, sentences.get(i));
                }
            }
        }
    }
}
