package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.TypedForm;

/** The papers of a quote, to be downloaded. */
@Controller
@RequestMapping("/quotes/{number}")
class PapersPage {

    private static final String ITEMS = "/items/";

    private final Quotes quotes;
    private final QuoteFiles files;

    PapersPage(Quotes quotes, QuoteFiles files) {
        this.quotes = quotes;
        this.files = files;
    }

    /**
     * One item of the order.
     *
     * @param field under which its quantity is typed
     */
    record Deliverable(String field, String label, int ordered) {}

    @GetMapping("/revisions/{n}/pdf")
    ResponseEntity<byte[]> pdf(@PathVariable String number, @PathVariable int n) {
        return files.pdf(quotes.revision(number, n));
    }

    @GetMapping("/revisions/{n}/mail")
    ResponseEntity<byte[]> mail(@PathVariable String number, @PathVariable int n) {
        return files.mail(quotes.revision(number, n));
    }

    @GetMapping("/confirmation/mail")
    ResponseEntity<byte[]> confirmationMail(@PathVariable String number) {
        return files.confirmationMail(quotes.get(number).document());
    }

    @GetMapping("/confirmation")
    ResponseEntity<byte[]> confirmation(@PathVariable String number) {
        return files.confirmation(quotes.get(number).document());
    }

    @GetMapping("/delivery-note")
    String deliveryNote(@PathVariable String number, Locale locale, Model model) {
        QuoteDocument quote = quotes.get(number).document();
        TypedForm form =
                new TypedForm(Numbers.of(locale)).show("/delivery", 1).show("/date", files.today());
        for (Order.Line line : OrderPaper.orderOf(quote).items()) {
            form.show(field(line), line.quantity());
        }
        return page(quote, form, model);
    }

    /** Answers with the file, or with the page where something cannot be read. */
    @PostMapping("/delivery-note")
    Object deliveryNote(
            @PathVariable String number, HttpServletRequest request, Locale locale, Model model) {
        QuoteDocument quote = quotes.get(number).document();
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            Delivering delivering = delivering(OrderPaper.orderOf(quote), form);
            form.throwIfUnread();
            return files.deliveryNote(quote, delivering);
        } catch (InvalidInput e) {
            return page(quote, form.refused(e), model);
        }
    }

    private static Delivering delivering(Order order, TypedForm form) {
        List<Delivering.Item> items = new ArrayList<>();
        for (Order.Line line : order.items()) {
            Integer typed = form.whole(field(line));
            if (typed != null && typed > line.quantity()) {
                throw new InvalidInput(
                        field(line),
                        "must be at most " + line.quantity() + ", as many as were ordered");
            }
            if (typed != null && typed < 0) {
                throw new InvalidInput(field(line), "must be at least 0");
            }
            if (typed != null && typed > 0) {
                items.add(new Delivering.Item(line.position(), typed));
            }
        }
        if (items.isEmpty()) {
            throw new InvalidInput("/items", "is missing: something must go out");
        }
        return new Delivering(form.whole("/delivery"), form.date("/date"), items);
    }

    private static String page(QuoteDocument quote, TypedForm form, Model model) {
        model.addAttribute("form", form.holds("/items"));
        model.addAttribute("quote", quote);
        model.addAttribute(
                "items",
                OrderPaper.orderOf(quote).items().stream()
                        .map(
                                line ->
                                        new Deliverable(
                                                field(line),
                                                line.position()
                                                        + ". "
                                                        + title(quote, line.position()),
                                                line.quantity()))
                        .toList());
        return "quote/delivery-note";
    }

    private static String title(QuoteDocument quote, int position) {
        return quote.items().stream()
                .filter(item -> item.position() == position)
                .map(PricedItem::title)
                .findFirst()
                .orElse("");
    }

    private static String field(Order.Line line) {
        return ITEMS + line.position();
    }
}
