package strokewright.estimate;

import java.util.IdentityHashMap;
import java.util.Map;

/** What was drawn, kept for all quantities. */
final class Drawn {

    private final Draws draws;
    private final Map<Varying, double[][]> minutes = new IdentityHashMap<>();

    Drawn(Draws draws) {
        this.draws = draws;
    }

    Draws draws() {
        return draws;
    }

    /** Paced minutes, then all others. */
    double[][] minutes(Varying varying) {
        return minutes.computeIfAbsent(
                varying,
                v -> {
                    double[][] drawn = new double[2][draws.trials()];
                    v.add(draws, drawn[0], drawn[1]);
                    return drawn;
                });
    }
}
