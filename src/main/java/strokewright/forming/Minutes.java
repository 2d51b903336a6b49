package strokewright.forming;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;
import static strokewright.quantity.Why.Input.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * Strokes, checks and normal minutes of one stretch of work on one piece.
 *
 * @param pacedMinutes the part of the stroke minutes that the machine alone paces, strokes / rate
 * @param findMinutes to find and feel dents
 * @param effort the same as it changes with bite, stroke work, feed and checks; null of a total
 */
public record Minutes(
        double strokes,
        double strokeMinutes,
        double pacedMinutes,
        double repositionMinutes,
        double checks,
        double checkMinutes,
        double findMinutes,
        @Nullable Effort effort) {

    /** No work at all. */
    public static final Minutes NONE = new Minutes(0, 0, 0, 0, 0, 0, 0, null);

    /**
     * Rows along an edge or a rim, with correction passes on the outermost row, each followed by a
     * check, and tipping passes along the bend line.
     *
     * @param name what the figures are called by in the trace
     */
    public static Minutes alongRows(
            String name,
            List<Row> rows,
            PassPlan plan,
            Metal metal,
            double thicknessMm,
            int correctionPasses,
            int tippingPasses,
            double bendLineMm,
            Input stationLength,
            Setting setting,
            Pace pace,
            Working working) {
        Row outermost = rows.get(rows.size() - 1);
        Input pitch = computed("pitch", setting.pitchMm(), "mm");
        List<Input> strokes = new ArrayList<>();
        List<Double> ofAPass = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            int passes = plan.passes().get(i) + (i == rows.size() - 1 ? correctionPasses : 0);
            strokes.add(rowStrokes(passes, rows.get(i).lengthMm(), pitch, working));
            ofAPass.add(ROW_STROKES.apply(1, rows.get(i).lengthMm(), setting.pitchMm()));
        }
        if (tippingPasses > 0) {
            strokes.add(rowStrokes(tippingPasses, bendLineMm, pitch, working));
        }
        double fixed =
                ROW_STROKES.apply(correctionPasses, outermost.lengthMm(), setting.pitchMm())
                        + ROW_STROKES.apply(tippingPasses, bendLineMm, setting.pitchMm());
        return atAnEdge(
                name,
                strokes,
                plan,
                correctionPasses,
                tippingPasses,
                outermost.lengthMm(),
                stationLength,
                pace,
                stations ->
                        new Effort.Course(plan, metal, setting, thicknessMm)
                                .rows(
                                        ofAPass,
                                        fixed,
                                        correctionPasses + tippingPasses,
                                        correctionPasses,
                                        stations,
                                        pace),
                working);
    }

    /**
     * One stretch of an outline: the rows' strokes follow the strain along it, correction passes
     * run over all that is bent.
     *
     * @param stretch where it is and how it is bent
     * @param heights of the rows, outermost last
     */
    public static Minutes alongStretch(
            String name,
            Stretch stretch,
            List<Double> heights,
            PassPlan plan,
            Metal metal,
            Input thickness,
            int correctionPasses,
            Input stationLength,
            Setting setting,
            Pace pace,
            Working working) {
        Input pitch = computed("pitch", setting.pitchMm(), "mm");
        List<Input> strokes = new ArrayList<>();
        for (double height : heights) {
            double length =
                    OutlinePasses.lengthMm(
                            height, stretch, plan, metal, thickness, setting, working);
            strokes.add(
                    computed(
                            "strokes of a row",
                            working.figure(
                                    "rowStrokes",
                                    OUTLINE_STROKES,
                                    computed("pass length", length, "mm"),
                                    pitch),
                            ""));
        }
        strokes.add(rowStrokes(correctionPasses, stretch.bentMm(), pitch, working));
        double fixed = ROW_STROKES.apply(correctionPasses, stretch.bentMm(), setting.pitchMm());
        return atAnEdge(
                name,
                strokes,
                plan,
                correctionPasses,
                0,
                stretch.lengthMm(),
                stationLength,
                pace,
                stations ->
                        new Effort.Course(plan, metal, setting, thickness.value())
                                .along(
                                        stretch,
                                        heights,
                                        fixed,
                                        correctionPasses,
                                        correctionPasses,
                                        stations,
                                        pace),
                working);
    }

    /** Checks of the most worked row and after corrections, a pick-up for every pass and row. */
    private static Minutes atAnEdge(
            String name,
            List<Input> strokes,
            PassPlan plan,
            int correctionPasses,
            int tippingPasses,
            double lengthMm,
            Input stationLength,
            Pace pace,
            DoubleFunction<Effort> effort,
            Working working) {
        double checks =
                working.figure(
                        name + ".checks",
                        CHECKS,
                        computed("passes of the most worked row", plan.most(), ""),
                        pace.checkEveryPasses(),
                        computed("correction passes", correctionPasses, ""));
        double stations =
                working.figure(
                        name + ".stations",
                        ARC_STATIONS,
                        computed("length", lengthMm, "mm"),
                        stationLength);
        double total =
                working.figure(name + ".strokes", Arithmetic.SUM, strokes.toArray(Input[]::new));
        double pickUps = plan.total() + correctionPasses + tippingPasses;
        return timed(
                name, total, pickUps, checks, stations, 0, pace, effort.apply(stations), working);
    }

    /**
     * Passes over a whole area.
     *
     * @param course what the passes hang on; null where they are given
     * @param fewestStations stations on the smallest area
     * @param areaStation side of the square that one station looks after
     */
    public static Minutes overArea(
            String name,
            Input area,
            int passes,
            Effort.@Nullable Course course,
            Input fewestStations,
            Input areaStation,
            Input pitch,
            Input rowSpacing,
            Pace pace,
            Working working) {
        double strokes =
                working.figure(
                        name + ".strokes",
                        AREA_STROKES,
                        computed("passes", passes, ""),
                        area,
                        pitch,
                        rowSpacing);
        double checks =
                working.figure(
                        name + ".checks",
                        CHECKS,
                        computed("passes", passes, ""),
                        pace.checkEveryPasses(),
                        computed("correction passes", 0, ""));
        double stations =
                working.figure(
                        name + ".stations", AREA_STATIONS, fewestStations, area, areaStation);
        double ofAPass = AREA_STROKES.apply(1, area.value(), pitch.value(), rowSpacing.value());
        Effort effort =
                course == null
                        ? Effort.fixed(strokes, passes, checks, 0, stations, pace)
                        : course.rows(List.of(ofAPass), 0, 0, 0, stations, pace);
        return timed(name, strokes, passes, checks, stations, 0, pace, effort, working);
    }

    /** Dents: each is found and felt, picked up, worked and checked once at one station. */
    public static Minutes atSpots(
            String name,
            int spots,
            int strokesPerSpot,
            Input findSeconds,
            Pace pace,
            Working working) {
        double strokes =
                working.figure(
                        name + ".strokes",
                        SPOT_STROKES,
                        drawing("spots", spots, ""),
                        drawing("strokes each", strokesPerSpot, ""));
        double find =
                working.figure(
                        name + ".findMinutes",
                        FIND_MINUTES,
                        drawing("spots", spots, ""),
                        findSeconds);
        Effort effort = Effort.fixed(strokes, spots, spots, find, 1, pace);
        return timed(name, strokes, spots, spots, 1, find, pace, effort, working);
    }

    public double machineMinutes() {
        return strokeMinutes + repositionMinutes + checkMinutes + findMinutes;
    }

    /** The same work done {@code count} times, in elapsed minutes. */
    public static double elapsed(int count, List<Minutes> stretches) {
        return count * stretches.stream().mapToDouble(Minutes::machineMinutes).sum();
    }

    /** Everything added up and done {@code count} times. */
    public static Minutes total(int count, List<Minutes> stretches, Working working) {
        return new Minutes(
                total("strokes", count, stretches, Minutes::strokes, working),
                total("strokeMinutes", count, stretches, Minutes::strokeMinutes, working),
                total("pacedMinutes", count, stretches, Minutes::pacedMinutes, working),
                total("repositionMinutes", count, stretches, Minutes::repositionMinutes, working),
                total("checks", count, stretches, Minutes::checks, working),
                total("checkMinutes", count, stretches, Minutes::checkMinutes, working),
                total("findMinutes", count, stretches, Minutes::findMinutes, working),
                null);
    }

    private static double total(
            String figure,
            int count,
            List<Minutes> stretches,
            ToDoubleFunction<Minutes> of,
            Working working) {
        Input[] inputs = new Input[stretches.size() + 1];
        inputs[0] = drawing("count", count, "");
        for (int i = 0; i < stretches.size(); i++) {
            inputs[i + 1] = computed(figure, of.applyAsDouble(stretches.get(i)), "");
        }
        return working.figure(figure, Arithmetic.COUNT_TIMES_SUM, inputs);
    }

    private static Input rowStrokes(int passes, double length, Input pitch, Working working) {
        return computed(
                "strokes of a row",
                working.figure(
                        "rowStrokes",
                        ROW_STROKES,
                        computed("passes", passes, ""),
                        computed("length", length, "mm"),
                        pitch),
                "");
    }

    private static Minutes timed(
            String name,
            double strokes,
            double pickUps,
            double checks,
            double stations,
            double findMinutes,
            Pace pace,
            Effort effort,
            Working working) {
        Input total = computed("strokes", strokes, "");
        return new Minutes(
                strokes,
                working.figure(
                        name + ".strokeMinutes",
                        STROKE_MINUTES,
                        total,
                        pace.strokesPerMinute(),
                        pace.feedEfficiency()),
                strokes / pace.strokesPerMinute().value(),
                working.figure(
                        name + ".repositionMinutes",
                        REPOSITION_MINUTES,
                        computed("pick-ups", pickUps, ""),
                        pace.pickUpSeconds()),
                checks,
                working.figure(
                        name + ".checkMinutes",
                        CHECK_MINUTES,
                        computed("checks", checks, ""),
                        computed("stations", stations, ""),
                        pace.stationSeconds()),
                findMinutes,
                effort);
    }
}
