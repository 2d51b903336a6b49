package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Shops;
import strokewright.estimate.ShopBook;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;

/** The page on which one item is taken off and priced while somebody types. */
@Controller
class TakeOffPage {

    private static final String NEW = "new";

    private final ShopBooks books;
    private final TakeOffDrafts drafts;
    private final Shops shops;

    TakeOffPage(ShopBooks books, TakeOffDrafts drafts, Shops shops) {
        this.books = books;
        this.drafts = drafts;
        this.shops = shops;
    }

    @GetMapping("/take-off")
    String open(@RequestParam Optional<String> typed, Locale locale, Model model) {
        Optional<TakeOffDrafts.Draft> draft = drafts.find(NEW);
        ShopBook book = books.current();
        Numbers numbers = Numbers.of(locale);
        Reckoned reckoned =
                Reckoned.of(
                        draft.map(TakeOffDrafts.Draft::typed).orElseGet(TypedTakeOff::begun),
                        book,
                        numbers);
        TakeOffViews views = new TakeOffViews(reckoned, book, numbers);
        model.addAttribute("heading", "Take-off");
        model.addAttribute("view", views.view("/take-off", null));
        model.addAttribute("newPart", views.newPart());
        model.addAttribute("newLines", views.newLines());
        model.addAttribute("newAssemblyLine", views.newAssemblyLine());
        model.addAttribute("newExtra", views.newExtra());
        model.addAttribute("page", UUID.randomUUID().toString());
        model.addAttribute("customer", reckoned.typed().at("/customer"));
        model.addAttribute(
                "kept", typed.isPresent() ? null : draft.map(d -> day(d.keptAt())).orElse(null));
        model.addAttribute("saves", "Save as quote");
        model.addAttribute("startsOver", "Start a fresh one");
        model.addAttribute("before", drafts.hasBefore(NEW));
        return "quote/take-off";
    }

    /** The answer to a key: keeps what was typed and reckons it. */
    @PostMapping("/take-off/estimate")
    String reckon(
            @RequestParam(defaultValue = "") String page,
            @RequestParam(defaultValue = "0") long turn,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedTakeOff typed = typed(request);
        Instant kept = drafts.keep(NEW, shortened(page), turn, typed);
        ShopBook book = books.current();
        Numbers numbers = Numbers.of(locale);
        Reckoned reckoned = Reckoned.of(typed, book, numbers);
        TakeOffViews views = new TakeOffViews(reckoned, book, numbers);
        model.addAttribute("result", views.result(time(kept)));
        model.addAttribute("slots", views.slots());
        return "quote/take-off-parts :: answer";
    }

    /** Everything that the page's buttons do without a script. */
    @PostMapping("/take-off")
    String act(
            @RequestParam(name = "do", defaultValue = "kept") String action,
            HttpServletRequest request) {
        TypedTakeOff typed = TakeOffActions.of(action).apply(typed(request));
        drafts.keep(NEW, UUID.randomUUID().toString(), 0, typed);
        if (action.equals("fresh")) {
            drafts.putAside(NEW);
        } else if (action.equals("before")) {
            drafts.bringBack(NEW);
        }
        return "redirect:/take-off?typed";
    }

    private static String shortened(String page) {
        return page.length() <= 40 ? page : page.substring(0, 40);
    }

    static TypedTakeOff typed(HttpServletRequest request) {
        List<Map.Entry<String, String>> fields = new ArrayList<>();
        request.getParameterMap().forEach((name, values) -> fields.add(Map.entry(name, values[0])));
        return TypedTakeOff.of(fields);
    }

    private String time(Instant instant) {
        return DateTimeFormatter.ofPattern("HH:mm:ss").format(local(instant));
    }

    private String day(Instant instant) {
        ZonedDateTime then = local(instant);
        String time = DateTimeFormatter.ofPattern("HH:mm").format(then);
        return then.toLocalDate().equals(LocalDate.now(then.getZone()))
                ? "today, " + time
                : then.toLocalDate() + ", " + time;
    }

    private ZonedDateTime local(Instant instant) {
        ZoneId zone = shops.current().timeZone();
        return instant.atZone(zone);
    }
}
