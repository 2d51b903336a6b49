package strokewright.comparison;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.Bought;
import strokewright.comparison.JobComparison.BridgeStep;
import strokewright.comparison.JobComparison.LabourAt;
import strokewright.comparison.JobComparison.Margins;
import strokewright.comparison.JobComparison.Metal;
import strokewright.comparison.JobComparison.Net;
import strokewright.comparison.JobComparison.Note;
import strokewright.comparison.JobComparison.Over;
import strokewright.comparison.JobComparison.Overhead;
import strokewright.comparison.JobComparison.Sort;
import strokewright.comparison.JobComparison.Work;
import strokewright.costing.CostingFormula;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.QuantityPlan;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.job.BillEntry;
import strokewright.job.JobRecord;
import strokewright.job.JobState;
import strokewright.quantity.Money;

/**
 * Lays what a job took beside what was planned for it. Parts are reckoned exactly; wholes are
 * rounded, then their parts so that they add up.
 */
final class Comparing {

    private final JobRecord job;
    private final @Nullable LabourRates rates;
    private final Cents cents;
    private final List<Block> blocks;

    private Comparing(JobRecord job, @Nullable LabourRates rates, Cents cents, List<Block> blocks) {
        this.job = job;
        this.rates = rates;
        this.cents = cents;
        this.blocks = blocks;
    }

    /**
     * @param rates what people cost; null for whoever may not see it
     */
    static JobComparison of(JobRecord job, @Nullable LabourRates rates, Plans plans) {
        ShopBook book = job.orders().get(0).book();
        Cents cents = new Cents(Objects.requireNonNull(book.currency()));
        return new Comparing(job, rates, cents, blocks(job, plans)).compared();
    }

    /** Where the plans of an item come from. */
    @FunctionalInterface
    interface Plans {

        /**
         * @return the plan of so many, at least one
         */
        IntFunction<QuantityPlan> of(JobRecord.Line line, ShopBook book);
    }

    private static List<Block> blocks(JobRecord job, Plans plans) {
        List<Block> blocks = new ArrayList<>();
        for (JobRecord.Ordered order : job.orders()) {
            for (JobRecord.Line line : order.items()) {
                IntFunction<QuantityPlan> of = plans.of(line, order.book());
                QuantityPlan quoted = of.apply(line.quantity());
                QuantityPlan made =
                        line.made() == line.quantity()
                                ? quoted
                                : line.made() == 0 ? null : of.apply(line.made());
                blocks.add(new Block(order, line, quoted, made));
            }
        }
        blocks.add(new Block(job.orders().get(0)));
        return blocks;
    }

    private JobComparison compared() {
        WorkCompared workCompared = new WorkCompared(blocks, job.steps(), rates, cents);
        workCompared.book(job.bookings());
        List<Work> work = workCompared.compared();
        List<Metal> metal = new MetalCompared(blocks, cents).compared(job.metal());
        List<Bought> bought = new BillsCompared(blocks, cents).compared(job.bills());
        List<Overhead> overheads = overheads();
        Figures hours = work.stream().map(Work::hours).reduce(Figures.NONE, Figures::plus);
        Amounts none = Amounts.none(cents.currency());
        Amounts cost =
                Stream.of(
                                work.stream().map(w -> w.labour().plus(w.machine())),
                                metal.stream().map(Metal::cost),
                                bought.stream().map(Bought::cost),
                                overheads.stream().map(Overhead::cost))
                        .flatMap(s -> s)
                        .reduce(none, Amounts::plus);
        Money zero = none.quoted();
        Money efficiency = work.stream().map(Work::efficiency).reduce(zero, Money::plus);
        Money rate = rates == null ? null : work.stream().map(Work::rate).reduce(zero, Money::plus);
        Over over =
                new Over(
                        rate,
                        efficiency,
                        work.stream().map(w -> w.machine().over()).reduce(zero, Money::plus),
                        metal.stream().map(Metal::price).reduce(zero, Money::plus),
                        metal.stream().map(Metal::usage).reduce(zero, Money::plus),
                        bought.stream().map(b -> b.cost().over()).reduce(zero, Money::plus),
                        overheads.stream().map(o -> o.cost().over()).reduce(zero, Money::plus));
        Net net = net();
        Margins margins =
                rates == null
                        ? null
                        : Margins.of(net.orderedAfterDiscounts(), net.madeAfterDiscounts(), cost);
        return new JobComparison(
                job.number(),
                job.kind(),
                job.state(),
                job.title(),
                job.customerId(),
                job.customer(),
                job.quote(),
                job.estimator(),
                job.finishedOn(),
                rates == null ? LabourAt.BOOK_RATES : LabourAt.COST_RATES,
                orders(work),
                hours,
                cost,
                WorkCompared.centres(work),
                work.stream().filter(w -> !isNothing(w)).toList(),
                metal,
                bought,
                overheads,
                over,
                net,
                margins,
                margins == null ? null : bridge(margins, net, cost, over),
                notes(workCompared, hours, metal));
    }

    private static boolean isNothing(Work work) {
        return work.sort() != Sort.STEP && work.hours().isNothing();
    }

    // Overheads and margins -----------------------------------------------------------------------

    private List<Overhead> overheads() {
        Map<Overhead.Name, Amounts> overheads = new EnumMap<>(Overhead.Name.class);
        for (Block block : blocks) {
            PriceScheme scheme = block.scheme();
            Money material = cents.percentOf(block.material, scheme.materialOverheadPercent());
            Money production = cents.percentOf(block.labour, scheme.productionOverheadPercent());
            BigDecimal manufacturing =
                    block.material
                            .add(material.amount())
                            .add(block.labour)
                            .add(block.machine)
                            .add(production.amount())
                            .add(block.special);
            Money administration = cents.percentOf(manufacturing, scheme.administrationPercent());
            Money sales = cents.percentOf(manufacturing, scheme.salesPercent());
            block.total = manufacturing.add(administration.amount()).add(sales.amount());
            add(
                    overheads,
                    Overhead.Name.MATERIAL,
                    block,
                    Estimate.Cost::materialOverhead,
                    material);
            add(
                    overheads,
                    Overhead.Name.PRODUCTION,
                    block,
                    Estimate.Cost::productionOverhead,
                    production);
            add(
                    overheads,
                    Overhead.Name.ADMINISTRATION,
                    block,
                    Estimate.Cost::administration,
                    administration);
            add(overheads, Overhead.Name.SALES, block, Estimate.Cost::sales, sales);
        }
        return overheads.entrySet().stream()
                .filter(e -> !e.getValue().isNothing())
                .map(e -> new Overhead(e.getKey(), e.getValue()))
                .toList();
    }

    private void add(
            Map<Overhead.Name, Amounts> overheads,
            Overhead.Name name,
            Block block,
            Function<Estimate.Cost, Money> part,
            Money actual) {
        overheads.merge(
                name,
                new Amounts(
                        block.planned(Plan.QUOTED, part, cents),
                        block.planned(Plan.MADE, part, cents),
                        actual),
                Amounts::plus);
    }

    private List<JobComparison.Order> orders(List<Work> work) {
        List<JobComparison.Order> orders = new ArrayList<>();
        for (JobRecord.Ordered order : job.orders()) {
            Amounts cost = Amounts.none(cents.currency());
            for (Block block : blocks) {
                if (block.order == order) {
                    cost =
                            cost.plus(
                                    new Amounts(
                                            block.planned(Plan.QUOTED, Estimate.Cost::total, cents),
                                            block.planned(Plan.MADE, Estimate.Cost::total, cents),
                                            cents.of(block.total)));
                }
            }
            orders.add(
                    new JobComparison.Order(
                            order.changeOrder(),
                            order.edition(),
                            order.items().stream()
                                    .map(
                                            l ->
                                                    new JobComparison.Item(
                                                            l.item().position(),
                                                            l.item().title(),
                                                            l.quantity(),
                                                            l.made()))
                                    .toList(),
                            work.stream()
                                    .filter(w -> w.changeOrder() == order.changeOrder())
                                    .map(Work::hours)
                                    .reduce(Figures.NONE, Figures::plus),
                            cost,
                            cents.of(order.net())));
        }
        return orders;
    }

    private Net net() {
        Money zero = cents.zero();
        Net all = new Net(zero, zero, zero, zero);
        for (JobRecord.Ordered order : job.orders()) {
            Money ordered = cents.of(order.net());
            Money made = cents.of(ordered.amount().multiply(shareMade(order)));
            PriceScheme scheme = order.book().priceScheme().effective();
            all =
                    new Net(
                            all.ordered().plus(ordered),
                            all.made().plus(made),
                            all.orderedAfterDiscounts().plus(afterDiscounts(ordered, scheme)),
                            all.madeAfterDiscounts().plus(afterDiscounts(made, scheme)));
        }
        return all;
    }

    private Money afterDiscounts(Money net, PriceScheme scheme) {
        return cents.of(
                CostingFormula.AFTER_DISCOUNTS.exact(
                        net.amount(),
                        BigDecimal.valueOf(scheme.tradeDiscountPercent()),
                        BigDecimal.valueOf(scheme.settlementDiscountPercent()),
                        BigDecimal.valueOf(scheme.commissionPercent())));
    }

    /** Of the agreed price, by what each item was offered for; more than ordered earns no more. */
    private static BigDecimal shareMade(JobRecord.Ordered order) {
        if (order.items().stream().allMatch(l -> l.made() >= l.quantity())) {
            return BigDecimal.ONE;
        }
        BigDecimal whole = BigDecimal.ZERO;
        BigDecimal made = BigDecimal.ZERO;
        boolean priced = order.items().stream().anyMatch(l -> offer(l).signum() > 0);
        for (JobRecord.Line line : order.items()) {
            BigDecimal weight = priced ? offer(line) : BigDecimal.valueOf(line.quantity());
            whole = whole.add(weight);
            made =
                    made.add(
                            weight.multiply(
                                            BigDecimal.valueOf(
                                                    Math.min(line.made(), line.quantity())))
                                    .divide(
                                            BigDecimal.valueOf(line.quantity()),
                                            MathContext.DECIMAL128));
        }
        return made.divide(whole, MathContext.DECIMAL128);
    }

    private static BigDecimal offer(JobRecord.Line line) {
        return line.item()
                .at(line.quantity())
                .map(q -> q.price().offer().amount())
                .orElse(BigDecimal.ZERO);
    }

    private List<BridgeStep> bridge(Margins margins, Net net, Amounts cost, Over over) {
        Money zero = cents.zero();
        return List.of(
                new BridgeStep(BridgeStep.Code.MARGIN_QUOTED, margins.quoted().amount()),
                new BridgeStep(
                        BridgeStep.Code.NET_OF_PIECES,
                        net.madeAfterDiscounts().minus(net.orderedAfterDiscounts())),
                new BridgeStep(BridgeStep.Code.COST_OF_PIECES, cost.quoted().minus(cost.planned())),
                new BridgeStep(BridgeStep.Code.RATE, zero.minus(over.rate())),
                new BridgeStep(BridgeStep.Code.EFFICIENCY, zero.minus(over.efficiency())),
                new BridgeStep(BridgeStep.Code.MACHINE, zero.minus(over.machine())),
                new BridgeStep(BridgeStep.Code.PRICE, zero.minus(over.price())),
                new BridgeStep(BridgeStep.Code.USAGE, zero.minus(over.usage())),
                new BridgeStep(BridgeStep.Code.BOUGHT_OUT, zero.minus(over.boughtOut())),
                new BridgeStep(BridgeStep.Code.OVERHEADS, zero.minus(over.overheads())),
                new BridgeStep(BridgeStep.Code.MARGIN_EARNED, margins.earned().amount()));
    }

    // What to know first --------------------------------------------------------------------------

    private List<Note> notes(WorkCompared work, Figures hours, List<Metal> metal) {
        List<Note> notes = new ArrayList<>();
        int without = work.peopleWithoutRate();
        if (rates != null && without > 0) {
            notes.add(
                    new Note(
                            Note.Code.NO_COST_RATE,
                            "Hours of "
                                    + without
                                    + (without == 1 ? " person" : " people")
                                    + " without a cost rate are valued at the rate of the work centre."));
        }
        blocks.stream().flatMap(this::withoutBill).forEach(notes::add);
        if (job.state() != JobState.FINISHED && job.state() != JobState.CLOSED) {
            notes.add(
                    new Note(
                            Note.Code.NOT_FINISHED,
                            "The job is not finished: actual is what was booked so far, planned is for all"
                                    + " that was ordered."));
        }
        if (!job.isBookedToTheEnd()) {
            notes.add(
                    new Note(
                            Note.Code.CLOCK_RUNS,
                            "A clock still runs; its time is not counted yet."));
        }
        if (hours.actual().signum() == 0) {
            notes.add(
                    new Note(
                            Note.Code.NO_HOURS,
                            "No hours are booked: what looks like hours saved is not."));
        }
        if (work.hasHoursOnWholeJob()) {
            notes.add(
                    new Note(
                            Note.Code.HOURS_ON_WHOLE_JOB,
                            "Hours booked on the job alone stand on a line of their own and are valued at"
                                    + " the mean planned rate of the job, or of forming where that was told."));
        }
        if (job.metal().isEmpty() && metal.stream().anyMatch(m -> !m.cost().planned().isZero())) {
            notes.add(
                    new Note(
                            Note.Code.NO_METAL,
                            "No metal is booked: the cost is too low by what was really used."));
        }
        if (job.orders().stream().flatMap(o -> o.items().stream()).allMatch(l -> l.made() == 0)) {
            notes.add(
                    new Note(
                            Note.Code.NOTHING_MADE,
                            "No piece was made: nothing is planned for that."));
        }
        if (rates == null) {
            notes.add(
                    new Note(
                            Note.Code.BOOK_RATES,
                            "Labour is valued at the rates of the shop book. What people cost, and with it"
                                    + " the margin earned, is for the owner alone."));
        }
        return notes;
    }

    /** What was planned to be bought out, and was not billed. */
    private Stream<Note> withoutBill(Block block) {
        QuantityPlan made = block.plan(Plan.MADE);
        if (made == null) {
            return Stream.of();
        }
        return made.extras().stream()
                .filter(e -> e.of().kind() == TakeOff.ExtraKind.BOUGHT_OUT)
                .filter(e -> e.cost().signum() > 0)
                .map(e -> e.of().name())
                .filter(name -> job.bills().stream().map(BillEntry::extra).noneMatch(name::equals))
                .map(name -> new Note(Note.Code.NO_BILL, "No bill is booked for " + name + "."));
    }
}
