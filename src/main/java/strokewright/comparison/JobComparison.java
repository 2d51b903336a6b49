package strokewright.comparison;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.costing.CostingFormula;
import strokewright.costing.HoursByCause;
import strokewright.job.Booking;
import strokewright.job.JobKind;
import strokewright.job.JobState;
import strokewright.quantity.Money;
import strokewright.quantity.Why;

/**
 * One job: quoted, planned for what was made, and actual. Over is positive and worse. All parts add
 * up to their whole, hours to the millionth, money to the cent.
 *
 * @param labourAt what a person's hour is valued at
 * @param orders the job's own first, then its change orders
 * @param hours of people
 * @param cost without profit
 * @param work steps, the risk reserve of each kind of work, and what was booked on the job alone
 * @param bridge from the margin quoted to the margin earned; null where labour is not valued at
 *     what people cost
 * @param notes what makes the comparison less than complete
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record JobComparison(
        String job,
        JobKind kind,
        JobState state,
        String title,
        UUID customerId,
        String customer,
        @Nullable String quote,
        String estimator,
        @Nullable LocalDate finishedOn,
        LabourAt labourAt,
        List<Order> orders,
        Figures hours,
        Amounts cost,
        List<AtCentre> workCentres,
        List<Work> work,
        List<Metal> metal,
        List<Bought> boughtOut,
        List<Overhead> overheads,
        Over over,
        Net net,
        @Nullable Margins margin,
        @Nullable List<BridgeStep> bridge,
        List<Note> notes) {

    /** The same to be put together with others, where nobody asks why. */
    JobComparison withoutWhy() {
        return new JobComparison(
                job,
                kind,
                state,
                title,
                customerId,
                customer,
                quote,
                estimator,
                finishedOn,
                labourAt,
                orders,
                hours,
                cost,
                workCentres,
                work.stream().map(Work::withoutWhy).toList(),
                metal,
                boughtOut,
                overheads,
                over,
                net,
                margin,
                bridge,
                notes);
    }

    /** What an hour of a person is valued at. */
    public enum LabourAt {
        /** What each person costs, where the owner has said it; else the book's rate. */
        @JsonProperty("cost-rates")
        COST_RATES,
        /**
         * The rate of the work centre in the shop book, for whoever may not see what people cost.
         */
        @JsonProperty("book-rates")
        BOOK_RATES
    }

    /**
     * What was ordered at one time, with its own plan.
     *
     * @param changeOrder 0 of the job itself
     * @param net ordered, before discounts
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Order(
            int changeOrder,
            int edition,
            List<Item> items,
            Figures hours,
            Amounts cost,
            Money net) {}

    public record Item(int position, String title, int ordered, int made) {}

    /**
     * @param workCentre null of what was booked on the job alone
     * @param rate (actual rate − planned rate) × actual hours; null where it is not shown
     * @param efficiency (actual hours − planned hours) × planned rate
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record AtCentre(
            @Nullable String workCentre,
            Figures hours,
            Figures machineHours,
            BigDecimal setUpHours,
            BigDecimal reworkHours,
            Amounts labour,
            @Nullable Money rate,
            Money efficiency,
            Amounts machine) {}

    /** What a line of work is. */
    public enum Sort {
        @JsonProperty("step")
        STEP,
        /** Planned for rework and spoilt pieces; what rework took stands with the step. */
        @JsonProperty("reserve")
        RESERVE,
        /** Booked on the job without saying what was done: it belongs to no step. */
        @JsonProperty("whole-job")
        WHOLE_JOB
    }

    /**
     * @param n of the step on the route card
     * @param item position of its item
     * @param kind of operation; null of what was booked on the job alone
     * @param told which sort of work it was, of what was booked on the job alone
     * @param hours of people
     * @param causes of the difference between actual and quoted hours, in hours
     * @param override the estimator's own minutes beside the computed ones
     * @param why the causes
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Work(
            Sort sort,
            @Nullable Integer n,
            @Nullable Integer item,
            int changeOrder,
            @Nullable String part,
            @Nullable Integer position,
            @Nullable String kind,
            @Nullable String family,
            @Nullable String workCentre,
            Booking.@Nullable Sort told,
            Figures hours,
            Figures machineHours,
            BigDecimal setUpHours,
            BigDecimal reworkHours,
            Amounts labour,
            @Nullable Money rate,
            Money efficiency,
            Amounts machine,
            @Nullable HoursByCause causes,
            @Nullable Override override,
            @Nullable List<Why> why) {

        Work withoutWhy() {
            return new Work(
                    sort,
                    n,
                    item,
                    changeOrder,
                    part,
                    position,
                    kind,
                    family,
                    workCentre,
                    told,
                    hours,
                    machineHours,
                    setUpHours,
                    reworkHours,
                    labour,
                    rate,
                    efficiency,
                    machine,
                    causes,
                    override,
                    null);
        }
    }

    /**
     * Both figures of a step whose minutes the estimator stated, for what was made.
     *
     * @param computedHours what the method would have planned
     * @param statedHours what was planned with
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Override(
            BigDecimal computedHours,
            BigDecimal statedHours,
            BigDecimal actualHours,
            @Nullable String reason) {}

    /**
     * One grade.
     *
     * @param price (actual price − planned price) × actual amount
     * @param usage (actual amount − planned amount) × planned price
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Metal(
            String grade,
            @Nullable String family,
            Figures kg,
            Amounts cost,
            Money price,
            Money usage,
            List<Why> why) {}

    /** Something bought out or made specially, its handling, or minimum charges. */
    public record Bought(String name, Sort sort, Amounts cost) {

        /** What is paid for. */
        public enum Sort {
            @JsonProperty("bought-out")
            BOUGHT_OUT,
            @JsonProperty("special-direct")
            SPECIAL_DIRECT,
            @JsonProperty("handling")
            HANDLING,
            @JsonProperty("minimum-charges")
            MINIMUM_CHARGES,
            @JsonProperty("not-planned")
            NOT_PLANNED
        }
    }

    /** At the percentages of the book that the work was planned with, on what it really took. */
    public record Overhead(Name name, Amounts cost) {

        /** Its base, and what it is called. */
        public enum Name {
            @JsonProperty("material-overhead")
            MATERIAL("Material overhead, or mark-up"),
            @JsonProperty("production-overhead")
            PRODUCTION("Production overhead"),
            @JsonProperty("administration")
            ADMINISTRATION("Administration"),
            @JsonProperty("sales")
            SALES("Sales");

            private final String words;

            Name(String words) {
                this.words = words;
            }

            public String words() {
                return words;
            }
        }
    }

    /**
     * What the cost is over by, part by part; they add up to the cost's own.
     *
     * @param rate null where labour is valued at the book's rates
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Over(
            @Nullable Money rate,
            Money efficiency,
            Money machine,
            Money price,
            Money usage,
            Money boughtOut,
            Money overheads) {

        Over plus(Over more) {
            return new Over(
                    rate == null || more.rate == null ? null : rate.plus(more.rate),
                    efficiency.plus(more.efficiency),
                    machine.plus(more.machine),
                    price.plus(more.price),
                    usage.plus(more.usage),
                    boughtOut.plus(more.boughtOut),
                    overheads.plus(more.overheads));
        }

        /** All parts together. */
        Money sum() {
            Money sum =
                    efficiency
                            .plus(machine)
                            .plus(price)
                            .plus(usage)
                            .plus(boughtOut)
                            .plus(overheads);
            return rate == null ? sum : sum.plus(rate);
        }
    }

    /**
     * What the customer pays, before tax.
     *
     * @param ordered as agreed
     * @param made the share of what was made of it; never more than was agreed
     * @param afterDiscounts of what was agreed, and of the share: what discounts and commission
     *     leave
     */
    public record Net(
            Money ordered, Money made, Money orderedAfterDiscounts, Money madeAfterDiscounts) {}

    /**
     * What is left of the net price after discounts and all cost.
     *
     * @param quoted at the planned hours, whatever hours the price was made from
     */
    public record Margins(Margin quoted, Margin planned, Margin earned) {

        /**
         * @param ordered net of what was ordered, after discounts
         * @param made net of what was made, after discounts
         */
        static Margins of(Money ordered, Money made, Amounts cost) {
            return new Margins(
                    Margin.of(ordered, cost.quoted()),
                    Margin.of(made, cost.planned()),
                    Margin.of(made, cost.actual()));
        }
    }

    /**
     * @param percent of the net price after discounts; null where nothing is paid
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Margin(Money amount, @Nullable BigDecimal percent) {

        private static Margin of(Money net, Money cost) {
            Money left = net.minus(cost);
            return new Margin(
                    left,
                    net.isZero()
                            ? null
                            : CostingFormula.PERCENT_OF_WHOLE
                                    .exact(left.amount(), net.amount())
                                    .setScale(1, RoundingMode.HALF_UP));
        }
    }

    /**
     * From the margin quoted to the margin earned: the first is where it starts, the last where it
     * ends, those between are what was won or lost on the way.
     */
    public record BridgeStep(Code code, Money amount) {

        public enum Code {
            @JsonProperty("margin-quoted")
            MARGIN_QUOTED("Margin quoted"),
            @JsonProperty("net-of-pieces")
            NET_OF_PIECES("Price of pieces not made"),
            @JsonProperty("cost-of-pieces")
            COST_OF_PIECES("Cost of more or fewer pieces"),
            @JsonProperty("rate")
            RATE("Labour rate"),
            @JsonProperty("efficiency")
            EFFICIENCY("Labour hours"),
            @JsonProperty("machine")
            MACHINE("Machine hours"),
            @JsonProperty("price")
            PRICE("Metal price"),
            @JsonProperty("usage")
            USAGE("Metal used"),
            @JsonProperty("bought-out")
            BOUGHT_OUT("Bought out"),
            @JsonProperty("overheads")
            OVERHEADS("Overheads"),
            @JsonProperty("margin-earned")
            MARGIN_EARNED("Margin earned");

            private final String words;

            Code(String words) {
                this.words = words;
            }

            public String words() {
                return words;
            }
        }
    }

    /** Something to know before the figures are believed. */
    public record Note(Code code, String message) {

        public enum Code {
            @JsonProperty("not-finished")
            NOT_FINISHED,
            @JsonProperty("clock-runs")
            CLOCK_RUNS,
            @JsonProperty("no-hours")
            NO_HOURS,
            @JsonProperty("hours-on-whole-job")
            HOURS_ON_WHOLE_JOB,
            @JsonProperty("no-metal")
            NO_METAL,
            @JsonProperty("no-bill")
            NO_BILL,
            @JsonProperty("nothing-made")
            NOTHING_MADE,
            @JsonProperty("book-rates")
            BOOK_RATES,
            @JsonProperty("no-cost-rate")
            NO_COST_RATE
        }
    }
}
