package strokewright.demo;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Profile;
import org.springframework.stereotype.Component;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.comparison.CostRate;
import strokewright.comparison.CostRates;
import strokewright.demo.DemoOrders.Fate;
import strokewright.demo.DemoOrders.Inquiry;
import strokewright.estimate.Estimate;
import strokewright.estimate.WorkStep;
import strokewright.job.BillEntry;
import strokewright.job.Booking.What;
import strokewright.job.BookingEntry;
import strokewright.job.Bookings;
import strokewright.job.JobCosts;
import strokewright.job.JobRecord;
import strokewright.job.JobRecords;
import strokewright.job.Jobs;
import strokewright.job.MetalEntry;
import strokewright.job.PresenceEntry;
import strokewright.job.Presences;
import strokewright.job.Step;
import strokewright.quantity.Money;
import strokewright.quote.Acceptance;
import strokewright.quote.Declining;
import strokewright.quote.Outcomes;
import strokewright.quote.Quotes;

/**
 * Lets the invented shop live through its inquiries: it quotes, makes and books, with the unrest of
 * a real one and two things to discover. Dishing takes longer than the shop book believes, and
 * stainless steel has been slower to form for some months.
 */
@Component
@Profile("demo")
class DemoPast {

    /** What dishing really takes of what is believed; invented. */
    static final double DISHING = 1.35;

    /** What forming stainless steel takes of what it took before; invented. */
    static final double STAINLESS = 1.35;

    /** Since when it does. */
    static final int STAINLESS_SINCE_DAYS_AGO = 270;

    /** Spreads of the natural logarithm, of a job as a whole and of each of its steps; invented. */
    private static final double JOB_SPREAD = 0.10;

    private static final double STEP_SPREAD = 0.15;

    private static final List<String> REWORK =
            List.of("curve too tight, opened again", "edge cracked, new piece", "hole misplaced");

    private final Quotes quotes;
    private final Outcomes outcomes;
    private final Jobs jobs;
    private final Bookings bookings;
    private final JobCosts costs;
    private final JobRecords records;
    private final Presences presences;
    private final CostRates costRates;
    private final DemoClock clock;

    DemoPast(
            Quotes quotes,
            Outcomes outcomes,
            Jobs jobs,
            Bookings bookings,
            JobCosts costs,
            JobRecords records,
            Presences presences,
            CostRates costRates,
            DemoClock clock) {
        this.quotes = quotes;
        this.outcomes = outcomes;
        this.jobs = jobs;
        this.bookings = bookings;
        this.costs = costs;
        this.records = records;
        this.presences = presences;
        this.costRates = costRates;
        this.clock = clock;
    }

    /** One inquiry from the first word to the closed job. */
    void live(Inquiry inquiry, Map<Role, SignedIn> people) {
        SignedIn estimator = people.get(Role.ESTIMATOR);
        SignedIn office = people.get(Role.OFFICE);
        int day = inquiry.daysAgo();
        String number =
                at(
                        day,
                        estimator,
                        () -> quotes.begin(inquiry.customer(), null, null, inquiry.takeOff()));
        at(day - 1, office, () -> quotes.issue(number, null));
        switch (inquiry.fate()) {
            case DECLINED ->
                    at(
                            day - 15,
                            office,
                            () ->
                                    outcomes.decline(
                                            number,
                                            new Declining(null, inquiry.reason(), null, null)));
            case WITHDRAWN ->
                    at(
                            day - 10,
                            office,
                            () ->
                                    outcomes.withdraw(
                                            number,
                                            new Declining(
                                                    null,
                                                    null,
                                                    null,
                                                    "The metal is not to be had.")));
            case LAPSED -> {}
            case MADE, IN_WORK -> make(inquiry, number, people);
        }
    }

    /** What an hour of the floor costs the shop; invented. Said once. */
    void payPeople(SignedIn owner) {
        owner.run(
                () -> {
                    if (costRates.person("floor").rates().isEmpty()) {
                        costRates.say(
                                "floor",
                                new CostRate(LocalDate.of(2020, 1, 1), Money.of("40.50", "EUR")),
                                "*");
                    }
                });
    }

    private void make(Inquiry inquiry, String quote, Map<Role, SignedIn> people) {
        SignedIn office = people.get(Role.OFFICE);
        int day = inquiry.daysAgo();
        at(
                day - 6,
                office,
                () -> outcomes.accept(quote, new Acceptance(null, null, List.of(), null, null)));
        String job = at(day - 7, office, () -> jobs.release(quote, null).document().number());
        new Making(inquiry, job, people).work();
    }

    private <T> T at(int daysAgo, SignedIn who, java.util.function.Supplier<T> what) {
        Object[] result = new Object[1];
        clock.daysAgo(daysAgo, () -> result[0] = who.call(what));
        @SuppressWarnings("unchecked") // what was put in above
        T made = (T) result[0];
        return made;
    }

    /** One job on the floor. */
    private final class Making {

        private final Inquiry inquiry;
        private final String job;
        private final SignedIn floor;
        private final SignedIn office;
        private final Random random;
        private final JobRecord record;
        private final double jobEffect;
        private final Map<Integer, Double> minutesByDay = new TreeMap<>();
        private int entries;

        Making(Inquiry inquiry, String job, Map<Role, SignedIn> people) {
            this.inquiry = inquiry;
            this.job = job;
            this.floor = people.get(Role.FLOOR);
            this.office = people.get(Role.OFFICE);
            this.random = new Random(inquiry.seed());
            this.record = office.call(() -> records.of(job));
            this.jobEffect = JOB_SPREAD * random.nextGaussian();
        }

        void work() {
            boolean made = inquiry.fate() == Fate.MADE;
            List<Step> steps = record.steps();
            int worked = made ? steps.size() : steps.size() / 2;
            for (int i = 0; i < worked; i++) {
                int day = inquiry.daysAgo() - 9 - 7 * i / steps.size();
                book(day, steps.get(i));
            }
            be(minutesByDay);
            if (made) {
                int day = inquiry.daysAgo() - 18;
                rework(day + 1);
                clock.daysAgo(day, () -> office.run(() -> spend(day)));
                at(day, office, () -> jobs.finish(job, null));
                at(day - 2, office, () -> jobs.close(job));
            }
        }

        private void book(int day, Step step) {
            WorkStep work = step.work();
            if (work.setupMinutes() > 0) {
                enter(day, step, What.SET_UP, work.setupMinutes() * unrest(), null, null);
            }
            if (work.runMinutes() > 0) {
                Estimate.@Nullable Line line = line(step);
                boolean counted = line != null && line.passes() != null && random.nextInt(5) > 0;
                double slower = line == null ? 1 : Math.sqrt(unrest());
                int pieces = record.orders().get(0).items().get(0).quantity();
                double minutes =
                        work.runMinutes() * effect(work) * unrest() * Math.exp(jobEffect) * slower;
                enter(
                        day,
                        step,
                        What.RUN,
                        minutes,
                        counted ? counts(passes(line) * pieces, slower) : null,
                        counted && line.checks() != null
                                ? counts(line.checks() * pieces, slower)
                                : null);
            }
        }

        /** What nobody knows yet. */
        private double effect(WorkStep work) {
            double factor = work.kind().equals("dish") ? DISHING : 1;
            boolean formed = line(work) != null && line(work).passes() != null;
            boolean harder =
                    formed
                            && "stainless".equals(work.family())
                            && inquiry.daysAgo() < STAINLESS_SINCE_DAYS_AGO;
            return harder ? factor * STAINLESS : factor;
        }

        private double unrest() {
            return Math.exp(STEP_SPREAD * random.nextGaussian());
        }

        private int counts(double planned, double slower) {
            return (int) Math.max(1, Math.round(planned * slower));
        }

        private static double passes(Estimate.Line line) {
            return line.passes().stream().mapToInt(p -> p).sum()
                    + Objects.requireNonNullElse(line.correctionPasses(), 0)
                    + Objects.requireNonNullElse(line.tippingPasses(), 0);
        }

        private Estimate.@Nullable Line line(Step step) {
            return line(step.work());
        }

        private Estimate.@Nullable Line line(WorkStep work) {
            return record.orders().get(0).items().get(0).item().estimate().operations().stream()
                    .filter(l -> Objects.equals(l.part(), work.part()))
                    .filter(l -> l.position() == work.position() && l.type().equals(work.kind()))
                    .findFirst()
                    .orElse(null);
        }

        private void enter(
                int day,
                Step step,
                What what,
                double minutes,
                @Nullable Integer passes,
                @Nullable Integer checks) {
            double left = Math.max(1, Math.round(minutes));
            boolean first = true;
            while (left > 0) {
                // nobody books more than a shift at once
                double now = Math.min(left, 420);
                enter(
                        day,
                        new BookingEntry(
                                id(),
                                step.n(),
                                what,
                                now,
                                null,
                                null,
                                first ? passes : null,
                                first ? checks : null,
                                null,
                                null,
                                null,
                                null,
                                null,
                                null,
                                null,
                                null));
                left -= now;
                first = false;
            }
        }

        private void enter(int day, BookingEntry entry) {
            at(day, floor, () -> bookings.book(job, entry));
            minutesByDay.merge(day, entry.minutes(), Double::sum);
        }

        /** Whoever works is there, for somewhat longer, and sweeps up in between. */
        private void be(Map<Integer, Double> minutes) {
            minutes.forEach(
                    (day, booked) -> {
                        double swept = 3.0 + random.nextInt(8);
                        at(
                                day,
                                floor,
                                () ->
                                        bookings.book(
                                                null,
                                                new BookingEntry(
                                                        id(),
                                                        null,
                                                        null,
                                                        swept,
                                                        null,
                                                        null,
                                                        null,
                                                        null,
                                                        null,
                                                        "cleaning",
                                                        null,
                                                        null,
                                                        null,
                                                        null,
                                                        null,
                                                        null)));
                        double there = Math.min(600, 1.08 * booked + swept + random.nextInt(20));
                        at(
                                day,
                                floor,
                                () ->
                                        presences.enter(
                                                new PresenceEntry(
                                                        id(), null, null, null, null, null, there,
                                                        null)));
                    });
        }

        private void rework(int day) {
            if (random.nextInt(9) == 0) {
                enter(
                        day,
                        new BookingEntry(
                                id(),
                                1 + random.nextInt(record.steps().size()),
                                What.REWORK,
                                20.0 + random.nextInt(50),
                                null,
                                1,
                                null,
                                null,
                                null,
                                REWORK.get(random.nextInt(REWORK.size())),
                                null,
                                null,
                                null,
                                null,
                                null,
                                null));
            }
        }

        /** Metal and bills, near to what was planned; metal has become dearer since. */
        private void spend(int day) {
            Estimate.ForQuantity planned =
                    record.orders().get(0).items().get(0).item().estimate().quantities().get(0);
            double dearer = 1 + 0.08 * (DemoOrders.FIRST_DAYS_AGO - day) / 365;
            for (Estimate.MetalUsed metal : planned.metal()) {
                double kg = metal.kg() * (1 + 0.04 * random.nextDouble());
                costs.take(
                        job,
                        new MetalEntry(
                                id(),
                                null,
                                metal.grade(),
                                metal.thicknessMm(),
                                null,
                                null,
                                null,
                                Math.round(kg * 100) / 100.0,
                                times(metal.cost(), dearer * kg / metal.kg()),
                                null,
                                null,
                                null,
                                null,
                                null,
                                null));
            }
            record.orders().get(0).items().get(0).item().takeOff().extras().stream()
                    .filter(e -> e.cost() != null)
                    .forEach(
                            e ->
                                    costs.pay(
                                            job,
                                            new BillEntry(
                                                    id(),
                                                    e.name(),
                                                    e.name(),
                                                    "Invented Coatings",
                                                    String.format(
                                                            Locale.ROOT,
                                                            "%05d",
                                                            random.nextInt(100_000)),
                                                    times(e.cost(), 1 + 0.1 * random.nextDouble()),
                                                    null,
                                                    null)));
        }

        private static Money times(Money money, double factor) {
            return Money.rounded(
                    money.amount().multiply(BigDecimal.valueOf(factor)), money.currency());
        }

        private UUID id() {
            return UUID.nameUUIDFromBytes(
                    (inquiry.seed() + "/" + entries++).getBytes(StandardCharsets.UTF_8));
        }
    }
}
