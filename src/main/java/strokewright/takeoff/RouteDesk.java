package strokewright.takeoff;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import strokewright.estimate.Route;
import strokewright.estimate.Routes;
import strokewright.estimate.ShopBook;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.TakeOffDesk.Sheet;
import strokewright.web.Numbers;

/**
 * The other routes of a take-off on the desk: a list of names, and for each a take-off that is kept
 * as it is typed, beside the one that it is another route of.
 */
@Component
public class RouteDesk {

    static final String UP_TO = "/upToQuantity";

    private static final String LIST = "/routes";
    private static final String NAME = "/name";

    private final TakeOffDrafts drafts;
    private final ShopBooks books;

    RouteDesk(TakeOffDrafts drafts, ShopBooks books) {
        this.drafts = drafts;
        this.books = books;
    }

    /**
     * One other route as it is typed.
     *
     * @param key of its page
     */
    public record Other(String key, String name, TypedTakeOff typed) {}

    /** What is worked on, or what is stored where nobody has begun to. */
    public List<Other> others(Sheet sheet, List<Route> stored, Numbers numbers) {
        Optional<TypedTakeOff> list = list(sheet);
        if (list.isEmpty()) {
            return typed(stored, numbers);
        }
        List<Other> others = new ArrayList<>();
        for (String row : list.get().rows(LIST)) {
            String key = row.substring(LIST.length() + 1);
            drafts.find(place(sheet, key))
                    .ifPresent(
                            d -> others.add(new Other(key, list.get().at(row + NAME), d.typed())));
        }
        return others;
    }

    private List<Other> typed(List<Route> stored, Numbers numbers) {
        List<Other> others = new ArrayList<>();
        for (Route route : stored) {
            others.add(
                    new Other(
                            "r" + (others.size() + 1),
                            route.name(),
                            TakeOffTyping.of(route.takeOff(), books.current(), numbers)));
        }
        return others;
    }

    /** The largest quantity to compare at, as typed. */
    public String upTo(Sheet sheet) {
        return list(sheet).map(l -> l.at(UP_TO)).orElse("");
    }

    /**
     * Begins to work on them: from now on what is typed counts, not what is stored.
     *
     * @param version of the quote that they are stored with; empty for none
     */
    public void workOn(Sheet sheet, List<Route> stored, String version, Numbers numbers) {
        if (list(sheet).isPresent()) {
            return;
        }
        TypedTakeOff list = TypedTakeOff.of(List.of()).with(TakeOffDesk.VERSION, version);
        for (Other other : typed(stored, numbers)) {
            list = list.with(row(other.key) + NAME, other.name);
            keep(place(sheet, other.key), other.typed);
        }
        keep(sheet.place() + LIST, list);
    }

    /**
     * A further one; its name is made different from the others'.
     *
     * @return its key, or nothing when there are as many as can be compared
     */
    public Optional<String> add(Sheet sheet, Route route, Numbers numbers) {
        TypedTakeOff list = list(sheet).orElseThrow();
        if (list.rows(LIST).size() >= Routes.MOST - 1) {
            return Optional.empty();
        }
        String key = list.freeKey('r');
        keep(place(sheet, key), TakeOffTyping.of(route.takeOff(), books.current(), numbers));
        keep(
                sheet.place() + LIST,
                distinct(list.with(row(key) + NAME, String.valueOf(route.name()))));
        return Optional.of(key);
    }

    public void remove(Sheet sheet, String key) {
        keep(sheet.place() + LIST, list(sheet).orElseThrow().withoutRow(row(key)));
        drafts.forget(place(sheet, key));
    }

    /** Takes over names and the largest quantity from a form that has them by their paths. */
    public void keepTyped(Sheet sheet, TypedTakeOff form) {
        TypedTakeOff list = list(sheet).orElseThrow();
        for (String row : list.rows(LIST)) {
            if (!form.isEmpty(row + NAME)) {
                list = list.with(row + NAME, form.at(row + NAME).strip());
            }
        }
        keep(sheet.place() + LIST, distinct(list.with(UP_TO, form.at(UP_TO).strip())));
    }

    private static TypedTakeOff distinct(TypedTakeOff list) {
        TypedTakeOff changed = list;
        Set<String> taken = new HashSet<>(Set.of(RoutesView.OWN));
        for (String row : list.rows(LIST)) {
            String name = list.at(row + NAME);
            String free = name;
            for (int i = 2; !taken.add(free); i++) {
                free = name + " " + i;
            }
            changed = changed.with(row + NAME, free);
        }
        return changed;
    }

    /**
     * What is to be saved with the item.
     *
     * @return nothing when one of them is not complete
     */
    public Optional<List<Route>> complete(Sheet sheet, List<Route> stored, Locale locale) {
        if (list(sheet).isEmpty()) {
            return Optional.of(stored);
        }
        ShopBook book = sheet.pricedWith().apply(books.current());
        Numbers numbers = Numbers.of(locale);
        List<Route> routes = new ArrayList<>();
        for (Other other : others(sheet, stored, numbers)) {
            Reckoned reckoned = Reckoned.of(other.typed, book, numbers);
            if (!reckoned.complete()) {
                return Optional.empty();
            }
            routes.add(new Route(other.name, reckoned.takeOff()));
        }
        return Optional.of(routes);
    }

    public static String unfinished(Sheet sheet) {
        return "redirect:" + sheet.path() + LIST + "?unfinished";
    }

    /**
     * Of the two versions that the item and its routes were opened from, the one that is not
     * current, so that no change of somebody else is overwritten.
     */
    public String older(Sheet sheet, String ofItem, String current) {
        String ofRoutes = list(sheet).map(l -> l.at(TakeOffDesk.VERSION)).orElse("");
        return ofRoutes.isEmpty() || ofRoutes.equals(current) ? ofItem : ofRoutes;
    }

    private Optional<TypedTakeOff> list(Sheet sheet) {
        return drafts.find(sheet.place() + LIST).map(TakeOffDrafts.Draft::typed);
    }

    private void keep(String place, TypedTakeOff typed) {
        drafts.keep(place, UUID.randomUUID().toString(), 0, typed);
    }

    private static String row(String key) {
        return LIST + "/" + key;
    }

    private static String place(Sheet sheet, String key) {
        return sheet.place() + LIST + "/" + key;
    }

    /** The take-off page of one of them; nothing when there is none under that key. */
    public Optional<Sheet> page(
            Sheet sheet, List<Route> stored, @Nullable String key, Numbers numbers) {
        return others(sheet, stored, numbers).stream()
                .filter(o -> o.key.equals(key))
                .findFirst()
                .map(
                        o ->
                                new Sheet(
                                        place(sheet, o.key),
                                        sheet.path() + LIST + "/" + o.key,
                                        "Route: " + o.name,
                                        "Side by side",
                                        "Start again from the take-off"));
    }
}
