package strokewright.takeoff;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
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
import java.util.function.UnaryOperator;
import org.springframework.stereotype.Component;
import org.springframework.ui.Model;
import strokewright.access.Shops;
import strokewright.estimate.FromShape;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;

/** What the pages on which an item is taken off have in common, whatever becomes of it. */
@Component
public class TakeOffDesk {

    /** Typed beside the take-off: whom it is for. */
    public static final String CUSTOMER = "/customer";

    /** Typed beside the take-off: what the market pays for one. */
    static final String MARKET_PRICE = "/" + PartFields.MARKET_PRICE.name();

    /** Typed beside the take-off, unseen: the version of the quote that it was opened from. */
    public static final String VERSION = "/version";

    /** A take-off can be reckoned without one, but no quote goes by without. */
    private static final String TITLE = "/title";

    private final ShopBooks books;
    private final TakeOffDrafts drafts;
    private final Shops shops;

    TakeOffDesk(ShopBooks books, TakeOffDrafts drafts, Shops shops) {
        this.books = books;
        this.drafts = drafts;
        this.shops = shops;
    }

    /**
     * One take-off that is worked on.
     *
     * @param place under which what is typed is kept
     * @param path of its page
     * @param saves what its main button says
     * @param startsOver what the button says that begins again
     * @param pricedWith the shop book with whatever holds for the quote that it belongs to
     */
    public record Sheet(
            String place,
            String path,
            String heading,
            String saves,
            String startsOver,
            UnaryOperator<ShopBook> pricedWith) {

        /** Of one that belongs to no quote yet. */
        public Sheet(String place, String path, String heading, String saves, String startsOver) {
            this(place, path, heading, saves, startsOver, UnaryOperator.identity());
        }
    }

    /** What an empty page begins with. */
    public TypedTakeOff begun() {
        return TypedTakeOff.begun(books.current());
    }

    /** A stored take-off as one would type it. */
    public TypedTakeOff again(TakeOff takeOff, Numbers numbers) {
        return TakeOffTyping.of(takeOff, books.current(), numbers);
    }

    /**
     * @param unkept what the page begins with when nothing was typed there before
     */
    public String open(
            Sheet sheet, TypedTakeOff unkept, Arrival arrival, Locale locale, Model model) {
        Optional<TakeOffDrafts.Draft> draft = drafts.find(sheet.place);
        ShopBook book = sheet.pricedWith.apply(books.current());
        Numbers numbers = Numbers.of(locale);
        TypedTakeOff typed = draft.map(TakeOffDrafts.Draft::typed).orElse(unkept);
        Reckoned reckoned = Reckoned.of(typed, book, numbers);
        TakeOffViews views = new TakeOffViews(reckoned, book, numbers);
        model.addAttribute("heading", sheet.heading);
        model.addAttribute("view", views.view(sheet.path, null));
        ShapePanel.Maker shapes = new ShapePanel.Maker(sheet.path, book, numbers);
        model.addAttribute(
                "shape", shapes.of(typed, isOpen(typed), arrival == Arrival.WITHOUT_SHAPE));
        model.addAttribute("newShapes", shapes.all(TypedTakeOff.of(List.of())));
        model.addAttribute("newPart", views.newPart());
        model.addAttribute("newLines", views.newLines());
        model.addAttribute("newSegment", views.newSegment());
        model.addAttribute("newBend", views.newBend());
        model.addAttribute("newAssemblyLine", views.newAssemblyLine());
        model.addAttribute("newExtra", views.newExtra());
        model.addAttribute("page", UUID.randomUUID().toString());
        model.addAttribute("customer", typed.at(CUSTOMER));
        model.addAttribute("titleMissing", arrival == Arrival.NOT_SAVED && typed.isEmpty(TITLE));
        model.addAttribute("version", typed.at(VERSION));
        model.addAttribute("notSaved", arrival == Arrival.NOT_SAVED);
        model.addAttribute(
                "kept",
                arrival == Arrival.LATER ? draft.map(d -> day(d.keptAt())).orElse(null) : null);
        model.addAttribute("saves", sheet.saves);
        model.addAttribute("startsOver", sheet.startsOver);
        model.addAttribute("before", drafts.hasBefore(sheet.place));
        model.addAttribute("otherRoutes", true);
        Object fault = model.getAttribute("insteadFault");
        model.addAttribute(
                "instead",
                new InsteadPanel.Maker(sheet.path + InsteadPanel.PATH, reckoned, book, numbers)
                        .panel(fault == null ? null : fault.toString()));
        return "takeoff/take-off";
    }

    /** How somebody comes to the page. */
    public enum Arrival {
        LATER,
        FROM_A_BUTTON,
        /** A shape was to be added that is none. */
        WITHOUT_SHAPE,
        NOT_SAVED;

        public static Arrival of(Optional<String> typed, Optional<String> unsaved) {
            if (unsaved.isPresent()) {
                return NOT_SAVED;
            }
            return typed.map(how -> how.equals("shape") ? WITHOUT_SHAPE : FROM_A_BUTTON)
                    .orElse(LATER);
        }
    }

    /** The answer to a key: keeps what was typed and reckons it. */
    public String reckon(Sheet sheet, HttpServletRequest request, Locale locale, Model model) {
        TypedTakeOff typed = typed(request);
        Instant kept = drafts.keep(sheet.place, page(request), turn(request), typed);
        ShopBook book = sheet.pricedWith.apply(books.current());
        Numbers numbers = Numbers.of(locale);
        TakeOffViews views = new TakeOffViews(Reckoned.of(typed, book, numbers), book, numbers);
        model.addAttribute("result", views.result(time(kept)));
        TakeOffViews.Told told = views.told();
        model.addAttribute("slots", told.slots());
        model.addAttribute("proposed", told.proposed());
        return "takeoff/take-off-parts :: answer";
    }

    /**
     * Adds the typed shape, or tells what is wrong with it. Keeps the take-off either way.
     *
     * @return the rows that are new and the panel, empty again; or the panel alone with its faults
     */
    public String shape(
            Sheet sheet,
            HttpServletRequest request,
            HttpServletResponse answer,
            Locale locale,
            Model model) {
        TypedTakeOff typed = typed(request);
        ShopBook book = sheet.pricedWith.apply(books.current());
        Numbers numbers = Numbers.of(locale);
        ShapePanel.Maker panels = new ShapePanel.Maker(sheet.path, book, numbers);
        ShapeReading.Read read = ShapeReading.read(typed, book, numbers);
        if (!read.faults().isEmpty()) {
            drafts.keep(sheet.place, page(request), turn(request), typed);
            answer.setHeader("HX-Retarget", "#shape");
            answer.setHeader("HX-Reswap", "outerHTML");
            model.addAttribute("shape", panels.of(typed, true, true));
            return "takeoff/take-off-shape :: refused";
        }
        FromShape made = FromShape.of(read.shape(), book);
        ShapeAdding added = ShapeAdding.of(typed, made, book, numbers, highestKey(request));
        drafts.keep(sheet.place, page(request), turn(request), added.typed());
        TakeOffViews views =
                new TakeOffViews(Reckoned.of(added.typed(), book, numbers), book, numbers);
        model.addAttribute("parts", views.parts(added.parts()));
        model.addAttribute("lines", views.assembly(added.lines()));
        model.addAttribute(
                "replaced",
                added.replaced() == null ? null : TakeOffViews.id("row", added.replaced()));
        model.addAttribute(
                "shape", panels.of(added.typed(), false, false).added(made.notes(), numbers));
        return "takeoff/take-off-shape :: added";
    }

    /** Of all rows that the page has had; an undone removal brings its own key back. */
    private static int highestKey(HttpServletRequest request) {
        String key = request.getParameter("highestKey");
        return key != null && key.matches("\\d{1,8}") ? Integer.parseInt(key) : 0;
    }

    /** Where nothing else is typed yet, or a shape is half typed. */
    private static boolean isOpen(TypedTakeOff typed) {
        return ShapeAdding.isHalfTyped(typed)
                || typed.rows("/parts").stream()
                        .allMatch(part -> ShapeAdding.isUntouched(typed, part));
    }

    /** Everything that the page's buttons do without a script, saving apart. */
    public String act(Sheet sheet, String action, HttpServletRequest request, Locale locale) {
        if (action.equals("add-shape")) {
            return addShape(sheet, typed(request), Numbers.of(locale));
        }
        keep(sheet, TakeOffActions.of(action).apply(typed(request)));
        if (action.equals("routes")) {
            return "redirect:" + sheet.path + TakeOffDrafts.ROUTES;
        }
        if (action.equals("fresh")) {
            drafts.putAside(sheet.place);
        } else if (action.equals("before")) {
            drafts.bringBack(sheet.place);
        }
        return "redirect:" + sheet.path + "?typed";
    }

    private String addShape(Sheet sheet, TypedTakeOff typed, Numbers numbers) {
        ShopBook book = sheet.pricedWith.apply(books.current());
        ShapeReading.Read read = ShapeReading.read(typed, book, numbers);
        if (!read.faults().isEmpty()) {
            keep(sheet, typed);
            return "redirect:" + sheet.path + "?typed=shape";
        }
        FromShape made = FromShape.of(read.shape(), book);
        keep(sheet, ShapeAdding.of(typed, made, book, numbers, 0).typed());
        return "redirect:" + sheet.path + "?typed";
    }

    /**
     * What can be saved: complete, and with a title.
     *
     * @return nothing where something is missing or wrong; it is kept, and the page says what
     */
    public Optional<Reckoned> complete(Sheet sheet, HttpServletRequest request, Locale locale) {
        TypedTakeOff typed = typed(request);
        keep(sheet, typed);
        Reckoned reckoned =
                Reckoned.of(typed, sheet.pricedWith.apply(books.current()), Numbers.of(locale));
        return Optional.of(reckoned).filter(r -> r.complete() && !typed.isEmpty(TITLE));
    }

    public String notSaved(Sheet sheet) {
        return "redirect:" + sheet.path + "?unsaved";
    }

    public void done(Sheet sheet) {
        drafts.forget(sheet.place);
    }

    public void keep(Sheet sheet, TypedTakeOff typed) {
        drafts.keep(sheet.place, UUID.randomUUID().toString(), 0, typed);
    }

    /** From the page that the request comes from. */
    void keep(Sheet sheet, HttpServletRequest request, TypedTakeOff typed) {
        drafts.keep(sheet.place, page(request), turn(request), typed);
    }

    public static TypedTakeOff typed(HttpServletRequest request) {
        List<Map.Entry<String, String>> fields = new ArrayList<>();
        request.getParameterMap().forEach((name, values) -> fields.add(Map.entry(name, values[0])));
        return TypedTakeOff.of(fields);
    }

    /** Which opening of the page a request comes from. */
    public static String page(HttpServletRequest request) {
        String page = String.valueOf(request.getParameter("page"));
        return page.length() <= 40 ? page : page.substring(0, 40);
    }

    private static long turn(HttpServletRequest request) {
        String turn = request.getParameter("turn");
        return turn != null && turn.matches("\\d{1,18}") ? Long.parseLong(turn) : 0;
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
