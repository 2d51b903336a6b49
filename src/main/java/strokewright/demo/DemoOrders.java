package strokewright.demo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import strokewright.access.Documents;
import strokewright.estimate.TakeOff;
import strokewright.quote.Outcome;

/**
 * What the invented shop was asked for over 18 months, made from a seed: some sixty orders that
 * became jobs, and the quotes that became nothing. Nothing of it happened anywhere.
 */
final class DemoOrders {

    static final long SEED = 20_260_301;

    /** About 18 months. */
    static final int FIRST_DAYS_AGO = 545;

    private static final int WON = 64;
    private static final int LOST = 26;

    /** Those that are on the floor now. */
    private static final int RUNNING = 4;

    private static final List<String> CUSTOMERS =
            List.of(
                    "Fernhill Town Council",
                    "Brindle Bakery",
                    "Tollbridge Motorcycle Restorers",
                    "Harbour Theatre Workshop",
                    "Overmoor Lighting");

    private final SplittableRandom random = new SplittableRandom(SEED);
    private final Documents documents;

    private DemoOrders(Documents documents) {
        this.documents = documents;
    }

    /** What becomes of an inquiry. */
    enum Fate {
        MADE,
        IN_WORK,
        DECLINED,
        LAPSED,
        WITHDRAWN
    }

    /**
     * @param daysAgo when it was asked for
     * @param reason why it was declined
     */
    record Inquiry(
            int daysAgo,
            String customer,
            TakeOff takeOff,
            Fate fate,
            Outcome.@Nullable Reason reason,
            long seed) {}

    /** The oldest first. */
    static List<Inquiry> ofTheShop(Documents documents) {
        return new DemoOrders(documents).all();
    }

    private List<Inquiry> all() {
        List<Inquiry> all = new ArrayList<>();
        int made = WON - RUNNING;
        for (int i = 0; i < made; i++) {
            all.add(inquiry(daysAgo(i, made, 30), Fate.MADE, null));
        }
        for (int i = 0; i < RUNNING; i++) {
            all.add(inquiry(24 - 4 * i, Fate.IN_WORK, null));
        }
        Outcome.Reason[] reasons = Outcome.Reason.values();
        for (int i = 0; i < LOST; i++) {
            Fate fate = i % 13 == 5 ? Fate.WITHDRAWN : i % 3 == 1 ? Fate.LAPSED : Fate.DECLINED;
            all.add(
                    inquiry(
                            daysAgo(i, LOST, 50),
                            fate,
                            fate == Fate.DECLINED
                                    ? reasons[i % 2 == 0 ? 0 : random.nextInt(reasons.length)]
                                    : null));
        }
        all.sort(Comparator.comparingInt(Inquiry::daysAgo).reversed());
        return all;
    }

    /** Spread evenly, with some unrest. */
    private int daysAgo(int i, int of, int last) {
        double step = (FIRST_DAYS_AGO - last) / (double) of;
        return (int) (FIRST_DAYS_AGO - step * (i + random.nextDouble()));
    }

    private Inquiry inquiry(int daysAgo, Fate fate, Outcome.@Nullable Reason reason) {
        return new Inquiry(
                daysAgo,
                CUSTOMERS.get(random.nextInt(CUSTOMERS.size())),
                documents.read(takeOff(), TakeOff.class),
                fate,
                reason,
                random.nextLong());
    }

    private String takeOff() {
        return switch (random.nextInt(9)) {
            case 0 -> signFrame();
            case 1 -> bowl();
            case 2 -> wingPanel();
            case 3, 7, 8 -> counterEdge();
            case 4 -> corniceStrip();
            case 5 -> flangedDisc();
            default -> lampShade();
        };
    }

    private String signFrame() {
        int radius = between(200, 450, 10);
        int length = (int) Math.round(2 * Math.PI * radius);
        return item(
                "Sign frame, radius " + radius,
                between(1, 3, 1),
                part(
                        "Rim",
                        2,
                        oneOf("AL99.5-O", "ALMG3-O", "AL99.5-O"),
                        oneOf(1.5, 2.0),
                        length + 60,
                        90,
                        "{\"type\":\"curve-edge\",\"sense\":\"shrink\",\"lengthMm\":%d,\"radiusMm\":%d,\"heightMm\":%d}"
                                .formatted(length, radius, between(30, 40, 5))),
                "{\"type\":\"standard\",\"standard\":\"TIG weld\",\"amount\":"
                        + metres(length * 2)
                        + "}",
                "{\"name\":\"Powder coat\",\"per\":\"order\",\"kind\":\"bought-out\",\"cost\":{\"amount\":\"%d.00\",\"currency\":\"EUR\"}}"
                        .formatted(between(60, 120, 5)));
    }

    private String bowl() {
        int diameter = between(220, 420, 10);
        return item(
                "Bowl, diameter " + diameter,
                between(1, 6, 1),
                part(
                        "Bowl",
                        1,
                        oneOf("CU-DHP-R220", "AL99.5-O", "X5CRNI18-10", "CUZN30"),
                        oneOf(1.0, 1.2, 1.5),
                        diameter + 45,
                        diameter + 45,
                        "{\"type\":\"dish\",\"diameterMm\":%d,\"depthMm\":%d,\"trimMm\":8},"
                                        .formatted(diameter, diameter / 5)
                                + "{\"type\":\"smooth\",\"areaMm2\":%d,\"timesOver\":2}"
                                        .formatted(diameter * diameter)),
                "",
                "");
    }

    private String wingPanel() {
        int length = between(400, 900, 20);
        int height = between(25, 45, 5);
        return item(
                "Repair panel, " + length + " long",
                between(1, 2, 1),
                part(
                        "Panel",
                        1,
                        oneOf("DC04", "DC04", "AL99.5-O"),
                        oneOf(0.8, 1.0, 1.2),
                        length + 60,
                        320,
                        "{\"type\":\"curve-edge\",\"sense\":\"stretch\",\"lengthMm\":%d,\"radiusMm\":%d,\"heightMm\":%d},"
                                        .formatted(length, between(350, 700, 50), height)
                                + "{\"type\":\"flatten\",\"areaMm2\":%d,\"timesOver\":1},"
                                        .formatted(length * 200)
                                + "{\"type\":\"take-out-dents\",\"spots\":%d,\"strokesPerSpot\":60}"
                                        .formatted(between(4, 14, 1))),
                "",
                "");
    }

    private String counterEdge() {
        int length = between(450, 900, 10);
        int radius = between(240, 420, 20);
        return item(
                "Counter edge, radius " + radius,
                between(2, 10, 1),
                part(
                        "Strip",
                        1,
                        "X5CRNI18-10",
                        1.5,
                        length + 60,
                        85,
                        "{\"type\":\"standard\",\"standard\":\"Fold\",\"amount\":1},"
                                + "{\"type\":\"curve-edge\",\"sense\":\"shrink\",\"lengthMm\":%d,\"radiusMm\":%d,\"heightMm\":30}"
                                        .formatted(length, radius)),
                "",
                "");
    }

    private String corniceStrip() {
        int length = between(900, 1900, 50);
        return item(
                "Cornice, " + length + " long",
                between(1, 5, 1),
                part(
                        "Strip",
                        1,
                        oneOf("ALMG3-O", "DC04", "X5CRNI18-10"),
                        oneOf(1.5, 2.0),
                        length + 80,
                        140,
                        "{\"type\":\"standard\",\"standard\":\"Fold\",\"amount\":2},"
                                + "{\"type\":\"curve-edge\",\"sense\":\"stretch\",\"lengthMm\":%d,\"radiusMm\":%d,\"heightMm\":40}"
                                        .formatted(length, between(900, 2400, 100))),
                "",
                "");
    }

    private String flangedDisc() {
        int radius = between(120, 260, 10);
        return item(
                "Lid with a flange, radius " + radius,
                between(1, 8, 1),
                part(
                        "Lid",
                        1,
                        oneOf("DC04", "AL99.5-O", "CU-DHP-R220"),
                        oneOf(1.0, 1.5),
                        2 * radius + 60,
                        2 * radius + 60,
                        "{\"type\":\"turn-flange\",\"sense\":\"shrink\",\"radiusMm\":%d,\"heightMm\":%d,\"angleDeg\":90,\"sweepDeg\":360}"
                                .formatted(radius, between(12, 20, 2))),
                "",
                "");
    }

    private String lampShade() {
        int diameter = between(260, 380, 10);
        return item(
                "Lamp shade, diameter " + diameter,
                between(2, 8, 1),
                part(
                        "Shade",
                        1,
                        oneOf("AL99.5-O", "CUZN30", "CU-DHP-R220"),
                        oneOf(1.0, 1.2),
                        diameter + 40,
                        diameter + 40,
                        "{\"type\":\"dish\",\"diameterMm\":%d,\"depthMm\":%d,\"trimMm\":6},"
                                        .formatted(diameter, diameter / 6)
                                + "{\"type\":\"smooth\",\"areaMm2\":%d,\"timesOver\":1},"
                                        .formatted(diameter * diameter)
                                + "{\"type\":\"standard\",\"standard\":\"Punch hole\",\"amount\":1}"),
                "",
                "");
    }

    private String item(String title, int quantity, String part, String assembly, String extra) {
        return """
               {"title":"%s","information":"%s","quantities":[%d],"mainQuantity":%d,
                "parts":[%s],"assembly":[%s],"extras":[%s]}
               """
                .formatted(
                        title,
                        oneOf("drawing", "drawing-and-template", "sketch", "photo"),
                        quantity,
                        quantity,
                        part,
                        assembly,
                        extra);
    }

    private static String part(
            String name,
            int perAssembly,
            String grade,
            double thickness,
            int length,
            int width,
            String operations) {
        return """
               {"name":"%s","perAssembly":%d,"grade":"%s","thicknessMm":%s,
                "blank":{"lengthMm":%d,"widthMm":%d},"templateGapMm":2.0,"operations":[%s]}
               """
                .formatted(name, perAssembly, grade, thickness, length, width, operations);
    }

    private static String metres(int mm) {
        return String.format(Locale.ROOT, "%.2f", mm / 1000.0);
    }

    private int between(int low, int high, int step) {
        return low + step * random.nextInt((high - low) / step + 1);
    }

    @SafeVarargs
    private <T> T oneOf(T... choices) {
        return choices[random.nextInt(choices.length)];
    }
}
