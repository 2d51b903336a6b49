package strokewright.comparison;

import static strokewright.costing.CostingFormula.PERCENT_OF;
import static strokewright.quantity.Why.Input.computed;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Currency;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.AtCentre;
import strokewright.comparison.JobComparison.Bought;
import strokewright.comparison.JobComparison.BridgeStep;
import strokewright.comparison.JobComparison.LabourAt;
import strokewright.comparison.JobComparison.Margin;
import strokewright.comparison.JobComparison.Margins;
import strokewright.comparison.JobComparison.Metal;
import strokewright.comparison.JobComparison.Net;
import strokewright.comparison.JobComparison.Note;
import strokewright.comparison.JobComparison.Over;
import strokewright.comparison.JobComparison.Overhead;
import strokewright.comparison.JobComparison.Sort;
import strokewright.comparison.JobComparison.Work;
import strokewright.costing.Adding;
import strokewright.costing.CostingFormula;
import strokewright.costing.HoursByCause;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.PlannedStep;
import strokewright.estimate.QuantityPlan;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.TakeOff;
import strokewright.estimate.WorkStep;
import strokewright.job.BillEntry;
import strokewright.job.Booking;
import strokewright.job.JobRecord;
import strokewright.job.JobState;
import strokewright.job.MetalUsed;
import strokewright.job.Step;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import strokewright.quantity.Working;

/**
 * Lays what a job took beside what was planned for it. Parts are reckoned exactly; wholes are
 * rounded, then their parts so that they add up.
 */
final class Comparing {

    /** Hours are kept to so many digits after the point: a millionth is four thousandths of a s. */
    private static final int HOUR_DIGITS = 6;

    private static final BigDecimal SIXTY = BigDecimal.valueOf(60);

    /** What was made comes first. */
    private static final List<Function<Line, @Nullable PlannedStep>> PLANS =
            List.of(line -> line.made, line -> line.quoted);

    private final JobRecord job;
    private final @Nullable LabourRates rates;
    private final Currency currency;
    private final int cents;
    private final List<Block> blocks = new ArrayList<>();
    private final List<Line> lines = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();
    private final Map<Charge, BigDecimal> means = new EnumMap<>(Charge.class);

    /**
     * @param rates what people cost; null for whoever may not see it
     */
    private Comparing(JobRecord job, @Nullable LabourRates rates) {
        this.job = job;
        this.rates = rates;
        this.currency = Objects.requireNonNull(job.orders().get(0).book().currency());
        this.cents = Money.zero(currency).amount().scale();
    }

    static JobComparison of(JobRecord job, @Nullable LabourRates rates, Plans plans) {
        Comparing comparing = new Comparing(job, rates);
        comparing.plan(plans);
        comparing.book();
        return comparing.compared();
    }

    /** Where the plan of a quantity of an item comes from. */
    @FunctionalInterface
    interface Plans {

        /**
         * @param quantity at least one
         */
        QuantityPlan of(JobRecord.Line line, ShopBook book, int quantity);
    }

    /**
     * One item with its plans; the last one is of what belongs to no item, without plans.
     *
     * @param quoted null of what belongs to no item
     * @param made null where nothing was made
     */
    private record Block(
            JobRecord.Ordered order,
            JobRecord.@Nullable Line line,
            @Nullable QuantityPlan quoted,
            @Nullable QuantityPlan made) {

        PriceScheme scheme() {
            return order.book().priceScheme().effective();
        }

        Money quoted(Function<Estimate.Cost, Money> part, Currency currency) {
            return quoted == null ? Money.zero(currency) : part.apply(quoted.cost());
        }

        Money made(Function<Estimate.Cost, Money> part, Currency currency) {
            return made == null ? Money.zero(currency) : part.apply(made.cost());
        }
    }

    /** One line of work while it is gathered; person-minutes and money exact. */
    private static final class Line {
        final Sort sort;
        final Block block;
        final @Nullable Step step;
        final @Nullable WorkStep work;
        final @Nullable WorkCentre centre;
        @Nullable PlannedStep quoted;
        @Nullable PlannedStep made;
        Booking.@Nullable Sort told;
        BigDecimal setUp = BigDecimal.ZERO;
        BigDecimal run = BigDecimal.ZERO;
        BigDecimal rework = BigDecimal.ZERO;
        BigDecimal elapsed = BigDecimal.ZERO;
        BigDecimal atBook = BigDecimal.ZERO;
        BigDecimal paid = BigDecimal.ZERO;
        BigDecimal machine = BigDecimal.ZERO;
        long passes;
        long checks;
        boolean stretches;
        boolean passesCounted = true;
        boolean checksCounted = true;

        Line(
                Sort sort,
                Block block,
                @Nullable Step step,
                @Nullable WorkStep work,
                @Nullable WorkCentre centre) {
            this.sort = sort;
            this.block = block;
            this.step = step;
            this.work = work;
            this.centre = centre;
        }

        BigDecimal minutes(@Nullable PlannedStep of) {
            if (of == null) {
                return BigDecimal.ZERO;
            }
            return BigDecimal.valueOf(
                    sort == Sort.RESERVE
                            ? of.reserveMinutes()
                            : of.work().setupMinutes() + of.work().runMinutes());
        }

        BigDecimal elapsed(@Nullable PlannedStep of) {
            if (of == null) {
                return BigDecimal.ZERO;
            }
            return BigDecimal.valueOf(
                    sort == Sort.RESERVE
                            ? of.reserveElapsed()
                            : of.work().setupElapsed() + of.work().runElapsed());
        }

        BigDecimal minutes() {
            return setUp.add(run).add(rework);
        }
    }

    // The plan ------------------------------------------------------------------------------------

    private void plan(Plans plans) {
        for (JobRecord.Ordered order : job.orders()) {
            for (JobRecord.Line line : order.items()) {
                QuantityPlan quoted = plans.of(line, order.book(), line.quantity());
                QuantityPlan made =
                        line.made() == line.quantity()
                                ? quoted
                                : line.made() == 0
                                        ? null
                                        : plans.of(line, order.book(), line.made());
                Block block = new Block(order, line, quoted, made);
                blocks.add(block);
                steps(block);
            }
        }
        blocks.add(new Block(job.orders().get(0), null, null, null));
    }

    /** Steps as they stand on the route card; a step that only the plan of today has comes last. */
    private void steps(Block block) {
        Map<WorkStep, PlannedStep> quoted = named(block.quoted);
        Map<WorkStep, PlannedStep> made = named(block.made);
        Set<WorkStep> seen = new HashSet<>();
        List<Line> reserves = new ArrayList<>();
        int position = block.line.item().position();
        for (Step step : job.steps()) {
            if (step.item() == position) {
                WorkStep name = step.work().named();
                seen.add(name);
                add(block, step, step.work(), quoted.get(name), made.get(name), reserves);
            }
        }
        quoted.forEach(
                (name, planned) -> {
                    if (seen.add(name)) {
                        add(block, null, planned.work(), planned, made.get(name), reserves);
                    }
                });
        made.forEach(
                (name, planned) -> {
                    if (seen.add(name)) {
                        add(block, null, planned.work(), null, planned, reserves);
                    }
                });
        lines.addAll(reserves);
    }

    private void add(
            Block block,
            @Nullable Step step,
            WorkStep work,
            @Nullable PlannedStep quoted,
            @Nullable PlannedStep made,
            List<Line> reserves) {
        WorkCentre centre = block.order.book().workCentre(work.workCentre()).orElse(null);
        Line line = new Line(Sort.STEP, block, step, work, centre);
        line.quoted = quoted;
        line.made = made;
        lines.add(line);
        if (quoted != null && quoted.reserveMinutes() > 0
                || made != null && made.reserveMinutes() > 0) {
            Line reserve = new Line(Sort.RESERVE, block, null, work, centre);
            reserve.quoted = quoted;
            reserve.made = made;
            reserves.add(reserve);
        }
    }

    private static Map<WorkStep, PlannedStep> named(@Nullable QuantityPlan plan) {
        Map<WorkStep, PlannedStep> steps = new LinkedHashMap<>();
        if (plan != null) {
            plan.steps().forEach(s -> steps.put(s.work().named(), s));
        }
        return steps;
    }

    // What was booked -----------------------------------------------------------------------------

    private void book() {
        Map<Integer, Line> byStep = new HashMap<>();
        lines.stream().filter(l -> l.step != null).forEach(l -> byStep.put(l.step.n(), l));
        Map<String, Line> whole = new LinkedHashMap<>();
        Set<UUID> without = new HashSet<>();
        for (Booking booking : job.bookings()) {
            if (booking.minutes() == null) {
                continue;
            }
            Line line = booking.step() == null ? null : byStep.get(booking.step());
            if (line == null) {
                line =
                        whole.computeIfAbsent(
                                String.valueOf(booking.sort()), key -> wholeJob(booking.sort()));
            }
            book(line, booking, without);
        }
        lines.addAll(whole.values());
        if (rates != null && !without.isEmpty()) {
            note(
                    Note.Code.NO_COST_RATE,
                    "Hours of "
                            + without.size()
                            + (without.size() == 1 ? " person" : " people")
                            + " without a cost rate are valued at the rate of the work centre.");
        }
    }

    private Line wholeJob(Booking.@Nullable Sort told) {
        Line line = new Line(Sort.WHOLE_JOB, blocks.get(blocks.size() - 1), null, null, null);
        line.told = told;
        return line;
    }

    private void book(Line line, Booking booking, Set<UUID> without) {
        BigDecimal elapsed = BigDecimal.valueOf(booking.minutes());
        BigDecimal people = booking.withHelper() ? BigDecimal.valueOf(2) : BigDecimal.ONE;
        BigDecimal minutes = elapsed.multiply(people);
        line.elapsed = line.elapsed.add(elapsed);
        boolean setUp =
                booking.what() == Booking.What.SET_UP || booking.sort() == Booking.Sort.SET_UP;
        if (booking.what() == Booking.What.REWORK) {
            line.rework = line.rework.add(minutes);
        } else if (setUp) {
            line.setUp = line.setUp.add(minutes);
        } else {
            line.run = line.run.add(minutes);
            count(line, booking);
        }
        BigDecimal rate = labourRate(line);
        line.atBook = line.atBook.add(minutes.multiply(rate));
        BigDecimal own =
                rates == null ? null : rates.perHour(booking.workerId(), booking.workedOn());
        if (own == null && elapsed.signum() > 0) {
            without.add(booking.workerId());
        }
        // nobody knows who helped: the book's rate
        line.paid =
                line.paid
                        .add(elapsed.multiply(own == null ? rate : own))
                        .add(minutes.subtract(elapsed).multiply(rate));
        line.machine =
                line.machine.add(
                        line.sort == Sort.WHOLE_JOB
                                ? minutes.multiply(plannedMean(Charge.MACHINE))
                                : elapsed.multiply(Charge.MACHINE.rate(line.centre, currency)));
    }

    /** What was counted stands with the last stretch before somebody went on with other things. */
    private static void count(Line line, Booking booking) {
        if (booking.paused() && booking.passes() == null && booking.checks() == null) {
            return;
        }
        line.stretches = true;
        line.passesCounted &= booking.passes() != null;
        line.checksCounted &= booking.checks() != null;
        line.passes += booking.passes() == null ? 0 : booking.passes();
        line.checks += booking.checks() == null ? 0 : booking.checks();
    }

    private BigDecimal labourRate(Line line) {
        if (line.sort != Sort.WHOLE_JOB) {
            return Charge.LABOUR.rate(line.centre, currency);
        }
        return line.told == Booking.Sort.FORMING
                ? Charge.LABOUR.rate(line.block.order.book().formingCentre(), currency)
                : plannedMean(Charge.LABOUR);
    }

    /** What an hour is charged for. */
    private enum Charge {
        LABOUR,
        MACHINE;

        BigDecimal minutes(Line line, @Nullable PlannedStep of) {
            return this == LABOUR ? line.minutes(of) : line.elapsed(of);
        }

        BigDecimal rate(@Nullable WorkCentre centre, Currency currency) {
            if (centre == null) {
                return BigDecimal.ZERO;
            }
            return (this == LABOUR ? centre.labourIn(currency) : centre.machineIn(currency))
                    .amount();
        }

        Money of(Estimate.Cost cost) {
            return this == LABOUR ? cost.labour() : cost.machine();
        }

        BigDecimal exact(Line line, @Nullable PlannedStep of, Currency currency) {
            return minutes(line, of).multiply(rate(line.centre, currency));
        }
    }

    /**
     * Money of a planned hour of a person over the whole job: what was booked on the job alone is
     * valued at that, because nobody knows where it was worked.
     */
    private BigDecimal plannedMean(Charge charge) {
        return means.computeIfAbsent(
                charge,
                c -> {
                    for (Function<Line, @Nullable PlannedStep> of : PLANS) {
                        BigDecimal minutes = sum(lines, l -> l.minutes(of.apply(l)));
                        if (minutes.signum() > 0) {
                            return sum(lines, l -> c.exact(l, of.apply(l), currency))
                                    .divide(minutes, MathContext.DECIMAL128);
                        }
                    }
                    return c.rate(blocks.get(0).order.book().formingCentre(), currency);
                });
    }

    private static <T> BigDecimal sum(List<T> of, Function<T, BigDecimal> amount) {
        return of.stream().map(amount).reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    // Together ------------------------------------------------------------------------------------

    private JobComparison compared() {
        List<Work> work = work();
        Map<Block, Direct> direct = new IdentityHashMap<>(); // a hash would take in whole plans
        blocks.forEach(b -> direct.put(b, new Direct()));
        for (int i = 0; i < lines.size(); i++) {
            Direct d = direct.get(lines.get(i).block);
            d.labour = d.labour.add(work.get(i).labour().actual().amount());
            d.machine = d.machine.add(work.get(i).machine().actual().amount());
        }
        List<Metal> metal = metal(direct);
        List<Bought> bought = bought(direct);
        List<Overhead> overheads = overheads(direct);
        Figures hours = work.stream().map(Work::hours).reduce(Figures.NONE, Figures::plus);
        Amounts none = Amounts.none(currency);
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
        Margins margins = rates == null ? null : margins(net, cost);
        doubts(hours, metal);
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
                orders(work, direct),
                hours,
                cost,
                centres(work),
                work.stream().filter(w -> !isNothing(w)).toList(),
                metal,
                bought,
                overheads,
                over,
                net,
                margins,
                margins == null ? null : bridge(margins, net, cost, over),
                notes);
    }

    private static boolean isNothing(Work work) {
        return work.sort() != Sort.STEP && work.hours().isNothing();
    }

    /** What an item really took, to the cent; overheads follow from it. */
    private static final class Direct {
        BigDecimal material = BigDecimal.ZERO;
        BigDecimal labour = BigDecimal.ZERO;
        BigDecimal machine = BigDecimal.ZERO;
        BigDecimal special = BigDecimal.ZERO;
        BigDecimal total = BigDecimal.ZERO;
    }

    // Work ----------------------------------------------------------------------------------------

    private List<Work> work() {
        List<BigDecimal> quotedLabour = planned(Charge.LABOUR, true);
        List<BigDecimal> madeLabour = planned(Charge.LABOUR, false);
        List<BigDecimal> quotedMachine = planned(Charge.MACHINE, true);
        List<BigDecimal> madeMachine = planned(Charge.MACHINE, false);
        List<BigDecimal> atBook = rounded(lines.stream().map(l -> hours(l.atBook)).toList());
        List<BigDecimal> paid = rounded(lines.stream().map(l -> hours(l.paid)).toList());
        List<BigDecimal> machine = rounded(lines.stream().map(l -> hours(l.machine)).toList());
        List<Work> work = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            Line line = lines.get(i);
            Working working = new Working();
            Amounts labour =
                    new Amounts(
                            money(quotedLabour.get(i)),
                            money(madeLabour.get(i)),
                            money(rates == null ? atBook.get(i) : paid.get(i)));
            Amounts atMachine =
                    new Amounts(
                            money(quotedMachine.get(i)),
                            money(madeMachine.get(i)),
                            money(machine.get(i)));
            HoursByCause causes = line.sort == Sort.STEP ? causes(line, working) : null;
            variances(line, working);
            List<Why> why = working.lines();
            work.add(
                    new Work(
                            line.sort,
                            line.step == null ? null : line.step.n(),
                            line.block.line == null ? null : line.block.line.item().position(),
                            line.block.order.changeOrder(),
                            line.work == null ? null : line.work.part(),
                            line.work == null ? null : line.work.position(),
                            line.work == null ? null : line.work.kind(),
                            line.work == null ? null : line.work.family(),
                            line.work == null ? null : line.work.workCentre(),
                            line.told,
                            new Figures(
                                    rounded(line.minutes(line.quoted)),
                                    rounded(line.minutes(line.made)),
                                    rounded(line.minutes())),
                            new Figures(
                                    rounded(line.elapsed(line.quoted)),
                                    rounded(line.elapsed(line.made)),
                                    rounded(line.elapsed)),
                            rounded(line.setUp),
                            rounded(line.rework),
                            labour,
                            rates == null ? null : money(paid.get(i).subtract(atBook.get(i))),
                            money(atBook.get(i).subtract(madeLabour.get(i))),
                            atMachine,
                            causes,
                            override(line),
                            why.isEmpty() ? null : why));
        }
        return work;
    }

    private void variances(Line line, Working working) {
        if (line.minutes().signum() == 0 && line.minutes(line.made).signum() == 0) {
            return;
        }
        double actual = hours(line.minutes()).doubleValue();
        double rate = labourRate(line).doubleValue();
        if (rates != null && actual > 0) {
            working.figure(
                    "rate",
                    CostingFormula.RATE_VARIANCE,
                    computed("actual rate", hours(line.paid).doubleValue() / actual, "/h"),
                    computed("planned rate", rate, "/h"),
                    computed("actual hours", actual, "h"));
        }
        working.figure(
                "efficiency",
                CostingFormula.EFFICIENCY_VARIANCE,
                computed("actual hours", actual, "h"),
                computed("planned hours", hours(line.minutes(line.made)).doubleValue(), "h"),
                computed("planned rate", rate, "/h"));
    }

    private HoursByCause causes(Line line, Working working) {
        HoursByCause.Plan quoted = plan(line.quoted, line.block.line.quantity());
        HoursByCause.Plan made = plan(line.made, line.block.line.made());
        HoursByCause.Booked booked =
                new HoursByCause.Booked(
                        hours(line.setUp),
                        hours(line.run),
                        hours(line.rework),
                        line.stretches && line.passesCounted ? line.passes : null,
                        line.stretches && line.checksCounted ? line.checks : null);
        if (line.work.kind().equals(WorkStep.TOOL_CHANGES)) {
            return HoursByCause.ofToolChanges(quoted, made, booked, HOUR_DIGITS, working);
        }
        boolean passes =
                line.made != null && line.made.passes() != null
                        || line.quoted != null && line.quoted.passes() != null;
        return passes
                ? HoursByCause.ofForming(quoted, made, booked, HOUR_DIGITS, working)
                : HoursByCause.ofOther(quoted, made, booked, HOUR_DIGITS, working);
    }

    private static HoursByCause.Plan plan(@Nullable PlannedStep step, int quantity) {
        if (step == null) {
            return new HoursByCause.Plan(0, BigDecimal.ZERO, BigDecimal.ZERO, 0, 0, 0);
        }
        PlannedStep.PassCount passes = step.passes();
        return new HoursByCause.Plan(
                quantity,
                hours(BigDecimal.valueOf(step.work().setupMinutes())),
                hours(BigDecimal.valueOf(step.work().runMinutes())),
                passes == null ? 0 : passes.passes(),
                passes == null ? 0 : passes.checks(),
                passes == null ? 0 : passes.checkShare());
    }

    private static JobComparison.@Nullable Override override(Line line) {
        PlannedStep made = line.made;
        if (line.sort != Sort.STEP || made == null || made.stated() == null) {
            return null;
        }
        BigDecimal stated = BigDecimal.valueOf(made.work().runMinutes());
        double share =
                made.stated().minutes() == 0
                        ? 0
                        : made.stated().computed() / made.stated().minutes();
        return new JobComparison.Override(
                rounded(stated.multiply(BigDecimal.valueOf(share))),
                rounded(stated),
                rounded(line.run),
                made.stated().reason());
    }

    /** Labour or machine of each line, so that those of an item add up to its cost. */
    private List<BigDecimal> planned(Charge charge, boolean quoted) {
        Map<Line, BigDecimal> of = new IdentityHashMap<>();
        for (Block block : blocks) {
            List<Line> own =
                    lines.stream()
                            .filter(l -> l.block == block && l.sort != Sort.WHOLE_JOB)
                            .toList();
            if (!own.isEmpty()) {
                QuantityPlan plan = quoted ? block.quoted : block.made;
                List<BigDecimal> parts =
                        Adding.upTo(
                                plan == null ? none() : charge.of(plan.cost()).amount(),
                                own.stream()
                                        .map(
                                                l ->
                                                        hours(
                                                                charge.exact(
                                                                        l,
                                                                        quoted ? l.quoted : l.made,
                                                                        currency)))
                                        .toList());
                for (int i = 0; i < parts.size(); i++) {
                    of.put(own.get(i), parts.get(i));
                }
            }
        }
        return lines.stream().map(l -> of.getOrDefault(l, none())).toList();
    }

    private BigDecimal none() {
        return Money.zero(currency).amount();
    }

    private List<BigDecimal> rounded(List<BigDecimal> exact) {
        if (exact.isEmpty()) {
            return List.of();
        }
        return Adding.upTo(sum(exact, e -> e).setScale(cents, RoundingMode.HALF_UP), exact);
    }

    private static BigDecimal hours(BigDecimal minutes) {
        return minutes.divide(SIXTY, MathContext.DECIMAL128);
    }

    private static BigDecimal rounded(BigDecimal minutes) {
        return hours(minutes).setScale(HOUR_DIGITS, RoundingMode.HALF_UP);
    }

    private Money money(BigDecimal amount) {
        return Money.rounded(amount, currency);
    }

    private List<AtCentre> centres(List<Work> work) {
        Map<String, AtCentre> centres = new LinkedHashMap<>();
        for (Work line : work) {
            if (line.sort() == Sort.WHOLE_JOB) {
                continue;
            }
            centres.merge(line.workCentre(), atCentre(line), Comparing::plus);
        }
        List<AtCentre> all = new ArrayList<>(centres.values());
        work.stream()
                .filter(w -> w.sort() == Sort.WHOLE_JOB)
                .map(Comparing::atCentre)
                .reduce(Comparing::plus)
                .ifPresent(all::add);
        return all;
    }

    private static AtCentre atCentre(Work line) {
        return new AtCentre(
                line.workCentre(),
                line.hours(),
                line.machineHours(),
                line.setUpHours(),
                line.reworkHours(),
                line.labour(),
                line.rate(),
                line.efficiency(),
                line.machine());
    }

    private static AtCentre plus(AtCentre a, AtCentre b) {
        return new AtCentre(
                a.workCentre(),
                a.hours().plus(b.hours()),
                a.machineHours().plus(b.machineHours()),
                a.setUpHours().add(b.setUpHours()),
                a.reworkHours().add(b.reworkHours()),
                a.labour().plus(b.labour()),
                a.rate() == null || b.rate() == null ? null : a.rate().plus(b.rate()),
                a.efficiency().plus(b.efficiency()),
                a.machine().plus(b.machine()));
    }

    // Metal ---------------------------------------------------------------------------------------

    /** One grade while it is gathered. */
    private static final class Taken {
        BigDecimal quotedKg = BigDecimal.ZERO;
        BigDecimal madeKg = BigDecimal.ZERO;
        BigDecimal kg = BigDecimal.ZERO;
        BigDecimal quoted = BigDecimal.ZERO;
        BigDecimal made = BigDecimal.ZERO;
        BigDecimal paid = BigDecimal.ZERO;
        @Nullable String family;
    }

    private List<Metal> metal(Map<Block, Direct> direct) {
        Map<String, Taken> grades = new LinkedHashMap<>();
        for (Block block : blocks) {
            planned(grades, block, true);
            planned(grades, block, false);
        }
        for (MetalUsed used : job.metal()) {
            Block block = blockOf(used.entry().item());
            Taken taken = grades.computeIfAbsent(used.entry().grade(), grade -> new Taken());
            taken.family = taken.family == null ? used.family() : taken.family;
            BigDecimal cost = Money.rounded(used.cost().amount(), currency).amount();
            taken.kg = taken.kg.add(BigDecimal.valueOf(used.netKg()));
            taken.paid = taken.paid.add(cost);
            Direct d = direct.get(block);
            d.material = d.material.add(cost);
        }
        return grades.entrySet().stream().map(e -> metal(e.getKey(), e.getValue())).toList();
    }

    private static void family(Taken taken, String grade, ShopBook book) {
        if (taken.family == null) {
            taken.family = book.grade(grade).map(ShopBook.Grade::family).orElse(null);
        }
    }

    private void planned(Map<String, Taken> grades, Block block, boolean quoted) {
        QuantityPlan plan = quoted ? block.quoted : block.made;
        if (plan == null || plan.metal().isEmpty()) {
            return;
        }
        List<BigDecimal> costs =
                Adding.upTo(
                        plan.cost().material().amount(),
                        plan.metal().stream().map(m -> m.cost().amount()).toList());
        for (int i = 0; i < costs.size(); i++) {
            Estimate.MetalUsed metal = plan.metal().get(i);
            Taken taken = grades.computeIfAbsent(metal.grade(), grade -> new Taken());
            family(taken, metal.grade(), block.order.book());
            double kept = metal.keptKg() == null ? 0 : metal.keptKg();
            BigDecimal kg = BigDecimal.valueOf(metal.kg() - kept);
            if (quoted) {
                taken.quotedKg = taken.quotedKg.add(kg);
                taken.quoted = taken.quoted.add(costs.get(i));
            } else {
                taken.madeKg = taken.madeKg.add(kg);
                taken.made = taken.made.add(costs.get(i));
            }
        }
    }

    /**
     * What nobody planned has no planned price: all of it is usage. The price of what was planned
     * is that of its mean kilogram.
     */
    private Metal metal(String grade, Taken taken) {
        BigDecimal planned =
                taken.madeKg.signum() > 0
                        ? taken.made.divide(taken.madeKg, MathContext.DECIMAL128)
                        : taken.quotedKg.signum() > 0
                                ? taken.quoted.divide(taken.quotedKg, MathContext.DECIMAL128)
                                : taken.kg.signum() > 0
                                        ? taken.paid.divide(taken.kg, MathContext.DECIMAL128)
                                        : BigDecimal.ZERO;
        BigDecimal actual =
                taken.kg.signum() > 0
                        ? taken.paid.divide(taken.kg, MathContext.DECIMAL128)
                        : BigDecimal.ZERO;
        Working working = new Working();
        working.figure(
                "price",
                CostingFormula.PRICE_VARIANCE,
                computed("actual price", actual.doubleValue(), "/kg"),
                computed("planned price", planned.doubleValue(), "/kg"),
                computed("actual amount", taken.kg.doubleValue(), "kg"));
        working.figure(
                "usage",
                CostingFormula.USAGE_VARIANCE,
                computed("actual amount", taken.kg.doubleValue(), "kg"),
                computed("planned amount", taken.madeKg.doubleValue(), "kg"),
                computed("planned price", planned.doubleValue(), "/kg"));
        List<BigDecimal> parts =
                Adding.upTo(
                        taken.paid.subtract(taken.made),
                        List.of(
                                taken.paid.subtract(planned.multiply(taken.kg)),
                                CostingFormula.USAGE_VARIANCE.exact(
                                        taken.kg, taken.madeKg, planned)));
        return new Metal(
                grade,
                taken.family,
                new Figures(grams(taken.quotedKg), grams(taken.madeKg), grams(taken.kg)),
                new Amounts(money(taken.quoted), money(taken.made), money(taken.paid)),
                money(parts.get(0)),
                money(parts.get(1)),
                working.lines());
    }

    private static BigDecimal grams(BigDecimal kg) {
        return kg.setScale(3, RoundingMode.HALF_UP);
    }

    private Block blockOf(@Nullable Integer item) {
        return blocks.stream()
                .filter(b -> b.line != null && item != null)
                .filter(b -> b.line.item().position() == item)
                .findFirst()
                .orElse(blocks.get(blocks.size() - 1));
    }

    // Bought out ----------------------------------------------------------------------------------

    private record BoughtName(String name, Bought.Sort sort) {}

    private List<Bought> bought(Map<Block, Direct> direct) {
        Map<BoughtName, Amounts> bought = new LinkedHashMap<>();
        Set<String> billed = new HashSet<>();
        for (BillEntry bill : job.bills()) {
            if (bill.extra() != null) {
                billed.add(bill.extra());
            }
        }
        for (Block block : blocks) {
            extras(bought, block, true, billed, direct.get(block));
            extras(bought, block, false, billed, direct.get(block));
        }
        for (BillEntry bill : job.bills()) {
            bill(bought, bill, direct);
        }
        for (Block block : blocks) {
            if (block.made == null) {
                continue;
            }
            for (QuantityPlan.Extra extra : block.made.extras()) {
                if (extra.of().kind() == TakeOff.ExtraKind.BOUGHT_OUT
                        && extra.cost().signum() > 0
                        && !billed.contains(extra.of().name())) {
                    note(Note.Code.NO_BILL, "No bill is booked for " + extra.of().name() + ".");
                }
            }
        }
        return bought.entrySet().stream()
                .filter(e -> !e.getValue().isNothing())
                .map(e -> new Bought(e.getKey().name(), e.getKey().sort(), e.getValue()))
                .toList();
    }

    /**
     * What is made specially in the shop, and minimum charges, send no bill: they are as planned.
     */
    private void extras(
            Map<BoughtName, Amounts> bought,
            Block block,
            boolean quoted,
            Set<String> billed,
            Direct direct) {
        QuantityPlan plan = quoted ? block.quoted : block.made;
        if (plan == null) {
            return;
        }
        List<BoughtName> names = new ArrayList<>();
        List<BigDecimal> exact = new ArrayList<>();
        for (QuantityPlan.Extra extra : plan.extras()) {
            names.add(
                    new BoughtName(
                            extra.of().name(),
                            extra.of().kind() == TakeOff.ExtraKind.BOUGHT_OUT
                                    ? Bought.Sort.BOUGHT_OUT
                                    : Bought.Sort.SPECIAL_DIRECT));
            exact.add(extra.cost());
        }
        for (QuantityPlan.Extra extra : plan.extras()) {
            names.add(HANDLING);
            exact.add(extra.handling());
        }
        names.add(MINIMUM_CHARGES);
        exact.add(plan.minimumCharges());
        List<BigDecimal> parts = Adding.upTo(plan.cost().specialDirect().amount(), exact);
        Money zero = Money.zero(currency);
        for (int i = 0; i < parts.size(); i++) {
            BoughtName name = names.get(i);
            Money amount = money(parts.get(i));
            boolean asPlanned =
                    !quoted
                            && (name.sort == Bought.Sort.MINIMUM_CHARGES
                                    || name.sort == Bought.Sort.SPECIAL_DIRECT
                                            && !billed.contains(name.name));
            bought.merge(
                    name,
                    new Amounts(
                            quoted ? amount : zero,
                            quoted ? zero : amount,
                            asPlanned ? amount : zero),
                    Amounts::plus);
            if (asPlanned) {
                direct.special = direct.special.add(amount.amount());
            }
        }
    }

    private static final BoughtName HANDLING = new BoughtName("Handling", Bought.Sort.HANDLING);
    private static final BoughtName MINIMUM_CHARGES =
            new BoughtName("Up to minimum charges", Bought.Sort.MINIMUM_CHARGES);

    private void bill(Map<BoughtName, Amounts> bought, BillEntry bill, Map<Block, Direct> direct) {
        Block block = blocks.get(blocks.size() - 1);
        TakeOff.Extra planned = null;
        for (Block of : blocks) {
            if (planned == null && of.line != null && bill.extra() != null) {
                planned =
                        of.line.item().takeOff().extras().stream()
                                .filter(e -> bill.extra().equals(e.name()))
                                .findFirst()
                                .orElse(null);
                block = planned == null ? block : of;
            }
        }
        Money amount = Money.rounded(bill.amount().amount(), currency);
        double percent =
                planned == null
                        ? block.order.book().priceScheme().boughtOutHandlingPercent()
                        : planned.handlingPercentBy(block.order.book().priceScheme());
        Money handling = percentOf(amount.amount(), percent);
        BoughtName name =
                planned == null
                        ? new BoughtName(bill.name(), Bought.Sort.NOT_PLANNED)
                        : new BoughtName(
                                planned.name(),
                                planned.kind() == TakeOff.ExtraKind.BOUGHT_OUT
                                        ? Bought.Sort.BOUGHT_OUT
                                        : Bought.Sort.SPECIAL_DIRECT);
        Money zero = Money.zero(currency);
        bought.merge(name, new Amounts(zero, zero, amount), Amounts::plus);
        bought.merge(HANDLING, new Amounts(zero, zero, handling), Amounts::plus);
        Direct d = direct.get(block);
        d.special = d.special.add(amount.amount()).add(handling.amount());
    }

    private Money percentOf(BigDecimal base, double percent) {
        return money(PERCENT_OF.exact(base, BigDecimal.valueOf(percent)));
    }

    // Overheads and margins -----------------------------------------------------------------------

    private List<Overhead> overheads(Map<Block, Direct> direct) {
        Map<Overhead.Name, Amounts> overheads = new EnumMap<>(Overhead.Name.class);
        for (Block block : blocks) {
            Direct d = direct.get(block);
            PriceScheme scheme = block.scheme();
            Money material = percentOf(d.material, scheme.materialOverheadPercent());
            Money production = percentOf(d.labour, scheme.productionOverheadPercent());
            BigDecimal manufacturing =
                    d.material
                            .add(material.amount())
                            .add(d.labour)
                            .add(d.machine)
                            .add(production.amount())
                            .add(d.special);
            Money administration = percentOf(manufacturing, scheme.administrationPercent());
            Money sales = percentOf(manufacturing, scheme.salesPercent());
            d.total = manufacturing.add(administration.amount()).add(sales.amount());
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
                new Amounts(block.quoted(part, currency), block.made(part, currency), actual),
                Amounts::plus);
    }

    private List<JobComparison.Order> orders(List<Work> work, Map<Block, Direct> direct) {
        List<JobComparison.Order> orders = new ArrayList<>();
        for (JobRecord.Ordered order : job.orders()) {
            Amounts cost = Amounts.none(currency);
            for (Block block : blocks) {
                if (block.order == order) {
                    cost =
                            cost.plus(
                                    new Amounts(
                                            block.quoted(Estimate.Cost::total, currency),
                                            block.made(Estimate.Cost::total, currency),
                                            money(direct.get(block).total)));
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
                            Money.rounded(order.net().amount(), currency)));
        }
        return orders;
    }

    private Net net() {
        Money zero = Money.zero(currency);
        Net all = new Net(zero, zero, zero, zero);
        for (JobRecord.Ordered order : job.orders()) {
            Money ordered = Money.rounded(order.net().amount(), currency);
            Money made = money(ordered.amount().multiply(shareMade(order)));
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
        return money(
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

    private static Margins margins(Net net, Amounts cost) {
        return new Margins(
                margin(net.orderedAfterDiscounts(), cost.quoted()),
                margin(net.madeAfterDiscounts(), cost.planned()),
                margin(net.madeAfterDiscounts(), cost.actual()));
    }

    static Margin margin(Money net, Money cost) {
        Money left = net.minus(cost);
        return new Margin(
                left,
                net.isZero()
                        ? null
                        : CostingFormula.PERCENT_OF_WHOLE
                                .exact(left.amount(), net.amount())
                                .setScale(1, RoundingMode.HALF_UP));
    }

    private static List<BridgeStep> bridge(Margins margins, Net net, Amounts cost, Over over) {
        Money zero = over.efficiency().minus(over.efficiency());
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

    private void doubts(Figures hours, List<Metal> metal) {
        if (job.state() != JobState.FINISHED && job.state() != JobState.CLOSED) {
            note(
                    Note.Code.NOT_FINISHED,
                    "The job is not finished: actual is what was booked so far, planned is for all"
                            + " that was ordered.");
        }
        if (!job.isBookedToTheEnd()) {
            note(Note.Code.CLOCK_RUNS, "A clock still runs; its time is not counted yet.");
        }
        if (hours.actual().signum() == 0) {
            note(Note.Code.NO_HOURS, "No hours are booked: what looks like hours saved is not.");
        }
        BigDecimal whole =
                sum(lines.stream().filter(l -> l.sort == Sort.WHOLE_JOB).toList(), Line::minutes);
        if (whole.signum() > 0) {
            note(
                    Note.Code.HOURS_ON_WHOLE_JOB,
                    "Hours booked on the job alone stand on a line of their own and are valued at"
                            + " the mean planned rate of the job, or of forming where that was told.");
        }
        if (job.metal().isEmpty() && metal.stream().anyMatch(m -> !m.cost().planned().isZero())) {
            note(
                    Note.Code.NO_METAL,
                    "No metal is booked: the cost is too low by what was really used.");
        }
        if (job.orders().stream().flatMap(o -> o.items().stream()).allMatch(l -> l.made() == 0)) {
            note(Note.Code.NOTHING_MADE, "No piece was made: nothing is planned for that.");
        }
        if (rates == null) {
            note(
                    Note.Code.BOOK_RATES,
                    "Labour is valued at the rates of the shop book. What people cost, and with it"
                            + " the margin earned, is for the owner alone.");
        }
    }

    private void note(Note.Code code, String message) {
        notes.add(new Note(code, message));
    }
}
