package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.TypedForm;

/** Head and terms of a draft. */
@Controller
@RequestMapping("/quotes/{number}/terms")
class QuoteTermsPage {

    private static final String NAME = "/customer/name";
    private static final String ADDRESS = "/customer/address";
    private static final String ANOTHER_ROW = "rows";
    private static final String SUGGESTED = "add ";
    private static final String ALL = "all";

    private final Quotes quotes;
    private final Customers customers;
    private final QuoteSuggestions suggestions;

    QuoteTermsPage(Quotes quotes, Customers customers, QuoteSuggestions suggestions) {
        this.quotes = quotes;
        this.customers = customers;
        this.suggestions = suggestions;
    }

    @GetMapping
    String open(@PathVariable String number, Locale locale, Model model) {
        Quotes.Tagged found = QuoteItemPage.draft(quotes, number);
        QuoteDocument quote = found.document();
        TypedForm form =
                new TypedForm(Numbers.of(locale))
                        .show("/title", quote.title())
                        .show("/contact", quote.contact())
                        .show(NAME, quote.customer().name())
                        .show(ADDRESS, null);
        TermsTyping.show(form, "/terms", quote.terms());
        return page(found, found.version().toString(), form, model);
    }

    /**
     * @param version that the page was opened with
     * @param action what to do instead of saving: more rows, or a suggested sentence to be added
     */
    @PostMapping
    String save(
            @PathVariable String number,
            @RequestParam String version,
            @RequestParam("do") Optional<String> action,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        Quotes.Tagged found = QuoteItemPage.draft(quotes, number);
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        if (action.isPresent() && !action.get().isEmpty()) {
            if (action.get().startsWith(SUGGESTED)) {
                add(found.document(), form, action.get().substring(SUGGESTED.length()));
            }
            TermsTyping.spareStages(form, "/terms/payment", action.get().equals(ANOTHER_ROW));
            return page(found, version, form, model);
        }
        if (!found.version().toString().equals(version)) {
            model.addAttribute("overtaken", true);
            return page(found, found.version().toString(), form, model);
        }
        try {
            QuoteRequest wanted = request(found.document(), form);
            form.throwIfUnread();
            quotes.change(number, wanted, version);
            return "redirect:/quotes/" + number + "?saved";
        } catch (InvalidInput e) {
            TermsTyping.spareStages(form, "/terms/payment", false);
            return page(found, version, form.refused(e), model);
        }
    }

    private static QuoteRequest request(QuoteDocument quote, TypedForm form) {
        QuoteRequest stored = QuoteRequest.of(quote);
        Terms terms = TermsTyping.terms(form, "/terms");
        String name = form.text(NAME);
        String address = form.text(ADDRESS);
        boolean same = quote.customer().name().equals(name) && address == null;
        return new QuoteRequest(
                same ? stored.customer() : new CustomerChoice(null, name, address),
                same || !Objects.equals(form.text("/contact"), quote.contact())
                        ? form.text("/contact")
                        : null,
                form.text("/title"),
                same ? terms : otherCustomers(terms, quote.terms()),
                stored.items());
    }

    /** What nobody touched was the former customer's: it follows from the other one's card. */
    private static Terms otherCustomers(Terms typed, Terms before) {
        Terms without = before.forAnotherCustomer();
        return new Terms(
                typed.validUntil(),
                untouched(
                        typed.customerReference(),
                        before.customerReference(),
                        without.customerReference()),
                untouched(typed.tax(), before.tax(), without.tax()),
                typed.payment().equals(before.payment()) ? without.payment() : typed.payment(),
                typed.leadTimeDays(),
                untouched(typed.delivery(), before.delivery(), without.delivery()),
                typed.siteWork(),
                typed.assumptions(),
                typed.exclusions(),
                typed.metalPriceBasis(),
                typed.remarks());
    }

    private static <T> @Nullable T untouched(
            @Nullable T typed, @Nullable T before, @Nullable T instead) {
        return Objects.equals(typed, before) ? instead : typed;
    }

    /**
     * @param which the suggestion's place in the list, or all of them
     */
    private void add(QuoteDocument quote, TypedForm form, String which) {
        List<Suggestion> all = suggestions.of(quote);
        for (int i = 0; i < all.size(); i++) {
            if (which.equals(ALL) || which.equals(String.valueOf(i))) {
                add(form, all.get(i));
            }
        }
    }

    private static void add(TypedForm form, Suggestion suggestion) {
        String field = field(suggestion.kind());
        if (suggestion.kind() == Suggestion.Kind.METAL_PRICE_BASIS) {
            if (form.text(field) == null) {
                form.show(field, suggestion.text());
            }
            return;
        }
        List<String> lines = new ArrayList<>(form.lines(field));
        if (!lines.contains(suggestion.text())) {
            lines.add(suggestion.text());
            form.show(field, lines);
        }
    }

    private static String field(Suggestion.Kind kind) {
        return switch (kind) {
            case ASSUMPTION -> "/terms/assumptions";
            case EXCLUSION -> "/terms/exclusions";
            case METAL_PRICE_BASIS -> "/terms/metalPriceBasis";
        };
    }

    /**
     * A suggestion on the page.
     *
     * @param which value of its button
     */
    record Offered(String which, String kind, Suggestion suggestion) {}

    private String page(Quotes.Tagged found, String version, TypedForm form, Model model) {
        QuoteDocument quote = found.document();
        List<Suggestion> all = suggestions.of(quote);
        List<Offered> offered = new ArrayList<>();
        for (int i = 0; i < all.size(); i++) {
            Suggestion one = all.get(i);
            if (!form.lines(field(one.kind())).contains(one.text())) {
                offered.add(
                        new Offered(
                                SUGGESTED + i, TypedForm.kebab(one.kind()).replace('-', ' '), one));
            }
        }
        model.addAttribute("form", form);
        model.addAttribute("quote", quote);
        model.addAttribute("version", version);
        model.addAttribute("customers", customers.names());
        model.addAttribute("contacts", customers.get(quote.customer().id()).card().contacts());
        model.addAttribute("taxes", TermsTyping.taxes("as the customer’s card"));
        model.addAttribute("deliveries", TermsTyping.DELIVERIES);
        model.addAttribute("offered", offered);
        return "quote/terms";
    }
}
