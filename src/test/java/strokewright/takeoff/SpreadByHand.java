package strokewright.takeoff;

import static strokewright.takeoff.Situations.JSON;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.surchargeBook;

import java.util.List;
import java.util.Map;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Estimates of the round frame whose spread is made up, so that what is shown can be told. */
public final class SpreadByHand {

    public static final ShopBook BOOK = surchargeBook();

    private SpreadByHand() {}

    public static Estimate plain(TakeOff takeOff) {
        ObjectNode tree = JSON.valueToTree(Estimating.estimate(takeOff, BOOK));
        tree.remove("drivers");
        for (var quantity : tree.get("quantities")) {
            ((ObjectNode) quantity).remove(List.of("spread", "lossChance", "priceHours", "spares"));
            ((ObjectNode) quantity).put("reserveMinutes", 0.0);
            ObjectNode hours = (ObjectNode) quantity.get("hours");
            hours.retain("plan");
        }
        return read(tree);
    }

    public static Estimate spread(double lossChance) {
        ObjectNode tree = JSON.valueToTree(plain(roundFrame()));
        for (var quantity : tree.get("quantities")) {
            ObjectNode q = (ObjectNode) quantity;
            ObjectNode hours = (ObjectNode) q.get("hours");
            hours.setAll(
                    (ObjectNode)
                            JSON.valueToTree(
                                    Map.of(
                                            "mean", 6.0, "p10", 4.0, "p50", 5.5, "p65", 6.5, "p80",
                                            7.5, "p90", 9.0)));
            q.set("spread", JSON.valueToTree(Map.of("cost", band(400), "price", band(600))));
            q.put("lossChance", lossChance);
        }
        return read(tree);
    }

    private static Map<String, Object> band(double middle) {
        return Map.of(
                "mean",
                eur(middle * 1.05),
                "p10",
                eur(middle * 0.7),
                "p50",
                eur(middle),
                "p65",
                eur(middle * 1.1),
                "p80",
                eur(middle * 1.3),
                "p90",
                eur(middle * 1.5));
    }

    private static Map<String, String> eur(double amount) {
        return Map.of(
                "amount", String.format(java.util.Locale.ROOT, "%.2f", amount), "currency", "EUR");
    }

    static Estimate driven(int drivers, String first) {
        ObjectNode tree = JSON.valueToTree(spread(0.07));
        ArrayNode list = tree.putArray("drivers");
        for (int i = 0; i < drivers; i++) {
            list.add(
                    JSON.valueToTree(
                            Map.of(
                                    "parameter",
                                    i == 0 ? first : "standard " + i,
                                    "lowHours",
                                    4 + 0.1 * i,
                                    "highHours",
                                    8 - 0.1 * i,
                                    "lowCost",
                                    eur(300),
                                    "highCost",
                                    eur(500))));
        }
        return read(tree);
    }

    private static Estimate read(ObjectNode tree) {
        return JSON.treeToValue(tree, Estimate.class);
    }
}
