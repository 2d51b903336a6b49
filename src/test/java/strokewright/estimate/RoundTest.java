package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.TakeOff.Blank;

class RoundTest {

    private final ShopBook book = WorkedShop.book();
    private final Tool soft = book.tool("soft").orElseThrow();
    private final Tool steel = book.tool("steel").orElseThrow();

    @Test
    void heavyPieceIsPickedUpByTwoAtEveryToolThatIsPutIn() {
        // 20 kg: 60 s, two people
        Planned heavy = part(20);
        Round.Growing round = new Round.Growing(book);
        round.visit(heavy, soft, true);
        round.visit(heavy, soft, false); // still in hand
        round.visit(heavy, steel, true);

        assertThat(round.grown().changes()).isEqualTo(2);
        assertThat(round.grown().pickUpMinutes()).isCloseTo(2, within(1e-12));
        assertThat(round.grown().pickUpPersonMinutes()).isCloseTo(4, within(1e-12));
    }

    @Test
    void partsAlikeArePickedUpEachForItself() {
        Round.Growing round = new Round.Growing(book);
        round.visit(part(20), soft, true);
        round.visit(part(20), soft, false);

        assertThat(round.grown().pickUpMinutes()).isCloseTo(2, within(1e-12));
    }

    private Planned part(double kg) {
        return Planned.of(
                book,
                WorkedShop.part(
                        "al",
                        2,
                        kg,
                        new Blank(1950.0, 120.0),
                        null,
                        WorkedShop.curve(Sense.SHRINK, 900, 300, 40, null)),
                "/parts/0");
    }
}
