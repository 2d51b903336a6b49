package strokewright.estimate;

import static strokewright.costing.CostingFormula.*;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import strokewright.costing.BuildUp;
import strokewright.costing.MarketPrice;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.TakeOff.Extra;
import strokewright.forming.FormingFormula;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/** Hours, cost and price of one quantity of the whole item. */
final class Quantity {

    private final TakeOff takeOff;
    private final ShopBook book;
    private final Times times;
    private final List<Worked> lines;
    private final List<Round> rounds;
    private final Metals metals;
    private final List<SpareBlank> spares;
    private final Simulation simulation;
    private final int quantity;

    private final Working working = new Working();
    private final Rates rates;
    private final Map<String, Charge> charges = new LinkedHashMap<>();
    private final FinalCheck finalCheck;
    private final Map<List<Integer>, Double> practised = new HashMap<>();
    private final List<Input> setup = new ArrayList<>();
    private final List<Input> run = new ArrayList<>();
    private final List<Input> reserve = new ArrayList<>();
    private final Term.Sum terms = new Term.Sum();
    private final Map<WorkStep, WorkStep> steps = new LinkedHashMap<>();
    private final Map<WorkStep, PlannedStep> besides = new HashMap<>();
    private final List<MarketPrice.LeastCharge> leastCharges = new ArrayList<>();
    private BigDecimal minimumCharges = BigDecimal.ZERO;
    private List<Map<String, Object>> cheaperAtBreak = List.of();
    private double paidShare = 1;
    private Map<String, Double> metalByGrade = Map.of();

    Quantity(
            TakeOff takeOff,
            ShopBook book,
            List<Worked> lines,
            List<Round> rounds,
            Metals metals,
            List<SpareBlank> spares,
            Simulation simulation,
            int quantity) {
        this.takeOff = takeOff;
        this.book = book;
        this.times = book.times();
        this.lines = lines;
        this.rounds = rounds;
        this.metals = metals;
        this.spares = spares;
        this.simulation = simulation;
        this.quantity = quantity;
        this.rates = new Rates(book, working);
        this.finalCheck = new FinalCheck(takeOff, book, lines);
        book.workCentres().forEach(c -> charges.put(c.name(), new Charge(c)));
    }

    /** Hours charged at one work centre, added up as the lines are gone through. */
    private static final class Charge {
        final WorkCentre centre;
        double labourMinutes;
        double machineMinutes;

        Charge(WorkCentre centre) {
            this.centre = centre;
        }

        void add(double elapsed, int people) {
            labourMinutes += elapsed * people;
            machineMinutes += elapsed;
        }
    }

    Estimate.ForQuantity estimate() {
        Passing passing = chargeAll();
        double setupMinutes =
                working.figure("setupMinutes", Arithmetic.SUM, setup.toArray(Input[]::new));
        double runMinutes = working.figure("runMinutes", Arithmetic.SUM, run.toArray(Input[]::new));
        double reserveMinutes =
                working.figure("reserveMinutes", Arithmetic.SUM, reserve.toArray(Input[]::new));
        double total =
                working.figure(
                        "minutes",
                        Arithmetic.SUM,
                        computed("set-up", setupMinutes, "min"),
                        computed("run", runMinutes, "min"),
                        computed("reserve", reserveMinutes, "min"));
        double hours = working.figure("hours.plan", HOURS, computed("minutes", total, "min"));
        Currency currency = Objects.requireNonNull(book.currency());
        Bought bought = bought();
        cheaperAtBreak = bought.cheaperAtBreak();
        metalByGrade = bought.costByGrade();
        Outcome outcome = simulation.of(terms, metalByGrade, extras());
        double priceHours = outcome.priced(scheme().priceFrom(), hours);
        BuildUp build = buildUp(bought.cost(), pricedShare(hours, priceHours));
        return new Estimate.ForQuantity(
                quantity,
                passing.passage(),
                passing.provingRound(),
                passing.changes(),
                setupMinutes,
                runMinutes,
                outcome.hours(hours),
                charges.values().stream()
                        .filter(c -> c.labourMinutes > 0 || c.machineMinutes > 0)
                        .map(c -> atCentre(c, currency))
                        .toList(),
                Cents.cost(build, currency),
                Cents.price(build, currency),
                Money.rounded(build.priceEach(), currency),
                working.lines(),
                reserveMinutes,
                priceHours,
                bought.used(),
                spares.stream().map(SpareBlank::shown).toList(),
                finalCheck.samples(quantity),
                takeOff.leadTimeDays(),
                outcome.spreads(this::listPrice, currency),
                outcome.over(build.net().doubleValue()));
    }

    /** What is asked for so much total cost, before the price each is rounded. */
    private double listPrice(double total) {
        Money least = scheme().minimumOrder();
        double list = total * simulation.unit().listPrice();
        return least == null ? list : Math.max(list, least.amount().doubleValue());
    }

    private PriceScheme scheme() {
        return Objects.requireNonNull(book.priceScheme());
    }

    /** What drives hours and cost, once the estimate is made. */
    List<Estimate.Driver> drivers() {
        return simulation.drivers(this::trials);
    }

    /** Person-hours, then total cost, by trial, once the estimate is made. */
    double[][] trials(Draws draws) {
        return simulation.trials(terms, metalByGrade, extras(), draws);
    }

    private Passing chargeAll() {
        Passing passing = Passing.cheaper(rounds, quantity, proves());
        toolChanges(passing);
        lines.forEach(this::charge);
        return passing;
    }

    /** Total cost of the whole quantity at plan hours, before any rounding. */
    double exactCost() {
        chargeAll();
        return buildUp(metals.cost(quantity, this::spares), 1).total().doubleValue();
    }

    private Bought bought() {
        spares.forEach(s -> s.blanks(working));
        return metals.buy(quantity, this::spares, working);
    }

    /**
     * Metal that more of it would make cheaper, samples that are the whole lot; once the estimate
     * is made.
     *
     * @param pointer to this quantity in the take-off
     */
    List<Finding> notes(String pointer) {
        List<Finding> notes = new ArrayList<>();
        cheaperAtBreak.forEach(
                values ->
                        notes.add(new Finding("cheaper-at-break", Severity.NOTE, pointer, values)));
        notes.addAll(finalCheck.notes(quantity, pointer));
        return notes;
    }

    /** Share of the planned hours that the price is made from. */
    private double pricedShare(double hours, double priceHours) {
        return scheme().priceFrom() == PriceScheme.From.PLAN || hours == 0
                ? 1
                : working.figure(
                        "pricedShare",
                        PRICED_SHARE,
                        computed("hours that the price is made from", priceHours, "h"),
                        computed("plan", hours, "h"));
    }

    /**
     * Once everything is charged.
     *
     * @param share of the planned hours that are paid for
     */
    private BuildUp buildUp(BigDecimal material, double share) {
        paidShare = share;
        terms.leasts().forEach(this::minimumCharge);
        return BuildUp.forward(
                material,
                labour(),
                machine(),
                specialDirect(),
                quantity,
                Objects.requireNonNull(book.currency()),
                scheme(),
                takeOff.urgencyPercent(),
                Bench.origin(book, null),
                working);
    }

    /** What is done, in the order of the take-off, tool changes first. */
    List<WorkStep> steps() {
        chargeAll();
        return List.copyOf(steps.values());
    }

    /** The same with the reserve and what else is planned of each. */
    List<PlannedStep> planned() {
        chargeAll();
        return plannedSteps();
    }

    private List<PlannedStep> plannedSteps() {
        return steps.keySet().stream().map(k -> besides.get(k).with(steps.get(k))).toList();
    }

    /** All that is planned, without spread. */
    QuantityPlan plan() {
        chargeAll();
        Currency currency = Objects.requireNonNull(book.currency());
        Bought bought = bought();
        BuildUp build = buildUp(bought.cost(), 1);
        return new QuantityPlan(
                quantity,
                plannedSteps(),
                charges.values().stream()
                        .filter(c -> c.labourMinutes > 0 || c.machineMinutes > 0)
                        .map(c -> atCentre(c, currency))
                        .toList(),
                bought.used(),
                takeOff.extras().stream()
                        .map(e -> new QuantityPlan.Extra(e, cost(e), handling(e, cost(e), working)))
                        .toList(),
                minimumCharges,
                Cents.cost(build, currency));
    }

    /** Minutes at the work centre and of people, added to the step that is so called. */
    private void step(
            @Nullable Worked line,
            String kind,
            String centre,
            double setupElapsed,
            double setupMinutes,
            double runElapsed,
            double runMinutes) {
        WorkStep named =
                WorkStep.named(
                        line == null ? null : line.line().part(),
                        line == null ? 0 : line.line().position(),
                        kind,
                        line == null ? null : line.family(),
                        centre);
        steps.merge(
                named,
                named.plus(setupElapsed, setupMinutes, runElapsed, runMinutes),
                (before, more) -> before.plus(setupElapsed, setupMinutes, runElapsed, runMinutes));
        boolean ownWork = line != null && kind.equals(kind(line));
        besides.putIfAbsent(named, ownWork ? PlannedStep.of(line, named) : PlannedStep.of(named));
    }

    /** What a price each that the market pays leaves. */
    AtMarketPrice at(BigDecimal priceEach) {
        chargeAll();
        double hours = charges.values().stream().mapToDouble(c -> c.labourMinutes).sum() / 60;
        Bought bought = bought();
        double share =
                scheme().priceFrom() == PriceScheme.From.PLAN
                        ? 1
                        : pricedShare(
                                hours,
                                simulation
                                        .of(terms, bought.costByGrade(), extras())
                                        .priced(scheme().priceFrom(), hours));
        BuildUp planned = buildUp(bought.cost(), share);
        Working backward = new Working();
        MarketPrice market =
                MarketPrice.backward(
                        planned,
                        leastCharges,
                        quantity,
                        priceEach,
                        Objects.requireNonNull(book.currency()),
                        Objects.requireNonNull(book.priceScheme()),
                        takeOff.urgencyPercent(),
                        Bench.origin(book, null),
                        backward);
        return AtMarketPrice.of(
                quantity,
                planned,
                market,
                hours * share,
                charges.values().stream().mapToDouble(c -> c.machineMinutes).sum() / 60 * share,
                book,
                backward.lines());
    }

    /** Proving the first item right through: for more than one, unless it is a repeat. */
    private boolean proves() {
        return takeOff.proveFirst() != null
                ? takeOff.proveFirst()
                : takeOff.information() != TakeOff.Information.REPEAT;
    }

    /** Changes of tools, and the pick-ups that a batch takes at each; practice shortens neither. */
    private void toolChanges(Passing passing) {
        String centre = book.formingCentre().name();
        if (passing.changes() > 0) {
            working.figure(
                    "toolChanges",
                    FormingFormula.TOOL_CHANGES,
                    computed("first round", passing.firstRoundChanges(), ""),
                    computed("further rounds", passing.furtherRounds(), ""),
                    computed("a further round", passing.furtherRoundChanges(), ""));
            double mounts =
                    working.figure(
                            "mountMinutes",
                            FormingFormula.MOUNT_MINUTES,
                            mounts("firstRoundMinutes", "first round", Round::mounts),
                            computed("further rounds", passing.furtherRounds(), ""),
                            passing.furtherRounds() == 0
                                    ? computed("a further round", 0, "min")
                                    : mounts(
                                            "furtherRoundMinutes",
                                            "a further round",
                                            Round::furtherMounts));
            double changing =
                    setUp(
                            "tool changes",
                            standardMinutes("toolChangeMinutes", mounts, rates.machineAllowance()),
                            1,
                            centre);
            step(null, WorkStep.TOOL_CHANGES, centre, changing, changing, 0, 0);
        }
        if (passing.pickUpMinutes() > 0) {
            double elapsed =
                    standardMinutes(
                            "pickUpMinutes",
                            pickUps(passing.pickedUp(), Round::pickUpMinutes),
                            rates.machineAllowance());
            double persons =
                    standardMinutes(
                            "pickUpPersonMinutes",
                            pickUps(passing.pickedUp(), Round::pickUpPersonMinutes),
                            rates.machineAllowance());
            run.add(computed("pick-ups at tool changes", persons, "min"));
            step(null, WorkStep.TOOL_CHANGES, centre, 0, 0, elapsed, persons);
            Charge charge = charges.get(centre);
            charge.machineMinutes += elapsed;
            charge.labourMinutes += persons;
            Varying minute = simulation.varying().minute();
            terms.add(new Term(minute, 0, elapsed, 0, 1, charge.centre));
            terms.add(new Term(minute, 0, persons, 1, 0, charge.centre));
        }
    }

    /** Tools put in and set during one round, over all machines. */
    private Input mounts(String figure, String name, Function<Round, List<Tool>> of) {
        Input[] tools =
                rounds.stream()
                        .flatMap(r -> of.apply(r).stream())
                        .map(
                                t ->
                                        new Input(
                                                t.name(),
                                                t.mountMinutes(),
                                                "min",
                                                Bench.origin(book, t.origin())))
                        .toArray(Input[]::new);
        return computed(name, working.figure(figure, Arithmetic.SUM, tools), "min");
    }

    /** Every piece of so many items once at each change. */
    private double pickUps(int items, ToDoubleFunction<Round> ofOneItem) {
        List<Input> inputs = new ArrayList<>();
        inputs.add(computed("items", items, ""));
        rounds.forEach(r -> inputs.add(computed("one item", ofOneItem.applyAsDouble(r), "min")));
        return working.figure(
                "normalPickUpMinutes", Arithmetic.COUNT_TIMES_SUM, inputs.toArray(Input[]::new));
    }

    private void charge(Worked line) {
        int pieces = quantity * line.perAssembly();
        Standard standard = line.standard();
        Input allowance = standard == null ? rates.machineAllowance() : rates.benchAllowance();
        int people = line.line().people();
        String centre = line.line().workCentre();
        String name = name(line);
        int before = terms.size();
        double elapsed = 0;
        if (line.line().setupMinutes() != null && line.line().setupMinutes() > 0) {
            double normal = line.line().setupMinutes();
            elapsed =
                    setUp(
                            name,
                            standardMinutes(name + ".setupMinutes", normal, allowance),
                            people,
                            centre,
                            line.isOncePerOrder() ? line : null);
        }
        int worked =
                FinalCheck.isDoneBy(standard)
                        ? finalCheck.inspected(name + ".inspectedPieces", pieces, working)
                        : pieces;
        double paced = line.elapsedPacedMinutes();
        double handPaced = line.elapsedMinutes() - paced;
        double runElapsed =
                asLearned(
                        line,
                        name,
                        working.figure(
                                name + ".runMinutes",
                                RUN_MINUTES,
                                computed("paced", paced, "min"),
                                computed("pieces", worked, ""),
                                computed("hand-paced", handPaced, "min"),
                                computed("practice", practised(line.perAssembly(), worked), ""),
                                allowance));
        run.add(computed(name, runElapsed * people, "min"));
        step(line, kind(line), centre, elapsed, elapsed * people, runElapsed, runElapsed * people);
        Charge charge = charges.get(centre);
        charge.add(runElapsed, people);
        elapsed += runElapsed;
        if (!line.isOncePerOrder()) {
            terms.add(runTerm(line, worked, runElapsed, allowance.value(), charge.centre));
        }
        if (standard != null && standard.minimumCharge() != null) {
            terms.add(new Term.Least(name, standard, elapsed, people, terms.since(before)));
        }
        if (standard == null || standard.reserve()) {
            reserve(line, runElapsed, pieces);
        }
        offTheMachine(
                line.annealedBy(),
                line.line().annealMinutes(),
                simulation.varying()::anneal,
                "anneal",
                pieces,
                line);
        offTheMachine(
                line.dressedBy(),
                line.line().dressMinutes(),
                simulation.varying()::dressing,
                "dressing",
                pieces,
                line);
    }

    /** Run minutes of a line as they vary; where jobs taught their spread, as that says. */
    private Term runTerm(
            Worked line, int pieces, double elapsed, double allowance, WorkCentre centre) {
        int people = line.line().people();
        Learned learned = learned(line);
        if (learned != null && learned.spread() != null) {
            Varying spread = simulation.varying().learned(kind(line), learned);
            return new Term(spread, 0, elapsed, people, 1, centre);
        }
        double factor = learned == null ? 1 : learned.planFactor();
        double practice = practised(line.perAssembly(), pieces);
        return new Term(
                        simulation.varying().run(line),
                        RUN_MINUTES.apply(1, pieces, 0, practice, allowance),
                        RUN_MINUTES.apply(0, pieces, 1, practice, allowance),
                        people,
                        1,
                        centre)
                .times(factor);
    }

    private @Nullable Learned learned(Worked line) {
        if (line.line().override() != null) {
            return null;
        }
        return book.learned(kind(line), line.family()).orElse(null);
    }

    private static String kind(Worked line) {
        return line.standard() == null ? line.line().type() : line.standard().name();
    }

    /** What finished jobs taught about this kind of work; the estimator's own minutes stand. */
    private double asLearned(Worked line, String name, double minutes) {
        Learned learned = learned(line);
        return learned == null ? minutes : learned(name + ".learnedMinutes", minutes, learned);
    }

    private double learned(String figure, double minutes, Learned learned) {
        String jobs = learned.jobs() == null ? "" : " from " + learned.jobs() + " jobs";
        return working.figure(
                figure,
                LEARNED_MINUTES,
                computed("minutes", minutes, "min"),
                new Input(
                        "learned factor",
                        learned.planFactor(),
                        "",
                        "learned" + jobs + ", " + Bench.origin(book, learned.origin())));
    }

    /** Rework and spoilt pieces, on forming and welding. */
    private void reserve(Worked line, double runElapsed, int pieces) {
        String name = name(line);
        String centre = line.line().workCentre();
        int people = line.line().people();
        double percent = pieces == 1 ? times.reserveOnePercent() : times.reserveMorePercent();
        if (percent == 0 || runElapsed == 0) {
            return;
        }
        double elapsed =
                working.figure(
                        name + ".reserveMinutes",
                        PERCENT_OF,
                        computed("run", runElapsed, "min"),
                        new Input("reserve", percent, "%", Bench.origin(book, times.origin())));
        Learned rework = book.learnedLine(Learned.RESERVE, null).orElse(null);
        double factor = rework == null ? 1 : rework.planFactor();
        double learned =
                rework == null ? elapsed : learned(name + ".learnedReserve", elapsed, rework);
        reserve.add(computed(name, learned * people, "min"));
        charges.get(centre).add(learned, people);
        besides.computeIfPresent(
                WorkStep.named(
                        line.line().part(),
                        line.line().position(),
                        kind(line),
                        line.family(),
                        centre),
                (step, planned) -> planned.withReserve(learned, learned * people));
        terms.add(terms.last().times(percent / 100 * factor));
    }

    /** Anneals and dressing have a set-up of their own and never get quicker with practice. */
    private void offTheMachine(
            @Nullable Standard standard,
            @Nullable Double minutesEach,
            Function<Worked, Varying> varying,
            String what,
            int pieces,
            Worked line) {
        if (standard == null || minutesEach == null) {
            return;
        }
        String name = name(line);
        double setup = 0;
        if (standard.setupMinutes() > 0) {
            setup =
                    setUp(
                            name + " " + what,
                            standardMinutes(
                                    name + "." + what + "SetupMinutes",
                                    standard.setupMinutes(),
                                    rates.benchAllowance()),
                            standard.people(),
                            standard.workCentre());
        }
        double standardElapsed =
                standardMinutes(
                        name + "." + what + "RunMinutes",
                        minutesEach * pieces,
                        rates.benchAllowance());
        Learned learned = book.learned(standard.name(), line.family()).orElse(null);
        double elapsed =
                learned == null
                        ? standardElapsed
                        : learned(name + "." + what + "LearnedMinutes", standardElapsed, learned);
        int people = standard.people();
        run.add(computed(name + " " + what, elapsed * people, "min"));
        step(
                line,
                standard.name(),
                standard.workCentre(),
                setup,
                setup * people,
                elapsed,
                elapsed * people);
        Charge charge = charges.get(standard.workCentre());
        charge.add(elapsed, people);
        if (learned != null && learned.spread() != null) {
            Varying spread = simulation.varying().learned(standard.name(), learned);
            terms.add(new Term(spread, 0, elapsed, people, 1, charge.centre));
            return;
        }
        double one =
                STANDARD_MINUTES.apply(pieces, rates.benchAllowance().value())
                        * (learned == null ? 1 : learned.planFactor());
        terms.add(new Term(varying.apply(line), one, one, people, 1, charge.centre));
    }

    /** What a line costs less than the least that it is charged for. */
    private void minimumCharge(Term.Least of) {
        String name = of.name();
        Standard standard = of.standard();
        WorkCentre centre = charges.get(standard.workCentre()).centre;
        double elapsed =
                paidShare == 1
                        ? of.elapsed()
                        : working.figure(
                                name + ".pricedMinutes",
                                AT_PRICED_SHARE,
                                computed("elapsed", of.elapsed(), "min"),
                                computed("priced share", paidShare, ""));
        double cost =
                working.figure(
                        name + ".cost",
                        LINE_COST,
                        computed("elapsed", elapsed, "min"),
                        computed("people", of.people(), ""),
                        named("labour rate", rates.labour(centre)),
                        named("machine rate", rates.machine(centre)));
        BigDecimal least = standard.minimumCharge().amount();
        BigDecimal lift = UP_TO_MINIMUM_CHARGE.exact(least, BigDecimal.valueOf(cost));
        working.note(
                name + ".upToMinimumCharge",
                UP_TO_MINIMUM_CHARGE,
                lift.doubleValue(),
                new Input(
                        "minimum charge",
                        least.doubleValue(),
                        "",
                        Bench.origin(book, standard.origin())),
                computed("cost", cost, ""));
        minimumCharges = minimumCharges.add(lift);
        leastCharges.add(new MarketPrice.LeastCharge(least, BigDecimal.valueOf(cost)));
    }

    /** Practice counts pieces, on from those that were made before. */
    private double practised(int perAssembly, int pieces) {
        return practised.computeIfAbsent(
                List.of(perAssembly, pieces),
                key ->
                        working.figure(
                                "practice",
                                PRACTICE,
                                computed("made", (double) takeOff.alreadyMade() * perAssembly, ""),
                                computed("pieces", pieces, ""),
                                ofTimes("slope", times.practiceSlope()),
                                ofTimes("reference", times.practiceReferenceUnit()),
                                ofTimes("floor", times.practiceFloorUnit())));
    }

    private Input ofTimes(String name, double value) {
        return new Input(name, value, "", Bench.origin(book, times.origin()));
    }

    private double setUp(String name, double standardElapsed, int people, String centre) {
        return setUp(name, standardElapsed, people, centre, null);
    }

    /**
     * Set-up has a learned factor of its own for the whole job.
     *
     * @param once the line whose minutes per unit are in it, once per order
     */
    private double setUp(
            String name, double standardElapsed, int people, String centre, @Nullable Worked once) {
        Learned learned = book.learned(Learned.SETUP, null).orElse(null);
        double elapsed =
                learned == null
                        ? standardElapsed
                        : learned(name + ".learnedSetupMinutes", standardElapsed, learned);
        setup.add(computed(name, elapsed * people, "min"));
        Charge charge = charges.get(centre);
        charge.add(elapsed, people);
        Variations varying = simulation.varying();
        if (learned != null && learned.spread() != null) {
            Varying spread = varying.learned(Learned.SETUP, learned);
            terms.add(new Term(spread, 0, elapsed, people, 1, charge.centre));
        } else if (once != null) {
            double each = elapsed / once.line().setupMinutes();
            double fixed = each * once.standard().setupMinutes();
            terms.add(new Term(varying.minute(), 0, fixed, people, 1, charge.centre));
            terms.add(new Term(varying.run(once), each, each, people, 1, charge.centre));
        } else {
            terms.add(new Term(varying.minute(), 0, elapsed, people, 1, charge.centre));
        }
        return elapsed;
    }

    private double standardMinutes(String figure, double normal, Input allowance) {
        return working.figure(
                figure, STANDARD_MINUTES, computed("normal", normal, "min"), allowance);
    }

    /** Blanks of a part beyond its pieces. */
    private int spares(TakeOff.Part part) {
        return spares.stream()
                .filter(s -> s.part() == part)
                .mapToInt(s -> s.shown().blanks())
                .sum();
    }

    private BigDecimal labour() {
        return atRates("cost.labour", c -> c.labourMinutes, rates::labour);
    }

    private BigDecimal machine() {
        return atRates("cost.machine", c -> c.machineMinutes, rates::machine);
    }

    private BigDecimal atRates(
            String figure, ToDoubleFunction<Charge> minutes, Function<WorkCentre, Input> rateOf) {
        List<Input> parts = new ArrayList<>();
        BigDecimal sum = BigDecimal.ZERO;
        for (Charge charge : charges.values()) {
            Input rate = minutes.applyAsDouble(charge) == 0 ? null : rateOf.apply(charge.centre);
            if (rate == null) {
                continue;
            }
            BigDecimal hours =
                    paid(
                            charge.centre.name() + figure.substring("cost".length()),
                            HOURS.exact(BigDecimal.valueOf(minutes.applyAsDouble(charge))));
            BigDecimal cost = HOURS_AT_RATE.exact(hours, BigDecimal.valueOf(rate.value()));
            working.note(
                    charge.centre.name() + "." + figure,
                    HOURS_AT_RATE,
                    cost.doubleValue(),
                    computed("hours", hours.doubleValue(), "h"),
                    rate);
            parts.add(computed(charge.centre.name(), cost.doubleValue(), ""));
            sum = sum.add(cost);
        }
        working.note(figure, Arithmetic.SUM, sum.doubleValue(), parts.toArray(Input[]::new));
        return sum;
    }

    /** Hours that the price is made from. */
    private BigDecimal paid(String figure, BigDecimal hours) {
        if (paidShare == 1) {
            return hours;
        }
        BigDecimal paid = AT_PRICED_SHARE.exact(hours, BigDecimal.valueOf(paidShare));
        working.note(
                figure + ".pricedHours",
                AT_PRICED_SHARE,
                paid.doubleValue(),
                computed("hours", hours.doubleValue(), "h"),
                computed("priced share", paidShare, ""));
        return paid;
    }

    /** Bills that come whatever the hours are. */
    private double extras() {
        return takeOff.extras().stream()
                .mapToDouble(e -> cost(e).add(handling(e, cost(e), new Working())).doubleValue())
                .sum();
    }

    private BigDecimal cost(Extra extra) {
        return extra.cost().amount().multiply(BigDecimal.valueOf(extra.times(quantity)));
    }

    private BigDecimal specialDirect() {
        List<Input> parts = new ArrayList<>();
        BigDecimal sum = BigDecimal.ZERO;
        for (Extra extra : takeOff.extras()) {
            BigDecimal cost = cost(extra);
            parts.add(
                    extra.lifePieces() == null
                            ? drawing(extra.name(), cost.doubleValue(), "")
                            : wornOut(extra, cost));
            BigDecimal handling = handling(extra, cost, working);
            if (handling.signum() > 0) {
                parts.add(computed(extra.name() + ", handling", handling.doubleValue(), ""));
            }
            sum = sum.add(cost).add(handling);
        }
        if (minimumCharges.signum() > 0) {
            parts.add(computed("up to minimum charges", minimumCharges.doubleValue(), ""));
            sum = sum.add(minimumCharges);
        }
        working.note(
                "cost.specialDirect",
                Arithmetic.SUM,
                sum.doubleValue(),
                parts.toArray(Input[]::new));
        return sum;
    }

    /** To order, fetch and check what is bought out. */
    private BigDecimal handling(Extra extra, BigDecimal cost, Working working) {
        double percent = extra.handlingPercentBy(book.priceScheme());
        if (percent == 0) {
            return BigDecimal.ZERO;
        }
        BigDecimal handling = PERCENT_OF.exact(cost, BigDecimal.valueOf(percent));
        working.note(
                extra.name() + ".handling",
                PERCENT_OF,
                handling.doubleValue(),
                computed("cost", cost.doubleValue(), ""),
                extra.handlingPercent() == null
                        ? new Input("percent", percent, "%", Bench.origin(book, null))
                        : drawing("percent", percent, "%"));
        return handling;
    }

    private Input wornOut(Extra tool, BigDecimal cost) {
        working.note(
                tool.name() + ".cost",
                COST_OF_WORN_TOOLS,
                cost.doubleValue(),
                drawing("cost", tool.cost().amount().doubleValue(), ""),
                computed("pieces", quantity, ""),
                drawing("life", tool.lifePieces(), ""));
        return computed(tool.name(), cost.doubleValue(), "");
    }

    private static Estimate.AtCentre atCentre(Charge charge, Currency currency) {
        WorkCentre centre = charge.centre;
        return new Estimate.AtCentre(
                centre.name(),
                charge.labourMinutes / 60,
                charge.machineMinutes / 60,
                centre.labourIn(currency),
                centre.machineIn(currency));
    }

    /** The same figure by another name; nothing where there is no rate. */
    private static Input named(String name, @Nullable Input rate) {
        return rate == null
                ? computed(name, 0, "/h")
                : new Input(name, rate.value(), rate.unit(), rate.origin());
    }

    private static String name(Worked line) {
        String part = line.line().part() == null ? "assembly" : line.line().part();
        return part + "/" + line.line().position();
    }
}
