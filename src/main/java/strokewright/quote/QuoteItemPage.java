package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import strokewright.estimate.Route;
import strokewright.takeoff.InsteadDesk;
import strokewright.takeoff.Reckoned;
import strokewright.takeoff.RouteDesk;
import strokewright.takeoff.TakeOffDesk;
import strokewright.takeoff.TakeOffDesk.Arrival;
import strokewright.takeoff.TakeOffDesk.Sheet;
import strokewright.takeoff.TypedTakeOff;
import strokewright.web.Numbers;
import strokewright.web.Problem;

/** The take-off page for an item of a draft, or for a further one. */
@Controller
@RequestMapping("/quotes/{number}/items/{position:[0-9]{1,4}}")
class QuoteItemPage {

    private final TakeOffDesk desk;
    private final Quotes quotes;
    private final RouteDesk routes;
    private final InsteadDesk instead;
    private final ForWhom whom;

    QuoteItemPage(
            TakeOffDesk desk, Quotes quotes, RouteDesk routes, InsteadDesk instead, ForWhom whom) {
        this.desk = desk;
        this.quotes = quotes;
        this.routes = routes;
        this.instead = instead;
        this.whom = whom;
    }

    @GetMapping
    String open(
            @PathVariable String number,
            @PathVariable int position,
            @RequestParam Optional<String> typed,
            @RequestParam Optional<String> unsaved,
            Locale locale,
            Model model) {
        Quotes.Tagged found = draft(number);
        TypedTakeOff stored =
                item(found.document(), position)
                        .map(item -> desk.again(item.takeOff(), Numbers.of(locale)))
                        .orElseGet(desk::begun)
                        .with(TakeOffDesk.CUSTOMER, found.document().customer().name())
                        .with(TakeOffDesk.VERSION, found.version().toString());
        Arrival arrival = Arrival.of(typed, unsaved);
        String view = desk.open(sheet(number, position), stored, arrival, locale, model);
        whom.ask(arrival, model);
        return view;
    }

    @PostMapping("/estimate")
    String reckon(
            @PathVariable String number,
            @PathVariable int position,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        return desk.reckon(sheet(number, position), request, locale, model);
    }

    @PostMapping
    String act(
            @PathVariable String number,
            @PathVariable int position,
            @RequestParam(name = "do", defaultValue = "kept") String action,
            HttpServletRequest request,
            Locale locale,
            RedirectAttributes next) {
        Sheet sheet = sheet(number, position);
        if (InsteadDesk.isMeant(action)) {
            return instead.act(sheet, stored(number, position), action, request, locale, next);
        }
        if (action.equals("fresh")) {
            desk.done(sheet);
            return "redirect:" + sheet.path();
        }
        if (!action.equals("save")) {
            return desk.act(sheet, action, request, locale);
        }
        return desk.complete(sheet, request, locale)
                .filter(ForWhom::isSaid)
                .map(reckoned -> saved(sheet, number, position, reckoned, locale))
                .orElseGet(() -> desk.notSaved(sheet));
    }

    private String saved(
            Sheet sheet, String number, int position, Reckoned reckoned, Locale locale) {
        Quotes.Tagged found = draft(number);
        QuoteDocument quote = found.document();
        Optional<List<Route>> alternatives =
                routes.complete(sheet, alternatives(quote, position), locale);
        if (alternatives.isEmpty()) {
            return RouteDesk.unfinished(sheet);
        }
        quotes.change(
                number,
                changed(quote, position, reckoned, alternatives.get()),
                routes.older(
                        sheet,
                        reckoned.typed().at(TakeOffDesk.VERSION),
                        found.version().toString()));
        desk.done(sheet);
        return "redirect:/quotes/" + number;
    }

    private InsteadDesk.Stored stored(String number, int position) {
        Quotes.Tagged found = draft(number);
        return new InsteadDesk.Stored(
                alternatives(found.document(), position), found.version().toString());
    }

    static List<Route> alternatives(QuoteDocument quote, int position) {
        return item(quote, position).map(PricedItem::alternatives).orElse(List.of());
    }

    private static QuoteRequest changed(
            QuoteDocument quote, int position, Reckoned reckoned, List<Route> alternatives) {
        List<QuoteRequest.Item> items = new ArrayList<>();
        for (PricedItem item : quote.items()) {
            if (item.position() != position) {
                items.add(QuoteRequest.Item.of(item));
            }
        }
        Optional<PricedItem> before = item(quote, position);
        items.add(
                new QuoteRequest.Item(
                        position,
                        before.map(QuoteItemPage::ownTitle).orElse(null),
                        before.map(PricedItem::option).orElse(false),
                        reckoned.takeOff(),
                        alternatives));
        items.sort(Comparator.comparing(QuoteRequest.Item::position));
        String customer = reckoned.typed().at(TakeOffDesk.CUSTOMER).strip();
        boolean sameTitle = quote.title().equals(quote.items().get(0).title());
        boolean sameCustomer = customer.equals(quote.customer().name());
        return new QuoteRequest(
                sameCustomer
                        ? new CustomerChoice(quote.customer().id(), null, null)
                        : CustomerChoice.named(customer),
                sameCustomer ? quote.contact() : null,
                sameTitle ? null : quote.title(),
                sameCustomer ? quote.terms() : quote.terms().forAnotherCustomer(),
                items);
    }

    /** One that the item was given beside its take-off's. */
    private static @Nullable String ownTitle(PricedItem item) {
        return item.title().equals(item.takeOff().title()) ? null : item.title();
    }

    private Quotes.Tagged draft(String number) {
        return draft(quotes, number);
    }

    static Quotes.Tagged draft(Quotes quotes, String number) {
        Quotes.Tagged found = quotes.get(number);
        if (found.document().state() != State.DRAFT) {
            throw Problem.wrongState("Quote " + number + " is issued and never changes.");
        }
        return found;
    }

    static Optional<PricedItem> item(QuoteDocument quote, int position) {
        return quote.items().stream().filter(item -> item.position() == position).findFirst();
    }

    private Sheet sheet(String number, int position) {
        return sheet(quotes, number, position);
    }

    static Sheet sheet(Quotes quotes, String number, int position) {
        String path = "/quotes/" + number + "/items/" + position;
        return new Sheet(
                path.substring(1),
                path,
                number + ", item " + position,
                "Save into " + number,
                "Back to what is saved",
                quotes.terms(number)::applied);
    }
}
