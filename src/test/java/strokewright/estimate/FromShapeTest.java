package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.Smooth;
import strokewright.estimate.Operation.Standard;
import strokewright.estimate.Operation.TakeOutDents;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;

/** From the numbers on a drawing to a take-off, seen with the book of a new shop. */
class FromShapeTest {

    private static final ShopBook BOOK = starter();
    private static final Offset<Double> EXACT = within(1e-9);

    // Each shape ------------------------------------------------------------------------------

    @Test
    void aRingIsOneStripOfItsHeelLengthCurvedAndJoined() {
        Part ring =
                part(
                        "{'type':'ring',%s,'outsideDiameterMm':600,'flangeHeightMm':40,'returnMm':80}");
        CurveEdge edge = forming(ring, CurveEdge.class);
        assertThat(edge.lengthMm()).isEqualTo(Math.PI * 600, EXACT);
        assertThat(edge.radiusMm()).isEqualTo(300);
        assertThat(edge.heightMm()).isEqualTo(40);
        assertThat(edge.sense()).isEqualTo(Sense.SHRINK);
        // 1884.96 + 2 × 30, and 40 + 80
        assertThat(ring.blank()).isEqualTo(new TakeOff.Blank(1945.0, 120.0));
        assertThat(ring.name()).isEqualTo("Ring");
        // the rules do not see the return leg, nor the run-out of what closes
        assertThat(standards(ring.operations()))
                .containsExactly(tuple("Fold", 1.0), tuple("Trim run-out", 2.0));
        assertThat(proposed(ring))
                .containsExactly(
                        tuple("Order preparation", 1.0),
                        tuple("Make template", 1.0),
                        tuple("Marking out", 1.0),
                        tuple("Guillotine cut", 4.0),
                        tuple("Deburr", 4.13),
                        tuple("True up", 1.0),
                        tuple("Fit joint", 1.0),
                        tuple("TIG weld", 0.12),
                        tuple("Dress weld", 0.12),
                        tuple("Planish weld", 0.12),
                        tuple("Final check, size", 3.0),
                        tuple("Final check, contour", 7.0),
                        tuple("Packing", 1.0));
    }

    @Test
    void aRingWithItsFlangeOutsideHasItsHeelFurtherInAndItsEdgeDressed() {
        Part ring =
                part(
                        "{'type':'ring',%s,'outsideDiameterMm':600,'flange':'outside','flangeHeightMm':40,'returnMm':0,'runOutMm':0}");
        CurveEdge edge = forming(ring, CurveEdge.class);
        assertThat(edge.sense()).isEqualTo(Sense.STRETCH);
        assertThat(edge.radiusMm()).isEqualTo(260);
        assertThat(edge.lengthMm()).isEqualTo(2 * Math.PI * 260, EXACT);
        // stretched by ln(300/260) = 0.143, so dressed; neither folded nor run out
        assertThat(proposed(ring)).contains(tuple("Dress edge", 1.634));
        assertThat(standards(ring.operations())).isEmpty();
        assertThat(ring.leftOut()).containsExactly("trim-run-out");
    }

    @Test
    void anArcStaysOpenUntilItGoesRoundWhole() {
        String arc =
                "{'type':'arc',%%s,'outsideDiameterMm':600,'sweepDeg':%s,'flangeHeightMm':25,'returnMm':25}";
        Part quarter = part(arc.formatted(90));
        assertThat(forming(quarter, CurveEdge.class).lengthMm()).isEqualTo(Math.PI * 150, EXACT);
        // published 2.07: the edge loses h θ, here 39.270 mm
        assertThat(forming(quarter, CurveEdge.class).lengthMm() - Math.PI / 2 * 275)
                .isEqualTo(39.270, within(0.0005));
        assertThat(proposed(quarter))
                .doesNotContain(tuple("Fit joint", 1.0))
                .contains(tuple("Trim run-out", 2.0));
        assertThat(proposed(part(arc.formatted(360)))).contains(tuple("Fit joint", 1.0));
        assertThat(part(arc.formatted(360)).blank())
                .isEqualTo(
                        part("{'type':'ring',%s,'outsideDiameterMm':600,'flangeHeightMm':25,'returnMm':25}")
                                .blank());
    }

    @Test
    void aUFrameWithCornersTypesItsTwoBendsOnce() {
        Part frame =
                part(
                        "{'type':'u-frame',%s,'outsideWidthMm':400,'outsideHeightMm':500,'cornerRadiusMm':120,'flangeHeightMm':30,'returnMm':40}");
        CurveEdge bend = forming(frame, CurveEdge.class);
        assertThat(bend.count()).isEqualTo(2);
        assertThat(bend.radiusMm()).isEqualTo(120);
        assertThat(bend.lengthMm()).isEqualTo(188.49555921538758, EXACT);
        // legs 380 each, run 160, two quarters 188.496: 1296.99; the legs give hold enough
        assertThat(frame.blank()).isEqualTo(new TakeOff.Blank(1297.0, 70.0));
        assertThat(proposed(frame)).doesNotContain(tuple("Trim run-out", 2.0));
    }

    @Test
    void aUFrameWithoutACornerRadiusHasAHalfCircle() {
        Part frame =
                part(
                        "{'type':'u-frame',%s,'outsideWidthMm':400,'outsideHeightMm':210,'flange':'outside','flangeHeightMm':30,'returnMm':40}");
        CurveEdge bend = forming(frame, CurveEdge.class);
        assertThat(bend.count()).isEqualTo(1);
        assertThat(bend.radiusMm()).isEqualTo(170);
        assertThat(bend.lengthMm()).isEqualTo(Math.PI * 170, EXACT);
        // legs of 10 lack 20 at each end: 20 + 534.07 + 40
        assertThat(frame.blank().lengthMm()).isEqualTo(595);
        assertThat(proposed(frame)).contains(tuple("Trim run-out", 2.0));
    }

    @Test
    void aFlangedDiscIsCutAsLargeAsItsFlangeLaidFlat() {
        Part disc =
                part("{'type':'flanged-disc',%s,'diameterMm':400,'flangeHeightMm':15,'trimMm':0}");
        TurnFlange flange = forming(disc, TurnFlange.class);
        assertThat(flange.radiusMm()).isEqualTo(200);
        assertThat(flange.sense()).isEqualTo(Sense.SHRINK);
        assertThat(flange.sweepDeg()).isEqualTo(360);
        assertThat(disc.blank()).isEqualTo(new TakeOff.Blank(430.0, 430.0));
        // published 2.05: true shrink 0.07232 for R 200, h 15
        assertThat(formed(estimated(disc)).strains().get(0)).isEqualTo(0.07232, within(1e-5));
        assertThat(standards(disc.operations())).containsExactly(tuple("Circle cut", 1.351));
        assertThat(proposed(disc)).contains(tuple("Deburr", 1.351), tuple("True up", 1.0));
    }

    @Test
    void theDiscsOtherBlankIsTheOneOfEqualArea() {
        Finding blank =
                note(
                        "{'type':'flanged-disc',%s,'diameterMm':80,'flangeHeightMm':39}",
                        "blank-of-flanged-disc");
        assertThat((Double) blank.values().get("equalAreaMm"))
                .isEqualTo(Math.sqrt(80 * 80 + 4 * 80 * 39), EXACT);
        // published 2.20: √(d² + 4 d h) of d 80, h 60
        assertThat(strokewright.forming.FlatDisc.equalAreaOfFlangedDiscMm(80, 60))
                .isEqualTo(160.000, within(1e-9));
        // published 2.26: cap of h 60 with a collar to 360
        assertThat(strokewright.forming.FlatDisc.equalAreaOfCollaredBowlMm(300, 60, 30))
                .isEqualTo(379.4733, within(5e-5));
    }

    @Test
    void aBowlIsCutFromTheDiscOfEqualArea() {
        Part bowl =
                part(
                        "{'type':'bowl',%s,'diameterMm':300,'depthMm':60,'trimMm':0,'smoothTimesOver':2}");
        // published 2.25: 323.1099, and 2.31: area 81995.57
        assertThat(bowl.blank()).isEqualTo(new TakeOff.Blank(324.0, 324.0));
        assertThat(forming(bowl, Dish.class).rimShare()).isNull();
        assertThat(forming(bowl, Smooth.class).areaMm2()).isEqualTo(81995.57, within(0.005));
        assertThat(formed(estimated(bowl)).blankDiameterMm()).isEqualTo(323.109888, within(1e-6));
        assertThat(proposed(bowl))
                .doesNotContain(tuple("Trim rim", 0.942))
                .contains(tuple("Circle cut", 1.015));
        assertThat(proposed(part("{'type':'bowl',%s,'diameterMm':300,'depthMm':60}")))
                .contains(tuple("Trim rim", 0.942));
    }

    @Test
    void aBowlWithAFlatRimIsStretchedOutOfTheMiddleOfItsCollar() {
        Part bowl =
                part("{'type':'bowl-with-rim',%s,'diameterMm':300,'depthMm':60,'rimWidthMm':30}");
        assertThat(bowl.blank()).isEqualTo(new TakeOff.Blank(365.0, 365.0));
        Dish dish = forming(bowl, Dish.class);
        assertThat(dish.rimShare()).isZero();
        Estimate.Line line = formed(estimated(bowl));
        assertThat(line.blankDiameterMm()).isEqualTo(365);
        // published 2.33: areal strain of pure stretch 0.148420
        assertThat(line.crown().strain()).isEqualTo(0.148420, within(5e-7));
        assertThat(bowl.operations()).noneMatch(o -> o instanceof TurnFlange);
    }

    @Test
    void aTurnedRimIsThatCollarTurnedAtTheMouth() {
        Part bowl =
                part(
                        "{'type':'bowl-with-rim',%s,'diameterMm':300,'depthMm':60,'rim':'turned','rimWidthMm':12,'rimAngleDeg':60}");
        TurnFlange rim = forming(bowl, TurnFlange.class);
        assertThat(rim.radiusMm()).isEqualTo(150);
        assertThat(rim.heightMm()).isEqualTo(12);
        assertThat(rim.angleDeg()).isEqualTo(60);
        assertThat(bowl.operations().indexOf(rim))
                .isGreaterThan(bowl.operations().indexOf(forming(bowl, Dish.class)));
        assertThat(bowl.blank().lengthMm()).isEqualTo(329);
    }

    @ParameterizedTest
    @CsvSource({"800,400,400,180", "800,200,500,106.260205", "600,540,353.333333,243.781584"})
    void anArchIsKnownByItsOpening(double width, double rise, double radius, double sweep) {
        Part arch =
                part(
                        "{'type':'arch-edge',%%s,'openingWidthMm':%s,'riseMm':%s,'flangeHeightMm':12,'faceMm':80}"
                                .formatted(width, rise));
        TurnFlange flange = forming(arch, TurnFlange.class);
        assertThat(flange.radiusMm()).isEqualTo(radius, within(1e-6));
        assertThat(flange.sweepDeg()).isEqualTo(sweep, within(1e-6));
        assertThat(flange.sense()).isEqualTo(Sense.STRETCH);
    }

    @Test
    void anArchByRadiusAndSweepIsTheSameArch() {
        assertThat(
                        part(
                                "{'type':'arch-edge',%s,'radiusMm':400,'sweepDeg':180,'flangeHeightMm':12,'faceMm':80}"))
                .isEqualTo(
                        part(
                                "{'type':'arch-edge',%s,'openingWidthMm':800,'riseMm':400,'flangeHeightMm':12,'faceMm':80}"));
    }

    /** Against points along the outline of the band. */
    @ParameterizedTest
    @CsvSource({
        "60,stretch",
        "60,shrink",
        "180,stretch",
        "180,shrink",
        "250,stretch",
        "360,shrink"
    })
    void theBlankOfAnArchIsTheLeastRectangleRoundItsBand(double sweep, String sense) {
        Part arch =
                part(
                        "{'type':'arch-edge',%%s,'radiusMm':400,'sweepDeg':%s,'sense':'%s','flangeHeightMm':20,'faceMm':90}"
                                .formatted(sweep, sense));
        double inner = sense.equals("stretch") ? 380 : 310;
        double outer = sense.equals("stretch") ? 490 : 420;
        double left = 0;
        double low = outer;
        for (int i = 0; i <= 100_000; i++) {
            double at = Math.toRadians(sweep) * (i / 100_000.0 - 0.5);
            left = Math.max(left, outer * Math.sin(at));
            low = Math.min(low, Math.min(inner * Math.cos(at), outer * Math.cos(at)));
        }
        assertThat(arch.blank().lengthMm()).isEqualTo(Math.ceil(2 * left - 1e-4));
        assertThat(arch.blank().widthMm()).isEqualTo(Math.ceil(outer - low - 1e-4));
    }

    @Test
    void aCurvedRibTypesItsTwoFlangesOnce() {
        Part rib =
                part(
                        "{'type':'curved-rib',%s,'heelRadiusMm':900,'lengthMm':700,'flangeHeightMm':25,'webMm':60}");
        CurveEdge edge = forming(rib, CurveEdge.class);
        assertThat(edge.count()).isEqualTo(2);
        assertThat(edge.lengthMm()).isEqualTo(700);
        assertThat(rib.blank()).isEqualTo(new TakeOff.Blank(760.0, 110.0));
        assertThat(standards(rib.operations())).contains(tuple("Fold", 2.0));
        Part bySweep =
                part(
                        "{'type':'curved-rib',%s,'heelRadiusMm':900,'sweepDeg':60,'flange':'outside','flangeHeightMm':25,'webMm':60}");
        assertThat(forming(bySweep, CurveEdge.class).lengthMm()).isEqualTo(Math.PI * 300, EXACT);
        assertThat(forming(bySweep, CurveEdge.class).sense()).isEqualTo(Sense.STRETCH);
    }

    @Test
    void aRibTakesTwiceTheWorkOfOneFlange() {
        Part rib =
                part(
                        "{'type':'curved-rib',%s,'heelRadiusMm':900,'lengthMm':700,'flangeHeightMm':25,'webMm':60}");
        Estimate.Line both = formed(estimated(rib));
        Estimate.Line one =
                formed(
                        estimated(
                                new Part(
                                        "Rib",
                                        1,
                                        rib.grade(),
                                        rib.thicknessMm(),
                                        null,
                                        rib.blank(),
                                        null,
                                        null,
                                        null,
                                        null,
                                        null,
                                        null,
                                        List.of(
                                                new CurveEdge(
                                                        Sense.SHRINK,
                                                        700.0,
                                                        900.0,
                                                        null,
                                                        25.0,
                                                        1,
                                                        null,
                                                        null,
                                                        null)),
                                        null,
                                        null,
                                        null,
                                        List.of(),
                                        null)));
        assertThat(both.machineMinutes()).isEqualTo(2 * one.machineMinutes(), within(1e-9));
    }

    @Test
    void aPanelWithDentsIsThereAlready() {
        Part panel = part("{'type':'panel-with-dents',%s,'lengthMm':900,'widthMm':500,'spots':6}");
        assertThat(panel.supply()).isEqualTo(TakeOff.Supply.CUSTOMER);
        assertThat(forming(panel, TakeOutDents.class).strokesPerSpot()).isEqualTo(60);
        // six squares of 150 mm
        assertThat(forming(panel, Smooth.class).areaMm2()).isEqualTo(135_000);
        assertThat(standards(panel.operations())).isEmpty();
        assertThat(
                        forming(
                                        part(
                                                "{'type':'panel-with-dents',%s,'lengthMm':300,'widthMm':200,'spots':6}"),
                                        Smooth.class)
                                .areaMm2())
                .isEqualTo(60_000);
        assertThat(
                        part("{'type':'panel-with-dents',%s,'lengthMm':900,'widthMm':500,'spots':6,'smoothTimesOver':0}")
                                .operations())
                .hasSize(1);
    }

    // All shapes ------------------------------------------------------------------------------

    @ParameterizedTest
    @MethodSource("oneOfEach")
    void aNewShopCanPriceIt(String json) {
        FromShape taken = taken(json);
        Estimate estimate = Estimating.estimate(takeOff(taken), BOOK);
        assertThat(estimate.feasible()).isTrue();
        assertThat(estimate.quantities().get(0).hours().plan()).isPositive();
        assertThat(taken.notes()).extracting(Finding::code).doesNotContain("rule-not-found");
    }

    @ParameterizedTest
    @MethodSource("oneOfEach")
    void itsJsonReadsBackAsTheSame(String json) {
        Shape shape = shape(json);
        String written = EditedBook.JSON.writeValueAsString(shape);
        assertThat(written).contains("\"type\":\"" + shape.kind() + "\"");
        assertThat(EditedBook.JSON.readValue(written, Shape.class)).isEqualTo(shape);
    }

    @ParameterizedTest
    @MethodSource("oneOfEach")
    void aBookWithoutRulesLosesLinesButSaysWhich(String json) {
        ShopBook bare = EditedBook.of(BOOK).with("/proposals", List.of()).book();
        FromShape taken = FromShape.of(shape(json), bare);
        FromShape full = taken(json);
        int lines =
                full.parts().get(0).operations().size() - taken.parts().get(0).operations().size();
        assertThat(taken.notes().stream().filter(n -> n.code().equals("rule-not-found")))
                .hasSize(lines);
        assertThat(standards(taken.parts().get(0).operations())).isEmpty();
        assertThat(TakeOffCheck.faults(takeOff(taken), bare)).isEmpty();
    }

    @Test
    void takesTheStandardsOfTheRulesWhateverTheyAreCalled() {
        ShopBook other =
                EditedBook.JSON.readValue(
                        EditedBook.JSON
                                .writeValueAsString(EditedBook.JSON.valueToTree(BOOK))
                                .replace("\"Fold\"", "\"Abkanten\""),
                        ShopBook.class);
        Part ring =
                FromShape.of(
                                shape(
                                        "{'type':'ring',%s,'outsideDiameterMm':600,'flangeHeightMm':40,'returnMm':80}"),
                                other)
                        .parts()
                        .get(0);

        assertThat(standards(ring.operations())).contains(tuple("Abkanten", 1.0));
    }

    /** Whatever passes the check becomes a take-off that passes its own, and can be reckoned. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void whatIsAcceptedCanBeReckoned(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int accepted = 0;
        for (int i = 0; i < 400; i++) {
            Shape shape = shape(RandomShapes.next(random));
            if (ShapeCheck.faults(shape, BOOK).isEmpty()) {
                accepted++;
                TakeOff takeOff = takeOff(FromShape.of(shape, BOOK));
                assertThat(TakeOffCheck.faults(takeOff, BOOK)).as("%s", shape).isEmpty();
                assertThat(Estimating.estimate(takeOff, BOOK).operations()).isNotEmpty();
            }
        }
        assertThat(accepted).isBetween(40, 390);
    }

    // Bad numbers -----------------------------------------------------------------------------

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{'type':'ring',%s,'outsideDiameterMm':600,'flangeHeightMm':300,'returnMm':80} | /flangeHeightMm",
                "{'type':'ring',%s,'outsideDiameterMm':-1,'flangeHeightMm':0,'returnMm':-1,'runOutMm':1001} | /outsideDiameterMm /flangeHeightMm /returnMm /runOutMm",
                "{'type':'ring',%s,'outsideDiameterMm':32000,'flangeHeightMm':40,'returnMm':80} | /outsideDiameterMm",
                "{'type':'ring'} | /grade /thicknessMm /outsideDiameterMm /flangeHeightMm /returnMm",
                "{'type':'arc',%s,'outsideDiameterMm':600,'sweepDeg':361,'flangeHeightMm':40,'returnMm':80} | /sweepDeg",
                "{'type':'arc',%s,'outsideDiameterMm':600,'sweepDeg':0,'flangeHeightMm':300,'returnMm':80} | /sweepDeg /flangeHeightMm",
                "{'type':'u-frame',%s,'outsideWidthMm':400,'outsideHeightMm':199,'flangeHeightMm':30,'returnMm':40} | /outsideHeightMm",
                "{'type':'u-frame',%s,'outsideWidthMm':400,'outsideHeightMm':500,'cornerRadiusMm':201,'flangeHeightMm':201,'returnMm':40} | /cornerRadiusMm /flangeHeightMm",
                "{'type':'u-frame',%s,'outsideWidthMm':400,'outsideHeightMm':100,'cornerRadiusMm':120,'flangeHeightMm':30,'returnMm':40} | /cornerRadiusMm",
                "{'type':'flanged-disc',%s,'diameterMm':100,'flangeHeightMm':50,'angleDeg':91,'trimMm':-1} | /flangeHeightMm /angleDeg /trimMm",
                "{'type':'bowl',%s,'diameterMm':300,'depthMm':150.1,'smoothTimesOver':-1} | /depthMm /smoothTimesOver",
                "{'type':'bowl-with-rim',%s,'diameterMm':300,'depthMm':60,'rimAngleDeg':0} | /rimWidthMm /rimAngleDeg",
                "{'type':'arch-edge',%s,'flangeHeightMm':12,'faceMm':80} | /openingWidthMm /riseMm",
                "{'type':'arch-edge',%s,'openingWidthMm':800,'flangeHeightMm':12,'faceMm':80} | /riseMm",
                "{'type':'arch-edge',%s,'openingWidthMm':800,'riseMm':400,'radiusMm':400,'flangeHeightMm':12,'faceMm':80} | /radiusMm",
                "{'type':'arch-edge',%s,'radiusMm':400,'flangeHeightMm':12,'faceMm':80} | /sweepDeg",
                "{'type':'arch-edge',%s,'radiusMm':400,'sweepDeg':90,'sense':'shrink','flangeHeightMm':400,'faceMm':400} | /flangeHeightMm /faceMm",
                "{'type':'curved-rib',%s,'heelRadiusMm':100,'flangeHeightMm':100,'webMm':60} | /lengthMm /flangeHeightMm",
                "{'type':'curved-rib',%s,'heelRadiusMm':100,'lengthMm':700,'sweepDeg':90,'flangeHeightMm':10,'webMm':60} | /lengthMm",
                "{'type':'curved-rib',%s,'heelRadiusMm':100,'lengthMm':629,'flangeHeightMm':10,'webMm':60} | /lengthMm",
                "{'type':'panel-with-dents',%s,'lengthMm':900,'widthMm':500,'spots':0,'smoothAreaMm2':450001} | /spots /smoothAreaMm2",
            })
    void impossibleNumbersAreToldAllAtOnce(String json, String pointers) {
        InvalidInput refused = catchThrowableOfType(InvalidInput.class, () -> taken(json));
        assertThat(refused.faults())
                .extracting(Fault::pointer)
                .containsExactly(pointers.split(" "));
        assertThat(refused.faults()).allMatch(f -> !f.message().isBlank());
    }

    @Test
    void bothSidesOfEachBoundary() {
        assertThat(faults("{'type':'bowl',%s,'diameterMm':300,'depthMm':150}")).isEmpty();
        assertThat(
                        faults(
                                "{'type':'arc',%s,'outsideDiameterMm':600,'sweepDeg':360,'flangeHeightMm':299.9,'returnMm':0}"))
                .isEmpty();
        assertThat(
                        faults(
                                "{'type':'u-frame',%s,'outsideWidthMm':400,'outsideHeightMm':200,'cornerRadiusMm':200,'flangeHeightMm':30,'returnMm':0}"))
                .isEmpty();
        assertThat(
                        faults(
                                "{'type':'curved-rib',%s,'heelRadiusMm':100,'lengthMm':628.3,'flangeHeightMm':99,'webMm':0}"))
                .isEmpty();
        assertThat(
                        faults(
                                "{'type':'curved-rib',%s,'heelRadiusMm':100,'lengthMm':300,'flange':'outside','flangeHeightMm':120,'webMm':10}"))
                .isEmpty();
        assertThat(
                        faults(
                                "{'type':'ring','grade':'lead','thicknessMm':51,'outsideDiameterMm':600,'flangeHeightMm':40,'returnMm':80}"))
                .extracting(Fault::pointer)
                .containsExactly("/grade", "/thicknessMm");
    }

    // Fixtures --------------------------------------------------------------------------------

    static List<String> oneOfEach() {
        return List.of(
                "{'type':'ring',%s,'outsideDiameterMm':600,'flangeHeightMm':40,'returnMm':80}",
                "{'type':'ring',%s,'name':'Rim','surface':'visible','edge':'dressed','outsideDiameterMm':600,'flange':'outside','flangeHeightMm':40,'returnMm':80}",
                "{'type':'arc',%s,'outsideDiameterMm':900,'sweepDeg':120,'flangeHeightMm':30,'returnMm':30}",
                "{'type':'u-frame',%s,'outsideWidthMm':400,'outsideHeightMm':500,'cornerRadiusMm':150,'flangeHeightMm':30,'returnMm':40}",
                "{'type':'u-frame',%s,'outsideWidthMm':500,'outsideHeightMm':500,'flangeHeightMm':30,'returnMm':40}",
                "{'type':'flanged-disc',%s,'diameterMm':400,'flangeHeightMm':20}",
                "{'type':'bowl',%s,'diameterMm':300,'depthMm':60,'smoothTimesOver':2}",
                "{'type':'bowl-with-rim',%s,'diameterMm':300,'depthMm':40,'rimWidthMm':20}",
                "{'type':'bowl-with-rim',%s,'diameterMm':300,'depthMm':40,'rim':'turned','rimWidthMm':10}",
                "{'type':'arch-edge',%s,'openingWidthMm':700,'riseMm':300,'flangeHeightMm':12,'faceMm':100}",
                "{'type':'arch-edge',%s,'radiusMm':350,'sweepDeg':170,'sense':'shrink','flangeHeightMm':12,'faceMm':100}",
                "{'type':'curved-rib',%s,'heelRadiusMm':900,'lengthMm':700,'flangeHeightMm':25,'webMm':60}",
                "{'type':'panel-with-dents',%s,'lengthMm':900,'widthMm':500,'spots':6}");
    }

    static Shape shape(String json) {
        return EditedBook.JSON.readValue(
                json.replace("%s", "'grade':'AL99.5-O','thicknessMm':1.5").replace('\'', '"'),
                Shape.class);
    }

    private static FromShape taken(String json) {
        return FromShape.of(shape(json), BOOK);
    }

    private static Part part(String json) {
        assertThat(taken(json).parts()).hasSize(1);
        return taken(json).parts().get(0);
    }

    private static List<Fault> faults(String json) {
        return ShapeCheck.faults(shape(json), BOOK);
    }

    private static Finding note(String json, String code) {
        return taken(json).notes().stream()
                .filter(n -> n.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private static <T extends Operation> T forming(Part part, Class<T> kind) {
        List<T> found =
                part.operations().stream().filter(kind::isInstance).map(kind::cast).toList();
        assertThat(found).hasSize(1);
        return found.get(0);
    }

    private static List<org.assertj.core.groups.Tuple> standards(List<Operation> operations) {
        List<org.assertj.core.groups.Tuple> lines = new ArrayList<>();
        for (Operation operation : operations) {
            if (operation instanceof Standard line) {
                lines.add(tuple(line.standard(), line.amount()));
            }
        }
        return lines;
    }

    /** What the rules add, amounts to three decimals. */
    private static List<org.assertj.core.groups.Tuple> proposed(Part part) {
        return estimated(part).operations().stream()
                .filter(l -> l.proposal() != null)
                .map(l -> tuple(l.standard(), Math.round(l.amount() * 1000) / 1000.0))
                .toList();
    }

    private static Estimate.Line formed(Estimate estimate) {
        return estimate.operations().stream()
                .filter(l -> l.standard() == null)
                .findFirst()
                .orElseThrow();
    }

    private static TakeOff takeOff(FromShape taken) {
        return new TakeOff(
                "Item",
                null,
                null,
                null,
                null,
                taken.parts(),
                taken.assembly(),
                null,
                null,
                List.of(),
                List.of(),
                null);
    }

    private static Estimate estimated(Part part) {
        return Estimating.estimate(
                new TakeOff(
                        "Item",
                        null,
                        null,
                        null,
                        null,
                        List.of(part),
                        null,
                        null,
                        null,
                        List.of(),
                        List.of(),
                        null),
                BOOK);
    }

    private static ShopBook starter() {
        try (var in = ShopBook.class.getResourceAsStream("/shop-book/starter.json")) {
            return EditedBook.JSON.readValue(in, ShopBook.class).withEdition(1);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Shapes with numbers from the sensible to the absurd. */
    private static final class RandomShapes {

        private static final Map<String, List<String>> NUMBERS =
                Map.of(
                        "ring", List.of("outsideDiameterMm", "flangeHeightMm", "returnMm"),
                        "arc",
                                List.of(
                                        "outsideDiameterMm",
                                        "flangeHeightMm",
                                        "returnMm",
                                        "sweepDeg"),
                        "u-frame",
                                List.of(
                                        "outsideWidthMm",
                                        "outsideHeightMm",
                                        "cornerRadiusMm",
                                        "flangeHeightMm",
                                        "returnMm"),
                        "flanged-disc", List.of("diameterMm", "flangeHeightMm", "angleDeg"),
                        "bowl", List.of("diameterMm", "depthMm"),
                        "bowl-with-rim", List.of("diameterMm", "depthMm", "rimWidthMm"),
                        "arch-edge",
                                List.of("openingWidthMm", "riseMm", "flangeHeightMm", "faceMm"),
                        "curved-rib",
                                List.of("heelRadiusMm", "sweepDeg", "flangeHeightMm", "webMm"),
                        "panel-with-dents", List.of("lengthMm", "widthMm"));

        static String next(SplittableRandom random) {
            List<String> kinds = NUMBERS.keySet().stream().sorted().toList();
            String kind = kinds.get(random.nextInt(kinds.size()));
            StringBuilder json = new StringBuilder("{'type':'" + kind + "',%s");
            for (String name : NUMBERS.get(kind)) {
                boolean small = name.matches("flange.*|rim.*|return.*|.*Deg");
                double value = Math.exp(random.nextDouble(0, small ? 5.5 : 12));
                json.append(",'").append(name).append("':").append(value);
            }
            for (String choice :
                    List.of("flange:inside outside", "rim:flat turned", "sense:shrink stretch")) {
                String name = choice.substring(0, choice.indexOf(':'));
                boolean asked =
                        name.equals("flange")
                                ? kind.matches("ring|arc|u-frame|curved-rib")
                                : name.equals("rim")
                                        ? kind.equals("bowl-with-rim")
                                        : kind.equals("arch-edge");
                if (asked) {
                    String[] words = choice.substring(choice.indexOf(':') + 1).split(" ");
                    json.append(",'")
                            .append(name)
                            .append("':'")
                            .append(words[random.nextInt(2)])
                            .append('\'');
                }
            }
            if (kind.equals("panel-with-dents")) {
                json.append(",'spots':").append(1 + random.nextInt(20));
            }
            return json.append('}').toString();
        }
    }
}
