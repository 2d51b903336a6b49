package strokewright.estimate;

import org.jspecify.annotations.Nullable;

/**
 * One thing that is done on an order, and that people book their time on: a line of the estimate,
 * an anneal or a dressing that belongs to one, or the tool changes of all forming. Minutes are
 * standard minutes for the whole quantity, with allowance, practice and learned factors.
 *
 * @param part null for work on the item as a whole
 * @param position of the line within its part, counted from one; 0 of tool changes
 * @param kind type of forming, name of the time standard, or {@link #TOOL_CHANGES}
 * @param family of the part's metal; null without one
 * @param setupElapsed minutes at the work centre
 * @param setupMinutes person-minutes
 */
public record WorkStep(
        @Nullable String part,
        int position,
        String kind,
        @Nullable String family,
        String workCentre,
        double setupElapsed,
        double setupMinutes,
        double runElapsed,
        double runMinutes) {

    /** Changing tools and picking pieces up again at each change, over all forming. */
    public static final String TOOL_CHANGES = "tool-changes";

    /** The same name without minutes: what tells one step of an item from another. */
    public WorkStep named() {
        return named(part, position, kind, family, workCentre);
    }

    static WorkStep named(
            @Nullable String part,
            int position,
            String kind,
            @Nullable String family,
            String workCentre) {
        return new WorkStep(part, position, kind, family, workCentre, 0, 0, 0, 0);
    }

    WorkStep plus(double setupElapsed, double setupMinutes, double runElapsed, double runMinutes) {
        return new WorkStep(
                part,
                position,
                kind,
                family,
                workCentre,
                this.setupElapsed + setupElapsed,
                this.setupMinutes + setupMinutes,
                this.runElapsed + runElapsed,
                this.runMinutes + runMinutes);
    }
}
