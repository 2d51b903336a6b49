package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.roundFrame;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TakeOffActionsTest {

    @Test
    void addsRowsOfEveryList() {
        TypedTakeOff frame = roundFrame();
        assertThat(done("add /parts/p1/operations", frame).rows("/parts/p1/operations")).hasSize(3);
        assertThat(done("add /assembly", frame).rows("/assembly")).hasSize(1);
        assertThat(done("add /extras", frame).rows("/extras")).hasSize(1);
        TypedTakeOff parts = done("add /parts", frame);
        assertThat(parts.rows("/parts")).hasSize(2);
        assertThat(parts.rows(parts.rows("/parts").get(1) + "/operations")).hasSize(1);
    }

    @Test
    void addsMovesAndRemovesSegmentsOfAnOutline() {
        String list = "/parts/p1/operations/o1/segments";
        TypedTakeOff two = done("add " + list, done("add " + list, roundFrame()));
        assertThat(two.rows(list)).containsExactly(list + "/s1", list + "/s2");
        assertThat(done("up " + list + "/s2", two).rows(list))
                .containsExactly(list + "/s2", list + "/s1");
        assertThat(done("remove " + list + "/s1", two).rows(list)).containsExactly(list + "/s2");
    }

    @Test
    void movesAndRemovesRows() {
        TypedTakeOff frame = roundFrame();
        assertThat(done("down /parts/p1/operations/o1", frame).rows("/parts/p1/operations"))
                .containsExactly("/parts/p1/operations/o2", "/parts/p1/operations/o1");
        assertThat(done("up /parts/p1/operations/o2", frame))
                .isEqualTo(done("down /parts/p1/operations/o1", frame));
        assertThat(done("remove /parts/p1", frame).rows("/parts")).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"kept", "save", "", "add", "add /nowhere", "remove ../x", "up /parts/none"})
    void anythingElseChangesNothing(String action) {
        assertThat(done(action, roundFrame())).isEqualTo(roundFrame());
    }

    private static TypedTakeOff done(String action, TypedTakeOff typed) {
        return TakeOffActions.of(action).apply(typed);
    }
}
