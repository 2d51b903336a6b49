package strokewright.estimate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.costing.Allowance;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;

/**
 * What the owner should look at in a shop book that can be used all the same. Pointers lead into
 * the shop book.
 */
public final class ShopBookDoubts {

    private static final double FARTHEST_OFF = 0.25;

    /** Less is how people round a percentage. */
    private static final double LEAST_OFF_PERCENT = 0.5;

    private static final BigDecimal LEAST_OFF = new BigDecimal("0.01");

    private ShopBookDoubts() {}

    /** Every doubt; the book must be without faults ({@link ShopBookCheck}). */
    public static List<Finding> in(ShopBook book) {
        List<Finding> doubts = new ArrayList<>();
        for (int i = 0; i < book.grades().size(); i++) {
            hardeningPair("/grades/" + i, book.grades().get(i), doubts);
        }
        annealing(book, doubts);
        for (int i = 0; i < book.workCentres().size(); i++) {
            rates("/workCentres/" + i, book.workCentres().get(i), book, doubts);
        }
        allowances(book.times(), doubts);
        return List.copyOf(doubts);
    }

    /**
     * Several textbook pairs of K and n do not give the strength of their own metal. The stated
     * strength is of the metal as delivered, K and n are of the annealed metal: the two can be
     * compared only where it is delivered annealed.
     */
    private static void hardeningPair(String at, Grade grade, List<Finding> doubts) {
        Double k = grade.strengthCoefficientMpa();
        Double n = grade.hardeningExponent();
        if (k == null || n == null || !deliveredAnnealed(grade)) {
            return;
        }
        double implied = impliedTensileMpa(k, n);
        double off = implied / grade.tensileMpa() - 1;
        if (Math.abs(off) > FARTHEST_OFF) {
            doubts.add(
                    new Finding(
                            "hardening-off-tensile-strength",
                            Severity.DOUBT,
                            at + "/hardeningExponent",
                            Map.of(
                                    "impliedTensileMpa",
                                    implied,
                                    "tensileMpa",
                                    grade.tensileMpa(),
                                    "offPercent",
                                    100 * off),
                            Map.of("strengthCoefficientMpa", k * grade.tensileMpa() / implied)));
        }
    }

    private static boolean deliveredAnnealed(Grade grade) {
        return grade.annealedProofMpa() == null
                || grade.annealedProofMpa() >= 0.99 * grade.proofMpa();
    }

    /** Without a standard an anneal would cost its cooling and cleaning alone. */
    private static void annealing(ShopBook book, List<Finding> doubts) {
        if (book.times().annealStandard() == null
                && book.grades().stream().anyMatch(Grade::annealable)) {
            doubts.add(
                    new Finding(
                            "annealing-takes-no-time",
                            Severity.DOUBT,
                            "/times/annealStandard",
                            Map.of()));
        }
    }

    /** A stated rate goes before its basis; one of the two has been forgotten. */
    private static void rates(String at, WorkCentre centre, ShopBook book, List<Finding> doubts) {
        Currency currency = Objects.requireNonNull(book.currency());
        if (centre.labourRate() != null && centre.labourBasis() != null) {
            offBasis(
                    at + "/labourRate",
                    centre.labourRate(),
                    Money.rounded(centre.labourBasis().perProductiveHour(), currency),
                    doubts);
        }
        if (centre.machineRate() != null && centre.machineBasis() != null) {
            offBasis(
                    at + "/machineRate",
                    centre.machineRate(),
                    Money.rounded(centre.machineBasis().perHour(), currency),
                    doubts);
        }
    }

    private static void offBasis(String at, Money stated, Money built, List<Finding> doubts) {
        BigDecimal off = stated.minus(built).amount().abs();
        // a hundredth, or the coin where there is no smaller one, is rounding
        if (off.compareTo(built.amount().ulp().max(LEAST_OFF)) > 0) {
            doubts.add(
                    new Finding(
                            "rate-off-its-basis",
                            Severity.DOUBT,
                            at,
                            Map.of("stated", stated, "built", built),
                            Map.of("rate", built)));
        }
    }

    private static void allowances(Times times, List<Finding> doubts) {
        offBasis(
                "/times/machineAllowancePercent",
                times.machineAllowancePercent(),
                times.machineAllowanceBasis(),
                doubts);
        offBasis(
                "/times/benchAllowancePercent",
                times.benchAllowancePercent(),
                times.benchAllowanceBasis(),
                doubts);
    }

    private static void offBasis(
            String at, @Nullable Double stated, @Nullable Allowance basis, List<Finding> doubts) {
        if (stated != null
                && basis != null
                && Math.abs(stated - basis.percent()) > LEAST_OFF_PERCENT) {
            doubts.add(
                    new Finding(
                            "allowance-off-its-basis",
                            Severity.DOUBT,
                            at,
                            Map.of("statedPercent", stated, "builtPercent", basis.percent()),
                            Map.of("percent", basis.percent())));
        }
    }

    /**
     * Tensile strength in MPa that K and n imply, Rm = K (n/e)ⁿ: where the load of a strip that
     * hardens as σ = K εⁿ is greatest (Considère 1885), referred to the area at the start.
     */
    static double impliedTensileMpa(double k, double n) {
        return k * Math.pow(n / Math.E, n);
    }
}
