package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Estimate.Passage;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.estimate.ShopBook.ToolSurface;

class PassingTest {

    private static final Tool A = tool("a", 3);
    private static final Tool B = tool("b", 5);

    @Test
    void onePieceGoesThroughOnce() {
        Passing one = Passing.cheaper(List.of(round(0.1, A, B)), 1, true);

        assertThat(one.passage()).isEqualTo(Passage.PIECE);
        assertThat(one.provingRound()).isFalse();
        assertThat(one.changes()).isEqualTo(2);
        assertThat(one.pickUpMinutes()).isZero();
    }

    @Test
    void batchChangesEachToolOnceAndPicksUpEveryPieceAtEach() {
        Passing batch = Passing.cheaper(List.of(round(0.2, A, B)), 10, false);

        assertThat(batch.passage()).isEqualTo(Passage.BATCH);
        assertThat(batch.changes()).isEqualTo(2);
        assertThat(batch.pickUpMinutes()).isCloseTo(10 * 0.2, within(1e-12));
    }

    @Test
    void provingTakesARoundBeforeTheBatch() {
        Passing batch = Passing.cheaper(List.of(round(0.2, A, B)), 10, true);

        assertThat(batch.passage()).isEqualTo(Passage.BATCH);
        assertThat(batch.provingRound()).isTrue();
        assertThat(batch.changes()).isEqualTo(4);
        assertThat(batch.pickUpMinutes()).isCloseTo(9 * 0.2, within(1e-12));
    }

    @Test
    void toolOfTheLastStepStaysForTheNextPiece() {
        // a, b, a: m = 3, and every further piece takes 2
        Passing pieces = Passing.cheaper(List.of(round(100, A, B, A)), 4, false);

        assertThat(pieces.passage()).isEqualTo(Passage.PIECE);
        assertThat(pieces.changes()).isEqualTo(3 + 3 * 2);
        assertThat(pieces.firstRoundMinutes()).isEqualTo(11);
        assertThat(pieces.furtherRoundMinutes()).isEqualTo(8);
    }

    @Test
    void oneToolNeverHasToBeChangedAgain() {
        Passing pieces = Passing.cheaper(List.of(round(0.1, A)), 50, true);

        assertThat(pieces.passage()).isEqualTo(Passage.PIECE);
        assertThat(pieces.changes()).isEqualTo(1);
    }

    @ParameterizedTest(name = "{0} pieces, {1} min a pick-up")
    @CsvSource({"2, 0.1", "2, 4.1", "3, 3.9", "3, 8.1", "7, 1", "500, 8", "500, 7.9"})
    void cheaperOfBothIsTaken(int quantity, double pickUp) {
        double batch = 8 + quantity * pickUp;
        double pieces = quantity * 8.0;
        Passing passing = Passing.cheaper(List.of(round(pickUp, A, B)), quantity, false);

        assertThat(passing.passage()).isEqualTo(batch < pieces ? Passage.BATCH : Passage.PIECE);
        assertThat(
                        passing.firstRoundMinutes()
                                + passing.furtherRounds() * passing.furtherRoundMinutes()
                                + passing.pickUpMinutes())
                .isCloseTo(Math.min(batch, pieces), within(1e-9));
    }

    private static Round round(double pickUpMinutes, Tool... mounts) {
        return new Round(List.of(mounts), pickUpMinutes, pickUpMinutes);
    }

    private static Tool tool(String name, double mountMinutes) {
        return new Tool(
                name,
                ToolKind.EDGE,
                ToolSurface.SOFT_FACED,
                0.01,
                40.0,
                null,
                5.0,
                300.0,
                mountMinutes,
                0.0,
                null,
                null);
    }
}
