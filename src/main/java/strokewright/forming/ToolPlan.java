package strokewright.forming;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

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
        List<Track> tracks = parts.stream().map(Track::of).toList();
        double states = mountMinutes.length + 1.0;
        for (Track track : tracks) {
            states *= track.size();
        }
        return states <= mostStates
                ? new Search(tracks, mountMinutes).plan()
                : greedily(tracks, mountMinutes);
    }

    /**
     * How far one part has got, as a graph of numbered stands: stand 0 is the start; within an
     * operation of several visits there is a stand for each tool that it may have begun with. Every
     * move leads to a higher stand.
     */
    private record Track(List<List<Move>> moves) {

        private record Move(int to, int operation, int visit, int tool, double minutes) {}

        static Track of(List<Work> works) {
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
            return new Track(moves);
        }

        int size() {
            return moves.size();
        }

        int end() {
            return moves.size() - 1;
        }
    }

    /** Dynamic programming over how far each part has got and the tool in the machine. */
    private static final class Search {
        private final List<Track> tracks;
        private final double[] mount;
        private final int tools;
        private final int[] stride;
        private final double[] least;
        private final int[] cameFrom;

        Search(List<Track> tracks, double[] mount) {
            this.tracks = tracks;
            this.mount = mount;
            this.tools = mount.length + 1; // the last is the empty machine
            this.stride = new int[tracks.size()];
            int states = tools;
            for (int p = 0; p < tracks.size(); p++) {
                stride[p] = states;
                states *= tracks.get(p).size();
            }
            this.least = new double[states];
            this.cameFrom = new int[states];
        }

        ToolPlan plan() {
            Arrays.fill(least, Double.POSITIVE_INFINITY);
            Arrays.fill(cameFrom, -1);
            least[tools - 1] = 0;
            // Every move raises the stand of one part, hence the state: one sweep upwards settles
            // all.
            for (int state = 0; state < least.length; state++) {
                if (least[state] < Double.POSITIVE_INFINITY) {
                    relax(state);
                }
            }
            int end = 0;
            for (int p = 0; p < tracks.size(); p++) {
                end += stride[p] * tracks.get(p).end();
            }
            int best = end;
            for (int tool = 0; tool < tools; tool++) {
                if (least[end + tool] < least[best]) {
                    best = end + tool;
                }
            }
            return walkBack(best);
        }

        private void relax(int state) {
            int tool = state % tools;
            for (int p = 0; p < tracks.size(); p++) {
                int stand = stand(state, p);
                for (Track.Move move : tracks.get(p).moves().get(stand)) {
                    double minutes =
                            least[state]
                                    + move.minutes()
                                    + (move.tool() == tool ? 0 : mount[move.tool()]);
                    int to = state - tool + move.tool() + (move.to() - stand) * stride[p];
                    if (minutes < least[to]) {
                        least[to] = minutes;
                        cameFrom[to] = state;
                    }
                }
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
                    int tool = after % tools;
                    return tracks.get(p).moves().get(from).stream()
                            .filter(m -> m.to() == to && m.tool() == tool)
                            .findFirst()
                            .map(m -> new Step(part(before, after), m.operation(), m.visit(), tool))
                            .orElseThrow();
                }
            }
            throw new IllegalStateException("no part moved from " + before + " to " + after);
        }

        private int part(int before, int after) {
            for (int p = 0; p < tracks.size(); p++) {
                if (stand(before, p) != stand(after, p)) {
                    return p;
                }
            }
            throw new IllegalStateException("no part moved from " + before + " to " + after);
        }
    }

    /** Always on to the step that costs least, its tool change included. */
    private static ToolPlan greedily(List<Track> tracks, double[] mount) {
        int[] stands = new int[tracks.size()];
        int tool = -1;
        double minutes = 0;
        int changes = 0;
        List<Step> steps = new ArrayList<>();
        while (true) {
            int part = -1;
            Track.Move next = null;
            double cheapest = Double.POSITIVE_INFINITY;
            for (int p = 0; p < tracks.size(); p++) {
                for (Track.Move move : tracks.get(p).moves().get(stands[p])) {
                    double cost = move.minutes() + (move.tool() == tool ? 0 : mount[move.tool()]);
                    if (cost < cheapest) {
                        cheapest = cost;
                        next = move;
                        part = p;
                    }
                }
            }
            if (next == null) {
                return new ToolPlan(List.copyOf(steps), minutes, changes, false);
            }
            minutes += cheapest;
            changes += next.tool() == tool ? 0 : 1;
            tool = next.tool();
            stands[part] = next.to();
            steps.add(new Step(part, next.operation(), next.visit(), next.tool()));
        }
    }
}
