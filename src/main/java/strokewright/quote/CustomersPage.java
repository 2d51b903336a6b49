package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Role;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.Place;
import strokewright.web.TypedForm;

/** The customers' cards. */
@Controller
@RequestMapping("/customers")
class CustomersPage {

    private static final int SHOWN = 50;
    private static final int QUOTES_SHOWN = 20;
    private static final String ANOTHER_ROW = "rows";

    private final Customers customers;
    private final QuoteBoard board;

    CustomersPage(Customers customers, QuoteBoard board) {
        this.customers = customers;
        this.board = board;
    }

    @Bean
    static Place customersPlace() {
        return new Place(
                "customers",
                "Customers",
                "/customers",
                Set.of(Role.ESTIMATOR.name(), Role.OFFICE.name(), Role.OWNER.name()),
                25);
    }

    /**
     * @param name part of the name of a customer or of somebody there
     * @param after the last one of the page before, as id
     */
    @GetMapping
    String list(
            @RequestParam(defaultValue = "") String name,
            @RequestParam Optional<UUID> after,
            Model model) {
        List<Customers.Found> found = customers.search(name.strip(), after.orElse(null), SHOWN + 1);
        List<Customers.Found> shown = found.subList(0, Math.min(SHOWN, found.size()));
        model.addAttribute("customers", shown);
        model.addAttribute("name", name.strip());
        model.addAttribute("first", after.isEmpty());
        model.addAttribute("next", found.size() > SHOWN ? shown.get(SHOWN - 1).card().id() : null);
        return "quote/customers";
    }

    @GetMapping("/new")
    String begin(@RequestParam(defaultValue = "") String name, Locale locale, Model model) {
        TypedForm form =
                CardTyping.show(CustomerCard.named(name.strip(), null), Numbers.of(locale));
        return page(form, null, model);
    }

    @PostMapping("/new")
    String add(
            HttpServletRequest request,
            @RequestParam("do") Optional<String> action,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        if (action.filter(ANOTHER_ROW::equals).isPresent()) {
            return again(form, true, null, model);
        }
        try {
            CustomerCard card = CardTyping.card(form);
            form.throwIfUnread();
            return "redirect:/customers/" + customers.add(card).card().id() + "?saved";
        } catch (InvalidInput e) {
            return again(form.refused(e), false, null, model);
        }
    }

    @GetMapping("/{id}")
    String show(@PathVariable UUID id, Locale locale, Model model) {
        Customers.Tagged found = customers.get(id);
        return page(CardTyping.show(found.card(), Numbers.of(locale)), found, model);
    }

    @PostMapping("/{id}")
    String change(
            @PathVariable UUID id,
            @RequestParam String version,
            HttpServletRequest request,
            @RequestParam("do") Optional<String> action,
            Locale locale,
            Model model) {
        Customers.Tagged found = customers.get(id);
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        if (action.filter(ANOTHER_ROW::equals).isPresent()) {
            model.addAttribute("version", version);
            return again(form, true, found, model);
        }
        if (!found.version().toString().equals(version)) {
            model.addAttribute("overtaken", true);
            return again(form, false, found, model);
        }
        try {
            CustomerCard card = CardTyping.card(form);
            form.throwIfUnread();
            customers.change(id, card, version);
            return "redirect:/customers/" + id + "?saved";
        } catch (InvalidInput e) {
            return again(form.refused(e), false, found, model);
        }
    }

    private String again(TypedForm form, boolean more, Customers.@Nullable Tagged of, Model model) {
        CardTyping.spareRows(form, more);
        TermsTyping.spareStages(form, "/payment", more);
        return page(form, of, model);
    }

    /**
     * @param of null for a new one
     */
    private String page(TypedForm form, Customers.@Nullable Tagged of, Model model) {
        model.addAttribute("form", form);
        model.addAttribute("heading", of == null ? "New customer" : of.card().name());
        model.addAttribute("taxes", TermsTyping.taxes(null));
        if (of != null) {
            UUID id = of.card().id();
            model.addAttribute("card", of.card());
            if (!model.containsAttribute("version")) {
                model.addAttribute("version", of.version().toString());
            }
            List<QuoteBoard.Line> quotes = board.ofCustomer(id, QUOTES_SHOWN + 1);
            model.addAttribute("quotes", quotes.subList(0, Math.min(QUOTES_SHOWN, quotes.size())));
            model.addAttribute("moreQuotes", quotes.size() > QUOTES_SHOWN);
        }
        return "quote/customer";
    }
}
