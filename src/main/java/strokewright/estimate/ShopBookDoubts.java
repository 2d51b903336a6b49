package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import strokewright.estimate.ShopBook.Grade;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;

/**
 * What the owner should look at in a shop book that can be used all the same. Pointers lead into
 * the shop book.
 */
public final class ShopBookDoubts {

    private static final double FARTHEST_OFF = 0.25;

    private ShopBookDoubts() {}

    /** Every doubt; the book must be without faults ({@link ShopBookCheck}). */
    public static List<Finding> in(ShopBook book) {
        List<Finding> doubts = new ArrayList<>();
        for (int i = 0; i < book.grades().size(); i++) {
            hardeningPair("/grades/" + i, book.grades().get(i), doubts);
        }
        annealing(book, doubts);
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

    /**
     * Tensile strength in MPa that K and n imply, Rm = K (n/e)ⁿ: where the load of a strip that
     * hardens as σ = K εⁿ is greatest (Considère 1885), referred to the area at the start.
     */
    static double impliedTensileMpa(double k, double n) {
        return k * Math.pow(n / Math.E, n);
    }
}
