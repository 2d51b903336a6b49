package strokewright.costing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.costing.HoursByCause.Booked;
import strokewright.costing.HoursByCause.Doubt;
import strokewright.costing.HoursByCause.Plan;
import strokewright.quantity.Working;

/** Hours by cause: they add up exactly, and each is what changing one thing alone makes. */
class HoursByCauseTest {

    private static final int DIGITS = 6;

    /** 4 pieces of 12 passes of 3 minutes with 6 checks of 1 minute and 5 minutes of set-up. */
    private static Plan planned(int quantity) {
        return new Plan(quantity, number(5), number(quantity * 42L), 12, 6, 6.0 / 42);
    }

    @Test
    void eachCauseIsWhatItAloneChanges() {
        // 3 made with 14 passes of 4 minutes, 5 checks, 8 minutes of set-up and 10 of rework
        Booked booked =
                new Booked(number(8), number(3 * (14 * 4 + 5)), number(10), 3 * 14L, 3 * 5L);
        HoursByCause causes =
                HoursByCause.ofForming(planned(4), planned(3), booked, DIGITS, new Working());

        assertThat(causes.pieces()).isEqualByComparingTo("-42");
        assertThat(causes.passes()).isEqualByComparingTo("18"); // 3 × 2 × 3
        assertThat(causes.minutesPerPass()).isEqualByComparingTo("42"); // 3 × 14 × 1
        assertThat(causes.checks()).isEqualByComparingTo("-3"); // 3 × −1 × 1
        assertThat(causes.setUp()).isEqualByComparingTo("3");
        assertThat(causes.rework()).isEqualByComparingTo("10");
        assertThat(causes.notSplit()).isNull();
        assertThat(causes.doubt()).isNull();
        assertThat(causes.sum()).isEqualByComparingTo("28"); // 201 − 173
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void theCausesAddUpToTheDifferenceWhateverWasBooked(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 1000; i++) {
            Plan quoted = plan(random, random.nextInt(1, 200));
            Plan made = plan(random, random.nextInt(12) == 0 ? 0 : random.nextInt(1, 200));
            Booked booked =
                    new Booked(
                            some(random),
                            some(random),
                            some(random),
                            random.nextInt(4) == 0 ? null : random.nextLong(0, 3000),
                            random.nextInt(4) == 0 ? null : random.nextLong(0, 500));
            for (HoursByCause causes :
                    new HoursByCause[] {
                        HoursByCause.ofForming(quoted, made, booked, DIGITS, new Working()),
                        HoursByCause.ofOther(quoted, made, booked, DIGITS, new Working()),
                        HoursByCause.ofToolChanges(quoted, made, booked, DIGITS, new Working())
                    }) {
                BigDecimal actual = booked.setUp().add(booked.run()).add(booked.rework());
                BigDecimal plan = quoted.setUp().add(quoted.run());
                assertThat(causes.sum())
                        .isEqualByComparingTo(rounded(actual).subtract(rounded(plan)));
            }
        }
    }

    /** The same, by changing one thing after the other and reckoning T anew each time. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23, 24})
    void agreesWithReckoningTheHoursAnewAfterEachChange(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int split = 0;
        for (int i = 0; i < 1000; i++) {
            Plan quoted = plan(random, random.nextInt(1, 50));
            Plan made = plan(random, random.nextInt(1, 50));
            Booked booked =
                    new Booked(
                            some(random),
                            some(random),
                            some(random),
                            random.nextLong(1, 3000),
                            random.nextLong(0, 300));
            HoursByCause causes =
                    HoursByCause.ofForming(quoted, made, booked, DIGITS, new Working());
            if (causes.doubt() == Doubt.NOTHING_BOOKED) {
                continue;
            }
            double q = made.quantity();
            double k =
                    made.checks() == 0
                            ? 0
                            : made.run().doubleValue() * made.checkShare() / (q * made.checks());
            double m = (made.run().doubleValue() / q - made.checks() * k) / made.passes();
            double pa = booked.passes() / q;
            double ca = booked.checks() / q;
            double ma = (booked.run().doubleValue() / q - ca * k) / pa;
            if (ma < 0) {
                assertThat(causes.doubt()).isEqualTo(Doubt.CHECKS_TAKE_ALL);
                continue;
            }
            split++;
            double s = made.setUp().doubleValue();
            double now = hours(q, made.passes(), m, made.checks(), k, s);
            double before = now;
            assertThat(now).isCloseTo(made.run().add(made.setUp()).doubleValue(), within(1e-6));
            now = hours(q, pa, m, made.checks(), k, s);
            assertThat(causes.passes().doubleValue()).isCloseTo(now - before, within(2e-6));
            before = now;
            now = hours(q, pa, ma, made.checks(), k, s);
            assertThat(causes.minutesPerPass().doubleValue()).isCloseTo(now - before, within(2e-6));
            before = now;
            now = hours(q, pa, ma, ca, k, s);
            assertThat(causes.checks().doubleValue()).isCloseTo(now - before, within(2e-6));
            before = now;
            now = hours(q, pa, ma, ca, k, booked.setUp().doubleValue());
            assertThat(causes.setUp().doubleValue()).isCloseTo(now - before, within(2e-6));
            assertThat(now).isCloseTo(booked.run().add(booked.setUp()).doubleValue(), within(1e-6));
        }
        assertThat(split).isGreaterThan(150);
    }

    private static double hours(double q, double p, double m, double c, double k, double s) {
        return q * (p * m + c * k) + s;
    }

    @Test
    void whatNobodyCountedIsNotSplit() {
        Booked uncounted = new Booked(number(5), number(200), BigDecimal.ZERO, null, null);
        HoursByCause causes =
                HoursByCause.ofForming(planned(4), planned(4), uncounted, DIGITS, new Working());
        assertThat(causes.doubt()).isEqualTo(Doubt.PASSES_NOT_COUNTED);
        assertThat(causes.passes()).isNull();
        assertThat(causes.notSplit()).isEqualByComparingTo("32");

        Booked unchecked = new Booked(number(5), number(200), BigDecimal.ZERO, 48L, null);
        causes = HoursByCause.ofForming(planned(4), planned(4), unchecked, DIGITS, new Working());
        assertThat(causes.doubt()).isEqualTo(Doubt.CHECKS_NOT_COUNTED);
        assertThat(causes.checks()).isZero();
        assertThat(causes.minutesPerPass()).isEqualByComparingTo("32");
    }

    @Test
    void checksThatWouldTakeMoreThanAllThatWasBookedAreNotSplitEither() {
        Booked hurried = new Booked(number(5), number(20), BigDecimal.ZERO, 48L, 21L);
        HoursByCause causes =
                HoursByCause.ofForming(planned(4), planned(4), hurried, DIGITS, new Working());
        assertThat(causes.doubt()).isEqualTo(Doubt.CHECKS_TAKE_ALL);
        assertThat(causes.notSplit()).isEqualByComparingTo("-148");
        Booked just = new Booked(number(5), number(20), BigDecimal.ZERO, 48L, 20L);
        causes = HoursByCause.ofForming(planned(4), planned(4), just, DIGITS, new Working());
        assertThat(causes.doubt()).isNull();
    }

    @Test
    void nothingMadeAndNothingBookedSaySo() {
        Booked some = new Booked(number(0), number(30), BigDecimal.ZERO, 8L, 2L);
        Plan nothing = new Plan(0, BigDecimal.ZERO, BigDecimal.ZERO, 0, 0, 0);
        HoursByCause causes =
                HoursByCause.ofForming(planned(2), nothing, some, DIGITS, new Working());
        assertThat(causes.doubt()).isEqualTo(Doubt.NOTHING_MADE);
        assertThat(causes.pieces()).isEqualByComparingTo("-89");
        assertThat(causes.notSplit()).isEqualByComparingTo("30");
        Booked none = new Booked(number(0), number(0), BigDecimal.ZERO, null, null);
        assertThat(
                        HoursByCause.ofForming(planned(2), planned(2), none, DIGITS, new Working())
                                .doubt())
                .isEqualTo(Doubt.NOTHING_BOOKED);
    }

    private static Plan plan(SplittableRandom random, int quantity) {
        if (quantity == 0) {
            return new Plan(0, BigDecimal.ZERO, BigDecimal.ZERO, 0, 0, 0);
        }
        long checks = random.nextInt(5) == 0 ? 0 : random.nextLong(1, 20);
        return new Plan(
                quantity,
                some(random),
                BigDecimal.valueOf(random.nextLong(1, 100_000))
                        .divide(number(7), MathContext.DECIMAL128),
                random.nextLong(1, 60),
                checks,
                checks == 0 ? 0 : random.nextDouble());
    }

    private static BigDecimal some(SplittableRandom random) {
        return random.nextInt(3) == 0
                ? BigDecimal.ZERO
                : BigDecimal.valueOf(random.nextLong(1, 100_000))
                        .divide(number(6000), MathContext.DECIMAL128);
    }

    private static BigDecimal rounded(BigDecimal value) {
        return value.setScale(DIGITS, RoundingMode.HALF_UP);
    }

    private static BigDecimal number(long value) {
        return BigDecimal.valueOf(value);
    }
}
