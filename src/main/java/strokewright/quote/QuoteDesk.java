package strokewright.quote;

import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.ui.Model;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;
import strokewright.web.TypedForm;

/** Puts a quote on its page with what stands around its items, wherever one comes from. */
@Component
class QuoteDesk {

    private static final DateTimeFormatter MINUTE =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

    private final Quotes quotes;
    private final QuoteHistory history;
    private final Attachments attachments;
    private final ShopBooks books;
    private final Shops shops;
    private final Clock clock;

    QuoteDesk(
            Quotes quotes,
            QuoteHistory history,
            Attachments attachments,
            ShopBooks books,
            Shops shops,
            Clock clock) {
        this.quotes = quotes;
        this.history = history;
        this.attachments = attachments;
        this.books = books;
        this.shops = shops;
        this.clock = clock;
    }

    /** One line of the history as shown. */
    record Event(
            String at,
            String by,
            String what,
            @Nullable Integer revision,
            String net,
            String text) {}

    /** The latest revision, to go on with. */
    String latest(String number, Locale locale, Model model) {
        return latest(number, new TypedForm(Numbers.of(locale)), locale, model);
    }

    /**
     * @param form what was typed into one of the page's own forms and not taken
     */
    String latest(String number, TypedForm form, Locale locale, Model model) {
        Quotes.Tagged found = quotes.get(number);
        model.addAttribute("version", found.version().toString());
        model.addAttribute("mayChange", SignedIn.current().role() != Role.OFFICE);
        model.addAttribute("form", form);
        return page(found.document(), locale, model);
    }

    /** One revision, only to be read. */
    String revision(String number, int n, Locale locale, Model model) {
        model.addAttribute("form", new TypedForm(Numbers.of(locale)));
        return page(quotes.revision(number, n), locale, model);
    }

    private String page(QuoteDocument quote, Locale locale, Model model) {
        Numbers numbers = Numbers.of(locale);
        model.addAttribute(
                "view",
                new QuoteViews(numbers)
                        .view(quote, quote.pricedWith(books.edition(quote.shopBookEdition()))));
        model.addAttribute("standing", standing(quote, numbers));
        model.addAttribute(
                "changes",
                quotes.origin(quote.number(), quote.revision())
                        .map(from -> PriceChanges.between(from, quote))
                        .orElse(null));
        model.addAttribute("terms", TermsRows.of(quote, numbers));
        model.addAttribute(
                "events", history.of(quote.number()).stream().map(e -> event(e, numbers)).toList());
        model.addAttribute("attachments", attachments.of(quote.number()));
        model.addAttribute("revisions", quotes.revisions(quote.number()));
        return "quote/quote";
    }

    private Event event(QuoteEvent event, Numbers numbers) {
        ZoneId zone = shops.current().timeZone();
        return new Event(
                MINUTE.format(event.at().atZone(zone)),
                event.by(),
                event.kind().words(),
                event.revision(),
                event.net() == null ? "" : numbers.show(event.net()),
                Objects.requireNonNullElse(event.text(), ""));
    }

    LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
    }

    /** Where it stands, in a sentence or two. */
    List<String> standing(QuoteDocument quote, Numbers numbers) {
        LocalDate lastDay = quote.terms().validUntil();
        Outcome outcome = quote.outcome();
        return switch (quote.state()) {
            case DRAFT ->
                    List.of(
                            lastDay != null && lastDay.isBefore(today())
                                    ? "It cannot be issued yet: its last day, %s, has passed. Give another one in its terms, or leave it empty."
                                            .formatted(lastDay)
                                    : quote.feasible()
                                            ? "It is complete: issuing freezes this revision with its"
                                                    + " prices."
                                            : "It cannot be issued yet.");
            case ISSUED ->
                    List.of(
                            lastDay == null
                                    ? "It waits for the customer."
                                    : "It waits for the customer: " + left(lastDay) + ".");
            case LAPSED ->
                    List.of(
                            "Its last day was %s, %s ago without an answer."
                                    .formatted(lastDay, days(lastDay, today())));
            case ACCEPTED ->
                    List.of(
                            "Ordered on %s%s: %s before tax."
                                    .formatted(
                                            outcome.date(),
                                            outcome.order().number() == null
                                                    ? ""
                                                    : ", order " + outcome.order().number(),
                                            numbers.show(outcome.order().total().net())));
            case DECLINED ->
                    List.of(
                            "Declined on %s, because of: %s."
                                    .formatted(
                                            outcome.date(),
                                            outcome.reason() == null
                                                    ? "no reason"
                                                    : outcome.reason().words()));
            case WITHDRAWN -> List.of("Withdrawn on " + outcome.date() + ".");
        };
    }

    private String left(LocalDate lastDay) {
        return lastDay.equals(today())
                ? "today is the last day"
                : "valid until " + lastDay + ", " + days(today(), lastDay) + " more";
    }

    static String days(LocalDate from, LocalDate to) {
        long days = ChronoUnit.DAYS.between(from, to);
        return days == 1 ? "1 day" : days + " days";
    }
}
