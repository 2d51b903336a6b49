package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import strokewright.estimate.Estimate;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.Problem;
import strokewright.web.TypedForm;
import strokewright.web.TypedForm.Option;

/** The pages on which is written down what became of a quote. */
@Controller
@RequestMapping("/quotes/{number}")
class OutcomesPage {

    private static final String ORDERED = "/ordered/";

    private final Quotes quotes;
    private final Outcomes outcomes;
    private final QuoteDesk desk;

    OutcomesPage(Quotes quotes, Outcomes outcomes, QuoteDesk desk) {
        this.quotes = quotes;
        this.outcomes = outcomes;
        this.desk = desk;
    }

    /**
     * One item to be ordered.
     *
     * @param field under which its quantity is chosen
     * @param choices the quantities with their prices, and none
     */
    record Orderable(String field, String label, List<Option> choices) {}

    @GetMapping("/accept")
    String order(@PathVariable String number, Locale locale, Model model) {
        QuoteDocument quote = waiting(number);
        TypedForm form =
                new TypedForm(Numbers.of(locale))
                        .show("/date", desk.today())
                        .show("/orderNumber", null)
                        .show("/note", null)
                        .show("/validUntil", null);
        for (PricedItem item : quote.items()) {
            form.show(
                    ORDERED + item.position(),
                    item.option() ? null : item.takeOff().mainQuantity());
        }
        return order(quote, form, locale, model);
    }

    private String order(QuoteDocument quote, TypedForm form, Locale locale, Model model) {
        Numbers numbers = Numbers.of(locale);
        model.addAttribute("form", form.holds("/items"));
        model.addAttribute("quote", quote);
        model.addAttribute("standing", desk.standing(quote, numbers));
        model.addAttribute("lapsed", quote.state() == State.LAPSED);
        model.addAttribute(
                "items", quote.items().stream().map(i -> orderable(i, numbers)).toList());
        return "quote/accept";
    }

    private static Orderable orderable(PricedItem item, Numbers numbers) {
        List<Option> choices = new ArrayList<>();
        choices.add(new Option("", "not ordered"));
        for (Estimate.ForQuantity priced : item.estimate().quantities()) {
            choices.add(
                    new Option(
                            String.valueOf(priced.quantity()),
                            numbers.show(priced.quantity())
                                    + " for "
                                    + numbers.show(priced.price().offer())));
        }
        return new Orderable(
                ORDERED + item.position(),
                item.position() + ". " + item.title() + (item.option() ? " (option)" : ""),
                choices);
    }

    @PostMapping("/accept")
    String accept(
            @PathVariable String number, HttpServletRequest request, Locale locale, Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        QuoteDocument quote = quotes.get(number).document();
        try {
            Acceptance order = acceptance(quote, form);
            form.throwIfUnread();
            outcomes.accept(number, order);
            return "redirect:/quotes/" + number + "?ordered";
        } catch (InvalidInput e) {
            return order(quote, form.holds("/items").refused(e), locale, model);
        }
    }

    private Acceptance acceptance(QuoteDocument quote, TypedForm form) {
        List<Acceptance.Item> items = new ArrayList<>();
        for (PricedItem item : quote.items()) {
            Integer quantity = form.whole(ORDERED + item.position());
            if (quantity != null) {
                items.add(new Acceptance.Item(item.position(), quantity));
            }
        }
        if (items.isEmpty()) {
            throw new InvalidInput("/items", "orders nothing yet: choose at least one quantity");
        }
        LocalDate date = form.date("/date");
        LocalDate renewed = form.date("/validUntil");
        LocalDate lastDay = quote.terms().validUntil();
        if (renewed == null
                && lastDay != null
                && (date == null ? desk.today() : date).isAfter(lastDay)) {
            throw new InvalidInput(
                    "/validUntil",
                    "is missing: the offer was valid until %s, so say how long it holds again"
                            .formatted(lastDay));
        }
        return new Acceptance(form.text("/orderNumber"), date, items, renewed, form.text("/note"));
    }

    /** Nobody shall fill in what is refused afterwards. */
    private QuoteDocument waiting(String number) {
        QuoteDocument quote = quotes.get(number).document();
        if (quote.state() != State.ISSUED && quote.state() != State.LAPSED) {
            throw Problem.wrongState(
                    "Quote %s is %s: only what was issued is ordered or declined."
                            .formatted(number, quote.state().word()));
        }
        return quote;
    }

    @GetMapping("/decline")
    String decline(@PathVariable String number, Locale locale, Model model) {
        waiting(number);
        return refusal(number, true, begun(locale), model);
    }

    @GetMapping("/withdraw")
    String withdraw(@PathVariable String number, Locale locale, Model model) {
        return refusal(number, false, begun(locale), model);
    }

    private TypedForm begun(Locale locale) {
        return new TypedForm(Numbers.of(locale))
                .show("/date", desk.today())
                .show("/reason", null)
                .show("/competition", null)
                .show("/note", null);
    }

    /**
     * @param customers whether it is the customer's no, or else the shop's own
     */
    private String refusal(String number, boolean customers, TypedForm form, Model model) {
        model.addAttribute("form", form);
        model.addAttribute("quote", quotes.get(number).document());
        model.addAttribute("declines", customers);
        model.addAttribute(
                "reasons",
                TermsTyping.options("choose one", Outcome.Reason.values(), Outcome.Reason::words));
        return "quote/decline";
    }

    @PostMapping("/decline")
    String declined(
            @PathVariable String number, HttpServletRequest request, Locale locale, Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            Declining declining = declining(form);
            form.throwIfUnread();
            outcomes.decline(number, declining);
            return "redirect:/quotes/" + number + "?declined";
        } catch (InvalidInput e) {
            return refusal(number, true, form.refused(e), model);
        }
    }

    @PostMapping("/withdraw")
    String withdrawn(
            @PathVariable String number, HttpServletRequest request, Locale locale, Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            Declining declining = declining(form);
            form.throwIfUnread();
            outcomes.withdraw(number, declining);
            return "redirect:/quotes/" + number + "?withdrawn";
        } catch (InvalidInput e) {
            return refusal(number, false, form.refused(e), model);
        }
    }

    private static Declining declining(TypedForm form) {
        return new Declining(
                form.date("/date"),
                form.choice("/reason", Outcome.Reason.class),
                form.text("/competition"),
                form.text("/note"));
    }

    @PostMapping("/take-back")
    String takeBack(@PathVariable String number) {
        outcomes.takeBack(number);
        return "redirect:/quotes/" + number + "?taken-back";
    }
}
