package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import strokewright.estimate.Route;
import strokewright.takeoff.InsteadDesk;
import strokewright.takeoff.Reckoned;
import strokewright.takeoff.RouteDesk;
import strokewright.takeoff.TakeOffDesk;
import strokewright.takeoff.TakeOffDesk.Arrival;
import strokewright.takeoff.TakeOffDesk.Sheet;
import strokewright.web.Once;

/** The page on which one item is taken off and priced while somebody types; it becomes a quote. */
@Controller
class TakeOffPage {

    static final Sheet NEW =
            new Sheet("new", "/take-off", "Take-off", "Save as quote", "Start a fresh one");

    private final TakeOffDesk desk;
    private final Quotes quotes;
    private final Once once;
    private final RouteDesk routes;
    private final InsteadDesk instead;
    private final ForWhom whom;

    TakeOffPage(
            TakeOffDesk desk,
            Quotes quotes,
            Once once,
            RouteDesk routes,
            InsteadDesk instead,
            ForWhom whom) {
        this.desk = desk;
        this.quotes = quotes;
        this.once = once;
        this.routes = routes;
        this.instead = instead;
        this.whom = whom;
    }

    @GetMapping("/take-off")
    String open(
            @RequestParam Optional<String> typed,
            @RequestParam Optional<String> unsaved,
            Locale locale,
            Model model) {
        Arrival arrival = Arrival.of(typed, unsaved);
        String view = desk.open(NEW, desk.begun(), arrival, locale, model);
        whom.ask(arrival, model);
        return view;
    }

    @PostMapping("/take-off/estimate")
    String reckon(HttpServletRequest request, Locale locale, Model model) {
        return desk.reckon(NEW, request, locale, model);
    }

    @PostMapping("/take-off")
    String act(
            @RequestParam(name = "do", defaultValue = "kept") String action,
            HttpServletRequest request,
            Locale locale,
            RedirectAttributes next) {
        if (InsteadDesk.isMeant(action)) {
            return instead.act(NEW, InsteadDesk.Stored.NONE, action, request, locale, next);
        }
        if (!action.equals("save")) {
            return desk.act(NEW, action, request, locale);
        }
        return desk.complete(NEW, request, locale)
                .filter(ForWhom::isSaid)
                .map(reckoned -> saved(reckoned, TakeOffDesk.page(request), locale))
                .orElseGet(() -> desk.notSaved(NEW));
    }

    /** A second press of the button, or a resent form, leads to the same quote. */
    private String saved(Reckoned reckoned, String page, Locale locale) {
        Optional<List<Route>> alternatives = routes.complete(NEW, List.of(), locale);
        if (alternatives.isEmpty()) {
            return RouteDesk.unfinished(NEW);
        }
        String said = page + reckoned.typed();
        UUID key = UUID.nameUUIDFromBytes(said.getBytes(StandardCharsets.UTF_8));
        ResponseEntity<byte[]> answer =
                once.answer(
                        "page-" + key,
                        "POST /take-off",
                        reckoned.takeOff(),
                        () ->
                                ResponseEntity.created(
                                                URI.create(create(reckoned, alternatives.get())))
                                        .build());
        desk.done(NEW);
        return "redirect:" + answer.getHeaders().getFirst(HttpHeaders.LOCATION);
    }

    private String create(Reckoned reckoned, List<Route> alternatives) {
        String customer = reckoned.typed().at(TakeOffDesk.CUSTOMER);
        return "/quotes/" + quotes.begin(customer, null, reckoned.takeOff(), alternatives);
    }
}
