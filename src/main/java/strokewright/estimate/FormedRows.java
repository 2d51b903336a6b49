package strokewright.estimate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.forming.FormingFormula;
import strokewright.forming.PassCourse;
import strokewright.forming.PassPlan;
import strokewright.quantity.Why;
import strokewright.quantity.Why.Input;

/**
 * The rows of one edge, rim, crown or stretch of an outline, and how the passes of the most worked
 * one go. Read from the line's own reasons, so that it shows what was reckoned, whatever the shop
 * book says today.
 *
 * @param stretch of an outline that the rows belong to; null for what is no stretch
 * @param rows outermost last
 * @param course of the outermost row; null where nothing has to be put in, and beyond {@link
 *     PassPlan#MOST_PASSES} passes
 * @param correctionPasses on the outermost row, after all others
 */
public record FormedRows(
        Place place,
        Estimate.@Nullable Stretched stretch,
        List<Row> rows,
        @Nullable PassCourse course,
        int correctionPasses) {

    public FormedRows {
        rows = List.copyOf(rows);
    }

    /** What the rows belong to. */
    public enum Place {
        EDGE,
        RIM,
        CROWN,
        STRETCH
    }

    /**
     * One row.
     *
     * @param fromEdgeMm along the sheet from the outermost row inwards; null for a crown, which is
     *     worked as one area
     * @param cycles its passes from one anneal to the next; empty where it has none
     */
    public record Row(
            @Nullable Double fromEdgeMm, double strain, int passes, List<Integer> cycles) {

        public Row {
            cycles = List.copyOf(cycles);
        }
    }

    /**
     * In the order in which they are worked, for an outline that of {@link
     * Estimate.Outlined#stretches}; empty for work that puts no strain in.
     */
    public static List<FormedRows> of(Estimate.Line line) {
        Reading reading = new Reading(line);
        line.why().forEach(reading::next);
        reading.close();
        return reading.found;
    }

    /** Strains of all rows of a place stand together, their passes follow in the same order. */
    private static final class Reading {
        final List<FormedRows> found = new ArrayList<>();

        private final Estimate.Line line;
        private final List<Why> strains = new ArrayList<>();
        private final List<Why> passes = new ArrayList<>();
        private @Nullable PassCourse course;
        private boolean crown;
        private boolean amongStrains;
        private @Nullable Why firstCycle;
        private @Nullable Why furtherCycle;

        Reading(Estimate.Line line) {
            this.line = line;
        }

        void next(Why why) {
            switch (why.figure()) {
                case "strains" -> strain(why);
                case "rowLengthMm" -> {
                    // stands between the strains of two rows
                }
                case "crown.strain" -> {
                    amongStrains = false;
                    strain(why);
                    crown = true;
                    amongStrains = false;
                }
                case "firstCyclePasses" -> firstCycle = why;
                case "furtherCyclePasses" -> furtherCycle = why;
                case "passes", "crown.passes" -> {
                    amongStrains = false;
                    passes.add(why);
                    course = course(why);
                }
                default -> amongStrains = false;
            }
        }

        private void strain(Why why) {
            if (!amongStrains) {
                close();
            }
            strains.add(why);
            amongStrains = true;
        }

        void close() {
            if (!strains.isEmpty()) {
                found.add(new FormedRows(place(), stretch(), rows(), course, corrections()));
            }
            strains.clear();
            passes.clear();
            course = null;
            crown = false;
            amongStrains = false;
        }

        private Place place() {
            if (crown) {
                return Place.CROWN;
            }
            if (line.outline() != null) {
                return Place.STRETCH;
            }
            return line.rimShare() != null ? Place.RIM : Place.EDGE;
        }

        /** The outline has its stretches in the order in which they are worked. */
        private Estimate.@Nullable Stretched stretch() {
            return line.outline() == null ? null : line.outline().stretches().get(found.size());
        }

        private int corrections() {
            return crown || line.correctionPasses() == null ? 0 : line.correctionPasses();
        }

        /** Inner rows may have too little strain for a pass, and no reason for their none. */
        private List<Row> rows() {
            List<Row> rows = new ArrayList<>();
            int without = strains.size() - passes.size();
            double edge = height(strains.get(strains.size() - 1));
            for (int i = 0; i < strains.size(); i++) {
                List<Integer> cycles = i < without ? List.of() : cycles(passes.get(i - without));
                rows.add(
                        new Row(
                                crown ? null : edge - height(strains.get(i)),
                                strains.get(i).value(),
                                i < without ? 0 : (int) passes.get(i - without).value(),
                                cycles));
            }
            return rows;
        }

        private static List<Integer> cycles(Why passes) {
            if (!passes.formula().equals(FormingFormula.CYCLE_PASSES.code())) {
                return List.of((int) passes.value());
            }
            List<Integer> cycles = new ArrayList<>(List.of((int) passes.inputs().get(0).value()));
            int further = (int) passes.inputs().get(2).value();
            cycles.addAll(Collections.nCopies((int) passes.inputs().get(1).value(), further));
            return cycles;
        }

        /** Every strain along an edge is judged at a height or at an arc, its first such input. */
        private static double height(Why strain) {
            return strain.inputs().stream()
                    .filter(i -> i.name().equals("y") || i.name().equals("u"))
                    .findFirst()
                    .map(Input::value)
                    .orElse(0.0);
        }

        private @Nullable PassCourse course(Why passes) {
            if (passes.value() > PassPlan.MOST_PASSES) {
                return null;
            }
            if (!passes.formula().equals(FormingFormula.CYCLE_PASSES.code())) {
                return new PassCourse(List.of(cycle(0, passes)));
            }
            int anneals = (int) passes.inputs().get(1).value();
            List<PassCourse.Cycle> cycles = new ArrayList<>();
            double reached = 0;
            for (int i = 0; i <= anneals; i++) {
                Why counted = i == 0 ? firstCycle : furtherCycle;
                cycles.add(cycle(reached, counted));
                reached += counted.inputs().get(0).value();
            }
            return new PassCourse(cycles);
        }

        private static PassCourse.Cycle cycle(double start, Why counted) {
            return PassCourse.Cycle.counted(
                    start,
                    formula(counted.formula()).orElseThrow(),
                    counted.inputs().stream().mapToDouble(Input::value).toArray());
        }

        private static Optional<FormingFormula> formula(String code) {
            return Formulas.named(code)
                    .filter(FormingFormula.class::isInstance)
                    .map(FormingFormula.class::cast);
        }
    }
}
