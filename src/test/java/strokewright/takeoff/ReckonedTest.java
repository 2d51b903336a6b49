package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static strokewright.takeoff.SmallShop.BOOK;
import static strokewright.takeoff.SmallShop.DE;
import static strokewright.takeoff.SmallShop.EN;
import static strokewright.takeoff.SmallShop.roundFrame;
import static strokewright.takeoff.SmallShop.typed;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Estimating;
import strokewright.estimate.Operation;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Blank;
import strokewright.quantity.Fault;
import strokewright.web.Numbers;

class ReckonedTest {

    private static final String RIM = "/parts/p1/operations/o1";

    @Test
    void readsARoundFrameFromItsOutsideDiameter() {
        Reckoned frame = Reckoned.of(roundFrame(), BOOK, EN);

        assertThat(frame.faults()).isEmpty();
        TakeOff takeOff = frame.takeOff();
        assertThat(takeOff.quantities()).containsExactly(1, 2, 5);
        assertThat(takeOff.mainQuantity()).isEqualTo(1);
        Operation.CurveEdge rim = (Operation.CurveEdge) takeOff.parts().get(0).operations().get(0);
        assertThat(rim.lengthMm()).isEqualTo(1884.96);
        assertThat(rim.radiusMm()).isEqualTo(300.0);
        assertThat(rim.sense()).isEqualTo(Operation.Sense.SHRINK);
        assertThat(takeOff.parts().get(0).blank()).isEqualTo(new Blank(1945.0, 120.0));
    }

    @Test
    void estimatesExactlyTheTakeOffThatItRead() {
        Reckoned frame = Reckoned.of(roundFrame(), BOOK, EN);
        assertThat(frame.estimate()).isEqualTo(Estimating.estimate(frame.takeOff(), BOOK));
        assertThat(frame.complete()).isTrue();
        assertThat(frame.lines().get(RIM).type()).isEqualTo("curve-edge");
        assertThat(frame.lines().get("/parts/p1/operations/o2").standard()).isEqualTo("Cut");
        assertThat(frame.main().quantity()).isEqualTo(1);
    }

    @Test
    void aDishBringsItsOwnBlank() {
        Reckoned bowl =
                Reckoned.of(
                        typed(
                                "/parts/p1/grade", "soft",
                                "/parts/p1/thicknessMm", "1.5",
                                "/parts/p1/operations/o1/type", "dish",
                                "/parts/p1/operations/o1/diameterMm", "300",
                                "/parts/p1/operations/o1/depthMm", "60",
                                "/parts/p1/operations/o1/trimMm", "5"),
                        BOOK,
                        EN);
        // 323.11 + 5, up to the whole millimetre
        assertThat(bowl.takeOff().parts().get(0).blank()).isEqualTo(new Blank(329.0, 329.0));
        assertThat(bowl.read().workedOut())
                .containsEntry("/parts/p1/blank/lengthMm", "329")
                .containsEntry("/parts/p1/blank/widthMm", "329");
        Reckoned typed =
                Reckoned.of(bowl.typed().with("/parts/p1/blank/lengthMm", "0.4 m"), BOOK, EN);
        assertThat(typed.takeOff().parts().get(0).blank()).isEqualTo(new Blank(400.0, 329.0));
        assertThat(bowl.takeOff().parts().get(0).name()).isEqualTo("Part 1");
    }

    @Test
    void aFaultStandsAtTheFieldThatWasTyped() {
        Reckoned frame =
                Reckoned.of(
                        roundFrame()
                                .with(RIM + "/radiusMm", "1,200")
                                .with("/parts/p1/thicknessMm", "thick")
                                .with("/quantities", "1, two"),
                        BOOK,
                        EN);
        assertThat(frame.estimate()).isNull();
        assertThat(frame.faults())
                .extracting(Fault::pointer)
                .contains(RIM + "/radiusMm", "/parts/p1/thicknessMm", "/quantities")
                .doesNotHaveDuplicates();
        assertThat(at(frame, RIM + "/radiusMm")).contains("1200").contains("1.200");
        assertThat(at(frame, "/quantities")).contains("two");
    }

    @Test
    void theSameTextIsReadInTheLanguageOfTheBrowser() {
        TypedTakeOff german = roundFrame().with("/parts/p1/thicknessMm", "1,250");
        assertThat(thickness(german, DE)).isEqualTo(1.25);
        assertThat(at(Reckoned.of(german, BOOK, EN), "/parts/p1/thicknessMm"))
                .contains("did you mean 1250 or 1.250");
    }

    @Test
    void readsThicknessInInchAndGauge() {
        assertThat(thickness(roundFrame().with("/parts/p1/thicknessMm", "1/16\""), EN))
                .isEqualTo(1.5875);
        assertThat(thickness(roundFrame().with("/parts/p1/thicknessMm", "16 ga galvanised"), EN))
                .isCloseTo(1.613, org.assertj.core.api.Assertions.within(0.001));
    }

    @Test
    void aRowThatIsNotCompleteIsLeftOutAndTheRestIsEstimated() {
        TypedTakeOff typing =
                roundFrame()
                        .with("/parts/p1/operations/o3/type", "smooth")
                        .with("/parts/p1/operations/o3/timesOver", "2");
        Reckoned frame = Reckoned.of(typing, BOOK, EN);
        assertThat(frame.complete()).isFalse();
        assertThat(frame.leftOut()).containsExactly("/parts/p1/operations/o3");
        assertThat(frame.faults())
                .extracting(Fault::pointer)
                .containsExactly("/parts/p1/operations/o3/areaMm2");
        assertThat(frame.estimate()).isEqualTo(Reckoned.of(roundFrame(), BOOK, EN).estimate());
    }

    @Test
    void aRowThatWasJustAddedIsNotThereYet() {
        Reckoned frame =
                Reckoned.of(
                        roundFrame()
                                .with("/parts/p1/operations/o3/type", "curve-edge")
                                .with("/parts/p1/operations/o3/sense", "shrink")
                                .with("/parts/p1/operations/o3/radiusMm", "  ")
                                .with("/parts/p2/grade", "soft"),
                        BOOK,
                        EN);
        assertThat(frame.complete()).isTrue();
        assertThat(frame.takeOff().parts()).hasSize(1);
    }

    @Test
    void aFindingIsToldAtItsRow() {
        Reckoned frame = Reckoned.of(roundFrame().with("/parts/p1/thicknessMm", "20"), BOOK, EN);
        assertThat(frame.findingsAt(RIM))
                .extracting(f -> f.code(), f -> f.pointer())
                .contains(tuple("over-capacity", "/parts/0/operations/0"));
        assertThat(frame.findingsAt("/parts/p1")).isEmpty();
        assertThat(frame.estimate().feasible()).isFalse();
        assertThat(frame.complete()).as("can be saved, not issued").isTrue();
    }

    @Test
    void ownMinutesNeedAReason() {
        Reckoned frame = Reckoned.of(roundFrame().with(RIM + "/overrideMinutes", "30"), BOOK, EN);
        assertThat(frame.faults())
                .extracting(Fault::pointer)
                .containsExactly(RIM + "/overrideReason");
        // until then the computed ones count, and it cannot be saved
        assertThat(frame.complete()).isFalse();
        assertThat(frame.leftOut()).containsExactly(RIM + "/override");
        assertThat(frame.estimate()).isEqualTo(Reckoned.of(roundFrame(), BOOK, EN).estimate());
    }

    @Test
    void ownMinutesGoIntoThePriceAndTheComputedOnesStayBeside() {
        TypedTakeOff own =
                roundFrame()
                        .with(RIM + "/overrideMinutes", "90")
                        .with(RIM + "/overrideReason", "Like the last one");
        Reckoned computed = Reckoned.of(roundFrame(), BOOK, EN);
        Reckoned frame = Reckoned.of(own, BOOK, EN);
        assertThat(frame.complete()).isTrue();
        assertThat(frame.lines().get(RIM).override().minutes()).isEqualTo(90);
        assertThat(frame.lines().get(RIM).machineMinutes())
                .isEqualTo(computed.lines().get(RIM).machineMinutes());
        assertThat(frame.main().hours().plan()).isGreaterThan(computed.main().hours().plan());
        assertThat(
                        Reckoned.of(TakeOffActions.of("computed " + RIM).apply(own), BOOK, EN)
                                .estimate())
                .isEqualTo(computed.estimate());
    }

    @Test
    void anExtraIsMoneyOfTheShop() {
        Reckoned frame =
                Reckoned.of(
                        roundFrame()
                                .with("/extras/e1/name", "Powder coat")
                                .with("/extras/e1/cost", "85,50"),
                        BOOK,
                        EN);
        assertThat(frame.takeOff().extras().get(0).cost()).hasToString("85.50 EUR");
        Reckoned without = Reckoned.of(roundFrame().with("/extras/e1/name", "Crate"), BOOK, EN);
        assertThat(without.faults())
                .extracting(Fault::pointer)
                .isEqualTo(List.of("/extras/e1/cost"));
        assertThat(without.leftOut()).isEqualTo(Set.of("/extras/e1"));
    }

    private static Double thickness(TypedTakeOff typed, Numbers numbers) {
        return Reckoned.of(typed, BOOK, numbers).takeOff().parts().get(0).thicknessMm();
    }

    private static String at(Reckoned reckoned, String path) {
        return reckoned.faults().stream()
                .filter(f -> f.pointer().equals(path))
                .map(Fault::message)
                .reduce("", String::concat);
    }
}
