package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.BOOK;
import static strokewright.takeoff.SmallShop.EN;
import static strokewright.takeoff.SmallShop.roundFrame;

import org.junit.jupiter.api.Test;
import strokewright.estimate.Operation;

class PicturesTest {

    private final Pictures pictures = new Pictures(EN);
    private final Reckoned frame = Reckoned.of(roundFrame(), BOOK, EN);

    @Test
    void aRingIsDrawnWithItsOutsideDiameterWhicheverWayTheFlangePoints() {
        assertThat(shape(frame)).contains("Full ring, outside Ø 600 mm").contains("Ø 600");
        Reckoned outside =
                Reckoned.of(
                        roundFrame()
                                .with("/parts/p1/operations/o1/sense", "stretch")
                                .with("/parts/p1/operations/o1/radiusMm", "260")
                                .with("/parts/p1/operations/o1/lengthMm", "1633.63"),
                        BOOK,
                        EN);
        assertThat(shape(outside)).contains("Full ring, outside Ø 600 mm", "stretched");
    }

    @Test
    void anArcSaysItsAngle() {
        Reckoned arc =
                Reckoned.of(
                        roundFrame().with("/parts/p1/operations/o1/lengthMm", "471.24"), BOOK, EN);
        assertThat(shape(arc)).contains("Arc of 90°");
    }

    @Test
    void workWithoutAShapeHasNoPicture() {
        assertThat(pictures.shape(new Operation.Standard("Cut", 4.0), "x")).isNull();
    }

    private String shape(Reckoned reckoned) {
        return pictures.shape(reckoned.takeOff().parts().get(0).operations().get(0), "x");
    }
}
