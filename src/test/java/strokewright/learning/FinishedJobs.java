package strokewright.learning;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Currency;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.WorkStep;
import strokewright.job.Booking;
import strokewright.job.Booking.What;
import strokewright.job.JobKind;
import strokewright.job.JobRecord;
import strokewright.job.JobState;
import strokewright.job.Step;
import strokewright.quantity.Money;
import strokewright.quote.PricedItem;
import tools.jackson.databind.json.JsonMapper;

/**
 * A shop with the starter book whose floor works at paces of its own: each kind of work and metal
 * has a factor that nobody knows, each job something in common, each kind its scatter. Everything
 * is booked on its step. Invented, from a seed.
 */
final class FinishedJobs {

    static final ShopBook BOOK = book();

    private static final LocalDate BEGINNING = LocalDate.of(2024, 1, 8);
    private static final List<String> GRADES =
            List.of("AL99.5-O", "ALMG3-O", "DC04", "X5CRNI18-10");
    private static final UUID SOMEBODY = new UUID(0, 1);

    private final Random random;
    private final double level;
    private final double kindSpread;
    private final double familySpread;
    private final double jobSpread;
    private final double[] scatters;
    private final Map<String, Double> kinds = new HashMap<>();
    private final Map<String, Double> families = new HashMap<>();
    private final Map<String, Double> scatter = new HashMap<>();
    private final double reworkChance;
    private final double reworkSize;
    private int n;

    /** A shop that never does anything anew. */
    FinishedJobs(long seed) {
        this(seed, 0, 0);
    }

    /**
     * @param reworkChance of a job
     * @param reworkSize mean of it, as a share of the run minutes of forming and welding
     */
    FinishedJobs(long seed, double reworkChance, double reworkSize) {
        this.reworkChance = reworkChance;
        this.reworkSize = reworkSize;
        random = new Random(seed);
        level = 0.15 * random.nextGaussian();
        kindSpread = 0.1 + 0.2 * random.nextDouble();
        familySpread = 0.15 * random.nextDouble();
        jobSpread = 0.2 * random.nextDouble();
        scatters =
                new double[] {0.10 + 0.1 * random.nextDouble(), 0.2 + 0.15 * random.nextDouble()};
    }

    /** What one job will be, and what it took. */
    record Worked(JobRecord record, double knownHours, double actualHours) {}

    private static ShopBook book() {
        try (InputStream in = FinishedJobs.class.getResourceAsStream("/shop-book/starter.json")) {
            ShopBook book = JsonMapper.builder().build().readValue(in, ShopBook.class);
            ShopBook inEuro =
                    new ShopBook(
                            1,
                            Currency.getInstance("EUR"),
                            book.grades(),
                            book.sheets(),
                            book.machines(),
                            book.tools(),
                            book.familyBite(),
                            book.passLimits(),
                            book.times(),
                            book.standards(),
                            book.workCentres(),
                            book.priceScheme(),
                            book.routes(),
                            book.proposals(),
                            book.cutting(),
                            book.bending(),
                            book.inspection(),
                            book.uncertainty(),
                            List.of());
            return inEuro.withUncertainty(inEuro.uncertainty().withTrials(1000));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Factor of a kind of work in a family, as the natural logarithm. */
    double truth(String kind, String family) {
        return kinds.computeIfAbsent(kind, k -> level + kindSpread * random.nextGaussian())
                + (family == null
                        ? 0
                        : families.computeIfAbsent(
                                kind + " " + family, k -> familySpread * random.nextGaussian()));
    }

    void slower(String kind, double factor) {
        kinds.merge(kind, Math.log(factor), Double::sum);
    }

    private double scatter(String kind) {
        return scatter.computeIfAbsent(
                kind, k -> scatters[0] + (scatters[1] - scatters[0]) * random.nextDouble());
    }

    Worked next() {
        int quantity = random.nextInt(3) == 0 ? 1 + random.nextInt(6) : 1;
        TakeOff takeOff = takeOff(quantity);
        Estimate estimate = Estimating.estimate(takeOff, BOOK);
        List<Step> steps = new ArrayList<>();
        List<Booking> bookings = new ArrayList<>();
        double effect = jobSpread * random.nextGaussian();
        Map<String, Double> drawn = new HashMap<>();
        double known = 0;
        double actual = 0;
        n++;
        for (WorkStep work : Estimating.reckon(takeOff, BOOK).steps(quantity)) {
            Step step = new Step(steps.size() + 1, 1, work);
            steps.add(step);
            String kind = work.kind().equals(WorkStep.TOOL_CHANGES) ? "set-up" : work.kind();
            if (work.setupMinutes() > 0) {
                double truth = truth("set-up", null);
                double minutes =
                        work.setupMinutes() * Math.exp(truth + effect + scattered(drawn, "set-up"));
                known += work.setupMinutes() * Math.exp(truth);
                actual += minutes;
                bookings.add(booking(step.n(), What.SET_UP, minutes));
            }
            if (work.runMinutes() > 0) {
                double truth = truth(kind, work.family());
                double minutes =
                        work.runMinutes() * Math.exp(truth + effect + scattered(drawn, kind));
                known += work.runMinutes() * Math.exp(truth);
                actual += minutes;
                bookings.add(booking(step.n(), What.RUN, minutes));
            }
        }
        if (reworkChance > 0 && random.nextDouble() < reworkChance) {
            double of =
                    bookings.stream()
                            .filter(b -> b.what() == What.RUN && carriesReserve(steps, b.step()))
                            .mapToDouble(Booking::minutes)
                            .sum();
            double minutes = of * -reworkSize * Math.log(1 - random.nextDouble());
            actual += minutes;
            bookings.add(booking(1, What.REWORK, minutes));
        }
        PricedItem item = new PricedItem(1, takeOff.title(), false, takeOff, estimate, List.of());
        JobRecord record =
                new JobRecord(
                        "J-%d-%04d".formatted(BEGINNING.getYear(), n),
                        JobKind.QUOTE,
                        JobState.FINISHED,
                        takeOff.title(),
                        SOMEBODY,
                        "Harbour Theatre",
                        null,
                        "The estimator",
                        BEGINNING.plusDays(2L * n),
                        BEGINNING.plusDays(2L * n + 5),
                        List.of(
                                new JobRecord.Ordered(
                                        0,
                                        1,
                                        BOOK,
                                        List.of(new JobRecord.Line(item, quantity, quantity)),
                                        Money.of("1.00", "EUR"))),
                        steps,
                        bookings,
                        List.of(),
                        List.of());
        return new Worked(record, known / 60, actual / 60);
    }

    private static boolean carriesReserve(List<Step> steps, int n) {
        return BOOK.standard(steps.get(n - 1).work().kind())
                .map(ShopBook.Standard::reserve)
                .orElse(true);
    }

    /** The scatter of a kind is the same for all its steps of a job. */
    private double scattered(Map<String, Double> drawn, String kind) {
        return drawn.computeIfAbsent(kind, k -> scatter(k) * random.nextGaussian());
    }

    private Booking booking(int step, What what, double minutes) {
        return new Booking(
                new UUID(n, step),
                SOMEBODY,
                "Somebody",
                "J",
                step,
                null,
                what,
                null,
                Booking.Source.CLOCK,
                false,
                null,
                null,
                minutes,
                null,
                null,
                null,
                null,
                false,
                null,
                null,
                BEGINNING,
                Instant.EPOCH,
                "Somebody",
                null,
                null);
    }

    private TakeOff takeOff(int quantity) {
        String grade = GRADES.get(random.nextInt(GRADES.size()));
        double thickness = random.nextBoolean() ? 1.0 : 1.5;
        StringBuilder work = new StringBuilder();
        int operations = 1 + random.nextInt(3);
        for (int i = 0; i < operations; i++) {
            work.append(i == 0 ? "" : ",").append(operation(i));
        }
        return JsonMapper.builder()
                .build()
                .readValue(
                        """
                        {"title":"Piece %d","information":"drawing","quantities":[%d],
                         "parts":[{"name":"Piece","grade":"%s","thicknessMm":%s,
                           "blank":{"lengthMm":%d,"widthMm":%d},"operations":[%s]}]}
                        """
                                .formatted(
                                        n,
                                        quantity,
                                        grade,
                                        thickness,
                                        1000 + random.nextInt(800),
                                        150 + random.nextInt(250),
                                        work),
                        TakeOff.class);
    }

    private String operation(int i) {
        return switch ((i + random.nextInt(2)) * 2 + random.nextInt(2)) {
            case 0 -> edge("shrink", 500 + random.nextInt(600));
            case 1 -> edge("stretch", 400 + random.nextInt(600));
            case 2 ->
                    "{\"type\":\"smooth\",\"areaMm2\":%d,\"timesOver\":2}"
                            .formatted(60_000 + random.nextInt(200_000));
            case 3 ->
                    "{\"type\":\"standard\",\"standard\":\"TIG weld\",\"amount\":%s}"
                            .formatted(Math.round(40 + 100 * random.nextDouble()) / 100.0);
            case 4 ->
                    "{\"type\":\"flatten\",\"areaMm2\":%d,\"timesOver\":2}"
                            .formatted(60_000 + random.nextInt(300_000));
            default ->
                    "{\"type\":\"take-out-dents\",\"spots\":%d,\"strokesPerSpot\":60}"
                            .formatted(4 + random.nextInt(20));
        };
    }

    private String edge(String sense, int radius) {
        return "{\"type\":\"curve-edge\",\"sense\":\"%s\",\"lengthMm\":%d,\"radiusMm\":%d,\"heightMm\":%d}"
                .formatted(sense, 500 + random.nextInt(400), radius, 20 + random.nextInt(15));
    }
}
