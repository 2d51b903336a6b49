package strokewright.comparison;

import static strokewright.quantity.Why.Input.computed;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Currency;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import strokewright.comparison.JobComparison.AtCentre;
import strokewright.comparison.JobComparison.Sort;
import strokewright.comparison.JobComparison.Work;
import strokewright.costing.Adding;
import strokewright.costing.CostingFormula;
import strokewright.costing.HoursByCause;
import strokewright.estimate.Estimate;
import strokewright.estimate.PlannedStep;
import strokewright.estimate.QuantityPlan;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.WorkStep;
import strokewright.job.Booking;
import strokewright.job.Step;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import strokewright.quantity.Working;

/** The work of a job, line by line: hours, labour and machines, and why they differ. */
final class WorkCompared {

    /** Hours are kept to so many digits after the point: a millionth is four thousandths of a s. */
    private static final int HOUR_DIGITS = 6;

    private static final BigDecimal SIXTY = BigDecimal.valueOf(60);

    /** What was made comes first. */
    private static final List<Plan> FIRST_OF = List.of(Plan.MADE, Plan.QUOTED);

    private final List<Block> blocks;
    private final @Nullable LabourRates rates;
    private final Cents cents;
    private final List<Line> lines = new ArrayList<>();
    private final Set<UUID> withoutRate = new HashSet<>();
    private final Map<Charge, BigDecimal> means = new EnumMap<>(Charge.class);

    /**
     * @param card the steps of the route card
     * @param rates what people cost; null for whoever may not see it
     */
    WorkCompared(List<Block> blocks, List<Step> card, @Nullable LabourRates rates, Cents cents) {
        this.blocks = blocks;
        this.rates = rates;
        this.cents = cents;
        blocks.stream().filter(b -> b.line != null).forEach(b -> plan(b, card));
    }

    /** How many people booked time and have no cost rate. */
    int peopleWithoutRate() {
        return withoutRate.size();
    }

    /** Hours that were booked on the job alone are there. */
    boolean hasHoursOnWholeJob() {
        return lines.stream().anyMatch(l -> l.sort == Sort.WHOLE_JOB && l.minutes().signum() > 0);
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

        @Nullable PlannedStep plan(Plan of) {
            return of == Plan.QUOTED ? quoted : made;
        }

        BigDecimal minutes(Plan of) {
            PlannedStep step = plan(of);
            if (step == null) {
                return BigDecimal.ZERO;
            }
            return BigDecimal.valueOf(
                    sort == Sort.RESERVE
                            ? step.reserveMinutes()
                            : step.work().setupMinutes() + step.work().runMinutes());
        }

        BigDecimal elapsed(Plan of) {
            PlannedStep step = plan(of);
            if (step == null) {
                return BigDecimal.ZERO;
            }
            return BigDecimal.valueOf(
                    sort == Sort.RESERVE
                            ? step.reserveElapsed()
                            : step.work().setupElapsed() + step.work().runElapsed());
        }

        BigDecimal minutes() {
            return setUp.add(run).add(rework);
        }
    }

    // The plan ------------------------------------------------------------------------------------

    /** Steps as they stand on the route card; a step that only the plan of today has comes last. */
    private void plan(Block block, List<Step> card) {
        Map<WorkStep, PlannedStep> quoted = named(block.plan(Plan.QUOTED));
        Map<WorkStep, PlannedStep> made = named(block.plan(Plan.MADE));
        Set<WorkStep> seen = new HashSet<>();
        List<Line> reserves = new ArrayList<>();
        int position = block.line.item().position();
        for (Step step : card) {
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

    /** Lays what was booked to the steps that it was booked on. */
    void book(List<Booking> bookings) {
        Map<Integer, Line> byStep = new HashMap<>();
        lines.stream().filter(l -> l.step != null).forEach(l -> byStep.put(l.step.n(), l));
        Map<String, Line> whole = new LinkedHashMap<>();
        for (Booking booking : bookings) {
            if (booking.minutes() == null) {
                continue;
            }
            Line line = booking.step() == null ? null : byStep.get(booking.step());
            if (line == null) {
                line =
                        whole.computeIfAbsent(
                                String.valueOf(booking.sort()), key -> wholeJob(booking.sort()));
            }
            book(line, booking);
        }
        lines.addAll(whole.values());
    }

    private Line wholeJob(Booking.@Nullable Sort told) {
        Line line = new Line(Sort.WHOLE_JOB, blocks.get(blocks.size() - 1), null, null, null);
        line.told = told;
        return line;
    }

    private void book(Line line, Booking booking) {
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
            withoutRate.add(booking.workerId());
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
                                : elapsed.multiply(
                                        Charge.MACHINE.rate(line.centre, cents.currency())));
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
            return Charge.LABOUR.rate(line.centre, cents.currency());
        }
        return line.told == Booking.Sort.FORMING
                ? Charge.LABOUR.rate(line.block.order.book().formingCentre(), cents.currency())
                : plannedMean(Charge.LABOUR);
    }

    /** What an hour is charged for. */
    private enum Charge {
        LABOUR,
        MACHINE;

        BigDecimal minutes(Line line, Plan of) {
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

        BigDecimal exact(Line line, Plan of, Currency currency) {
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
                    for (Plan of : FIRST_OF) {
                        BigDecimal minutes = sum(lines, l -> l.minutes(of));
                        if (minutes.signum() > 0) {
                            return sum(lines, l -> c.exact(l, of, cents.currency()))
                                    .divide(minutes, MathContext.DECIMAL128);
                        }
                    }
                    return c.rate(blocks.get(0).order.book().formingCentre(), cents.currency());
                });
    }

    private static <T> BigDecimal sum(List<T> of, Function<T, BigDecimal> amount) {
        return of.stream().map(amount).reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    // Side by side --------------------------------------------------------------------------------

    /** Line by line; adds what each item took to its block. */
    List<Work> compared() {
        List<BigDecimal> quotedLabour = planned(Charge.LABOUR, Plan.QUOTED);
        List<BigDecimal> madeLabour = planned(Charge.LABOUR, Plan.MADE);
        List<BigDecimal> quotedMachine = planned(Charge.MACHINE, Plan.QUOTED);
        List<BigDecimal> madeMachine = planned(Charge.MACHINE, Plan.MADE);
        List<BigDecimal> atBook = cents.parts(lines.stream().map(l -> hours(l.atBook)).toList());
        List<BigDecimal> paid = cents.parts(lines.stream().map(l -> hours(l.paid)).toList());
        List<BigDecimal> machine = cents.parts(lines.stream().map(l -> hours(l.machine)).toList());
        List<Work> work = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            Line line = lines.get(i);
            Working working = new Working();
            Amounts labour =
                    new Amounts(
                            cents.of(quotedLabour.get(i)),
                            cents.of(madeLabour.get(i)),
                            cents.of(rates == null ? atBook.get(i) : paid.get(i)));
            Amounts atMachine =
                    new Amounts(
                            cents.of(quotedMachine.get(i)),
                            cents.of(madeMachine.get(i)),
                            cents.of(machine.get(i)));
            line.block.labour = line.block.labour.add(labour.actual().amount());
            line.block.machine = line.block.machine.add(atMachine.actual().amount());
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
                                    rounded(line.minutes(Plan.QUOTED)),
                                    rounded(line.minutes(Plan.MADE)),
                                    rounded(line.minutes())),
                            new Figures(
                                    rounded(line.elapsed(Plan.QUOTED)),
                                    rounded(line.elapsed(Plan.MADE)),
                                    rounded(line.elapsed)),
                            rounded(line.setUp),
                            rounded(line.rework),
                            labour,
                            rates == null ? null : cents.of(paid.get(i).subtract(atBook.get(i))),
                            cents.of(atBook.get(i).subtract(madeLabour.get(i))),
                            atMachine,
                            causes,
                            override(line),
                            why.isEmpty() ? null : why));
        }
        return work;
    }

    private void variances(Line line, Working working) {
        if (line.minutes().signum() == 0 && line.minutes(Plan.MADE).signum() == 0) {
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
                computed("planned hours", hours(line.minutes(Plan.MADE)).doubleValue(), "h"),
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
    private List<BigDecimal> planned(Charge charge, Plan of) {
        Map<Line, BigDecimal> amounts = new HashMap<>();
        for (Block block : blocks) {
            List<Line> own =
                    lines.stream()
                            .filter(l -> l.block == block && l.sort != Sort.WHOLE_JOB)
                            .toList();
            if (!own.isEmpty()) {
                QuantityPlan plan = block.plan(of);
                List<BigDecimal> parts =
                        Adding.upTo(
                                plan == null ? none() : charge.of(plan.cost()).amount(),
                                own.stream()
                                        .map(l -> hours(charge.exact(l, of, cents.currency())))
                                        .toList());
                for (int i = 0; i < parts.size(); i++) {
                    amounts.put(own.get(i), parts.get(i));
                }
            }
        }
        return lines.stream().map(l -> amounts.getOrDefault(l, none())).toList();
    }

    private BigDecimal none() {
        return cents.zero().amount();
    }

    private static BigDecimal hours(BigDecimal minutes) {
        return minutes.divide(SIXTY, MathContext.DECIMAL128);
    }

    private static BigDecimal rounded(BigDecimal minutes) {
        return hours(minutes).setScale(HOUR_DIGITS, RoundingMode.HALF_UP);
    }

    static List<AtCentre> centres(List<Work> work) {
        Map<String, AtCentre> centres = new LinkedHashMap<>();
        for (Work line : work) {
            if (line.sort() == Sort.WHOLE_JOB) {
                continue;
            }
            centres.merge(line.workCentre(), atCentre(line), WorkCompared::plus);
        }
        List<AtCentre> all = new ArrayList<>(centres.values());
        work.stream()
                .filter(w -> w.sort() == Sort.WHOLE_JOB)
                .map(WorkCompared::atCentre)
                .reduce(WorkCompared::plus)
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
}
