package strokewright.estimate;

import org.jspecify.annotations.Nullable;

/**
 * A step of a quantity with what else is planned of it.
 *
 * @param reserveElapsed minutes of the risk reserve at the work centre; not in the step's own
 * @param reserveMinutes person-minutes of it
 * @param passes of one item; null of what has none
 * @param stated the estimator's own minutes; null where the computed ones stand
 */
public record PlannedStep(
        WorkStep work,
        double reserveElapsed,
        double reserveMinutes,
        @Nullable PassCount passes,
        @Nullable Stated stated) {

    /**
     * Passes over rows, correction and tipping passes included.
     *
     * @param checkShare of the run minutes that go to template checks
     */
    public record PassCount(long passes, long checks, double checkShare) {}

    /**
     * An estimator's own minutes beside the computed ones, elapsed, of one piece.
     *
     * @param computed before they were overridden
     */
    public record Stated(double computed, double minutes, @Nullable String reason) {}

    static PlannedStep of(WorkStep work) {
        return new PlannedStep(work, 0, 0, null, null);
    }

    static PlannedStep of(Worked worked, WorkStep work) {
        Estimate.Line line = worked.line();
        Stated stated =
                line.override() == null
                        ? null
                        : new Stated(
                                line.machineMinutes(),
                                line.override().minutes(),
                                line.override().reason());
        return new PlannedStep(work, 0, 0, passes(worked), stated);
    }

    private static @Nullable PassCount passes(Worked worked) {
        Estimate.Line line = worked.line();
        if (worked.standard() != null || line.checks() == null || line.machineMinutes() == 0) {
            return null;
        }
        long rows =
                FormedRows.of(line).stream()
                        .mapToLong(
                                r ->
                                        r.correctionPasses()
                                                + r.rows().stream()
                                                        .mapToLong(FormedRows.Row::passes)
                                                        .sum())
                        .sum();
        if (rows == 0 && line.passes() != null) {
            rows = line.passes().stream().mapToLong(p -> p).sum();
        }
        int tipping = line.tippingPasses() == null ? 0 : line.tippingPasses();
        long passes = (rows + tipping) * worked.count() * worked.perAssembly();
        if (passes == 0) {
            return null;
        }
        double checking = line.checkMinutes() == null ? 0 : line.checkMinutes();
        return new PassCount(
                passes, line.checks() * worked.perAssembly(), checking / line.machineMinutes());
    }

    PlannedStep with(WorkStep minutes) {
        return new PlannedStep(minutes, reserveElapsed, reserveMinutes, passes, stated);
    }

    PlannedStep withReserve(double elapsed, double minutes) {
        return new PlannedStep(
                work, reserveElapsed + elapsed, reserveMinutes + minutes, passes, stated);
    }
}
