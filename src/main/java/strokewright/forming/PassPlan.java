package strokewright.forming;

import static strokewright.forming.FormingFormula.*;
import static strokewright.quantity.Why.Input.computed;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * The passes of every row, and the anneals between them. All rows share the cycles of the most
 * strained row, in proportion to their strain; whatever the first cycle cannot take is shared
 * equally over the fewest further ones.
 *
 * @param strains true strain of each row, most strained last
 * @param passes passes of each row, correction passes not among them
 * @param anneals how many cycles follow the first
 * @param firstCycleShare share of every strain that the first cycle puts in
 * @param furtherCycleShare share of every strain that each further cycle puts in
 * @param firstCycleRoom strain that the metal takes as delivered; infinite without a limit
 */
public record PassPlan(
        List<Double> strains,
        List<Integer> passes,
        int anneals,
        double firstCycleRoom,
        double firstCycleShare,
        double furtherCycleShare) {

    /** With less strain a row needs no pass. */
    public static final double NOT_WORTH_A_PASS = 0.0005;

    /** More passes than any work has; callers refuse beyond it. */
    public static final int MOST_PASSES = 100_000;

    /**
     * @param figure name of the passes in the trace
     * @param strains of the rows, most strained last
     * @param limit true strain that one cycle can take; null without one
     * @param stretching sheet delivered hard tears early when stretched
     */
    public static PassPlan of(
            String figure,
            List<Double> strains,
            Metal metal,
            @Nullable Input limit,
            boolean stretching,
            Setting setting,
            Input thickness,
            Working working) {
        double most = strains.get(strains.size() - 1);
        double room =
                limit == null ? Double.POSITIVE_INFINITY : room(metal, limit, stretching, working);
        double first = Math.min(most, room);
        int anneals = 0;
        if (limit != null && most > room) {
            working.figure(
                    "firstCycleStrain",
                    FIRST_CYCLE,
                    computed("ε", most, ""),
                    computed("room", room, ""));
            anneals =
                    (int)
                            Math.min(
                                    MOST_PASSES,
                                    working.figure(
                                            "anneals",
                                            ANNEALS,
                                            computed("ε", most, ""),
                                            computed("first cycle", first, ""),
                                            limit));
        }
        double further = anneals == 0 ? 0 : (most - first) / anneals;
        Cycles cycles = new Cycles(most, anneals == 0 ? most : first, further, anneals);
        List<Integer> passes = new ArrayList<>();
        for (double strain : strains) {
            passes.add(
                    (int)
                            Math.min(
                                    MOST_PASSES + 1.0,
                                    ofRow(
                                            figure, strain, cycles, metal, setting, thickness,
                                            working)));
        }
        return new PassPlan(
                List.copyOf(strains),
                List.copyOf(passes),
                anneals,
                room,
                most > 0 ? cycles.first / most : 1,
                most > 0 ? cycles.further / most : 0);
    }

    /** Strain that the metal takes as delivered, as in {@link #firstCycleRoom}. */
    public static double roomAsDelivered(Metal metal, @Nullable Input limit, boolean stretching) {
        return limit == null
                ? Double.POSITIVE_INFINITY
                : room(metal, limit, stretching, new Working());
    }

    public int total() {
        return (int) Math.min(Integer.MAX_VALUE, passes.stream().mapToLong(p -> p).sum());
    }

    public int most() {
        return passes.stream().mapToInt(p -> p).max().orElse(0);
    }

    private record Cycles(double most, double first, double further, int anneals) {}

    /** True strain that the metal takes as delivered, before it needs an anneal. */
    public static double room(Metal metal, Input limit, boolean stretching, Working working) {
        double prior = metal.priorStrain();
        if (metal.strainPerPass() == null) {
            working.figure(
                    "priorStrain",
                    PRIOR_STRAIN,
                    computed("ε₀", metal.offset(), ""),
                    computed("ε₀ annealed", metal.annealedOffset(), ""));
        }
        double room = working.figure("cycleRoom", CYCLE_ROOM, limit, computed("prior", prior, ""));
        if (stretching && prior > Metal.DELIVERED_HARD && metal.elongationPercent() != null) {
            double hard =
                    working.figure(
                            "hardSheetLimit",
                            HARD_SHEET_STRETCH_LIMIT,
                            metal.figure("A", metal.elongationPercent(), "%"));
            room =
                    working.figure(
                            "cycleRoom",
                            CYCLE_ROOM_HARD,
                            computed("room", room, ""),
                            computed("limit of hard sheet", hard, ""));
        }
        return room;
    }

    private static double ofRow(
            String figure,
            double strain,
            Cycles cycles,
            Metal metal,
            Setting setting,
            Input thickness,
            Working working) {
        if (strain < NOT_WORTH_A_PASS) {
            return 0;
        }
        if (cycles.anneals == 0) {
            return ofCycle(figure, strain, metal.offset(), metal, setting, thickness, working);
        }
        double first =
                ofCycle(
                        "firstCyclePasses",
                        share(strain, cycles.first, cycles.most, working),
                        metal.offset(),
                        metal,
                        setting,
                        thickness,
                        working);
        double further =
                ofCycle(
                        "furtherCyclePasses",
                        share(strain, cycles.further, cycles.most, working),
                        metal.annealedOffset(),
                        metal,
                        setting,
                        thickness,
                        working);
        return working.figure(
                figure,
                CYCLE_PASSES,
                computed("first cycle", first, ""),
                computed("anneals", cycles.anneals, ""),
                computed("further cycle", further, ""));
    }

    private static double share(double strain, double cycle, double most, Working working) {
        return working.figure(
                "cycleStrain",
                SHARE_OF_CYCLE,
                computed("ε", strain, ""),
                computed("cycle", cycle, ""),
                computed("ε of the most strained row", most, ""));
    }

    private static double ofCycle(
            String figure,
            double strain,
            double offset,
            Metal metal,
            Setting setting,
            Input thickness,
            Working working) {
        if (metal.strainPerPass() != null) {
            return working.figure(
                    figure,
                    PASS_COUNT_BY_STRAIN,
                    computed("strain", strain, ""),
                    metal.figure("strain per pass", metal.strainPerPass(), ""));
        }
        return working.figure(
                figure,
                PASS_COUNT,
                computed("strain", strain, ""),
                computed("ε₀", offset, ""),
                metal.k(),
                metal.n(),
                thickness,
                computed("W", setting.workPerAreaNmm(), "N/mm"),
                computed("b", setting.biteStrain(), ""));
    }
}
