package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.BegunRoute;
import strokewright.estimate.Route;
import strokewright.estimate.RouteComparison;
import strokewright.estimate.RouteComparison.BreakEven;
import strokewright.estimate.RouteComparison.Cheapest;
import strokewright.estimate.RouteStart;
import strokewright.estimate.Routes;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;
import strokewright.takeoff.RoutesView.Cell;
import strokewright.takeoff.RoutesView.Column;
import strokewright.takeoff.RoutesView.Group;
import strokewright.takeoff.RoutesView.PartChoice;
import strokewright.takeoff.RoutesView.StandardChoice;
import strokewright.web.Numbers;
import strokewright.web.Reading;

/** Makes the view of a take-off and its other routes. */
public final class RouteViews {

    private static final int MOST_SENTENCES = 12;

    private final ShopBook book;
    private final Numbers numbers;
    private final FindingWords words;

    public RouteViews(ShopBook book, Numbers numbers) {
        this.book = book;
        this.numbers = numbers;
        this.words = new FindingWords(numbers);
    }

    /**
     * @param key null for the take-off's own way
     * @param takeOff null while it is not complete
     * @param lacks what is still missing, in words
     */
    public record Entry(
            @Nullable String key,
            String path,
            String name,
            @Nullable TakeOff takeOff,
            String lacks) {

        public static Entry of(
                @Nullable String key,
                String path,
                String name,
                TypedTakeOff typed,
                ShopBook book,
                Numbers numbers) {
            Reckoned reckoned = Reckoned.of(typed, book, numbers);
            if (reckoned.complete()) {
                return new Entry(key, path, name, reckoned.takeOff(), "");
            }
            TakeOffViews views = new TakeOffViews(reckoned, book, numbers);
            String lacks =
                    views.result(null).faults().stream()
                            .map(f -> f.where() + " " + f.message())
                            .findFirst()
                            .orElse("something is missing");
            return new Entry(key, path, name, null, lacks);
        }
    }

    /**
     * @param entries the take-off's own way first
     * @param upTo as typed
     */
    public RoutesView view(String path, boolean frozen, List<Entry> entries, String upTo) {
        List<String> trouble = new ArrayList<>();
        Routes routes = compared(entries, upTo, trouble);
        RouteComparison comparison = routes == null ? null : routes.comparison();
        List<Column> columns = new ArrayList<>();
        for (Entry entry : entries) {
            columns.add(column(entry, columns.size(), comparison));
        }
        TakeOff own = entries.get(0).takeOff;
        List<String> letters =
                columns.stream().filter(c -> c.feasible() != null).map(Column::letter).toList();
        return new RoutesView(
                entries.get(0).path,
                path,
                frozen,
                String.valueOf(book.currency()),
                columns,
                own == null || comparison == null ? List.of() : groups(own, entries, comparison),
                comparison == null || own == null
                        ? null
                        : new RouteChart(numbers, String.valueOf(book.currency()))
                                .drawn(routes, comparison, letters, own.quantities(), "routes"),
                comparison == null ? List.of() : breakEvens(comparison),
                comparison == null ? List.of() : cheapest(comparison),
                trouble,
                upTo,
                parts(own, RouteStart.SegmentsWelded.class),
                parts(own, RouteStart.HeatShrunkByHand.class),
                parts(own, RouteStart.PressTool.class),
                standards(
                        u -> u == ShopBook.Unit.METRE || u == ShopBook.Unit.JOINT,
                        book.routes().jointStandards()),
                standards(
                        u -> u == ShopBook.Unit.METRE, listed(book.routes().heatShrinkStandard())),
                standards(u -> u == ShopBook.Unit.PIECE, listed(book.routes().pressStandard())),
                numbers.typed(book.routes().jointTrimMm()));
    }

    private @Nullable Routes compared(List<Entry> entries, String upTo, List<String> trouble) {
        List<Route> complete =
                entries.stream()
                        .filter(e -> e.takeOff != null)
                        .map(e -> new Route(e.name, e.takeOff))
                        .toList();
        Reading largest = numbers.whole(upTo);
        if (largest.fault() != null) {
            trouble.add("Up to quantity: " + largest.fault());
        }
        if (complete.size() < Routes.FEWEST || entries.get(0).takeOff == null) {
            return null;
        }
        try {
            return Routes.compare(complete, largest.asInteger(), book);
        } catch (InvalidInput e) {
            e.faults()
                    .forEach(
                            f ->
                                    trouble.add(
                                            f.pointer().equals("/upToQuantity")
                                                    ? "Up to quantity " + f.message()
                                                    : f.message()));
            return upTo.isEmpty() ? null : compared(entries, "", new ArrayList<>());
        }
    }

    private Column column(Entry entry, int index, @Nullable RouteComparison comparison) {
        RouteComparison.Curve curve = comparison == null ? null : curve(comparison, entry);
        return new Column(
                entry.key,
                entry.path,
                String.valueOf((char) ('A' + index)),
                entry.name,
                entry.lacks,
                curve == null ? null : curve.feasible(),
                curve == null
                        ? List.of()
                        : curve.findings().stream()
                                .filter(f -> f.severity() != Severity.NOTE)
                                .map(words::tell)
                                .toList(),
                curve == null || curve.leadTimeDays() == null
                        ? ""
                        : numbers.show(curve.leadTimeDays())
                                + (curve.leadTimeDays() == 1 ? " day" : " days"));
    }

    private static RouteComparison.@Nullable Curve curve(RouteComparison comparison, Entry entry) {
        return comparison.routes().stream()
                .filter(c -> c.name().equals(entry.name))
                .findFirst()
                .orElse(null);
    }

    private List<Group> groups(TakeOff own, List<Entry> entries, RouteComparison comparison) {
        List<Group> groups = new ArrayList<>();
        for (int quantity : own.quantities()) {
            List<RouteComparison.At> at = new ArrayList<>();
            Money least = null;
            for (Entry entry : entries) {
                RouteComparison.Curve curve = curve(comparison, entry);
                RouteComparison.At figures =
                        curve == null
                                ? null
                                : curve.quantities().stream()
                                        .filter(q -> q.quantity() == quantity)
                                        .findFirst()
                                        .orElseThrow();
                at.add(figures);
                if (figures != null
                        && curve.feasible()
                        && (least == null
                                || figures.cost().amount().compareTo(least.amount()) < 0)) {
                    least = figures.cost();
                }
            }
            List<Cell> cells = new ArrayList<>();
            for (int i = 0; i < at.size(); i++) {
                RouteComparison.At figures = at.get(i);
                RouteComparison.Curve curve = curve(comparison, entries.get(i));
                cells.add(
                        figures == null
                                ? new Cell("", "", "", false)
                                : new Cell(
                                        numbers.show(figures.hours(), 2),
                                        amount(figures.cost()),
                                        amount(figures.priceEach()),
                                        curve.feasible() && figures.cost().equals(least)));
            }
            groups.add(new Group(quantity, own.mainQuantity().equals(quantity), cells));
        }
        return groups;
    }

    private List<String> breakEvens(RouteComparison comparison) {
        List<BreakEven> found = comparison.breakEvens();
        List<String> sentences = new ArrayList<>();
        for (BreakEven b : found.subList(0, Math.min(found.size(), MOST_SENTENCES))) {
            sentences.add(
                    b.cheaper()
                            + " is cheaper than "
                            + b.dearer()
                            + " from "
                            + numbers.show(b.quantity())
                            + " pieces.");
        }
        more(sentences, found.size() - MOST_SENTENCES, "break-even");
        if (found.isEmpty()) {
            sentences.add(
                    "No route overtakes another up to "
                            + numbers.show(comparison.upToQuantity())
                            + " pieces.");
        }
        return sentences;
    }

    private List<String> cheapest(RouteComparison comparison) {
        List<Cheapest> found = comparison.cheapest();
        List<String> sentences = new ArrayList<>();
        for (Cheapest c : found.subList(0, Math.min(found.size(), MOST_SENTENCES))) {
            String range =
                    c.fromQuantity() == c.toQuantity()
                            ? numbers.show(c.fromQuantity())
                            : numbers.show(c.fromQuantity())
                                    + " to "
                                    + numbers.show(c.toQuantity());
            sentences.add(range + (c.toQuantity() == 1 ? " piece: " : " pieces: ") + c.route());
        }
        more(sentences, found.size() - MOST_SENTENCES, "change");
        return sentences;
    }

    private void more(List<String> sentences, int left, String what) {
        if (left > 0) {
            sentences.add(
                    "And " + numbers.show(left) + " further " + what + (left == 1 ? "." : "s."));
        }
    }

    private static List<PartChoice> parts(
            @Nullable TakeOff own, Class<? extends RouteStart> start) {
        if (own == null) {
            return List.of();
        }
        return IntStream.range(0, own.parts().size())
                .filter(i -> BegunRoute.fits(own.parts().get(i), start))
                .mapToObj(i -> new PartChoice(i, own.parts().get(i).name()))
                .toList();
    }

    private List<StandardChoice> standards(Predicate<ShopBook.Unit> units, List<String> chosen) {
        return book.standards().stream()
                .filter(s -> units.test(s.unit()))
                .map(s -> new StandardChoice(s.name(), chosen.contains(s.name())))
                .toList();
    }

    private static List<String> listed(@Nullable String name) {
        return name == null ? List.of() : List.of(name);
    }

    private String amount(Money money) {
        return numbers.show(money.amount(), money.amount().scale());
    }

    /** Where a start was typed wrong, in words. */
    public static String refused(String pointer, String message) {
        String field = pointer.substring(pointer.lastIndexOf('/') + 1);
        String name =
                switch (field) {
                    case "segments" -> "Segments";
                    case "trimMm" -> "Trim";
                    case "part" -> "Part";
                    case "standard" -> "Time standard";
                    case "lifePieces" -> "Lasts";
                    case "leadTimeDays" -> "Lead time";
                    case "amount", "cost" -> "Cost";
                    default -> "Joints";
                };
        return Objects.requireNonNull(name) + ": " + message;
    }
}
