package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
import strokewright.estimate.BegunRoute;
import strokewright.estimate.Route;
import strokewright.estimate.RouteStart;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.FindingWords;
import strokewright.takeoff.Reckoned;
import strokewright.takeoff.RouteDesk;
import strokewright.takeoff.RouteViews;
import strokewright.takeoff.RouteViews.Entry;
import strokewright.takeoff.RoutesView;
import strokewright.takeoff.TakeOffDesk;
import strokewright.takeoff.TakeOffDesk.Arrival;
import strokewright.takeoff.TakeOffDesk.Sheet;
import strokewright.takeoff.TakeOffDrafts;
import strokewright.takeoff.TypedTakeOff;
import strokewright.web.Numbers;
import strokewright.web.Problem;
import strokewright.web.Reading;

/**
 * Other routes of a new take-off or of a quote's item: side by side, and each on a take-off page of
 * its own.
 */
@Controller
@RequestMapping({"/take-off/routes", "/quotes/{number}/items/{position:[0-9]{1,4}}/routes"})
class RoutesPage {

    private final TakeOffDesk desk;
    private final TakeOffDrafts drafts;
    private final RouteDesk routes;
    private final Quotes quotes;
    private final ShopBooks books;

    RoutesPage(
            TakeOffDesk desk,
            TakeOffDrafts drafts,
            RouteDesk routes,
            Quotes quotes,
            ShopBooks books) {
        this.desk = desk;
        this.drafts = drafts;
        this.routes = routes;
        this.quotes = quotes;
        this.books = books;
    }

    /**
     * The take-off that the others are other routes of.
     *
     * @param stored other routes of the item, as saved
     * @param version of the quote; empty for a new take-off
     */
    private record Own(Sheet sheet, TypedTakeOff typed, List<Route> stored, String version) {}

    private Own own(@Nullable String number, @Nullable Integer position, Numbers numbers) {
        if (number == null || position == null) {
            return new Own(TakeOffPage.NEW, typed(TakeOffPage.NEW, desk.begun()), List.of(), "");
        }
        Quotes.Tagged found = QuoteItemPage.draft(quotes, number);
        Sheet sheet = QuoteItemPage.sheet(quotes, number, position);
        TypedTakeOff stored =
                QuoteItemPage.item(found.document(), position)
                        .map(item -> desk.again(item.takeOff(), numbers))
                        .orElseGet(desk::begun);
        return new Own(
                sheet,
                typed(sheet, stored),
                QuoteItemPage.alternatives(found.document(), position),
                found.version().toString());
    }

    private TypedTakeOff typed(Sheet sheet, TypedTakeOff otherwise) {
        return drafts.find(sheet.place()).map(TakeOffDrafts.Draft::typed).orElse(otherwise);
    }

    // Side by side ----------------------------------------------------------------------------

    @GetMapping
    String show(
            @PathVariable(required = false) @Nullable String number,
            @PathVariable(required = false) @Nullable Integer position,
            @RequestParam Optional<String> unfinished,
            Locale locale,
            Model model) {
        Numbers numbers = Numbers.of(locale);
        model.addAttribute("unfinished", unfinished.isPresent());
        if (number != null && position != null) {
            QuoteDocument quote = quotes.get(number).document();
            if (quote.state() != State.DRAFT) {
                return frozen(quote, position, numbers, model);
            }
        }
        Own own = own(number, position, numbers);
        ShopBook book = own.sheet.pricedWith().apply(books.current());
        List<Entry> entries = new ArrayList<>();
        entries.add(Entry.of(null, own.sheet.path(), RoutesView.OWN, own.typed, book, numbers));
        for (RouteDesk.Other other : routes.others(own.sheet, own.stored, numbers)) {
            entries.add(
                    Entry.of(
                            other.key(),
                            path(own.sheet) + "/" + other.key(),
                            other.name(),
                            other.typed(),
                            book,
                            numbers));
        }
        model.addAttribute("heading", heading(own.typed.at("/title"), own.sheet.heading()));
        model.addAttribute(
                "view",
                new RouteViews(book, numbers)
                        .view(path(own.sheet), false, entries, routes.upTo(own.sheet)));
        return "quote/routes";
    }

    /** As it was issued, with the shop book that it was priced with. */
    private String frozen(QuoteDocument quote, int position, Numbers numbers, Model model) {
        PricedItem item =
                QuoteItemPage.item(quote, position)
                        .orElseThrow(() -> Problem.notFound("Item " + position));
        List<Entry> entries = new ArrayList<>();
        String back = "/quotes/" + quote.number();
        entries.add(new Entry(null, back, RoutesView.OWN, item.takeOff(), ""));
        item.alternatives()
                .forEach(a -> entries.add(new Entry(null, back, a.name(), a.takeOff(), "")));
        model.addAttribute("heading", heading(item.title(), quote.number()));
        model.addAttribute(
                "view",
                new RouteViews(quote.pricedWith(books.edition(quote.shopBookEdition())), numbers)
                        .view(back, true, entries, ""));
        return "quote/routes";
    }

    private static String heading(String title, String otherwise) {
        return "Routes: " + (title.isBlank() ? otherwise : title.strip());
    }

    @PostMapping
    String act(
            @PathVariable(required = false) @Nullable String number,
            @PathVariable(required = false) @Nullable Integer position,
            @RequestParam(name = "do", defaultValue = "kept") String action,
            HttpServletRequest request,
            Locale locale,
            RedirectAttributes next) {
        Numbers numbers = Numbers.of(locale);
        Own own = own(number, position, numbers);
        routes.workOn(own.sheet, own.stored, own.version, numbers);
        routes.keepTyped(own.sheet, TakeOffDesk.typed(request));
        String back = "redirect:" + path(own.sheet);
        if (action.startsWith("remove ")) {
            routes.remove(own.sheet, action.substring("remove ".length()));
            return back;
        }
        if (!action.startsWith("begin ")) {
            return back;
        }
        try {
            return begin(own, action.substring("begin ".length()), request, numbers, next)
                    .map(key -> back + "/" + key + "?typed")
                    .orElse(back);
        } catch (InvalidInput e) {
            next.addFlashAttribute(
                    "refused",
                    e.faults().stream()
                            .map(f -> RouteViews.refused(f.pointer(), f.message()))
                            .toList());
            next.addFlashAttribute("asked", asked(request));
            return back;
        }
    }

    private Optional<String> begin(
            Own own,
            String kind,
            HttpServletRequest request,
            Numbers numbers,
            RedirectAttributes next) {
        ShopBook book = own.sheet.pricedWith().apply(books.current());
        Reckoned reckoned = Reckoned.of(own.typed, book, numbers);
        if (!reckoned.complete()) {
            throw new InvalidInput("/start/part", "the take-off is not complete yet");
        }
        TakeOff takeOff = reckoned.takeOff();
        if (kind.equals("same")) {
            return routes.add(own.sheet, new Route("Another way", takeOff), numbers);
        }
        BegunRoute begun =
                BegunRoute.of(takeOff, new Asked(request, numbers, book).start(kind), book);
        FindingWords words = new FindingWords(numbers);
        next.addFlashAttribute(
                "routeNotes",
                begun.notes().stream()
                        .map(words::tell)
                        // a session holds nothing but what any version of the service can read
                        .map(told -> Map.of("style", told.style(), "text", told.text()))
                        .toList());
        return routes.add(own.sheet, begun.route(), numbers);
    }

    private static Map<String, String> asked(HttpServletRequest request) {
        Map<String, String> asked = new HashMap<>();
        request.getParameterMap()
                .forEach(
                        (name, values) -> {
                            if (name.matches("[a-z-]{1,40}")) {
                                asked.put(name, values[0]);
                            }
                        });
        return asked;
    }

    /** The few fields of a start, as typed. */
    private record Asked(HttpServletRequest request, Numbers numbers, ShopBook book) {

        RouteStart start(String kind) {
            return switch (kind) {
                case "segments" ->
                        new RouteStart.SegmentsWelded(
                                whole("segments-part", "part"),
                                whole("segments", "segments"),
                                closed(),
                                length(),
                                joints());
                case "heat" ->
                        new RouteStart.HeatShrunkByHand(
                                whole("heat-part", "part"), text("heat-standard"));
                case "press" ->
                        new RouteStart.PressTool(
                                whole("press-part", "part"),
                                text("press-standard"),
                                cost(),
                                whole("press-life", "lifePieces"),
                                whole("press-lead", "leadTimeDays"));
                default -> throw new InvalidInput("/start/part", "is begun in no such way");
            };
        }

        private @Nullable String text(String name) {
            String text = request.getParameter(name);
            return text == null || text.isBlank() ? null : text.strip();
        }

        private @Nullable Integer whole(String name, String field) {
            return read(numbers.whole(text(name)), field).asInteger();
        }

        private @Nullable Double length() {
            return read(numbers.lengthMm(text("segments-trim")), "trimMm").asDouble();
        }

        private @Nullable Money cost() {
            Reading read = read(numbers.number(text("press-cost")), "cost");
            return read.value() == null ? null : new Money(read.value(), book.currency());
        }

        private @Nullable Boolean closed() {
            String chosen = text("segments-closed");
            return chosen == null ? null : Boolean.valueOf(chosen.equals("yes"));
        }

        /** None ticked is none, not the usual ones. */
        private List<String> joints() {
            String[] chosen = request.getParameterValues("segments-joint");
            return chosen == null ? List.of() : List.of(chosen);
        }

        private static Reading read(Reading read, String field) {
            if (read.fault() != null) {
                throw new InvalidInput("/start/" + field, read.fault());
            }
            return read;
        }
    }

    // One of them -----------------------------------------------------------------------------

    @GetMapping("/{key:r[0-9]{1,6}}")
    String open(
            @PathVariable(required = false) @Nullable String number,
            @PathVariable(required = false) @Nullable Integer position,
            @PathVariable String key,
            @RequestParam Optional<String> typed,
            Locale locale,
            Model model) {
        Numbers numbers = Numbers.of(locale);
        Own own = own(number, position, numbers);
        Sheet page = page(own, key, numbers);
        TypedTakeOff unkept =
                routes.others(own.sheet, own.stored, numbers).stream()
                        .filter(o -> o.key().equals(key))
                        .map(RouteDesk.Other::typed)
                        .findFirst()
                        .orElseThrow();
        String view = desk.open(page, unkept, Arrival.of(typed, Optional.empty()), locale, model);
        model.addAttribute("otherRoutes", false);
        model.addAttribute("instead", null); // it is one already
        return view;
    }

    @PostMapping("/{key:r[0-9]{1,6}}/estimate")
    String reckon(
            @PathVariable(required = false) @Nullable String number,
            @PathVariable(required = false) @Nullable Integer position,
            @PathVariable String key,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        return desk.reckon(workedOn(number, position, key, locale), request, locale, model);
    }

    @PostMapping("/{key:r[0-9]{1,6}}/shape")
    String shape(
            @PathVariable(required = false) @Nullable String number,
            @PathVariable(required = false) @Nullable Integer position,
            @PathVariable String key,
            HttpServletRequest request,
            HttpServletResponse answer,
            Locale locale,
            Model model) {
        return desk.shape(workedOn(number, position, key, locale), request, answer, locale, model);
    }

    @PostMapping("/{key:r[0-9]{1,6}}")
    String act(
            @PathVariable(required = false) @Nullable String number,
            @PathVariable(required = false) @Nullable Integer position,
            @PathVariable String key,
            @RequestParam(name = "do", defaultValue = "kept") String action,
            HttpServletRequest request,
            Locale locale) {
        Numbers numbers = Numbers.of(locale);
        Sheet page = workedOn(number, position, key, locale);
        if (action.equals("save") || action.equals("routes")) {
            desk.act(page, "kept", request, locale);
            return "redirect:" + path(own(number, position, numbers).sheet);
        }
        String next = desk.act(page, action, request, locale);
        if (action.equals("fresh")) {
            desk.keep(page, own(number, position, numbers).typed);
        }
        return next;
    }

    private Sheet workedOn(
            @Nullable String number, @Nullable Integer position, String key, Locale locale) {
        Numbers numbers = Numbers.of(locale);
        Own own = own(number, position, numbers);
        routes.workOn(own.sheet, own.stored, own.version, numbers);
        return page(own, key, numbers);
    }

    private Sheet page(Own own, String key, Numbers numbers) {
        return routes.page(own.sheet, own.stored, key, numbers)
                .orElseThrow(() -> Problem.notFound("Route " + key));
    }

    private static String path(Sheet sheet) {
        return sheet.path() + TakeOffDrafts.ROUTES;
    }
}
