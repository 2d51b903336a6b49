package strokewright.whatif;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.costing.Percentage;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Learned;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.quantity.Faults;
import strokewright.quantity.Money;
import strokewright.takeoff.Work;

/**
 * One thing that a shop would believe otherwise, tried on its book without storing anything. A shop
 * book in, a shop book out.
 */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "type")
@JsonSubTypes({
    @JsonSubTypes.Type(value = BookChange.LabourRate.class, name = "labour-rate"),
    @JsonSubTypes.Type(value = BookChange.MachineRate.class, name = "machine-rate"),
    @JsonSubTypes.Type(value = BookChange.SheetPrice.class, name = "sheet-price"),
    @JsonSubTypes.Type(value = BookChange.MetalPrices.class, name = "metal-prices"),
    @JsonSubTypes.Type(value = BookChange.LearnedFactor.class, name = "learned-factor"),
    @JsonSubTypes.Type(value = BookChange.Share.class, name = "percentage")
})
@JsonInclude(JsonInclude.Include.NON_NULL)
sealed interface BookChange {

    /** Lowest and highest factor that a shop book holds. */
    double LOWEST_FACTOR = 0.1;

    double HIGHEST_FACTOR = 10;

    /**
     * Whether it can be tried on this book.
     *
     * @param at pointer of the change
     */
    void check(String at, ShopBook book, Faults faults);

    /** The book with it; only after {@link #check} found nothing. */
    ShopBook in(ShopBook book);

    /** What an hour of a person costs at one work centre; a rate that was built becomes stated. */
    record LabourRate(
            @Nullable String workCentre,
            @Nullable Money to,
            @Nullable Money by,
            @Nullable Double byPercent)
            implements BookChange {

        private MoneyChange change() {
            return new MoneyChange(to, by, byPercent);
        }

        @Override
        public void check(String at, ShopBook book, Faults faults) {
            Money now =
                    knownCentre(at, workCentre, book, faults)
                            .map(c -> c.labourIn(book.currency()))
                            .orElse(null);
            change().check(at, now, book.currency(), faults);
        }

        @Override
        public ShopBook in(ShopBook book) {
            return withCentre(
                    book,
                    workCentre,
                    c ->
                            new WorkCentre(
                                    c.name(),
                                    change().of(c.labourIn(book.currency())),
                                    c.machineRate(),
                                    null,
                                    c.machineBasis(),
                                    c.origin()));
        }
    }

    /** What an hour at one work centre's machine costs; a rate that was built becomes stated. */
    record MachineRate(
            @Nullable String workCentre,
            @Nullable Money to,
            @Nullable Money by,
            @Nullable Double byPercent)
            implements BookChange {

        private MoneyChange change() {
            return new MoneyChange(to, by, byPercent);
        }

        @Override
        public void check(String at, ShopBook book, Faults faults) {
            Money now =
                    knownCentre(at, workCentre, book, faults)
                            .map(c -> c.machineIn(book.currency()))
                            .orElse(null);
            if (now != null && now.isZero() && byPercent != null) {
                faults.add(at + "/byPercent", "is a share of a rate of 0: state the rate with to");
            }
            change().check(at, now, book.currency(), faults);
        }

        @Override
        public ShopBook in(ShopBook book) {
            return withCentre(
                    book,
                    workCentre,
                    c ->
                            new WorkCentre(
                                    c.name(),
                                    c.labourRate(),
                                    change().of(c.machineIn(book.currency())),
                                    c.labourBasis(),
                                    null,
                                    c.origin()));
        }
    }

    /**
     * What sheet of one grade costs.
     *
     * @param thicknessMm the line of this thickness alone; null for every line of the grade
     * @param per lines priced by the kg or by the sheet; null for both, which only a percentage
     *     fits
     * @param to the price without break, from which the breaks follow in proportion
     * @param by more or less for each price, breaks included
     */
    record SheetPrice(
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Per per,
            @Nullable Money to,
            @Nullable Money by,
            @Nullable Double byPercent)
            implements BookChange {

        enum Per {
            @JsonProperty("kg")
            KG,
            @JsonProperty("sheet")
            SHEET
        }

        private MoneyChange change() {
            return new MoneyChange(to, by, byPercent);
        }

        private boolean means(Sheet sheet) {
            return grade.equals(sheet.grade())
                    && (thicknessMm == null || thicknessMm.equals(sheet.thicknessMm()))
                    && (per == null || (per == Per.SHEET) == (sheet.pricePerSheet() != null));
        }

        @Override
        public void check(String at, ShopBook book, Faults faults) {
            Set<String> grades =
                    book.sheets().stream()
                            .map(Sheet::grade)
                            .collect(Collectors.toCollection(TreeSet::new));
            if (per == null && (to != null || by != null)) {
                faults.add(at + "/per", "is missing: kg or sheet, which the amount is for");
            }
            if (faults.known(at + "/grade", grade, grades, "grade with a price of sheet")
                    && book.sheets().stream().noneMatch(this::means)) {
                faults.add(
                        at + (thicknessMm == null ? "/per" : "/thicknessMm"),
                        "fits no line of this grade");
            }
            change().check(at, null, book.currency(), faults);
        }

        @Override
        public ShopBook in(ShopBook book) {
            return withSheets(book, this::means, change());
        }
    }

    /** All sheet dearer or cheaper by the same share. */
    record MetalPrices(@Nullable Double byPercent) implements BookChange {

        @Override
        public void check(String at, ShopBook book, Faults faults) {
            new MoneyChange(null, null, byPercent).check(at, null, book.currency(), faults);
        }

        @Override
        public ShopBook in(ShopBook book) {
            return withSheets(book, s -> true, new MoneyChange(null, null, byPercent));
        }
    }

    /**
     * What finished jobs taught, put instead of what the book has for the same kind and family; how
     * sure that is and from how many jobs stays.
     *
     * @param meanFactor the plan factor when left out
     */
    record LearnedFactor(
            @Nullable String kind,
            @Nullable String family,
            @Nullable Double planFactor,
            @Nullable Double meanFactor)
            implements BookChange {

        @Override
        public void check(String at, ShopBook book, Faults faults) {
            faults.known(at + "/kind", kind, kinds(book), "kind of work");
            if (family != null) {
                faults.known(at + "/family", family, families(book), "family of metals");
            }
            faults.within(at + "/planFactor", planFactor, LOWEST_FACTOR, HIGHEST_FACTOR);
            faults.withinIfGiven(at + "/meanFactor", meanFactor, LOWEST_FACTOR, HIGHEST_FACTOR);
        }

        @Override
        public ShopBook in(ShopBook book) {
            List<Learned> lines = new ArrayList<>(book.learned());
            Optional<Learned> known =
                    lines.stream()
                            .filter(l -> kind.equals(l.kind()))
                            .filter(
                                    l ->
                                            family == null
                                                    ? l.family() == null
                                                    : family.equals(l.family()))
                            .findFirst();
            Learned changed =
                    new Learned(
                            kind,
                            family,
                            planFactor,
                            meanFactor,
                            known.map(Learned::spread).orElse(null),
                            known.map(Learned::jobs).orElse(null),
                            known.map(Learned::origin).orElse(null));
            known.ifPresentOrElse(
                    l -> lines.set(lines.indexOf(l), changed), () -> lines.add(changed));
            return book.withLearned(lines);
        }
    }

    /**
     * A percentage of the price scheme, in percent as people say it.
     *
     * @param of such as profit or production-overhead
     * @param by points more or less
     */
    record Share(@Nullable String of, @Nullable Double to, @Nullable Double by)
            implements BookChange {

        @Override
        public void check(String at, ShopBook book, Faults faults) {
            boolean surcharge = book.priceScheme().kind() == PriceScheme.Kind.SURCHARGE;
            List<String> names = Percentage.beforeTax(surcharge).map(Percentage::word).toList();
            boolean known = faults.known(at + "/of", of, names, "percentage of the price scheme");
            if ((to == null) == (by == null)) {
                faults.add(at + "/to", "state one of to and by");
            } else if (known) {
                double value = value(book);
                if (!(value >= 0 && value <= percentage().most())) {
                    faults.add(
                            at + (to == null ? "/by" : "/to"),
                            "must lead to a percentage from 0 to " + percentage().most());
                }
            }
        }

        private Percentage percentage() {
            return Percentage.of(of);
        }

        private double value(ShopBook book) {
            return to == null ? percentage().of(book.priceScheme()) + by : to;
        }

        @Override
        public ShopBook in(ShopBook book) {
            return book.withPriceScheme(percentage().in(book.priceScheme(), value(book)));
        }
    }

    // Pieces --------------------------------------------------------------------------------------

    private static Optional<WorkCentre> knownCentre(
            String at, @Nullable String name, ShopBook book, Faults faults) {
        List<String> names = book.workCentres().stream().map(WorkCentre::name).toList();
        return faults.known(at + "/workCentre", name, names, "work centre")
                ? book.workCentre(name)
                : Optional.empty();
    }

    private static ShopBook withCentre(
            ShopBook book, String name, UnaryOperator<WorkCentre> change) {
        return book.withWorkCentres(
                book.workCentres().stream()
                        .map(c -> name.equals(c.name()) ? change.apply(c) : c)
                        .toList());
    }

    private static ShopBook withSheets(ShopBook book, Predicate<Sheet> which, MoneyChange change) {
        return book.withSheets(
                book.sheets().stream().map(s -> which.test(s) ? change.of(s) : s).toList());
    }

    /**
     * What a learned factor can hold for: forming by its kind, a time standard, the set-up, the
     * rest, the risk reserve.
     */
    static List<String> kinds(ShopBook book) {
        return Stream.of(
                        Stream.of(Learned.SETUP, Learned.OTHER, Learned.RESERVE),
                        Arrays.stream(Work.values())
                                .filter(w -> w != Work.STANDARD)
                                .map(Work::kind),
                        book.standards().stream().map(ShopBook.Standard::name))
                .flatMap(s -> s)
                .toList();
    }

    static Set<String> families(ShopBook book) {
        return book.grades().stream()
                .map(ShopBook.Grade::family)
                .filter(f -> f != null)
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
