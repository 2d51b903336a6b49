package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Edge;
import strokewright.estimate.TakeOff.Extra;
import strokewright.estimate.TakeOff.ExtraKind;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Per;
import strokewright.estimate.TakeOff.Supply;
import strokewright.quantity.Money;

/** Usable take-offs for the shop of the worked examples, the same for the same seed. */
final class RandomTakeOffs {

    private final SplittableRandom random;
    private final boolean folded;

    RandomTakeOffs(long seed) {
        this(seed, false);
    }

    private RandomTakeOffs(long seed, boolean folded) {
        this.random = new SplittableRandom(seed);
        this.folded = folded;
    }

    /** Some of their parts are folded, with or without a blank. */
    static RandomTakeOffs withFolds(long seed) {
        return new RandomTakeOffs(seed, true);
    }

    TakeOff next() {
        List<Part> parts = new ArrayList<>();
        for (int i = random.nextInt(1, 4); i > 0; i--) {
            parts.add(part("Part " + i));
        }
        List<Integer> quantities = new ArrayList<>();
        int quantity = 0;
        for (int i = random.nextInt(1, 5); i > 0; i--) {
            quantity += random.nextInt(1, 30);
            quantities.add(quantity);
        }
        return new TakeOff(
                "Seeded",
                null,
                quantities,
                null,
                random.nextInt(0, 20),
                parts,
                List.of(new Operation.Standard("Weld", size(0.1, 3))),
                List.of(
                        new Extra(
                                "Powder coat",
                                random.nextBoolean() ? Per.ORDER : Per.PIECE,
                                ExtraKind.BOUGHT_OUT,
                                Money.of("85.35", "EUR"),
                                null,
                                null,
                                null),
                        new Extra(
                                "Press tool",
                                Per.ORDER,
                                ExtraKind.TOOLING,
                                Money.of("211.90", "EUR"),
                                random.nextBoolean() ? null : random.nextInt(1, 40),
                                random.nextBoolean() ? null : random.nextInt(0, 60),
                                null)),
                null,
                List.of(),
                List.of(),
                null);
    }

    private Part part(String name) {
        List<Operation> work = new ArrayList<>();
        work.add(new Operation.Standard("Cut", (double) random.nextInt(1, 5)));
        work.add(new Operation.Standard("Template", 1.0));
        for (int i = random.nextInt(1, 5); i > 0; i--) {
            work.add(operation());
        }
        String grade = pick("al", "half", "steel", "304", "5xxx", "zinc");
        TakeOff.Fold fold = fold();
        return new Part(
                name,
                random.nextInt(1, 4),
                grade,
                size(0.6, 3),
                random.nextBoolean() ? size(0.2, 30) : null,
                fold != null && random.nextBoolean()
                        ? null
                        : new Blank(size(200, 2500), size(50, 900)),
                null,
                random.nextBoolean() ? Edge.DRESSED : Edge.SHEARED,
                random.nextBoolean() ? size(0.3, 4) : null,
                null,
                random.nextInt(5) == 0 ? Supply.CUSTOMER : Supply.SHOP,
                null,
                work,
                fold,
                null,
                null,
                List.of(),
                null);
    }

    /** One part in four, with legs that hold their bends. */
    private TakeOff.@Nullable Fold fold() {
        if (!folded || random.nextInt(4) > 0) {
            return null;
        }
        List<Double> legs = new ArrayList<>(List.of(size(60, 300)));
        List<TakeOff.FoldBend> bends = new ArrayList<>();
        for (int i = random.nextInt(1, 5); i > 0; i--) {
            bends.add(new TakeOff.FoldBend(size(0, 180), size(0, 12), null));
            legs.add(size(60, 300));
        }
        return new TakeOff.Fold(size(200, 2500), legs, bends);
    }

    Operation.Formed operation() {
        Sense sense = random.nextBoolean() ? Sense.SHRINK : Sense.STRETCH;
        double radius = size(80, 2000);
        Integer count = random.nextInt(1, 4);
        return switch (random.nextInt(6)) {
            case 0 ->
                    new Operation.CurveEdge(
                            sense,
                            size(200, 3000),
                            radius,
                            random.nextInt(3) == 0 ? radius * size(1, 5) : null,
                            size(8, 60),
                            count,
                            null,
                            pick("soft", "steel", null),
                            null);
            case 1 ->
                    new Operation.TurnFlange(
                            sense,
                            radius,
                            size(8, 60),
                            size(10, 90),
                            size(20, 360),
                            count,
                            null,
                            null,
                            null);
            case 2 ->
                    new Operation.Dish(
                            radius,
                            radius * size(0.05, 0.5),
                            null,
                            5.0,
                            count,
                            null,
                            null,
                            null,
                            null);
            case 3 -> new Operation.Smooth(size(5e3, 1e6), 2, count, null, null, null);
            case 4 ->
                    new Operation.TakeOutDents(
                            random.nextInt(1, 20), null, count, null, null, null);
            default ->
                    new Operation.CurveEdge(
                            sense,
                            size(200, 3000),
                            radius,
                            null,
                            size(8, 60),
                            count,
                            null,
                            null,
                            null);
        };
    }

    private double size(double low, double high) {
        return random.nextDouble(low, high);
    }

    private String pick(String... names) {
        return names[random.nextInt(names.length)];
    }
}
