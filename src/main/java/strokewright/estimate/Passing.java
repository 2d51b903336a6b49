package strokewright.estimate;

import java.util.List;
import strokewright.estimate.Estimate.Passage;

/**
 * How a number of items goes over the machines, whichever takes fewer minutes of tool changes and
 * pick-ups: as a batch, each piece picked up at every change, or piece by piece, each through all
 * its tools before the next. Where the first item is proved, it goes right through on its own
 * before the others follow as a batch; piece by piece it does that anyway. Common practice, no
 * source.
 *
 * @param firstRoundMinutes to put in the tools of the first round, elapsed
 * @param furtherRounds rounds after the first
 * @param pickUpMinutes elapsed, before allowance
 */
record Passing(
        Passage passage,
        boolean provingRound,
        int changes,
        double firstRoundMinutes,
        int furtherRounds,
        double furtherRoundMinutes,
        double pickUpMinutes,
        double pickUpPersonMinutes) {

    static Passing cheaper(List<Round> rounds, int quantity, boolean prove) {
        Passing pieces = of(rounds, Passage.PIECE, false, quantity - 1, 0);
        if (quantity == 1) {
            return pieces;
        }
        Passing batch =
                prove
                        ? of(rounds, Passage.BATCH, true, 1, quantity - 1)
                        : of(rounds, Passage.BATCH, false, 0, quantity);
        return batch.minutes() < pieces.minutes() ? batch : pieces;
    }

    private static Passing of(
            List<Round> rounds, Passage passage, boolean prove, int furtherRounds, int pickedUp) {
        return new Passing(
                passage,
                prove,
                rounds.stream()
                        .mapToInt(r -> r.changes() + furtherRounds * r.furtherChanges())
                        .sum(),
                rounds.stream().mapToDouble(Round::mountMinutes).sum(),
                furtherRounds,
                rounds.stream().mapToDouble(Round::furtherMountMinutes).sum(),
                pickedUp * rounds.stream().mapToDouble(Round::pickUpMinutes).sum(),
                pickedUp * rounds.stream().mapToDouble(Round::pickUpPersonMinutes).sum());
    }

    private double minutes() {
        return firstRoundMinutes + furtherRounds * furtherRoundMinutes + pickUpMinutes;
    }
}
