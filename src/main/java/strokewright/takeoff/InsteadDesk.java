package strokewright.takeoff;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import strokewright.estimate.Route;
import strokewright.estimate.ShopBook;
import strokewright.estimate.VariantComparison.Beside;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.TakeOffDesk.Sheet;
import strokewright.web.Numbers;

/**
 * What else an item on the desk could be: put beside its figures, taken over in its place, or kept
 * as another route.
 */
@Component
public class InsteadDesk {

    private static final Pattern ACTION =
            Pattern.compile("instead (add|remove|take|route)(?: (.*))?", Pattern.DOTALL);

    private final TakeOffDesk desk;
    private final TakeOffDrafts drafts;
    private final RouteDesk routes;
    private final ShopBooks books;

    InsteadDesk(TakeOffDesk desk, TakeOffDrafts drafts, RouteDesk routes, ShopBooks books) {
        this.desk = desk;
        this.drafts = drafts;
        this.routes = routes;
        this.books = books;
    }

    public static boolean isMeant(String action) {
        return ACTION.matcher(action).matches();
    }

    /** Takes the page's fields whatever else is asked; keeps them where anything changed. */
    public InsteadPanel answer(
            Sheet sheet, String action, HttpServletRequest request, Locale locale) {
        TypedTakeOff typed = TakeOffDesk.typed(request);
        Done done = done(sheet, typed, action, locale);
        if (!done.typed.equals(typed)) {
            desk.keep(sheet, request, done.typed);
        }
        return maker(sheet, done.typed, locale).panel(done.fault);
    }

    /** Other routes of the item as stored, and the version of the quote that they are stored in. */
    public record Stored(List<Route> routes, String version) {

        public static final Stored NONE = new Stored(List.of(), "");
    }

    /** What a button does that leads to another page, or is pressed without a script. */
    public String act(
            Sheet sheet,
            Stored stored,
            String action,
            HttpServletRequest request,
            Locale locale,
            RedirectAttributes next) {
        TypedTakeOff typed = TakeOffDesk.typed(request);
        desk.keep(sheet, typed);
        Matcher m = ACTION.matcher(action);
        if (m.matches() && (m.group(1).equals("take") || m.group(1).equals("route"))) {
            return taken(sheet, stored, typed, m, locale, next);
        }
        Done done = done(sheet, typed, action, locale);
        desk.keep(sheet, done.typed);
        if (done.fault != null) {
            next.addFlashAttribute("insteadFault", done.fault);
        }
        return "redirect:" + sheet.path() + "?typed";
    }

    private record Done(TypedTakeOff typed, @Nullable String fault) {}

    private Done done(Sheet sheet, TypedTakeOff typed, String action, Locale locale) {
        Matcher m = ACTION.matcher(action);
        if (!m.matches()) {
            return new Done(typed, null);
        }
        String what = m.group(2) == null ? "" : m.group(2);
        if (m.group(1).equals("remove")) {
            return new Done(InsteadPanel.removed(typed, what), null);
        }
        if (!m.group(1).equals("add")) {
            return new Done(typed, null);
        }
        String said = what.isEmpty() ? typed.at(InsteadPanel.NEXT) : what;
        String fault = maker(sheet, typed, locale).fault(said);
        return fault == null
                ? new Done(InsteadPanel.added(typed, said), null)
                : new Done(typed, fault);
    }

    private String taken(
            Sheet sheet,
            Stored stored,
            TypedTakeOff typed,
            Matcher action,
            Locale locale,
            RedirectAttributes next) {
        Numbers numbers = Numbers.of(locale);
        String key = String.valueOf(action.group(2));
        Optional<Beside> chosen = maker(sheet, typed, locale).taken(key);
        if (chosen.isEmpty()) {
            next.addFlashAttribute(
                    "insteadFault", "cannot be taken while something is missing or wrong");
            return "redirect:" + sheet.path() + "?typed";
        }
        String said = typed.at(InsteadPanel.LIST + "/" + key + "/said");
        TypedTakeOff made = desk.again(chosen.get().takeOff(), numbers);
        if (action.group(1).equals("take")) {
            drafts.copyAside(sheet.place());
            desk.keep(sheet, made.plus(beside(InsteadPanel.removed(typed, key))));
            next.addFlashAttribute("taken", said);
            return "redirect:" + sheet.path() + "?typed";
        }
        routes.workOn(sheet, stored.routes, stored.version, numbers);
        routes.add(sheet, new Route(said, chosen.get().takeOff()), numbers);
        return "redirect:" + sheet.path() + TakeOffDrafts.ROUTES;
    }

    /** What is typed beside the take-off itself. */
    private static List<Map.Entry<String, String>> beside(TypedTakeOff typed) {
        List<Map.Entry<String, String>> beside = new ArrayList<>(InsteadPanel.of(typed));
        for (String path :
                List.of(TakeOffDesk.CUSTOMER, TakeOffDesk.MARKET_PRICE, TakeOffDesk.VERSION)) {
            if (!typed.isEmpty(path)) {
                beside.add(Map.entry(path, typed.at(path)));
            }
        }
        return beside;
    }

    private InsteadPanel.Maker maker(Sheet sheet, TypedTakeOff typed, Locale locale) {
        ShopBook book = sheet.pricedWith().apply(books.current());
        Numbers numbers = Numbers.of(locale);
        return new InsteadPanel.Maker(
                sheet.path() + InsteadPanel.PATH, Reckoned.of(typed, book, numbers), book, numbers);
    }
}
