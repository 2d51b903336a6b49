package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.Collections;
import java.util.IllformedLocaleException;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * How a shop writes to its customers, and what its quotes start with.
 *
 * @param name as printed; the shop's when left out
 * @param address with line ends
 * @param bank lines for the foot of a page
 * @param locale BCP 47 tag that figures and dates on documents follow, such as en-IE or de-DE
 * @param validityDays from issuing to the last day of an offer
 * @param payment what a new quote starts with where the customer's card says nothing
 * @param assumptions offered for every quote
 * @param exclusions offered for every quote
 * @param conditions printed at the end of quote and confirmation
 * @param link under which the floor's phones reach the service, such as https://shop.example
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Letterhead(
        @Nullable String name,
        @Nullable String address,
        @Nullable String phone,
        @Nullable String email,
        @Nullable String web,
        @Nullable String taxNumber,
        List<String> bank,
        Paper paper,
        String locale,
        Integer validityDays,
        Payment payment,
        List<String> assumptions,
        List<String> exclusions,
        @Nullable String conditions,
        @Nullable String link) {

    private static final int MOST_VALIDITY_DAYS = 730;
    private static final int MOST_BANK_LINES = 4;
    private static final int USUAL_VALIDITY_DAYS = 30;
    private static final int USUAL_PAYMENT_DAYS = 30;

    public Letterhead {
        bank = copy(bank);
        paper = paper == null ? Paper.A4 : paper;
        locale = locale == null ? "en-IE" : locale;
        validityDays = validityDays == null ? USUAL_VALIDITY_DAYS : validityDays;
        payment =
                payment == null
                        ? new Payment(USUAL_PAYMENT_DAYS, null, null, null, List.of())
                        : payment;
        assumptions = copy(assumptions);
        exclusions = copy(exclusions);
    }

    /** The size of a page. */
    public enum Paper {
        @JsonProperty("a4")
        A4,
        @JsonProperty("letter")
        LETTER
    }

    /** Of a shop that has said nothing yet. */
    static Letterhead unsaid() {
        return new Letterhead(
                null, null, null, null, null, null, null, null, null, null, null, null, null, null,
                null);
    }

    /** For figures and dates. */
    public Locale forFigures() {
        return Locale.forLanguageTag(locale);
    }

    /** A day as it stands on documents. */
    public String dated(LocalDate day) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                .withLocale(forFigures())
                .format(day);
    }

    Faults faults() {
        Faults faults = new Faults();
        faults.textIfGiven("/name", name);
        CustomerCard.longest(faults, "/address", address, CustomerCard.LONGEST_ADDRESS);
        faults.textIfGiven("/phone", phone);
        CustomerCard.email(faults, "/email", email);
        faults.textIfGiven("/web", web);
        faults.textIfGiven("/taxNumber", taxNumber);
        if (faults.size("/bank", bank, 0, MOST_BANK_LINES)) {
            for (int i = 0; i < bank.size(); i++) {
                faults.text("/bank/" + i, bank.get(i));
            }
        }
        if (!wellFormed(locale)) {
            faults.add("/locale", "is no language tag: one such as en-IE, en-US or de-DE");
        }
        faults.within("/validityDays", validityDays, 1, MOST_VALIDITY_DAYS);
        payment.check(faults, "/payment");
        Terms.sentences(faults, "/assumptions", assumptions);
        Terms.sentences(faults, "/exclusions", exclusions);
        CustomerCard.longest(faults, "/conditions", conditions, 10 * Terms.LONGEST_PROSE);
        if (link != null && !link.matches("https?://[A-Za-z0-9.\\-\\[\\]:]+(/[\\w./~-]*)?")) {
            faults.add("/link", "is no address of a site: one such as https://shop.example");
        }
        return faults;
    }

    private static boolean wellFormed(String tag) {
        try {
            return !new Locale.Builder().setLanguageTag(tag).build().getLanguage().isEmpty();
        } catch (IllformedLocaleException e) {
            return false;
        }
    }

    private static List<String> copy(@Nullable List<String> lines) {
        return lines == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(lines));
    }
}
