package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate.Bent;
import strokewright.estimate.Estimate.Folded;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Fold;
import strokewright.estimate.TakeOff.Grain;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;

/**
 * What holds a fold back. Each matter is told once for a part, at the bend or leg where it is
 * worst, with what would do there.
 */
final class FoldLimits {

    /** A typed blank is rounded to whole millimetres: down by half of one, up by less than one. */
    private static final double ROUNDED_DOWN_MM = 0.5;

    private static final double ROUNDED_UP_MM = 1;

    /** Far under what can be typed. */
    private static final double NOTHING_MM = 1e-9;

    private final Part part;
    private final String pointer;
    private final ShopBook book;
    private final Fold fold;
    private final Folded folded;
    private final List<Finding> findings = new ArrayList<>();

    private FoldLimits(Part part, String pointer, ShopBook book, Folded folded) {
        this.part = part;
        this.pointer = pointer;
        this.book = book;
        this.fold = part.fold();
        this.folded = folded;
    }

    /**
     * @param part as the take-off has it
     */
    static List<Finding> of(Part part, String pointer, ShopBook book) {
        return Folding.of(part, book)
                .map(folded -> new FoldLimits(part, pointer, book, folded).findings())
                .orElse(List.of());
    }

    private List<Finding> findings() {
        blank();
        kFactors();
        radius();
        force();
        legs(
                "leg-inside-bend",
                Severity.REFUSAL,
                leg -> beside(leg).mapToDouble(b -> bend(b).setbackMm()).sum());
        if (findings.stream().noneMatch(f -> f.code().equals("leg-inside-bend"))) {
            legs(
                    "leg-shorter-than-die",
                    Severity.DOUBT,
                    leg -> beside(leg).mapToDouble(b -> bend(b).shortestLegMm()).max().orElse(0));
        }
        length();
        return findings;
    }

    private Bent bend(int index) {
        return folded.bends().get(index);
    }

    /** Bends at the ends of a leg; what stays flat is none. */
    private IntStream beside(int leg) {
        return IntStream.of(leg - 1, leg)
                .filter(b -> b >= 0 && b < folded.bends().size())
                .filter(b -> bend(b).openingDeg() < Folding.FLAT_DEG);
    }

    /** The typed blank stands; what it has more or less than the developed one is told. */
    private void blank() {
        Blank typed = part.blank();
        if (typed == null) {
            return;
        }
        Blank flat = new Blank(folded.lengthMm(), folded.developedMm());
        boolean turned =
                part.grain() == Grain.FREE
                        && shortfall(flat, typed.widthMm(), typed.lengthMm())
                                < shortfall(flat, typed.lengthMm(), typed.widthMm());
        double length = turned ? typed.widthMm() : typed.lengthMm();
        double width = turned ? typed.lengthMm() : typed.widthMm();
        boolean smaller = shortfall(flat, length, width) > ROUNDED_DOWN_MM;
        boolean larger =
                length - flat.lengthMm() >= ROUNDED_UP_MM
                        || width - flat.widthMm() >= ROUNDED_UP_MM;
        if (smaller || larger) {
            find(
                    "blank-not-developed",
                    smaller ? Severity.DOUBT : Severity.NOTE,
                    "/blank",
                    Limits.values(
                            "lengthMm", typed.lengthMm(),
                            "widthMm", typed.widthMm(),
                            "foldLengthMm", flat.lengthMm(),
                            "developedMm", flat.widthMm()),
                    Limits.values("lengthMm", flat.lengthMm(), "widthMm", flat.widthMm()));
        }
    }

    private static double shortfall(Blank flat, double length, double width) {
        return Math.max(flat.lengthMm() - length, flat.widthMm() - width);
    }

    private void kFactors() {
        Bending bending = book.bending();
        String family = book.grade(part.grade()).orElseThrow().family();
        if (bending.method() != Bending.Method.K_FACTOR) {
            return;
        }
        folded.bends().stream()
                .mapToDouble(b -> b.radiusMm() / part.thicknessMm())
                .filter(ratio -> bending.kFactor(family, ratio).isEmpty())
                .findFirst()
                .ifPresent(
                        ratio ->
                                find(
                                        "no-k-factor",
                                        Severity.NOTE,
                                        "/fold",
                                        Limits.values(
                                                "grade", part.grade(), "radiusOfThickness", ratio),
                                        null));
    }

    private void radius() {
        int worst = -1;
        int tight = 0;
        for (int i = 0; i < folded.bends().size(); i++) {
            Bent bend = bend(i);
            if (bend.openingDeg() < Folding.FLAT_DEG
                    && bend.minimumRadiusMm() != null
                    && bend.radiusMm() < bend.minimumRadiusMm() - NOTHING_MM) {
                tight++;
                worst = worst < 0 || bend.radiusMm() < bend(worst).radiusMm() ? i : worst;
            }
        }
        if (tight == 0) {
            return;
        }
        Bent bend = bend(worst);
        boolean stated = book.grade(part.grade()).orElseThrow().minimumBendRadius() != null;
        Map<String, Object> change = Limits.values("radiusMm", bend.minimumRadiusMm());
        if (bend.radiusMm() > 0) {
            change.put(
                    "thicknessMm", part.thicknessMm() * bend.radiusMm() / bend.minimumRadiusMm());
        }
        find(
                "bend-radius-too-small",
                stated ? Severity.REFUSAL : Severity.DOUBT,
                "/fold/bends/" + worst,
                Limits.values(
                        "grade", part.grade(),
                        "thicknessMm", part.thicknessMm(),
                        "radiusMm", bend.radiusMm(),
                        "smallestMm", bend.minimumRadiusMm(),
                        "bends", tight,
                        "grain", part.grain() == Grain.FREE ? "free" : "along-bend",
                        "from", stated ? "grade" : "reduction-of-area"),
                change);
    }

    /** Every bend runs along the whole fold, so all of them take the same. */
    private void force() {
        Double press = book.bending().pressForceKn();
        if (press == null
                || folded.bends().stream().noneMatch(b -> b.openingDeg() < Folding.FLAT_DEG)
                || bend(0).forceKn() <= press * (1 + NOTHING_MM)) {
            return;
        }
        double share = press / bend(0).forceKn();
        find(
                "bend-force-over-press",
                Severity.REFUSAL,
                "/fold/lengthMm",
                Limits.values(
                        "forceKn", bend(0).forceKn(),
                        "pressForceKn", press,
                        "dieOpeningMm", bend(0).dieOpeningMm(),
                        "lengthMm", fold.lengthMm()),
                Limits.values(
                        "lengthMm", fold.lengthMm() * share,
                        "thicknessMm", part.thicknessMm() * share)); // the die is in thicknesses
    }

    private void legs(String code, Severity severity, IntToDoubleFunction atLeast) {
        int worst = -1;
        int count = 0;
        for (int i = 0; i < fold.legsMm().size(); i++) {
            double missing = atLeast.applyAsDouble(i) - fold.legsMm().get(i);
            if (missing > NOTHING_MM) {
                count++;
                worst =
                        worst < 0
                                        || missing
                                                > atLeast.applyAsDouble(worst)
                                                        - fold.legsMm().get(worst)
                                ? i
                                : worst;
            }
        }
        if (count > 0) {
            double least = atLeast.applyAsDouble(worst);
            Map<String, Object> values =
                    Limits.values(
                            "legMm", fold.legsMm().get(worst), "leastMm", least, "legs", count);
            if (code.equals("leg-shorter-than-die")) {
                values.put("dieOpeningMm", bend(0).dieOpeningMm());
            }
            find(code, severity, "/fold/legsMm/" + worst, values, Limits.values("legMm", least));
        }
    }

    private void length() {
        Double longest = book.times().folderLengthMm();
        if (longest != null && fold.lengthMm() > longest) {
            int pieces = (int) Math.ceil(fold.lengthMm() / longest);
            find(
                    "longer-than-folder",
                    Severity.DOUBT,
                    "/fold/lengthMm",
                    Limits.values(
                            "lengthMm",
                            fold.lengthMm(),
                            "longestMm",
                            longest,
                            "pieces",
                            pieces,
                            "joints",
                            pieces - 1),
                    Limits.values("lengthMm", longest));
        }
    }

    private void find(
            String code,
            Severity severity,
            String field,
            Map<String, Object> values,
            @Nullable Map<String, Object> change) {
        findings.add(new Finding(code, severity, pointer + field, values, change));
    }
}
