package strokewright.takeoff;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.Uncertainty;
import strokewright.quantity.Money;
import strokewright.takeoff.PriceSteps.Step;
import strokewright.takeoff.PriceSteps.Within;
import strokewright.takeoff.PriceView.BandCell;
import strokewright.takeoff.PriceView.BandRow;
import strokewright.takeoff.PriceView.DriverRow;
import strokewright.takeoff.PriceView.DriversView;
import strokewright.takeoff.PriceView.FigureRow;
import strokewright.takeoff.PriceView.FullTable;
import strokewright.takeoff.PriceView.Head;
import strokewright.takeoff.PriceView.ListRow;
import strokewright.takeoff.PriceView.PercentileRow;
import strokewright.takeoff.PriceView.SpreadView;
import strokewright.takeoff.PriceView.StepRow;
import strokewright.takeoff.Spreading.Band;
import strokewright.web.Numbers;

/** Makes the view of price, quantity and doubt. */
public final class PriceViews {

    /** Quantities that stand side by side on a phone. */
    private static final int SIDE_BY_SIDE = 4;

    private static final int MOST_DRIVERS = 8;

    /** Standard normal quantile of 0.9: between minus and plus this lie four in five. */
    private static final double TENTH = 1.2815515655446004;

    private final Estimate estimate;
    private final ForQuantity main;
    private final TakeOff takeOff;
    private final PriceScheme scheme;
    private final ShopBook book;
    private final Uncertainty uncertainty;
    private final Numbers numbers;
    private final String id;

    private PriceViews(
            Estimate estimate,
            ForQuantity main,
            TakeOff takeOff,
            ShopBook book,
            Numbers numbers,
            String id) {
        this.estimate = estimate;
        this.main = main;
        this.takeOff = takeOff;
        this.scheme = Objects.requireNonNull(book.priceScheme());
        this.book = book;
        this.uncertainty = book.uncertainty();
        this.numbers = numbers;
        this.id = id;
    }

    /**
     * @param book the edition that it was reckoned with
     * @param id unique on its page
     */
    public static PriceView of(
            Estimate estimate,
            ForQuantity main,
            TakeOff takeOff,
            ShopBook book,
            Numbers numbers,
            String id) {
        return new PriceViews(estimate, main, takeOff, book, numbers, id).view();
    }

    private PriceView view() {
        return new PriceView(
                id,
                currency(),
                numbers.show(main.quantity()),
                steps(),
                estimate.quantities().stream().map(this::listed).toList(),
                full(),
                CheckWords.of(estimate, main, book, numbers),
                spread(),
                drivers());
    }

    // Steps and prices ----------------------------------------------------------------------------

    private List<StepRow> steps() {
        List<Step> steps = PriceSteps.of(main, scheme, numbers);
        List<String> bars = RowBar.steps(steps);
        List<String> past = RowBar.past(steps);
        List<StepRow> rows = new ArrayList<>();
        for (int i = 0; i < steps.size(); i++) {
            Step step = steps.get(i);
            boolean down = step.amount().amount().signum() < 0;
            rows.add(
                    new StepRow(
                            step.sum() ? "sum" : down ? "down" : "",
                            step.name(),
                            step.base(),
                            amount(step.amount()),
                            bars.get(i)));
            for (Within part : step.within()) {
                rows.add(
                        new StepRow(
                                "within",
                                part.name(),
                                part.words(),
                                part.amount() == null ? "" : amount(part.amount()),
                                past.get(i)));
            }
        }
        return rows;
    }

    private ListRow listed(ForQuantity q) {
        return new ListRow(
                q.quantity(),
                numbers.show(q.quantity()),
                q.equals(main),
                numbers.show(q.hours().plan(), 2),
                amount(q.priceEach()),
                amount(q.price().offer()),
                amount(q.price().withTax()),
                Words.percentOf(q.lossChance()),
                Words.passage(q));
    }

    // Every figure by quantity --------------------------------------------------------------------

    private List<FullTable> full() {
        List<ForQuantity> all = estimate.quantities();
        Map<FigureRow, Function<ForQuantity, String>> figures = figures();
        figures.values().removeIf(of -> all.stream().map(of).allMatch(String::isEmpty));
        List<FullTable> tables = new ArrayList<>();
        for (int from = 0; from < all.size(); from += SIDE_BY_SIDE) {
            List<ForQuantity> some = all.subList(from, Math.min(from + SIDE_BY_SIDE, all.size()));
            tables.add(
                    new FullTable(
                            some.stream()
                                    .map(q -> new Head(numbers.show(q.quantity()), q.equals(main)))
                                    .toList(),
                            figures.entrySet().stream()
                                    .map(
                                            f ->
                                                    new FigureRow(
                                                            f.getKey().name(),
                                                            f.getKey().unit(),
                                                            some.stream()
                                                                    .map(f.getValue())
                                                                    .toList()))
                                    .toList()));
        }
        return tables;
    }

    /** Name and unit of each figure, with how it is read. */
    private Map<FigureRow, Function<ForQuantity, String>> figures() {
        Map<FigureRow, Function<ForQuantity, String>> figures = new LinkedHashMap<>();
        hours(figures, "Set-up", q -> q.setupMinutes() / 60);
        hours(figures, "Run", q -> q.runMinutes() / 60);
        hours(
                figures,
                "Risk reserve",
                q -> q.reserveMinutes() > 0 ? q.reserveMinutes() / 60 : null);
        hours(figures, "Plan", q -> q.hours().plan());
        hours(figures, "Mean", q -> q.hours().mean());
        hours(figures, "Enough 4 times in 5 (P80)", q -> q.hours().p80());
        hours(figures, "Price made from", this::pricedHours);
        figure(figures, "Sheets", "", q -> metal(q, this::sheets));
        figure(figures, "Sheet used", "%", q -> metal(q, this::yield));
        figure(figures, "Metal", "kg", q -> metal(q, m -> numbers.show(m.kg(), 2)));
        figure(figures, "Spare blanks", "", this::spares);
        figure(figures, "Pieces inspected", "", this::inspected);
        figure(figures, "Faulty to accept, to reject", "", this::acceptance);
        figure(figures, "Tool changes", "", q -> numbers.show(q.toolChanges()));
        figure(figures, "Cost each", currency(), q -> each(q.cost().total(), q.quantity()));
        figure(figures, "Price each", currency(), q -> amount(q.priceEach()));
        figure(figures, "In all", currency(), q -> amount(q.price().offer()));
        figure(figures, "Chance of loss", "", q -> Words.percentOf(q.lossChance()));
        figure(
                figures,
                "Lead time",
                "days",
                q -> q.leadTimeDays() == null ? "" : numbers.show(q.leadTimeDays()));
        return figures;
    }

    private static void figure(
            Map<FigureRow, Function<ForQuantity, String>> figures,
            String name,
            String unit,
            Function<ForQuantity, String> of) {
        figures.put(new FigureRow(name, unit, List.of()), of);
    }

    private void hours(
            Map<FigureRow, Function<ForQuantity, String>> figures,
            String name,
            Function<ForQuantity, @Nullable Double> of) {
        figure(
                figures,
                name,
                "h",
                q -> {
                    Double hours = of.apply(q);
                    return hours == null ? "" : numbers.show(hours, 2);
                });
    }

    private @Nullable Double pricedHours(ForQuantity q) {
        return scheme.priceFrom() == PriceScheme.From.PLAN ? null : q.priceHours();
    }

    private static String metal(ForQuantity q, Function<MetalUsed, String> of) {
        return q.metal().stream()
                .map(of)
                .filter(text -> !text.isEmpty())
                .collect(Collectors.joining(" + "));
    }

    private String sheets(MetalUsed metal) {
        return metal.sheets() == null ? "" : numbers.show(metal.sheets());
    }

    private String yield(MetalUsed metal) {
        return metal.yieldPercent() == null ? "" : numbers.show(metal.yieldPercent(), 0);
    }

    private String spares(ForQuantity q) {
        int blanks = q.spares().stream().mapToInt(Estimate.Spare::blanks).sum();
        return blanks == 0 ? "" : numbers.show(blanks);
    }

    /** "8 of 50" for each part. */
    private String inspected(ForQuantity q) {
        return q.samples().stream()
                .map(
                        s ->
                                s.inspected() == s.lot()
                                        ? numbers.show(s.inspected())
                                        : numbers.show(s.inspected())
                                                + " of "
                                                + numbers.show(s.lot()))
                .collect(Collectors.joining(", "));
    }

    /** "1, 2" for each part that is sampled. */
    private String acceptance(ForQuantity q) {
        return q.samples().stream()
                .filter(s -> s.accept() != null)
                .map(s -> numbers.show(s.accept()) + ", " + numbers.show(s.reject()))
                .distinct()
                .collect(Collectors.joining("; "));
    }

    private String each(Money money, int pieces) {
        return numbers.show(
                money.amount()
                        .divide(
                                BigDecimal.valueOf(pieces),
                                money.amount().scale(),
                                RoundingMode.HALF_UP),
                money.amount().scale());
    }

    // Spread --------------------------------------------------------------------------------------

    private @Nullable SpreadView spread() {
        Spreading spread = Spreading.of(main);
        if (spread == null) {
            return null;
        }
        List<Spreading> all =
                estimate.quantities().stream().map(Spreading::of).filter(Objects::nonNull).toList();
        return new SpreadView(
                SpreadPicture.of(spread, numbers, currency(), id + "-spread"),
                words(spread),
                bands(all),
                all.stream().flatMap(this::percentiles).toList());
    }

    private List<String> words(Spreading spread) {
        Band hours = spread.hours();
        List<String> words = new ArrayList<>();
        words.add(
                "Four times in five the work takes from %s to %s h; one time in ten it takes more."
                        .formatted(hours(hours.p10()), hours(hours.p90())));
        words.add(
                "The plan is %s h. Half the time %s h are enough, four times in five %s h; on average it takes %s h."
                        .formatted(
                                hours(main.hours().plan()),
                                hours(hours.p50()),
                                hours(hours.p80()),
                                hours(hours.mean())));
        if (main.lossChance() != null) {
            boolean whole = spread.net().equals(main.price().offer());
            words.add(
                    "At %s %s%s the work costs more than it brings %s."
                            .formatted(
                                    amount(spread.net()),
                                    currency(),
                                    whole ? "" : ", the offer less discounts and commission,",
                                    Words.timesInHundred(main.lossChance())));
        }
        words.add(information(takeOff.information(), uncertainty));
        return words;
    }

    /** What stands behind the quote, and what that alone does to the hours. */
    static String information(TakeOff.Information information, Uncertainty uncertainty) {
        double spread = uncertainty.information().of(information);
        return "Behind it: %s. That alone puts the work by hand, four times in five, between %d %% under and %d %% over its middle."
                .formatted(PartFields.information(information), under(spread), over(spread));
    }

    /** "−27 to +38 %" of a spread, a standard deviation of the natural logarithm. */
    static String range(double spread) {
        return "\u2212%d to +%d %%".formatted(under(spread), over(spread));
    }

    private static long under(double spread) {
        return Math.round(100 * (1 - Math.exp(-TENTH * spread)));
    }

    private static long over(double spread) {
        return Math.round(100 * (Math.exp(TENTH * spread) - 1));
    }

    private List<BandRow> bands(List<Spreading> all) {
        RowBar hours = RowBar.over(all.stream().flatMapToDouble(s -> reach(s, s.hours(), plan(s))));
        RowBar cost =
                RowBar.over(
                        all.stream()
                                .flatMapToDouble(
                                        s ->
                                                DoubleStream.concat(
                                                        reach(s, s.cost(), cost(s)),
                                                        DoubleStream.of(net(s) / pieces(s)))));
        RowBar price =
                RowBar.over(all.stream().flatMapToDouble(s -> reach(s, s.price(), offer(s))));
        int money = main.priceEach().amount().scale();
        return all.stream()
                .map(
                        s ->
                                new BandRow(
                                        numbers.show(pieces(s)),
                                        s.quantity().equals(main),
                                        band(hours, s, s.hours(), plan(s), Double.NaN, 2),
                                        band(cost, s, s.cost(), cost(s), net(s), money),
                                        band(price, s, s.price(), offer(s), Double.NaN, money),
                                        Words.percentOf(s.quantity().lossChance())))
                .toList();
    }

    private BandCell band(
            RowBar scale,
            Spreading spread,
            Band band,
            double reckoned,
            double offered,
            int decimals) {
        int pieces = pieces(spread);
        Band each = band.each(pieces);
        return new BandCell(
                scale.band(each, reckoned / pieces, offered / pieces),
                fromTo(each.p10(), each.p90(), decimals));
    }

    private static DoubleStream reach(Spreading spread, Band band, double reckoned) {
        Band each = band.each(pieces(spread));
        return DoubleStream.of(each.p10(), each.p90(), reckoned / pieces(spread));
    }

    private static int pieces(Spreading spread) {
        return spread.quantity().quantity();
    }

    private static double plan(Spreading spread) {
        return spread.quantity().hours().plan();
    }

    private static double cost(Spreading spread) {
        return spread.quantity().cost().total().amount().doubleValue();
    }

    private static double offer(Spreading spread) {
        return spread.quantity().price().offer().amount().doubleValue();
    }

    private static double net(Spreading spread) {
        return spread.net().amount().doubleValue();
    }

    private Stream<PercentileRow> percentiles(Spreading s) {
        int money = main.priceEach().amount().scale();
        return Stream.of(
                percentile(s, "hours, h", s.hours(), plan(s), 2),
                percentile(s, "cost, " + currency(), s.cost(), cost(s), money),
                percentile(s, "price, " + currency(), s.price(), offer(s), money));
    }

    private PercentileRow percentile(
            Spreading spread, String what, Band band, double reckoned, int decimals) {
        return new PercentileRow(
                numbers.show(pieces(spread)),
                what,
                numbers.show(reckoned, decimals),
                numbers.show(band.p10(), decimals),
                numbers.show(band.p50(), decimals),
                numbers.show(band.mean(), decimals),
                numbers.show(band.p65(), decimals),
                numbers.show(band.p80(), decimals),
                numbers.show(band.p90(), decimals));
    }

    // Drivers -------------------------------------------------------------------------------------

    private @Nullable DriversView drivers() {
        List<Estimate.Driver> drivers = estimate.drivers();
        if (drivers.isEmpty()) {
            return null;
        }
        double plan = main.hours().plan();
        double total = main.cost().total().amount().doubleValue();
        RowBar hours =
                RowBar.over(
                        DoubleStream.concat(
                                DoubleStream.of(plan),
                                drivers.stream()
                                        .flatMapToDouble(
                                                d ->
                                                        DoubleStream.of(
                                                                d.lowHours(), d.highHours()))));
        RowBar cost =
                RowBar.over(
                        DoubleStream.concat(
                                DoubleStream.of(total),
                                drivers.stream()
                                        .flatMapToDouble(d -> DoubleStream.of(low(d), high(d)))));
        List<DriverRow> rows =
                drivers.stream().map(d -> driver(d, hours, plan, cost, total)).toList();
        int shown = Math.min(MOST_DRIVERS, rows.size());
        DriverWords.Advice advice = DriverWords.advice(drivers.get(0));
        return new DriversView(
                rows.subList(0, shown),
                rows.subList(shown, rows.size()),
                advice.text(),
                advice.byStrip());
    }

    private DriverRow driver(
            Estimate.Driver d, RowBar hours, double plan, RowBar cost, double total) {
        return new DriverRow(
                DriverWords.name(d),
                new BandCell(
                        hours.swing(d.lowHours(), d.highHours(), plan),
                        fromTo(d.lowHours(), d.highHours(), 2)),
                new BandCell(
                        cost.swing(low(d), high(d), total),
                        fromTo(low(d), high(d), d.lowCost().amount().scale())));
    }

    private static double low(Estimate.Driver driver) {
        return driver.lowCost().amount().doubleValue();
    }

    private static double high(Estimate.Driver driver) {
        return driver.highCost().amount().doubleValue();
    }

    private String fromTo(double low, double high, int decimals) {
        return numbers.show(low, decimals) + " – " + numbers.show(high, decimals);
    }

    private String hours(double hours) {
        return numbers.show(hours, 2);
    }

    private String amount(Money money) {
        return numbers.show(money.amount(), money.amount().scale());
    }

    private String currency() {
        return main.priceEach().currency().getCurrencyCode();
    }
}
