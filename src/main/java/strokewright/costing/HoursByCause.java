package strokewright.costing;

import static strokewright.costing.CostingFormula.*;
import static strokewright.quantity.Why.Input.computed;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Working;

/**
 * Why the hours of a step differ from those that were quoted for it. The causes that are there add
 * up to the difference exactly; over is positive. Any unit of time, the same for all.
 *
 * @param pieces more or fewer of them
 * @param passes more or fewer on each item; null where they are not told apart, as the next two
 * @param toolChanges of the step in which tools are changed alone
 * @param work of a step that has no passes: quicker or slower
 * @param notSplit passes, minutes of a pass and checks together, where nobody can tell them apart
 * @param doubt why it is not split, or what was taken as planned
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record HoursByCause(
        BigDecimal pieces,
        @Nullable BigDecimal passes,
        @Nullable BigDecimal minutesPerPass,
        @Nullable BigDecimal checks,
        @Nullable BigDecimal toolChanges,
        BigDecimal setUp,
        BigDecimal rework,
        @Nullable BigDecimal work,
        @Nullable BigDecimal notSplit,
        @Nullable Doubt doubt) {

    /** What keeps the causes from being told apart, or not all of them. */
    public enum Doubt {
        @JsonProperty("nothing-booked")
        NOTHING_BOOKED("nothing is booked on it"),
        @JsonProperty("nothing-made")
        NOTHING_MADE("no piece was made"),
        @JsonProperty("passes-not-counted")
        PASSES_NOT_COUNTED("passes were not counted on every stretch"),
        @JsonProperty("no-passes")
        NO_PASSES("time is booked, but no pass"),
        @JsonProperty("checks-take-all")
        CHECKS_TAKE_ALL("the counted checks alone would take longer than was booked"),
        @JsonProperty("checks-not-counted")
        CHECKS_NOT_COUNTED("checks were not counted on every stretch, and are taken as planned");

        private final String words;

        Doubt(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /**
     * A step as it is planned for a quantity, person-time.
     *
     * @param quantity items
     * @param passes of one item; 0 of work without passes
     * @param checks of one item
     * @param checkShare of {@code run} that goes to checks
     */
    public record Plan(
            int quantity,
            BigDecimal setUp,
            BigDecimal run,
            long passes,
            long checks,
            double checkShare) {

        private BigDecimal all() {
            return setUp.add(run);
        }

        private BigDecimal items() {
            return BigDecimal.valueOf(quantity);
        }

        private BigDecimal ofACheck() {
            return checks == 0
                    ? BigDecimal.ZERO
                    : run.multiply(BigDecimal.valueOf(checkShare))
                            .divide(BigDecimal.valueOf(checks * quantity), MathContext.DECIMAL128);
        }

        /** So that passes and checks together take the planned time exactly. */
        private BigDecimal ofAPass() {
            return MINUTES_OF_A_PASS.exact(
                    run.divide(items(), MathContext.DECIMAL128),
                    BigDecimal.valueOf(checks),
                    ofACheck(),
                    BigDecimal.valueOf(passes));
        }
    }

    /**
     * A step as it was booked, person-time.
     *
     * @param passes over all pieces; null where not every stretch counted them
     * @param checks likewise
     */
    public record Booked(
            BigDecimal setUp,
            BigDecimal run,
            BigDecimal rework,
            @Nullable Long passes,
            @Nullable Long checks) {

        boolean isNothing() {
            return setUp.signum() == 0 && run.signum() == 0 && rework.signum() == 0;
        }
    }

    /** Forming with passes: every cause on its own, as far as it was counted. */
    public static HoursByCause ofForming(
            Plan quoted, Plan made, Booked booked, int scale, Working working) {
        Doubt doubt = doubt(made, booked);
        if (doubt != null && doubt != Doubt.CHECKS_NOT_COUNTED) {
            return rounded(
                    quoted,
                    made,
                    booked,
                    scale,
                    doubt,
                    working,
                    null,
                    null,
                    null,
                    null,
                    null,
                    booked.run.subtract(made.run));
        }
        BigDecimal items = made.items();
        BigDecimal p = BigDecimal.valueOf(made.passes);
        BigDecimal pa = BigDecimal.valueOf(booked.passes).divide(items, MathContext.DECIMAL128);
        BigDecimal c = BigDecimal.valueOf(made.checks);
        BigDecimal ca =
                booked.checks == null
                        ? c
                        : BigDecimal.valueOf(booked.checks).divide(items, MathContext.DECIMAL128);
        BigDecimal k = made.ofACheck();
        BigDecimal m = made.ofAPass();
        BigDecimal each = booked.run.divide(items, MathContext.DECIMAL128);
        BigDecimal ma = pa.signum() == 0 ? m : MINUTES_OF_A_PASS.exact(each, ca, k, pa);
        working.note(
                "planned.minutesOfAPass",
                MINUTES_OF_A_PASS,
                m.doubleValue(),
                computed("an item", made.run.doubleValue() / made.quantity, "h"),
                computed("checks", c.doubleValue(), ""),
                computed("a check", k.doubleValue(), "h"),
                computed("passes", p.doubleValue(), ""));
        working.note(
                "actual.minutesOfAPass",
                MINUTES_OF_A_PASS,
                ma.doubleValue(),
                computed("an item", each.doubleValue(), "h"),
                computed("checks", ca.doubleValue(), ""),
                computed("a check", k.doubleValue(), "h"),
                computed("passes", pa.doubleValue(), ""));
        return rounded(
                quoted,
                made,
                booked,
                scale,
                doubt,
                working,
                noted("passes", MORE_PASSES, working, items, pa, p, m),
                noted("minutesPerPass", LONGER_PASSES, working, items, pa, ma, m),
                noted("checks", MORE_CHECKS, working, items, ca, c, k),
                null,
                null,
                null);
    }

    /** Tools put in, set, and pieces picked up again: all that is booked belongs to one cause. */
    public static HoursByCause ofToolChanges(
            Plan quoted, Plan made, Booked booked, int scale, Working working) {
        Booked all =
                new Booked(made.setUp, booked.setUp.add(booked.run), booked.rework, null, null);
        return rounded(
                quoted,
                made,
                all,
                scale,
                booked.isNothing() ? Doubt.NOTHING_BOOKED : null,
                working,
                null,
                null,
                null,
                all.run.subtract(made.all()),
                null,
                null);
    }

    /** Work without passes. */
    public static HoursByCause ofOther(
            Plan quoted, Plan made, Booked booked, int scale, Working working) {
        return rounded(
                quoted,
                made,
                booked,
                scale,
                booked.isNothing() ? Doubt.NOTHING_BOOKED : null,
                working,
                null,
                null,
                null,
                null,
                booked.run.subtract(made.run),
                null);
    }

    private static @Nullable Doubt doubt(Plan made, Booked booked) {
        if (made.quantity == 0) {
            return Doubt.NOTHING_MADE;
        }
        if (booked.isNothing()) {
            return Doubt.NOTHING_BOOKED;
        }
        if (booked.passes == null) {
            return Doubt.PASSES_NOT_COUNTED;
        }
        if (booked.checks == null) {
            // as planned, unless even those would take longer than all that was booked
            return tooLong(made, booked, BigDecimal.valueOf(made.checks * made.quantity))
                    ? Doubt.CHECKS_TAKE_ALL
                    : booked.passes == 0 ? Doubt.NO_PASSES : Doubt.CHECKS_NOT_COUNTED;
        }
        if (tooLong(made, booked, BigDecimal.valueOf(booked.checks))) {
            return Doubt.CHECKS_TAKE_ALL;
        }
        return booked.passes == 0 ? Doubt.NO_PASSES : null;
    }

    private static boolean tooLong(Plan made, Booked booked, BigDecimal checks) {
        return booked.run.compareTo(checks.multiply(made.ofACheck())) < 0;
    }

    private static BigDecimal noted(
            String cause, CostingFormula formula, Working working, BigDecimal... x) {
        BigDecimal value = formula.exact(x);
        List<strokewright.quantity.Why.Input> inputs = new ArrayList<>();
        List<String> names =
                switch (formula) {
                    case MORE_PASSES -> List.of("made", "passes, actual", "planned", "a pass");
                    case LONGER_PASSES ->
                            List.of("made", "passes, actual", "a pass, actual", "planned");
                    default -> List.of("made", "checks, actual", "planned", "a check");
                };
        for (int i = 0; i < x.length; i++) {
            inputs.add(computed(names.get(i), x[i].doubleValue(), ""));
        }
        working.note(
                cause,
                formula,
                value.doubleValue(),
                inputs.toArray(strokewright.quantity.Why.Input[]::new));
        return value;
    }

    private static HoursByCause rounded(
            Plan quoted,
            Plan made,
            Booked booked,
            int scale,
            @Nullable Doubt doubt,
            Working working,
            @Nullable BigDecimal passes,
            @Nullable BigDecimal minutesPerPass,
            @Nullable BigDecimal checks,
            @Nullable BigDecimal toolChanges,
            @Nullable BigDecimal work,
            @Nullable BigDecimal notSplit) {
        BigDecimal pieces = MORE_OR_FEWER_PIECES.exact(made.all(), quoted.all());
        working.note(
                "pieces",
                MORE_OR_FEWER_PIECES,
                pieces.doubleValue(),
                computed("made " + made.quantity, made.all().doubleValue(), "h"),
                computed("ordered " + quoted.quantity, quoted.all().doubleValue(), "h"));
        BigDecimal setUp =
                toolChanges == null ? booked.setUp.subtract(made.setUp) : BigDecimal.ZERO;
        BigDecimal actual =
                (toolChanges == null ? booked.setUp : BigDecimal.ZERO)
                        .add(booked.run)
                        .add(booked.rework);
        BigDecimal whole =
                actual.setScale(scale, RoundingMode.HALF_UP)
                        .subtract(quoted.all().setScale(scale, RoundingMode.HALF_UP));
        List<@Nullable BigDecimal> causes = new ArrayList<>();
        Stream.of(pieces, setUp, booked.rework).forEach(causes::add);
        causes.add(passes);
        causes.add(minutesPerPass);
        causes.add(checks);
        causes.add(toolChanges);
        causes.add(work);
        causes.add(notSplit);
        List<BigDecimal> there = causes.stream().filter(Objects::nonNull).toList();
        List<BigDecimal> parts = new ArrayList<>(Adding.upTo(whole, there));
        List<@Nullable BigDecimal> out = new ArrayList<>();
        for (BigDecimal cause : causes) {
            out.add(cause == null ? null : parts.remove(0));
        }
        return new HoursByCause(
                Objects.requireNonNull(out.get(0)),
                out.get(3),
                out.get(4),
                out.get(5),
                out.get(6),
                Objects.requireNonNull(out.get(1)),
                Objects.requireNonNull(out.get(2)),
                out.get(7),
                out.get(8),
                doubt);
    }

    /** All causes together: actual less quoted. */
    public BigDecimal sum() {
        return Stream.of(
                        pieces,
                        passes,
                        minutesPerPass,
                        checks,
                        toolChanges,
                        setUp,
                        rework,
                        work,
                        notSplit)
                .filter(Objects::nonNull)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
    }
}
