package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.Operation.Smooth;
import strokewright.estimate.Operation.Standard;
import strokewright.estimate.Operation.TakeOutDents;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.estimate.Shape.Flange;
import strokewright.estimate.Shape.Rim;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Information;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.VariantComparison.Beside;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;

/**
 * Take-offs with something otherwise. What another Ø makes of a shape is compared with the shape of
 * that Ø, which is made in another way.
 */
class VariantsTest {

    private static final ShopBook BOOK =
            EditedBook.read("/shop-book/starter.json").book().withEdition(1);

    private static final ShopBook WORKED = WorkedShop.book();

    private static TakeOff takeOff(List<Part> parts, List<Operation> assembly) {
        return new TakeOff(
                "Item",
                null,
                List.of(1, 10),
                10,
                null,
                parts,
                assembly,
                List.of(),
                null,
                null,
                null,
                null);
    }

    private static TakeOff of(Shape shape) {
        FromShape made = FromShape.of(shape, BOOK);
        return takeOff(made.parts(), made.assembly());
    }

    private static Varied varied(TakeOff takeOff, Variant variant) {
        return Varied.of(takeOff, variant, BOOK, "/variants/0");
    }

    private static Part part(String grade, Blank blank, Operation... work) {
        return new Part(
                "Rim",
                null,
                grade,
                2.0,
                null,
                blank,
                null,
                null,
                null,
                null,
                null,
                null,
                List.of(work),
                null,
                null,
                null,
                null,
                null);
    }

    private static CurveEdge edge(double length, double radius, double height, int count) {
        return new CurveEdge(Sense.SHRINK, length, radius, null, height, count, null, null, null);
    }

    private static TakeOff ring() {
        return of(ring(600));
    }

    // Another Ø, against the shape of that Ø ------------------------------------------------

    private static Shape ring(double diameter) {
        return new Shape.Ring(
                null, "DC04", 1.5, null, null, diameter, Flange.INSIDE, 40.0, 60.0, null);
    }

    private static Shape arc(double diameter) {
        return new Shape.Arc(
                null, "DC04", 1.5, null, null, diameter, 120.0, Flange.INSIDE, 30.0, 0.0, null);
    }

    private static Shape rib(double diameter) {
        return new Shape.CurvedRib(
                null,
                "DC04",
                1.5,
                null,
                null,
                diameter / 2,
                null,
                60.0,
                Flange.OUTSIDE,
                25.0,
                40.0,
                null);
    }

    private static Shape disc(double diameter) {
        return new Shape.FlangedDisc(null, "DC04", 1.5, null, null, diameter, 20.0, 60.0, null);
    }

    private static Shape bowl(double diameter) {
        return new Shape.Bowl(null, "AL99.5-O", 2.0, null, null, diameter, diameter / 4, null, 2);
    }

    private static Shape collared(double diameter) {
        return new Shape.BowlWithRim(
                null,
                "AL99.5-O",
                2.0,
                null,
                null,
                diameter,
                diameter / 8,
                Rim.TURNED,
                30.0,
                null,
                null,
                1);
    }

    private static Shape archInside(double diameter) {
        return new Shape.ArchEdge(
                null,
                "DC04",
                1.5,
                null,
                null,
                null,
                null,
                diameter / 2,
                150.0,
                Sense.STRETCH,
                20.0,
                null,
                50.0);
    }

    private static Shape archOutside(double diameter) {
        return new Shape.ArchEdge(
                null,
                "DC04",
                1.5,
                null,
                null,
                null,
                null,
                diameter / 2,
                90.0,
                Sense.SHRINK,
                20.0,
                null,
                50.0);
    }

    private static Shape of(String shape, double diameter) {
        return switch (shape) {
            case "ring" -> ring(diameter);
            case "arc" -> arc(diameter);
            case "rib" -> rib(diameter);
            case "disc" -> disc(diameter);
            case "bowl" -> bowl(diameter);
            case "collared bowl" -> collared(diameter);
            case "opening" -> archInside(diameter);
            default -> archOutside(diameter);
        };
    }

    @ParameterizedTest
    @CsvSource({
        "ring, 600, 800",
        "ring, 600, 300",
        "ring, 1000, 1001",
        "arc, 900, 1350",
        "arc, 900, 450",
        "rib, 2000, 3000",
        "rib, 2000, 1500",
        "disc, 400, 700",
        "disc, 700, 400",
        "bowl, 600, 800",
        "bowl, 600, 250",
        "collared bowl, 300, 450",
        "collared bowl, 450, 300",
        "opening, 700, 1100",
        "opening, 1100, 700",
        "arched edge, 800, 1000",
        "arched edge, 800, 600"
    })
    void anotherDiameterIsTheShapeOfThatDiameter(String shape, double from, double to) {
        TakeOff wanted = of(of(shape, to));
        TakeOff made = varied(of(of(shape, from)), Variant.ofDiameter(to)).takeOff();
        Part part = made.parts().get(0);
        Part same = wanted.parts().get(0);
        assertThat(part.blank().lengthMm()).isCloseTo(same.blank().lengthMm(), within(1.0));
        assertThat(part.blank().widthMm()).isCloseTo(same.blank().widthMm(), within(1.0));
        sameWork(part.operations(), same.operations());
        sameWork(made.assembly(), wanted.assembly());
    }

    /** Amounts by the metre within what whole millimetres of blank make of a circumference. */
    private static void sameWork(List<Operation> work, List<Operation> wanted) {
        assertThat(work).hasSameSizeAs(wanted);
        for (int i = 0; i < work.size(); i++) {
            if (wanted.get(i) instanceof Standard line) {
                Standard found = (Standard) work.get(i);
                assertThat(found.standard()).isEqualTo(line.standard());
                assertThat(found.amount())
                        .as(line.standard())
                        .isCloseTo(line.amount(), within(0.0065));
            } else {
                assertThat(sizes(work.get(i))).containsExactly(sizes(wanted.get(i)), NEAR);
            }
        }
    }

    private static final Offset<Double> NEAR = within(1e-9);

    private static double[] sizes(Operation operation) {
        if (operation instanceof CurveEdge o) {
            return new double[] {o.lengthMm(), o.radiusMm(), o.heightMm(), o.count()};
        }
        if (operation instanceof TurnFlange o) {
            return new double[] {o.radiusMm(), o.heightMm(), o.angleDeg(), o.sweepDeg(), o.count()};
        }
        if (operation instanceof Dish o) {
            return new double[] {o.diameterMm(), o.depthMm(), o.trimMm(), o.count()};
        }
        Smooth o = (Smooth) operation;
        return new double[] {o.areaMm2() * 1e-6, o.timesOver(), o.count()};
    }

    // Laws ------------------------------------------------------------------------------------

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 300);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void toWhatItIsAlreadyChangesNothing(int seed) {
        TakeOff takeOff = new RandomTakeOffs(seed).next();
        Part first = takeOff.parts().get(0);
        List<Variant> same = new ArrayList<>();
        same.add(Variant.ofGrade(first.grade()).ofPart(0));
        same.add(Variant.ofThickness(first.thicknessMm()).ofPart(0));
        MainSize.diameter(takeOff, null, WORKED)
                .ifPresent(size -> same.add(Variant.ofDiameter(size.mm())));
        MainSize.length(takeOff, null).ifPresent(size -> same.add(Variant.ofLength(size.mm())));
        for (Variant variant : same) {
            Varied varied = Varied.of(takeOff, variant, WORKED, "");
            assertThat(varied.takeOff()).isEqualTo(takeOff);
            assertThat(varied.notes()).extracting(Finding::code).containsExactly("already-so");
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void toAnotherSizeScalesPlanAndBackGivesTheItemAgain(int seed) {
        TakeOff takeOff = new RandomTakeOffs(seed).next();
        MainSize size = MainSize.of(takeOff, null, WORKED).orElseThrow();
        double to = size.mm() * new java.util.SplittableRandom(seed).nextDouble(0.6, 1.7);
        boolean round = size.kind() != MainSize.Kind.LENGTH;
        Variant there = round ? Variant.ofDiameter(to) : Variant.ofLength(to);
        Variant back = round ? Variant.ofDiameter(size.mm()) : Variant.ofLength(size.mm());
        TakeOff other = Varied.of(takeOff, there, WORKED, "").takeOff();
        assertThat(MainSize.of(other, null, WORKED).orElseThrow().mm()).isCloseTo(to, NEAR);
        if (round) {
            scaled(takeOff, other, to / size.mm());
        }
        TakeOff again = Varied.of(other, back, WORKED, "").takeOff();
        for (int i = 0; i < takeOff.parts().size(); i++) {
            Part was = takeOff.parts().get(i);
            Part is = again.parts().get(i);
            if (sidesAreTold(was)) {
                // each way rounds the blank up to the next millimetre, once; too small a blank by
                // so much in proportion
                assertThat(is.blank().lengthMm())
                        .isBetween(was.blank().lengthMm() - 1e-6, was.blank().lengthMm() + 3);
                assertThat(is.blank().widthMm())
                        .isBetween(was.blank().widthMm() - 1e-6, was.blank().widthMm() + 3);
            }
            for (int j = 0; j < was.operations().size(); j++) {
                if (was.operations().get(j) instanceof Formed formed
                        && !(formed instanceof TakeOutDents)) {
                    assertThat(sizes(is.operations().get(j)))
                            .containsExactly(sizes(formed), within(1e-6));
                }
            }
        }
    }

    /**
     * No seeded blank comes from its work: along which side a strip lies, and whether its edges lie
     * side by side, may then hang on the size.
     */
    private static boolean sidesAreTold(Part part) {
        boolean oneEdge =
                part.operations().stream()
                                .filter(o -> o instanceof CurveEdge)
                                .mapToInt(o -> ((CurveEdge) o).count())
                                .sum()
                        < 2;
        boolean round =
                part.operations().stream()
                        .anyMatch(o -> o instanceof Dish || o instanceof TurnFlange);
        double slim = part.blank().longerMm() / part.blank().shorterMm();
        return (round || oneEdge) && slim > 2.5;
    }

    private static void scaled(TakeOff before, TakeOff after, double k) {
        for (int i = 0; i < before.parts().size(); i++) {
            for (int j = 0; j < before.parts().get(i).operations().size(); j++) {
                Operation was = before.parts().get(i).operations().get(j);
                Operation is = after.parts().get(i).operations().get(j);
                if (was instanceof CurveEdge a && is instanceof CurveEdge b) {
                    assertThat(b.lengthMm()).isCloseTo(a.lengthMm() * k, NEAR);
                    assertThat(b.radiusMm()).isCloseTo(a.radiusMm() * k, NEAR);
                    assertThat(b.heightMm()).isEqualTo(a.heightMm());
                } else if (was instanceof TurnFlange a && is instanceof TurnFlange b) {
                    assertThat(b.radiusMm()).isCloseTo(a.radiusMm() * k, NEAR);
                    assertThat(b.heightMm()).isEqualTo(a.heightMm());
                    assertThat(b.sweepDeg()).isEqualTo(a.sweepDeg());
                } else if (was instanceof Dish a && is instanceof Dish b) {
                    assertThat(b.diameterMm()).isCloseTo(a.diameterMm() * k, NEAR);
                    assertThat(b.depthMm()).isCloseTo(a.depthMm() * k, NEAR);
                    assertThat(b.trimMm()).isEqualTo(a.trimMm());
                }
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void metalAndThicknessGoThereAndBackAndMassGoesAlong(int seed) {
        TakeOff takeOff = new RandomTakeOffs(seed).next();
        Part first = takeOff.parts().get(0);
        Varied other =
                Varied.of(
                        takeOff, Variant.ofGrade("304").withThickness(1.25).ofPart(0), WORKED, "");
        Part there = other.takeOff().parts().get(0);
        assertThat(there.grade()).isEqualTo("304");
        assertThat(there.thicknessMm()).isEqualTo(1.25);
        assertThat(there.blank()).isEqualTo(first.blank());
        if (first.massKg() != null) {
            double heavier =
                    1.25
                            / first.thicknessMm()
                            * WORKED.grade("304").orElseThrow().densityKgM3()
                            / WORKED.grade(first.grade()).orElseThrow().densityKgM3();
            assertThat(there.massKg()).isCloseTo(first.massKg() * heavier, within(1e-9));
        }
        assertThat(other.takeOff().parts().subList(1, takeOff.parts().size()))
                .isEqualTo(takeOff.parts().subList(1, takeOff.parts().size()));
        Part back =
                Varied.of(
                                other.takeOff(),
                                Variant.ofGrade(first.grade())
                                        .withThickness(first.thicknessMm())
                                        .ofPart(0),
                                WORKED,
                                "")
                        .takeOff()
                        .parts()
                        .get(0);
        assertThat(back.operations()).isEqualTo(first.operations());
        assertThat(back.thicknessMm()).isEqualTo(first.thicknessMm());
        if (first.massKg() != null) {
            assertThat(back.massKg()).isCloseTo(first.massKg(), within(1e-9));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whatStandsBesideIsWhatItsOwnEstimateSays(int seed) {
        TakeOff takeOff = new RandomTakeOffs(seed).next();
        Estimate base = Estimating.estimate(takeOff, WORKED);
        Beside beside =
                Variants.beside(takeOff, base, WORKED).of(Variant.ofThickness(1.7), "/variants/0");
        Estimate own = Estimating.estimate(beside.takeOff(), WORKED);
        assertThat(beside.feasible()).isEqualTo(own.feasible());
        assertThat(beside.findings()).isEqualTo(own.findings());
        for (int i = 0; i < own.quantities().size(); i++) {
            Estimate.ForQuantity was = base.quantities().get(i);
            Estimate.ForQuantity is = own.quantities().get(i);
            VariantComparison.Against told = beside.quantities().get(i);
            assertThat(told.hours()).isEqualTo(is.hours().plan());
            assertThat(told.hoursMore().by())
                    .isCloseTo(is.hours().plan() - was.hours().plan(), NEAR);
            assertThat(was.cost().total().plus(told.costMore().by())).isEqualTo(is.cost().total());
            assertThat(was.priceEach().plus(told.priceEachMore().by())).isEqualTo(is.priceEach());
        }
        List<Finding> both = new ArrayList<>(base.findings());
        both.removeAll(beside.vanished());
        assertThat(Stream.concat(both.stream(), beside.appeared().stream()).map(VariantsTest::key))
                .containsExactlyInAnyOrderElementsOf(
                        own.findings().stream().map(VariantsTest::key).toList());
    }

    private static List<Object> key(Finding finding) {
        return List.of(finding.code(), finding.severity(), finding.pointer());
    }

    // What practitioners ask ------------------------------------------------------------------

    @Test
    void steelInsteadOfAluminiumTellsWhatAppears() {
        TakeOff takeOff =
                takeOff(
                        List.of(part("AL99.5-O", new Blank(1945.0, 120.0), edge(1885, 300, 40, 1))),
                        List.of());
        VariantComparison compared =
                Variants.compare(
                        takeOff,
                        List.of(Variant.ofGrade("DC04"), Variant.ofThickness(9).named("Plate")),
                        BOOK);
        assertThat(compared.mainSize().kind()).isEqualTo(MainSize.Kind.DIAMETER);
        assertThat(compared.mainSize().mm()).isEqualTo(600);
        Beside steel = compared.variants().get(0);
        assertThat(steel.name()).isEqualTo("DC04");
        assertThat(steel.quantities().get(1).hoursMore().by()).isPositive();
        Beside plate = compared.variants().get(1);
        assertThat(plate.name()).isEqualTo("Plate");
        assertThat(plate.feasible()).isFalse();
        assertThat(plate.appeared()).extracting(Finding::code).contains("over-capacity");
        assertThat(compared.base().feasible()).isTrue();
        Beside back =
                Variants.beside(plate.takeOff(), Estimating.estimate(plate.takeOff(), BOOK), BOOK)
                        .of(Variant.ofThickness(2), "");
        assertThat(back.vanished()).extracting(Finding::code).contains("over-capacity");
    }

    @Test
    void theLargestRoundThingIsTheMainSizeAndGentleBendsAreNot() {
        TakeOff takeOff =
                takeOff(
                        List.of(
                                part("DC04", new Blank(700.0, 100.0), edge(640, 3000, 40, 1)),
                                part("DC04", new Blank(1945.0, 120.0), edge(1885, 300, 40, 1))),
                        List.of());
        MainSize size = MainSize.of(takeOff, null, BOOK).orElseThrow();
        assertThat(size).isEqualTo(new MainSize(MainSize.Kind.DIAMETER, 600, 1));
        assertThat(MainSize.of(takeOff, 0, BOOK).orElseThrow())
                .isEqualTo(new MainSize(MainSize.Kind.BEND, 6000, 0));
        TakeOff flat =
                takeOff(
                        List.of(part("DC04", new Blank(400.0, 900.0), new Standard("Fold", 2.0))),
                        List.of());
        assertThat(MainSize.of(flat, null, BOOK).orElseThrow())
                .isEqualTo(new MainSize(MainSize.Kind.LENGTH, 900, 0));
        assertThatThrownBy(() -> varied(flat, Variant.ofDiameter(800)))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(Fault::pointer)
                                        .containsExactly("/variants/0/diameterMm"));
    }

    @Test
    void anOutlineAloneHasItsExtentForSize() {
        FollowOutline heart =
                new FollowOutline(
                        "M0 0 H600 V300 A300 300 0 0 1 0 300 Z",
                        null,
                        20.0,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null);
        TakeOff takeOff = takeOff(List.of(part("DC04", new Blank(620.0, 640.0), heart)), List.of());
        assertThat(MainSize.of(takeOff, null, BOOK).orElseThrow().kind())
                .isEqualTo(MainSize.Kind.OUTLINE);
        Varied larger = varied(takeOff, Variant.ofDiameter(1200));
        FollowOutline made = (FollowOutline) larger.takeOff().parts().get(0).operations().get(0);
        double before = LaidOutline.of(heart, BOOK.times()).outline().lengthMm();
        assertThat(LaidOutline.of(made, BOOK.times()).outline().lengthMm())
                .isCloseTo(2 * before, within(1e-3));
        assertThat(larger.takeOff().parts().get(0).blank()).isEqualTo(new Blank(1240.0, 1280.0));
    }

    @Test
    void longerIsTheSameCurveGoingOnAndStraightLegsGrow() {
        TakeOff rib =
                takeOff(
                        List.of(part("DC04", new Blank(860.0, 90.0), edge(800, 1500, 25, 2))),
                        List.of());
        CurveEdge longer =
                (CurveEdge)
                        varied(rib, Variant.ofLength(1060))
                                .takeOff()
                                .parts()
                                .get(0)
                                .operations()
                                .get(0);
        assertThat(longer.lengthMm()).isCloseTo(1000, NEAR);
        assertThat(longer.radiusMm()).isEqualTo(1500);
        TakeOff frame =
                takeOff(
                        List.of(part("DC04", new Blank(2000.0, 90.0), edge(157, 100, 25, 2))),
                        List.of());
        Varied taller = varied(frame, Variant.ofLength(2400));
        assertThat(taller.takeOff().parts().get(0).operations())
                .isEqualTo(frame.parts().get(0).operations());
        assertThat(taller.takeOff().parts().get(0).blank()).isEqualTo(new Blank(2400.0, 90.0));
        Varied over = varied(rib, Variant.ofLength(12_000));
        assertThat(over.notes()).extracting(Finding::code).contains("over-full-turn");
    }

    @Test
    void whatNothingRoundIsWorkedOnStaysAndIsNamed() {
        TakeOff takeOff =
                takeOff(
                        List.of(
                                part("DC04", new Blank(1945.0, 120.0), edge(1885, 300, 40, 1)),
                                part("DC04", new Blank(200.0, 80.0), new Standard("Fold", 1.0))),
                        List.of());
        Varied varied = varied(takeOff, Variant.ofDiameter(800));
        assertThat(varied.takeOff().parts().get(1)).isEqualTo(takeOff.parts().get(1));
        assertThat(varied.notes())
                .filteredOn(f -> f.code().equals("size-stays"))
                .extracting(Finding::pointer)
                .containsExactly("/parts/1");
    }

    @Test
    void ownMinutesFollowTheComputedOnes() {
        CurveEdge own =
                new CurveEdge(
                        Sense.SHRINK,
                        1885.0,
                        300.0,
                        null,
                        40.0,
                        1,
                        null,
                        null,
                        new Operation.Override(30.0, "As last time"));
        TakeOff takeOff = takeOff(List.of(part("DC04", new Blank(1945.0, 120.0), own)), List.of());
        Estimate base = Estimating.estimate(takeOff, BOOK);
        Beside other =
                Variants.beside(takeOff, base, BOOK).of(Variant.ofDiameter(900), "/variants/0");
        double was = base.typed().get(0).machineMinutes();
        double is = Estimating.estimate(other.takeOff(), BOOK).typed().get(0).machineMinutes();
        Operation.Override made =
                ((Formed) other.takeOff().parts().get(0).operations().get(0)).override();
        assertThat(made.minutes()).isCloseTo(30 * is / was, within(0.005));
        assertThat(made.reason()).isEqualTo("As last time");
        assertThat(other.notes()).extracting(Finding::code).contains("own-minutes-follow");
    }

    @Test
    void linesByTheKgGoAlongWithTheMass() {
        ShopBook.Standard byKg =
                new ShopBook.Standard(
                        "Pickle",
                        BOOK.workCentres().get(0).name(),
                        0.0,
                        2.0,
                        ShopBook.Unit.KG,
                        1,
                        false,
                        null,
                        false,
                        null,
                        null);
        List<ShopBook.Standard> standards = new ArrayList<>(BOOK.standards());
        standards.add(byKg);
        ShopBook book = withStandards(standards);
        TakeOff takeOff =
                takeOff(
                        List.of(
                                part(
                                        "DC04",
                                        new Blank(1000.0, 500.0),
                                        new Standard("Pickle", 7.85))),
                        List.of(new Standard("Pickle", 7.85)));
        Varied thinner = Varied.of(takeOff, Variant.ofThickness(1), book, "");
        assertThat(thinner.takeOff().parts().get(0).operations())
                .containsExactly(new Standard("Pickle", 3.925));
        assertThat(thinner.takeOff().assembly()).containsExactly(new Standard("Pickle", 3.925));
        assertThat(thinner.notes())
                .extracting(Finding::code)
                .containsExactly("amount-follows", "amount-follows");
    }

    private static ShopBook withStandards(List<ShopBook.Standard> standards) {
        return new ShopBook(
                BOOK.edition(),
                BOOK.currency(),
                BOOK.grades(),
                BOOK.sheets(),
                BOOK.machines(),
                BOOK.tools(),
                BOOK.familyBite(),
                BOOK.passLimits(),
                BOOK.times(),
                standards,
                BOOK.workCentres(),
                BOOK.priceScheme(),
                BOOK.routes(),
                BOOK.proposals(),
                BOOK.cutting(),
                BOOK.bending(),
                BOOK.inspection(),
                BOOK.uncertainty(),
                BOOK.learned());
    }

    @Test
    void informationSurfaceEdgeAndToolMayBeOtherwiseToo() {
        TakeOff takeOff = ring();
        String tool =
                BOOK.tools().stream()
                        .filter(t -> t.kind() == ShopBook.ToolKind.SHRINK)
                        .map(ShopBook.Tool::name)
                        .findFirst()
                        .orElseThrow();
        Variant all =
                new Variant(
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        Information.SKETCH,
                        TakeOff.Surface.VISIBLE,
                        TakeOff.Edge.SHEARED,
                        BOOK.machines().get(0).name(),
                        tool);
        TakeOff made = varied(takeOff, all).takeOff();
        assertThat(made.information()).isEqualTo(Information.SKETCH);
        Part part = made.parts().get(0);
        assertThat(part.surface()).isEqualTo(TakeOff.Surface.VISIBLE);
        assertThat(part.edge()).isEqualTo(TakeOff.Edge.SHEARED);
        assertThat(part.machine()).isEqualTo(BOOK.machines().get(0).name());
        assertThat(part.operations())
                .filteredOn(o -> o instanceof CurveEdge)
                .extracting(o -> ((CurveEdge) o).tool())
                .containsOnly(tool);
    }

    // Faults ----------------------------------------------------------------------------------

    @Test
    void everyFaultIsToldAtItsVariant() {
        TakeOff takeOff = ring();
        List<Variant> variants = new ArrayList<>();
        variants.add(Variant.nothing());
        variants.add(Variant.ofGrade("unobtainium"));
        variants.add(Variant.ofThickness(-1).ofPart(7));
        variants.add(Variant.ofDiameter(Double.NaN));
        variants.add(Variant.ofDiameter(800).withLength(900));
        variants.add(Variant.ofDiameter(900_000));
        variants.add(Variant.ofThickness(2));
        assertThatThrownBy(() -> Variants.compare(takeOff, variants, BOOK))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(Fault::pointer)
                                        .contains(
                                                "/variants/0",
                                                "/variants/1/grade",
                                                "/variants/2/part",
                                                "/variants/2/thicknessMm",
                                                "/variants/3/diameterMm",
                                                "/variants/4/lengthMm",
                                                "/variants/5")
                                        .noneMatch(p -> p.startsWith("/variants/6")));
        assertThatThrownBy(() -> Variants.compare(null, List.of(), BOOK))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(Fault::pointer)
                                        .containsExactly("/takeOff", "/variants"));
        List<Variant> many = new ArrayList<>(java.util.Collections.nCopies(11, null));
        assertThatThrownBy(() -> Variants.compare(takeOff, many, BOOK))
                .isInstanceOf(InvalidInput.class)
                .hasMessageContaining("/variants");
    }
}
