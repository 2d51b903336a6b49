package strokewright.learning;

import java.util.Currency;
import java.util.List;
import java.util.Map;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.estimate.ShopBook.ToolSurface;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.quantity.Money;

/** A shop that forms test strips; its figures are invented. */
final class StripShop {

    static final Machine PRESS = new Machine("press", 5.0, 400.0, 600.0, 600.0, null, 0.6, null);
    static final Tool SHRINKER = tool("shrinker", ToolKind.SHRINK, 40, 5, 300);
    static final Tool EDGER = tool("edger", ToolKind.EDGE, 25, 4, 280);
    static final Tool SMOOTHER =
            new Tool(
                    "smoother",
                    ToolKind.SMOOTH,
                    ToolSurface.SOFT_FACED,
                    null,
                    null,
                    6.0,
                    4.0,
                    600.0,
                    null,
                    null,
                    null,
                    null);

    static final Grade AL = grade("al", "aluminium", 35, 180, 0.20, 0.35, 0.18, null);
    static final Grade AL_HARDER = grade("al-harder", "aluminium", 60, 170, 0.22, 0.35, null, null);
    static final Grade STEEL = grade("steel", "steel", 205, 530, 0.26, 0.25, 0.234, null);
    static final Grade STAINLESS = grade("304", "stainless", 240, 1275, 0.45, 0.30, 0.405, null);
    static final Grade ZINC =
            new Grade(
                    "zinc",
                    "zinc",
                    "zinc",
                    7140.0,
                    150.0,
                    100.0,
                    null,
                    null,
                    null,
                    null,
                    0.2,
                    0.2,
                    0.2,
                    false,
                    0.01,
                    "from memory",
                    null,
                    null,
                    null);

    private StripShop() {}

    static ShopBook book() {
        return new ShopBook(
                3,
                Currency.getInstance("EUR"),
                List.of(AL, AL_HARDER, STEEL, STAINLESS, ZINC),
                List.of(),
                List.of(PRESS),
                List.of(SHRINKER, EDGER, SMOOTHER),
                Map.of("aluminium", 1.0, "steel", 0.8, "stainless", 0.4),
                List.of(),
                Times.DEFAULTS,
                List.of(),
                List.of(
                        new WorkCentre(
                                "Forming", Money.of("40.00", "EUR"), null, null, null, null)),
                new PriceScheme(
                        PriceScheme.Kind.SIMPLE,
                        null,
                        15.0,
                        0.0,
                        0.0,
                        0.0,
                        12.0,
                        0.0,
                        0.0,
                        0.0,
                        19.0,
                        "0.01",
                        null,
                        0.0,
                        null),
                null,
                List.of(),
                null,
                null,
                null,
                null,
                List.of());
    }

    private static Tool tool(
            String name, ToolKind kind, double jaw, double pitch, double strokesPerMinute) {
        return new Tool(
                name,
                kind,
                ToolSurface.SOFT_FACED,
                0.012,
                jaw,
                null,
                pitch,
                strokesPerMinute,
                null,
                null,
                null,
                null);
    }

    private static Grade grade(
            String code,
            String family,
            double proof,
            double k,
            double n,
            double shrink,
            Double stretch,
            Double elongation) {
        return new Grade(
                code,
                code,
                family,
                5000.0,
                400.0,
                proof,
                null,
                k,
                n,
                elongation,
                shrink,
                stretch,
                null,
                true,
                null,
                "invented",
                null,
                null,
                null);
    }
}
