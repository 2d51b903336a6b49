package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.VariantComparison.Against;
import strokewright.estimate.VariantComparison.At;
import strokewright.estimate.VariantComparison.Base;
import strokewright.estimate.VariantComparison.Beside;
import strokewright.estimate.VariantComparison.More;
import strokewright.estimate.VariantComparison.MoreMoney;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;

/** A take-off beside which something is otherwise. */
public final class Variants {

    public static final int MOST = 10;

    private final TakeOff takeOff;
    private final ShopBook book;
    private final Estimate base;

    private Variants(TakeOff takeOff, ShopBook book, Estimate base) {
        this.takeOff = takeOff;
        this.book = book;
        this.base = base;
    }

    /**
     * @param variants 1 to {@link #MOST}
     * @throws InvalidInput naming every fault, with pointers such as {@code /variants/1/grade}
     */
    public static VariantComparison compare(
            @Nullable TakeOff takeOff, @Nullable List<Variant> variants, ShopBook book) {
        Faults faults = new Faults();
        if (faults.present("/takeOff", takeOff, "a take-off")) {
            add("/takeOff", TakeOffCheck.faults(takeOff, book), faults);
        }
        boolean listed = faults.size("/variants", variants, 1, MOST);
        for (int i = 0; listed && i < variants.size(); i++) {
            faults.present("/variants/" + i, variants.get(i), "what is to be otherwise");
        }
        faults.throwIfAny();
        Variants beside = beside("/takeOff", takeOff, book);
        List<Beside> made = new ArrayList<>();
        for (int i = 0; i < variants.size(); i++) {
            try {
                made.add(beside.of(variants.get(i), "/variants/" + i));
            } catch (InvalidInput e) {
                add("", e.faults(), faults);
            }
        }
        faults.throwIfAny();
        return new VariantComparison(
                book.edition(), MainSize.of(takeOff, null, book).orElse(null), beside.base(), made);
    }

    /**
     * @param takeOff usable with the book
     * @param base its estimate
     */
    public static Variants beside(TakeOff takeOff, Estimate base, ShopBook book) {
        return new Variants(takeOff, book, base);
    }

    private static Variants beside(String at, TakeOff takeOff, ShopBook book) {
        return new Variants(takeOff, book, estimate(at, takeOff, book));
    }

    private static Estimate estimate(String at, TakeOff takeOff, ShopBook book) {
        try {
            return Estimating.estimate(takeOff, book);
        } catch (InvalidInput e) {
            Faults faults = new Faults();
            add(at, e.faults(), faults);
            throw new InvalidInput(faults.all());
        }
    }

    private static void add(String at, List<Fault> found, Faults faults) {
        found.forEach(f -> faults.add(at + f.pointer(), f.message()));
    }

    public Base base() {
        return new Base(
                base.feasible(),
                base.findings(),
                base.quantities().stream().map(Variants::at).toList());
    }

    private static At at(Estimate.ForQuantity q) {
        return new At(q.quantity(), q.hours().plan(), q.cost().total(), q.priceEach());
    }

    /**
     * @param at where its faults are told
     * @throws InvalidInput with what is wrong with it, or with what it leads to
     */
    public Beside of(Variant variant, String at) {
        Varied varied = Varied.of(takeOff, variant, book, at);
        Estimate estimate = reckoned(varied, at);
        Optional<Varied> ownMinutes = varied.withOwnMinutes(base, estimate);
        if (ownMinutes.isPresent()) {
            varied = ownMinutes.get();
            estimate = reckoned(varied, at);
        }
        List<Against> quantities = new ArrayList<>();
        for (int i = 0; i < base.quantities().size(); i++) {
            quantities.add(against(at(base.quantities().get(i)), at(estimate.quantities().get(i))));
        }
        return new Beside(
                variant.called(takeOff),
                variant,
                varied.takeOff(),
                varied.notes(),
                estimate.feasible(),
                estimate.findings(),
                Finding.beyond(estimate.findings(), base.findings()),
                Finding.beyond(base.findings(), estimate.findings()),
                quantities);
    }

    /** What shows only while reckoning, such as more passes than anybody would do. */
    private Estimate reckoned(Varied varied, String at) {
        try {
            return Estimating.estimate(varied.takeOff(), book);
        } catch (InvalidInput e) {
            throw new InvalidInput(
                    e.faults().stream()
                            .map(
                                    f ->
                                            new Fault(
                                                    at,
                                                    "leads to "
                                                            + f.pointer()
                                                            + ", which "
                                                            + f.message()))
                            .toList());
        }
    }

    private static Against against(At base, At other) {
        return new Against(
                other.quantity(),
                other.hours(),
                other.cost(),
                other.priceEach(),
                More.of(base.hours(), other.hours()),
                MoreMoney.of(base.cost(), other.cost()),
                MoreMoney.of(base.priceEach(), other.priceEach()));
    }
}
