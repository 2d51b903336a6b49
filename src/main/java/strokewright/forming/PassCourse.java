package strokewright.forming;

import java.util.ArrayList;
import java.util.List;

/**
 * How the strain of one row grows from pass to pass: a pass before the last puts in all that it
 * can, the last what is left. An anneal lies between two cycles; after it the metal is as soft as
 * its annealed proof stress says.
 */
public record PassCourse(List<Cycle> cycles) {

    public PassCourse {
        cycles = List.copyOf(cycles);
    }

    /** What holds a pass back. */
    public enum Held {
        /** The bite from end to end. */
        BITE,
        /** The work of the strokes from end to end. */
        STROKE_WORK,
        /** The bite at its beginning, the work of the strokes at its end. */
        BOTH,
        /** A strain per pass that the shop states for the metal. */
        STATED
    }

    /**
     * One pass.
     *
     * @param from strain of the row before it, counted from the first cycle on
     * @param to strain of the row after it
     */
    public record Pass(double from, double to, Held held) {}

    /**
     * The passes from one anneal to the next; none where the metal takes no strain as delivered.
     */
    public record Cycle(List<Pass> passes) {

        public Cycle {
            passes = List.copyOf(passes);
        }

        /**
         * The cycle whose passes {@link FormingFormula#PASS_COUNT} or {@link
         * FormingFormula#PASS_COUNT_BY_STRAIN} counts from these inputs.
         *
         * @param start strain of the row before the cycle
         * @throws IllegalArgumentException for another formula, or for more passes than any work
         *     has
         */
        public static Cycle counted(double start, FormingFormula count, double... inputs) {
            double passes = count.apply(inputs);
            if (!(passes <= PassPlan.MOST_PASSES)) {
                throw new IllegalArgumentException(passes + " passes");
            }
            return switch (count) {
                case PASS_COUNT -> held(start, (int) passes, inputs);
                case PASS_COUNT_BY_STRAIN -> stated(start, (int) passes, inputs);
                default -> throw new IllegalArgumentException(count + " counts no passes");
            };
        }

        private static Cycle held(double start, int count, double[] x) {
            double strain = x[0];
            double parting = Passes.heldByBite(strain, x[1], x[2], x[3], x[4], x[5], x[6]);
            List<Pass> passes = new ArrayList<>();
            double reached = 0;
            for (int i = 1; i <= count; i++) {
                double next =
                        i == count
                                ? strain
                                : Passes.strainAfter(i, x[1], x[2], x[3], x[4], x[5], x[6]);
                Held held =
                        next <= parting
                                ? Held.BITE
                                : reached >= parting ? Held.STROKE_WORK : Held.BOTH;
                passes.add(new Pass(start + reached, start + next, held));
                reached = next;
            }
            return new Cycle(passes);
        }

        private static Cycle stated(double start, int count, double[] x) {
            List<Pass> passes = new ArrayList<>();
            for (int i = 1; i <= count; i++) {
                passes.add(
                        new Pass(
                                start + (i - 1) * x[1],
                                start + (i == count ? x[0] : i * x[1]),
                                Held.STATED));
            }
            return new Cycle(passes);
        }
    }

    public int passes() {
        return cycles.stream().mapToInt(c -> c.passes().size()).sum();
    }

    public int anneals() {
        return cycles.size() - 1;
    }
}
