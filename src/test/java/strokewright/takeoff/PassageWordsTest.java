package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimating;
import strokewright.estimate.TakeOff;

class PassageWordsTest {

    @Test
    void saysForEachQuantityHowItGoesOverTheMachines() {
        assertThat(words(null, 1, 2, 25))
                .containsExactly(
                        "6 tool changes",
                        "Piece by piece, 12 tool changes",
                        "As a batch, 12 tool changes, first one proved right through");
    }

    @Test
    void aBatchIsNotProvedWhenTheEstimatorSaysSo() {
        assertThat(words(false, 25)).containsExactly("As a batch, 6 tool changes");
    }

    @Test
    void whereNothingIsFormedNothingIsSaid() {
        TakeOff cut =
                Situations.JSON.readValue(
                        """
                        {"title":"Cut","quantities":[3],"parts":[{"name":"P","grade":"DC04","thicknessMm":1,
                         "blank":{"lengthMm":100,"widthMm":50},
                         "operations":[{"type":"standard","standard":"Guillotine cut","amount":4}]}]}
                        """,
                        TakeOff.class);
        assertThat(words(cut)).containsExactly("");
    }

    private static List<String> words(Boolean proveFirst, int... quantities) {
        TakeOff t = Guard.TAKE_OFF;
        List<Integer> asked = new ArrayList<>();
        for (int quantity : quantities) {
            asked.add(quantity);
        }
        return words(
                new TakeOff(
                        t.title(),
                        t.information(),
                        asked,
                        null,
                        t.alreadyMade(),
                        t.parts(),
                        t.assembly(),
                        t.extras(),
                        proveFirst,
                        List.of(),
                        List.of(),
                        null));
    }

    private static List<String> words(TakeOff takeOff) {
        List<ForQuantity> quantities = Estimating.estimate(takeOff, Guard.BOOK).quantities();
        return quantities.stream().map(Words::passage).toList();
    }
}
