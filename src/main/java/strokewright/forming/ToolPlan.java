package strokewright.forming;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Tools and order together: which tool does each operation, and in which order the operations of
 * several parts go through one machine, so that working minutes and tool changes take least.
 * Operations of one part keep their order, parts interleave. An operation with A anneals is A + 1
 * visits, all with the same tool.
 *
 * @param steps visits in the order in which they are done
 * @param minutes working minutes and tool changes together
 * @param changes how often a tool is put in, the first one included
 * @param exact false when the plan was made greedily, because there was too much to look through
 */
public record ToolPlan(List<Step> steps, double minutes, int changes, boolean exact) {

    /** Beyond so many states the plan is made greedily. */
    public static final int MOST_STATES = 2_000_000;

    /**
     * One way to do an operation.
     *
     * @param tool index of the tool
     * @param minutes of all its visits together
     */
    public record Option(int tool, double minutes) {}

    /**
     * One operation of a part.
     *
     * @param visits at least one
     */
    public record Work(int visits, List<Option> options) {}

    /** One visit to the machine. */
    public record Step(int part, int operation, int visit, int tool) {}

    /**
     * @param parts the operations of each part, in the order in which they must be done
     * @param mountMinutes to put in and set each tool, by its index
     * @throws IllegalArgumentException if an operation has no option or no visit
     */
    public static ToolPlan of(List<List<Work>> parts, double[] mountMinutes) {
        return of(parts, mountMinutes, MOST_STATES);
    }

    static ToolPlan of(List<List<Work>> parts, double[] mountMinutes, int mostStates) {
        for (List<Work> part : parts) {
            for (Work work : part) {
                if (work.visits() < 1 || work.options().isEmpty()) {
                    throw new IllegalArgumentException("cannot be planned: " + work);
                }
            }
        }
        List<Track> tracks =
                parts.stream()
                        .map(
                                part ->
                                        Track.of(
                                                part.stream()
                                                        .map(w -> worthwhile(w, mountMinutes))
                                                        .toList(),
                                                mountMinutes.length))
                        .toList();
        double states = Search.tools(tracks).length + 1.0;
        for (Track track : tracks) {
            states *= track.size();
        }
        return states <= mostStates
                ? new Search(tracks, mountMinutes).plan()
                : greedily(tracks, mountMinutes);
    }

    /**
     * Without tools that cost more than changing to the quickest one and back: that would always be
     * the better plan.
     */
    private static Work worthwhile(Work work, double[] mount) {
        Option quickest = work.options().get(0);
        for (Option option : work.options()) {
            if (option.minutes() < quickest.minutes()) {
                quickest = option;
            }
        }
        double least = quickest.minutes();
        double toQuickest = mount[quickest.tool()];
        return new Work(
                work.visits(),
                work.options().stream()
                        .filter(
                                o ->
                                        o.minutes() - least < toQuickest + mount[o.tool()]
                                                || o.minutes() == least)
                        .toList());
    }

    /**
     * How far one part has got, as a graph of numbered stands: stand 0 is the start; within an
     * operation of several visits there is a stand for each tool that it may have begun with. Every
     * move leads to a higher stand.
     */
    private static final class Track {

        private final List<List<Move>> moves;
        private final double[] rest;
        private final Move[][] free;

        private record Move(int to, int operation, int visit, int tool, double minutes) {}

        private Track(List<List<Move>> moves, int tools) {
            this.moves = moves;
            this.rest = new double[moves.size()];
            this.free = new Move[moves.size()][tools];
            for (int stand = moves.size() - 2; stand >= 0; stand--) {
                rest[stand] = Double.POSITIVE_INFINITY;
                for (Move move : moves.get(stand)) {
                    rest[stand] = Math.min(rest[stand], move.minutes() + rest[move.to()]);
                }
            }
            for (int stand = 0; stand < moves.size(); stand++) {
                setFree(moves.get(stand), free[stand]);
            }
        }

        /** Of each tool the move that takes as few minutes as any. */
        private static void setFree(List<Move> here, Move[] free) {
            double least = here.stream().mapToDouble(Move::minutes).min().orElse(0);
            for (Move move : here) {
                if (move.minutes() == least && free[move.tool()] == null) {
                    free[move.tool()] = move;
                }
            }
        }

        static Track of(List<Work> works, int tools) {
            List<List<Move>> moves = new ArrayList<>();
            moves.add(new ArrayList<>());
            int done = 0; // the stand at which everything so far is done
            for (int o = 0; o < works.size(); o++) {
                Work work = works.get(o);
                int from = done;
                done = from + 1 + (work.visits() - 1) * work.options().size();
                while (moves.size() <= done) {
                    moves.add(new ArrayList<>());
                }
                for (int i = 0; i < work.options().size(); i++) {
                    Option option = work.options().get(i);
                    double each = option.minutes() / work.visits();
                    int at = from;
                    for (int visit = 0; visit < work.visits(); visit++) {
                        boolean last = visit == work.visits() - 1;
                        int to = last ? done : from + 1 + visit * work.options().size() + i;
                        moves.get(at).add(new Move(to, o, visit, option.tool(), each));
                        at = to;
                    }
                }
            }
            return new Track(moves, tools);
        }

        List<List<Move>> moves() {
            return moves;
        }

        /** Least minutes from each stand to the end, changes aside. */
        double[] rest() {
            return rest;
        }

        int size() {
            return moves.size();
        }

        /**
         * A move that costs no change and no more minutes than any other tool would take: nothing
         * can be gained by putting it off, because a plan without a step never changes tools more
         * often, and further visits of the operation can follow at once. Null where there is none.
         */
        @Nullable Move freely(int stand, int tool) {
            return tool < 0 ? null : free[stand][tool];
        }
    }

    /**
     * Dynamic programming over how far each part has got and the tool in the machine. A greedy plan
     * is the bound: what cannot beat it any more is left alone.
     */
    private static final class Search {

        /** Differences under this are digits lost in adding up, not a better plan. */
        private static final double AS_GOOD = 1e-9;

        private final List<Track> tracks;
        private final double[] mount;
        private final int[] used; // the tools that are left to choose from
        private final int[] number; // their numbers in the states
        private final int tools; // and the empty machine, the last
        private final int[] stride;
        private final double[] least;
        private final int[] cameFrom;
        private final int[] stands; // of the progress that is being looked at
        private final double bound;

        Search(List<Track> tracks, double[] mount) {
            this.tracks = tracks;
            this.mount = mount;
            this.used = tools(tracks);
            this.number = new int[mount.length];
            for (int i = 0; i < used.length; i++) {
                number[used[i]] = i;
            }
            this.tools = used.length + 1;
            this.stride = new int[tracks.size()];
            int states = tools;
            for (int p = 0; p < tracks.size(); p++) {
                stride[p] = states;
                states *= tracks.get(p).size();
            }
            this.least = new double[states];
            this.cameFrom = new int[states];
            this.stands = new int[tracks.size()];
            this.bound = greedily(tracks, mount).minutes() + AS_GOOD;
        }

        static int[] tools(List<Track> tracks) {
            return tracks.stream()
                    .flatMap(t -> t.moves().stream())
                    .flatMap(List::stream)
                    .mapToInt(Track.Move::tool)
                    .distinct()
                    .sorted()
                    .toArray();
        }

        ToolPlan plan() {
            Arrays.fill(least, Double.POSITIVE_INFINITY);
            Arrays.fill(cameFrom, -1);
            least[tools - 1] = 0;
            // Every move raises the stand of one part, hence the progress: one sweep upwards
            // settles all.
            for (int progress = 0; progress < least.length; progress += tools) {
                relax(progress);
                next();
            }
            int end = least.length - tools;
            int best = end;
            for (int tool = 0; tool < tools; tool++) {
                if (least[end + tool] < least[best]) {
                    best = end + tool;
                }
            }
            return walkBack(best);
        }

        /** Counts the stands on, the first part fastest. */
        private void next() {
            for (int p = 0; p < stands.length; p++) {
                if (++stands[p] < tracks.get(p).size()) {
                    return;
                }
                stands[p] = 0;
            }
        }

        private void relax(int progress) {
            double cheapest = Double.POSITIVE_INFINITY;
            for (int t = 0; t < tools; t++) {
                cheapest = Math.min(cheapest, least[progress + t]);
            }
            if (cheapest == Double.POSITIVE_INFINITY) {
                return;
            }
            double rest = 0;
            for (int p = 0; p < stands.length; p++) {
                rest += tracks.get(p).rest()[stands[p]];
            }
            for (int t = 0; t < tools; t++) {
                double minutes = least[progress + t];
                boolean dearerThanChanging =
                        t < used.length && minutes > cheapest + mount[used[t]] + AS_GOOD;
                if (minutes + rest <= bound && !dearerThanChanging) {
                    relax(progress, t);
                }
            }
        }

        private void relax(int progress, int t) {
            int tool = t == used.length ? -1 : used[t];
            for (int p = 0; p < stands.length; p++) {
                Track.Move free = tracks.get(p).freely(stands[p], tool);
                if (free != null) {
                    relax(progress, t, p, free);
                    return;
                }
            }
            for (int p = 0; p < stands.length; p++) {
                List<Track.Move> moves = tracks.get(p).moves().get(stands[p]);
                for (int i = 0; i < moves.size(); i++) {
                    relax(progress, t, p, moves.get(i));
                }
            }
        }

        private void relax(int progress, int t, int p, Track.Move move) {
            int n = number[move.tool()];
            double minutes =
                    least[progress + t] + move.minutes() + (n == t ? 0 : mount[move.tool()]);
            int to = progress + n + (move.to() - stands[p]) * stride[p];
            if (minutes < least[to]) {
                least[to] = minutes;
                cameFrom[to] = progress + t;
            }
        }

        private int stand(int state, int part) {
            return state / stride[part] % tracks.get(part).size();
        }

        private ToolPlan walkBack(int end) {
            List<Step> steps = new ArrayList<>();
            int changes = 0;
            for (int state = end; cameFrom[state] >= 0; state = cameFrom[state]) {
                int before = cameFrom[state];
                steps.add(step(before, state));
                if (before % tools != state % tools) {
                    changes++;
                }
            }
            Collections.reverse(steps);
            return new ToolPlan(List.copyOf(steps), least[end], changes, true);
        }

        private Step step(int before, int after) {
            for (int p = 0; p < tracks.size(); p++) {
                int from = stand(before, p);
                int to = stand(after, p);
                if (from != to) {
                    int part = p;
                    int tool = used[after % tools];
                    return tracks.get(p).moves().get(from).stream()
                            .filter(m -> m.to() == to && m.tool() == tool)
                            .findFirst()
                            .map(m -> new Step(part, m.operation(), m.visit(), tool))
                            .orElseThrow();
                }
            }
            throw new IllegalStateException("no part moved from " + before + " to " + after);
        }
    }

    /**
     * Goes on with the tool in the machine while that is free; then takes the tool with which
     * changing, and slower work than another tool's, costs least for each visit that it does.
     */
    private static ToolPlan greedily(List<Track> tracks, double[] mount) {
        Greedy greedy = new Greedy(tracks, mount);
        while (greedy.goOn()) {
            // until all is done
        }
        return new ToolPlan(List.copyOf(greedy.steps), greedy.minutes, greedy.changes, false);
    }

    /** A plan that is made from step to step. */
    private static final class Greedy {

        private final List<Track> tracks;
        private final double[] mount;
        private final int[] stands;
        private final List<Step> steps = new ArrayList<>();
        private int tool = -1;
        private int changes;
        private double minutes;

        Greedy(List<Track> tracks, double[] mount) {
            this.tracks = tracks;
            this.mount = mount;
            this.stands = new int[tracks.size()];
        }

        /** Does what the best tool can do now; false when all is done. */
        boolean goOn() {
            int best = -1;
            double least = Double.POSITIVE_INFINITY;
            for (int t = 0; t < mount.length; t++) {
                double each = eachWith(t);
                if (each < least) {
                    least = each;
                    best = t;
                }
            }
            if (best < 0) {
                return false;
            }
            if (best != tool) {
                changes++;
                minutes += mount[best];
                tool = best;
            }
            for (int p = 0; p < stands.length; p++) {
                Track.Move move = with(best, p, stands[p]);
                while (move != null) {
                    steps.add(new Step(p, move.operation(), move.visit(), best));
                    minutes += move.minutes();
                    stands[p] = move.to();
                    move = with(best, p, stands[p]);
                }
            }
            return true;
        }

        /** What changing to this tool and its slower work cost for each visit; ∞ if none. */
        private double eachWith(int t) {
            double cost = t == tool ? 0 : mount[t];
            int visits = 0;
            for (int p = 0; p < stands.length; p++) {
                int stand = stands[p];
                Track.Move move = with(t, p, stand);
                while (move != null) {
                    cost += slower(move, p, stand);
                    visits++;
                    stand = move.to();
                    move = with(t, p, stand);
                }
            }
            return visits == 0 ? Double.POSITIVE_INFINITY : cost / visits;
        }

        /** The next move of a part with this tool, if it is worth while. */
        private Track.@Nullable Move with(int t, int p, int stand) {
            Track.Move quickest = null;
            for (Track.Move move : tracks.get(p).moves().get(stand)) {
                if (move.tool() == t && (quickest == null || move.minutes() < quickest.minutes())) {
                    quickest = move;
                }
            }
            return quickest;
        }

        private double slower(Track.Move move, int p, int stand) {
            double[] rest = tracks.get(p).rest();
            return move.minutes() + rest[move.to()] - rest[stand];
        }
    }
}
