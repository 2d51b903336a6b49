package strokewright.estimate;

import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Standard;

/** Everything of one item that varies, each once, so that it is drawn once for all quantities. */
final class Variations {

    private final Doubts doubts;
    private final Map<Worked, Varying> runs = new IdentityHashMap<>();
    private final Map<Worked, Varying> anneals = new IdentityHashMap<>();
    private final Map<Worked, Varying> dressings = new IdentityHashMap<>();
    private final Map<Parameter, Varying> learned = new HashMap<>();
    private final Varying minute;

    Variations(Doubts doubts) {
        this.doubts = doubts;
        minute = (draws, paced, hand) -> addTimes(1, draws.of(doubts.byHand()), hand);
    }

    Doubts doubts() {
        return doubts;
    }

    /** A minute by hand. */
    Varying minute() {
        return minute;
    }

    /** Run minutes of one piece of a line; those of the order where it is worked once. */
    Varying run(Worked line) {
        return runs.computeIfAbsent(
                line,
                w ->
                        w.line().override() != null
                                ? own(w.elapsedPacedMinutes(), w.elapsedMinutes())
                                : w.standard() == null
                                        ? forming(w)
                                        : standard(w.standard(), w.line().amount(), 0));
    }

    /** Anneals of one piece. */
    Varying anneal(Worked line) {
        return anneals.computeIfAbsent(
                line,
                w -> offTheMachine(w.annealedBy(), w.line().annealMinutes(), w.coolMinutes()));
    }

    /** Dressing out marks of one piece. */
    Varying dressing(Worked line) {
        return dressings.computeIfAbsent(
                line, w -> offTheMachine(w.dressedBy(), w.line().dressMinutes(), 0));
    }

    /** A minute of a kind of work whose spread was learned. */
    Varying learned(String kind, Learned of) {
        return learned.computeIfAbsent(
                doubts.learned(kind, of),
                parameter ->
                        (draws, paced, hand) -> {
                            double[] alone = draws.of(parameter);
                            addTimes(
                                    1,
                                    doubts.jobsAreLearned()
                                            ? product(alone, draws.of(doubts.byHand()))
                                            : alone,
                                    hand);
                        });
    }

    /** Minutes that the estimator stated: only the job as a whole can still be slower. */
    private Varying own(double pacedMinutes, double minutes) {
        return (draws, paced, hand) -> {
            addTo(pacedMinutes, paced);
            addTimes(minutes - pacedMinutes, draws.of(doubts.byHand()), hand);
        };
    }

    private Varying offTheMachine(
            @Nullable Standard standard, @Nullable Double minutes, double withoutStandard) {
        double perUnit = standard.minutesPerUnit();
        double amount = perUnit == 0 ? 0 : (minutes - withoutStandard) / perUnit;
        return standard(standard, amount, withoutStandard);
    }

    private Varying standard(Standard standard, double amount, double more) {
        Parameter parameter = doubts.minutes(standard);
        double perUnit = parameter.isFactor() ? standard.minutesPerUnit() : 1;
        return (draws, paced, hand) -> {
            double[] minutes = draws.of(parameter);
            double[] byHand = draws.of(doubts.byHand());
            for (int t = 0; t < paced.length; t++) {
                double each = amount * perUnit * minutes[t];
                if (standard.machinePaced()) {
                    paced[t] += each;
                    hand[t] += more * byHand[t];
                } else {
                    hand[t] += (each + more) * byHand[t];
                }
            }
        };
    }

    private Varying forming(Worked line) {
        Grade grade = line.grade();
        return (draws, paced, hand) -> {
            double[] alone = new double[hand.length];
            for (Worked.Doubtful done : line.efforts()) {
                Parameter bite = doubts.bite(done.tool(), grade);
                Parameter work = doubts.strokeWork(done.tool(), grade);
                double n = done.effort().hardening();
                boolean byBite = done.effort().hangsOnBite();
                boolean byWork = done.effort().hangsOnWork();
                done.effort()
                        .add(
                                line.count(),
                                byBite ? draws.of(bite) : null,
                                byWork ? draws.of(work) : null,
                                byWork
                                        ? product(draws.of(work, 1 / n), draws.of(bite, -1 / n))
                                        : null,
                                draws.of(doubts.feed(done.tool(), grade, line.machine())),
                                draws.of(doubts.checks()),
                                paced,
                                alone);
            }
            double[] byHand = draws.of(doubts.byHand());
            for (int t = 0; t < hand.length; t++) {
                hand[t] += alone[t] * byHand[t];
            }
        };
    }

    private static double[] product(double[] one, double[] other) {
        double[] product = new double[one.length];
        for (int t = 0; t < product.length; t++) {
            product[t] = one[t] * other[t];
        }
        return product;
    }

    private static void addTo(double amount, double[] to) {
        for (int t = 0; t < to.length; t++) {
            to[t] += amount;
        }
    }

    private static void addTimes(double amount, double[] factors, double[] to) {
        for (int t = 0; t < to.length; t++) {
            to[t] += amount * factors[t];
        }
    }
}
