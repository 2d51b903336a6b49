package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.typed;

import java.util.Set;
import org.junit.jupiter.api.Test;

class TypedTakeOffTest {

    private final TypedTakeOff three =
            typed(
                    "/title", "T",
                    "/parts/p1/name", "A",
                    "/parts/p1/operations/o1/type", "smooth",
                    "/parts/p7/name", "B",
                    "/parts/p3/name", "C",
                    "/extras/e1/name", "X");

    @Test
    void rowsStandInTheOrderOfThePage() {
        assertThat(three.rows("/parts")).containsExactly("/parts/p1", "/parts/p7", "/parts/p3");
        assertThat(three.rows("/parts/p1/operations")).containsExactly("/parts/p1/operations/o1");
        assertThat(three.rows("/assembly")).isEmpty();
    }

    @Test
    void aRowMovesWithAllThatIsInIt() {
        TypedTakeOff moved = three.moved("/parts/p1", 1);
        assertThat(moved.rows("/parts")).containsExactly("/parts/p7", "/parts/p1", "/parts/p3");
        assertThat(moved.at("/parts/p1/operations/o1/type")).isEqualTo("smooth");
        assertThat(moved.moved("/parts/p1", -1)).isEqualTo(three);
    }

    @Test
    void theFirstRowCannotMoveUpNorTheLastDown() {
        assertThat(three.moved("/parts/p1", -1)).isEqualTo(three);
        assertThat(three.moved("/parts/p3", 1)).isEqualTo(three);
        assertThat(three.moved("/parts/p99", 1)).isEqualTo(three);
    }

    @Test
    void aRemovedRowTakesItsLinesWithIt() {
        TypedTakeOff left = three.withoutRow("/parts/p1");
        assertThat(left.rows("/parts")).containsExactly("/parts/p7", "/parts/p3");
        assertThat(left.at("/parts/p1/operations/o1/type")).isEmpty();
    }

    @Test
    void removingARowSparesTheOneWhoseKeyBeginsAlike() {
        TypedTakeOff both = typed("/parts/p1/name", "A", "/parts/p10/name", "B");
        assertThat(both.withoutRow("/parts/p1").rows("/parts")).containsExactly("/parts/p10");
    }

    @Test
    void aNewRowGetsAKeyThatNoneHas() {
        assertThat(three.withRow("/parts", 'p', "name", "D").rows("/parts"))
                .containsExactly("/parts/p1", "/parts/p7", "/parts/p3", "/parts/p8");
    }

    @Test
    void aRowThatOnlyHasItsFirstChoicesSaysNothing() {
        assertThat(three.says("/parts/p1/operations/o1", Set.of("type"))).isFalse();
        assertThat(three.says("/parts/p1/operations/o1", Set.of())).isTrue();
    }

    @Test
    void comesBackFromStorageAsItWasTyped() {
        TypedTakeOff odd = typed("/title", "  „Ring“ <b> & 1,234 ", "/parts/p2/name", "");
        assertThat(TypedTakeOff.ofStored(odd.stored())).isEqualTo(odd);
        assertThat(odd.at("/title")).isEqualTo("  „Ring“ <b> & 1,234 ");
    }

    @Test
    void leavesOutWhatIsNoFieldOfATakeOff() {
        TypedTakeOff typed =
                typed("_csrf", "secret", "do", "save", "/title", "T", "/parts/../x", "no");
        assertThat(typed.stored()).hasSize(1);
    }

    @Test
    void takesOutWhatTheDatabaseCannotHold() {
        assertThat(typed("/title", "a\0b").at("/title")).isEqualTo("ab");
        assertThat(typed("/title", "x".repeat(5000)).at("/title")).hasSize(2000);
    }
}
