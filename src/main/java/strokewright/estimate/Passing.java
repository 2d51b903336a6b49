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
 * @param firstRoundChanges tools put in during the first round
 * @param firstRoundMinutes to put in the tools of the first round, elapsed
 * @param furtherRounds rounds after the first
 * @param pickedUp items that are picked up at every change
 * @param pickUpMinutes elapsed, before allowance
 */
record Passing(
        Passage passage,
        boolean provingRound,
        int firstRoundChanges,
        double firstRoundMinutes,
        int furtherRounds,
        int furtherRoundChanges,
        double furtherRoundMinutes,
        int pickedUp,
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
                rounds.stream().mapToInt(Round::changes).sum(),
                rounds.stream().mapToDouble(Round::mountMinutes).sum(),
                furtherRounds,
                rounds.stream().mapToInt(Round::furtherChanges).sum(),
                rounds.stream().mapToDouble(Round::furtherMountMinutes).sum(),
                pickedUp,
                pickedUp * rounds.stream().mapToDouble(Round::pickUpMinutes).sum(),
                pickedUp * rounds.stream().mapToDouble(Round::pickUpPersonMinutes).sum());
    }

    int changes() {
        return firstRoundChanges + furtherRounds * furtherRoundChanges;
    }

    private double minutes() {
        return firstRoundMinutes + furtherRounds * furtherRoundMinutes + pickUpMinutes;
    }
}
