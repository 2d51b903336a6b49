package strokewright.estimate;

import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.estimate.ShopBook.ToolSurface;
import strokewright.estimate.ShopBook.Unit;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Edge;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Money;

/**
 * The shop of the method's worked examples. Tools are of kind edge where an example uses them in
 * both senses; bites are already those of the family, so that every family factor is one.
 */
final class WorkedShop {

    static final Currency EUR = Currency.getInstance("EUR");

    private WorkedShop() {}

    static ShopBook book() {
        return book(List.of(machine("press", 10)), scheme());
    }

    /** With few trials: most tests ask for none of what the simulation gives. */
    static ShopBook book(List<Machine> machines, PriceScheme scheme) {
        return book(machines, scheme, 1000);
    }

    static ShopBook book(int trials) {
        return book(List.of(machine("press", 10)), scheme(), trials);
    }

    private static ShopBook book(List<Machine> machines, PriceScheme scheme, int trials) {
        return new ShopBook(
                7,
                EUR,
                grades(),
                List.of(
                        new Sheet(
                                "al",
                                null,
                                null,
                                null,
                                Money.of("5.00", "EUR"),
                                null,
                                List.of(),
                                "invented")),
                machines,
                tools(),
                Map.of("aluminium", 1.0, "steel", 1.0, "stainless", 1.0, "5xxx", 1.0, "zinc", 1.0),
                List.of(),
                Times.DEFAULTS,
                standards(),
                List.of(
                        new WorkCentre(
                                "Forming",
                                Money.of("42.00", "EUR"),
                                Money.of("9.50", "EUR"),
                                null,
                                null,
                                null),
                        new WorkCentre("Bench", Money.of("40.00", "EUR"), null, null, null, null)),
                scheme,
                null,
                List.of(),
                null,
                null,
                null,
                Uncertainty.DEFAULTS.withTrials(trials),
                List.of());
    }

    static PriceScheme scheme() {
        return new PriceScheme(
                PriceScheme.Kind.SURCHARGE,
                PriceScheme.From.PLAN,
                8.0,
                60.0,
                10.0,
                6.0,
                12.0,
                2.0,
                0.0,
                5.0,
                19.0,
                "0.01",
                null,
                0.0,
                null);
    }

    static Machine machine(String name, double ratedMm) {
        return new Machine(name, ratedMm, 400.0, 600.0, 600.0, 1.25, 0.6, null);
    }

    private static List<Grade> grades() {
        return List.of(
                grade("al", "aluminium", 2710, 90, 35, 35, 180, 0.20, null, 0.35, 0.18, 0.14, true),
                grade(
                        "half",
                        "aluminium",
                        2710,
                        115,
                        100,
                        35,
                        180,
                        0.20,
                        4.0,
                        0.35,
                        0.18,
                        0.14,
                        true),
                grade(
                        "steel", "steel", 7850, 300, 205, 205, 530, 0.26, null, 0.25, 0.234, 0.182,
                        true),
                grade(
                        "304",
                        "stainless",
                        8000,
                        600,
                        240,
                        240,
                        1275,
                        0.45,
                        null,
                        0.15,
                        0.405,
                        0.315,
                        false),
                grade(
                        "5xxx", "5xxx", 2670, 215, 100, 100, 430, 0.31, null, 0.20, 0.279, 0.217,
                        true),
                new Grade(
                        "zinc",
                        "Zinc",
                        "zinc",
                        7200.0,
                        150.0,
                        100.0,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        false,
                        0.01,
                        "common practice, no source",
                        null,
                        null,
                        null));
    }

    private static Grade grade(
            String code,
            String family,
            double density,
            double tensile,
            double proof,
            double annealed,
            double k,
            double n,
            Double elongation,
            double shrink,
            double edge,
            double area,
            boolean annealable) {
        return new Grade(
                code,
                code,
                family,
                density,
                tensile,
                proof,
                annealed,
                k,
                n,
                elongation,
                shrink,
                edge,
                area,
                annealable,
                null,
                "method",
                null,
                null,
                null);
    }

    private static List<Tool> tools() {
        return List.of(
                tool("soft", ToolKind.EDGE, ToolSurface.SOFT_FACED, 0.012, 40.0, null, 5, 300),
                tool("steel", ToolKind.EDGE, ToolSurface.STEEL_FACED, 0.020, 25.0, null, 5, 300),
                tool("fine", ToolKind.EDGE, ToolSurface.STEEL_FACED, 0.008, 25.0, null, 5, 300),
                tool("rib", ToolKind.EDGE, ToolSurface.STEEL_FACED, 0.014, 25.0, null, 5, 300),
                tool("crown", ToolKind.DOME, ToolSurface.STEEL_FACED, 0.020, null, 15.0, 8, 300),
                tool(
                        "smoother",
                        ToolKind.SMOOTH,
                        ToolSurface.STEEL_FACED,
                        0.001,
                        null,
                        6.0,
                        4,
                        600));
    }

    private static Tool tool(
            String name,
            ToolKind kind,
            ToolSurface surface,
            double bite,
            Double jaw,
            Double row,
            double pitch,
            double rate) {
        return new Tool(name, kind, surface, bite, jaw, row, pitch, rate, 1.0, 2.0, null, null);
    }

    private static List<Standard> standards() {
        return List.of(
                new Standard(
                        "Cut", "Bench", 5.0, 0.25, Unit.CUT, 1, true, null, null, null, "invented"),
                new Standard(
                        "Weld",
                        "Bench",
                        10.0,
                        12.0,
                        Unit.METRE,
                        1,
                        false,
                        null,
                        null,
                        null,
                        "invented"),
                new Standard(
                        "Template",
                        "Bench",
                        0.0,
                        20.0,
                        Unit.TEMPLATE,
                        1,
                        false,
                        null,
                        null,
                        null,
                        "invented"));
    }

    static Part part(
            String grade, double thickness, double kg, Blank blank, Double gap, Operation... work) {
        return new Part(
                "P",
                1,
                grade,
                thickness,
                kg,
                blank,
                null,
                Edge.DRESSED,
                gap,
                null,
                null,
                null,
                List.of(work),
                null,
                null,
                null,
                List.of(),
                null);
    }

    static TakeOff takeOff(Part... parts) {
        return new TakeOff(
                "Worked example",
                null,
                List.of(1),
                null,
                0,
                List.of(parts),
                null,
                null,
                null,
                List.of(),
                List.of(),
                null);
    }

    static TakeOff of(Formed operation, String grade, double thickness) {
        return takeOff(part(grade, thickness, 1.27, new Blank(1950.0, 120.0), null, operation));
    }

    static TakeOff withQuantities(TakeOff takeOff, List<Integer> quantities, int alreadyMade) {
        return new TakeOff(
                takeOff.title(),
                takeOff.information(),
                quantities,
                quantities.get(0),
                alreadyMade,
                takeOff.parts(),
                takeOff.assembly(),
                takeOff.extras(),
                null,
                List.of(),
                List.of(),
                null);
    }

    static List<Estimate.Line> lines(TakeOff takeOff) {
        return new ArrayList<>(Estimating.estimate(takeOff, book()).operations());
    }

    static Operation.CurveEdge curve(
            Operation.Sense sense, double length, double radius, double height, String tool) {
        return new Operation.CurveEdge(sense, length, radius, null, height, null, null, tool, null);
    }
}
