package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.HandlingClass;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.PassLimit;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.TakeOff.Edge;
import strokewright.estimate.TakeOff.Part;
import strokewright.forming.FormingFormula;
import strokewright.forming.Metal;
import strokewright.forming.Pace;
import strokewright.forming.Setting;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;
import strokewright.sheet.Mass;

/** One part at one machine: everything that its forming operations share. */
record Bench(ShopBook book, Part part, Grade grade, Metal metal, Machine machine) {

    static Bench of(ShopBook book, Part part, Machine machine) {
        Grade grade = book.grade(part.grade()).orElseThrow();
        return new Bench(book, part, grade, grade.metal(origin(book, grade.origin())), machine);
    }

    static String origin(ShopBook book, @Nullable String origin) {
        String edition = book.edition() == null ? "shop book" : "shop book " + book.edition();
        return origin == null || origin.isBlank() ? edition : edition + ", " + origin;
    }

    Input ofTool(Tool tool, String name, double value, String unit) {
        return new Input(name, value, unit, origin(book, tool.origin()));
    }

    Input ofMachine(String name, double value, String unit) {
        return new Input(name, value, unit, origin(book, machine.origin()));
    }

    Input ofTimes(String name, double value, String unit) {
        return new Input(name, value, unit, origin(book, book.times().origin()));
    }

    double thicknessMm() {
        return part.thicknessMm();
    }

    Input thickness() {
        return part.thickness("t");
    }

    /** Mass as handled. */
    double massKg() {
        return part.massKg() != null ? part.massKg() : blankMassKg(book, part);
    }

    /** Mass of the sheet that is bought. */
    static double blankMassKg(ShopBook book, Part part) {
        double density = book.grade(part.grade()).orElseThrow().densityKgM3();
        return part.blank() == null
                ? part.massKg()
                : Mass.kg(part.blank().areaMm2(), part.thicknessMm(), density);
    }

    HandlingClass handling() {
        double area = part.blank() == null ? 0 : part.blank().areaMm2() * 1e-6;
        double length = part.blank() == null ? 0 : part.blank().longerMm();
        List<HandlingClass> classes = book.times().handling();
        return classes.stream()
                .filter(c -> stays(massKg(), c.upToKg()))
                .filter(c -> stays(area, c.upToAreaM2()))
                .filter(c -> stays(length, c.upToLengthMm()))
                .findFirst()
                .orElseGet(() -> classes.get(classes.size() - 1));
    }

    private static boolean stays(double value, @Nullable Double limit) {
        return limit == null || value <= limit;
    }

    /** By the gap that the template may show. */
    int correctionPasses(Working working) {
        List<Input> inputs = new ArrayList<>();
        inputs.add(
                part.templateGapMm() == null
                        ? ofTimes("template gap", book.times().templateGapMm(), "mm")
                        : Input.drawing("template gap", part.templateGapMm(), "mm"));
        for (ShopBook.Correction line : book.times().corrections()) {
            inputs.add(ofTimes("gap from", line.gapFromMm(), "mm"));
            inputs.add(ofTimes("passes", line.passes(), ""));
        }
        return (int)
                working.figure(
                        "correctionPasses",
                        FormingFormula.CORRECTION_PASSES,
                        inputs.toArray(Input[]::new));
    }

    Input fewestStations() {
        return ofTimes("fewest", book.times().areaStationsAtLeast(), "");
    }

    Input areaStation() {
        return ofTimes("station", book.times().areaStationMm(), "mm");
    }

    /** Null when the grade states none and has no n to tell it from. */
    @Nullable Input shrinkLimit() {
        return grade.shrinkLimit() == null
                ? null
                : metal.figure("shrink limit", grade.shrinkLimit(), "");
    }

    @Nullable Input edgeStretchLimit(Working working) {
        Input limit =
                stretchLimit(
                        "edge stretch limit",
                        grade.edgeStretchLimit(),
                        FormingFormula.EDGE_STRETCH_LIMIT,
                        working);
        if (limit == null || part.edge() != Edge.SHEARED) {
            return limit;
        }
        double sheared =
                working.figure(
                        "edgeStretchLimit",
                        FormingFormula.SHEARED_EDGE_LIMIT,
                        limit,
                        ofTimes("sheared edge", book.times().shearedEdgeFactor(), ""));
        return Input.computed("limit", sheared, "");
    }

    @Nullable Input areaStretchLimit(Working working) {
        return stretchLimit(
                "area stretch limit",
                grade.areaStretchLimit(),
                FormingFormula.AREA_STRETCH_LIMIT,
                working);
    }

    private @Nullable Input stretchLimit(
            String name, @Nullable Double stated, FormingFormula otherwise, Working working) {
        if (stated != null) {
            return metal.figure(name, stated, "");
        }
        if (grade.hardeningExponent() == null) {
            return null;
        }
        double limit =
                working.figure(name, otherwise, metal.figure("n", grade.hardeningExponent(), ""));
        return Input.computed(name, limit, "");
    }

    /** What one pass of this tool can do here: at an edge by the jaw, on an area by the row. */
    Setting setting(Tool tool, double widthMm, boolean shrinking, Working working) {
        PassLimit limit = limit(tool);
        boolean ownBite = limit == null || limit.biteStrain() == null;
        Input bite =
                ownBite
                        ? ofTool(tool, "tool's bite", tool.biteStrain(), "")
                        : new Input("b", limit.biteStrain(), "", origin(book, limit.origin()));
        Input family =
                ownBite
                        ? new Input(
                                "family factor",
                                book.familyBite().getOrDefault(grade.family(), 1.0),
                                "",
                                origin(book, "assumed"))
                        : null;
        return Setting.of(
                bite,
                family,
                shrinking ? thickness() : null,
                ofTimes("thin-sheet limit", book.times().thinSheetMm(), "mm"),
                strokeWork(limit, working),
                ofTool(tool, "pitch", tool.pitchMm(), "mm"),
                ofTool(tool, "width", widthMm, "mm"),
                working);
    }

    private @Nullable PassLimit limit(Tool tool) {
        return book.passLimit(tool.name(), grade.family()).orElse(null);
    }

    private Input strokeWork(@Nullable PassLimit limit, Working working) {
        if (limit != null && limit.strokeWorkJ() != null) {
            return new Input("E", limit.strokeWorkJ(), "J", origin(book, limit.origin()));
        }
        if (machine.strokeWorkJ() != null) {
            return ofMachine("E", machine.strokeWorkJ(), "J");
        }
        double rated =
                working.figure(
                        "strokeWorkJ",
                        FormingFormula.RATED_STROKE_WORK,
                        ofMachine("rated thickness", machine.ratedThicknessMm(), "mm"));
        return Input.computed("E", rated, "J");
    }

    Pace pace(Tool tool, Working working) {
        double own =
                tool.strokesPerMinute() == null
                        ? machine.strokesPerMinute()
                        : tool.strokesPerMinute();
        return new Pace(
                Pace.rate(
                        ofTool(tool, "tool's rate", own, "1/min"),
                        ofMachine("machine's rate", machine.strokesPerMinute(), "1/min"),
                        working),
                feedEfficiency(tool),
                ofTimes("pick-up", handling().seconds(), "s"),
                ofTimes("k", book.times().checkEveryPasses(), ""),
                ofTimes("station", book.times().stationSeconds(), "s"));
    }

    private Input feedEfficiency(Tool tool) {
        PassLimit limit = limit(tool);
        return limit == null || limit.feedEfficiency() == null
                ? ofMachine("η", machine.feedEfficiency(), "")
                : new Input("η", limit.feedEfficiency(), "", origin(book, limit.origin()));
    }
}
