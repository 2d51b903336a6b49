package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Shops;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.Problem;
import strokewright.web.TypedForm;

/** What the quote's page does with revisions, with the items of a draft, and with notes. */
@Controller
@RequestMapping("/quotes/{number}")
class RevisionsPage {

    private final Quotes quotes;
    private final QuoteHistory history;
    private final QuoteDesk desk;
    private final Shops shops;

    RevisionsPage(Quotes quotes, QuoteHistory history, QuoteDesk desk, Shops shops) {
        this.quotes = quotes;
        this.history = history;
        this.desk = desk;
        this.shops = shops;
    }

    /**
     * Begins the next revision.
     *
     * @param position of the item that another quantity is asked of; of none when left out
     */
    @PostMapping("/revisions")
    String revise(
            @PathVariable String number,
            @RequestParam Optional<Integer> position,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            quotes.revise(number, further(position, form));
            return "redirect:/quotes/" + number + "?revised";
        } catch (InvalidInput e) {
            return desk.latest(number, form.refused(e), locale, model);
        }
    }

    private static Map<Integer, Integer> further(Optional<Integer> position, TypedForm form) {
        if (position.isEmpty()) {
            return Map.of();
        }
        String at = "/quantities/" + position.get();
        Integer quantity = form.whole(at);
        form.throwIfUnread();
        if (quantity == null || quantity < 1 || quantity > 100_000) {
            throw new InvalidInput(at, "must be from 1 to 100000");
        }
        return Map.of(position.get(), quantity);
    }

    /**
     * @param revision the one that is shown
     */
    @PostMapping("/copy")
    String copy(@PathVariable String number, @RequestParam int revision) {
        return "redirect:/quotes/" + quotes.copy(number, revision).document().number() + "?copied";
    }

    @PostMapping("/revisions/{n}/drop")
    String drop(@PathVariable String number, @PathVariable int n, @RequestParam String version) {
        quotes.drop(number, n, version);
        return "redirect:/quotes/" + number + "?dropped";
    }

    /** An item in the total becomes an option, and the other way round. */
    @PostMapping("/items/{position:[0-9]{1,4}}/option")
    String option(
            @PathVariable String number, @PathVariable int position, @RequestParam String version) {
        return changed(
                number,
                position,
                version,
                item ->
                        new QuoteRequest.Item(
                                item.position(),
                                item.title(),
                                !item.option(),
                                item.takeOff(),
                                item.alternatives()));
    }

    /** Another of the priced quantities becomes the main one. */
    @PostMapping("/items/{position:[0-9]{1,4}}/main")
    String main(
            @PathVariable String number,
            @PathVariable int position,
            @RequestParam int quantity,
            @RequestParam String version) {
        return changed(number, position, version, item -> item.forQuantity(quantity));
    }

    @PostMapping("/items/{position:[0-9]{1,4}}/remove")
    String remove(
            @PathVariable String number, @PathVariable int position, @RequestParam String version) {
        QuoteRequest stored = QuoteRequest.of(draft(number));
        List<QuoteRequest.Item> left = new ArrayList<>(stored.items());
        if (!left.removeIf(i -> i.position() == position)) {
            throw Problem.notFound("Item " + position + " of quote " + number);
        }
        if (left.isEmpty()) {
            throw Problem.wrongState(
                    "A quote has at least one item: change this one, or withdraw the quote.");
        }
        quotes.change(number, stored.with(left), version);
        return "redirect:/quotes/" + number + "?saved";
    }

    private String changed(
            String number, int position, String version, UnaryOperator<QuoteRequest.Item> change) {
        QuoteRequest stored = QuoteRequest.of(draft(number));
        List<QuoteRequest.Item> items =
                stored.items().stream()
                        .map(i -> i.position() == position ? change.apply(i) : i)
                        .toList();
        quotes.change(number, stored.with(items), version);
        return "redirect:/quotes/" + number + "?saved#item-" + position;
    }

    private QuoteDocument draft(String number) {
        return QuoteItemPage.draft(quotes, number).document();
    }

    /** A note, or with an amount a price that was told. */
    @PostMapping("/notes")
    String note(
            @PathVariable String number, HttpServletRequest request, Locale locale, Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            Currency currency = shops.current().currency();
            QuoteNote note =
                    new QuoteNote(
                            null,
                            null,
                            form.text("/text"),
                            form.money("/toldNet", currency),
                            form.text("/toldTo"));
            form.throwIfUnread();
            history.note(number, note);
            return "redirect:/quotes/" + number + "?noted#history";
        } catch (InvalidInput e) {
            return desk.latest(number, form.refused(e), locale, model);
        }
    }
}
