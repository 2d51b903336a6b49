package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import org.springframework.stereotype.Component;
import strokewright.comparison.Deciding;
import strokewright.comparison.Decision;
import strokewright.estimate.Learned;

/** Drift and factors that wait for the owner. */
@Component
class WhatToLearn implements Deciding {

    /** A factor that is nearer to the one in use is not worth a decision; assumed. */
    static final double WORTH = 0.03;

    /** The reserve is a small share of the hours; assumed. */
    private static final double WORTH_OF_RESERVE = 0.3;

    private static final int RECENT_JOBS = 12;

    private final Learning learning;

    WhatToLearn(Learning learning) {
        this.learning = learning;
    }

    @Override
    public List<Decision> decisions() {
        List<Decision> decisions = new ArrayList<>();
        Taught taught = learning.taught();
        Lessons lessons = taught.lessons();
        lessons.kinds()
                .forEach(drift -> recent(FactorViews.words(drift.subject()), drift, decisions));
        lessons.families()
                .forEach(
                        drift ->
                                recent(
                                        "Forming " + drift.subject().replace('-', ' '),
                                        drift,
                                        decisions));
        long worth = learning.factors(taught).lines().stream().filter(WhatToLearn::isWorth).count();
        if (worth > 0) {
            decisions.add(
                    new Decision(
                            Decision.Code.FACTORS_TO_ADOPT,
                            worth
                                    + (worth == 1
                                            ? " learned factor differs"
                                            : " learned factors differ")
                                    + " from what is in use: take over or leave.",
                            "/learning"));
        }
        return decisions;
    }

    /** One that was noticed some jobs ago was seen, or is part of the factor by now. */
    private static void recent(String name, Drift drift, List<Decision> decisions) {
        drift.change()
                .filter(alarm -> drift.points().size() - alarm.at() <= RECENT_JOBS)
                .ifPresent(
                        alarm ->
                                decisions.add(
                                        new Decision(
                                                Decision.Code.DRIFT,
                                                name + ": " + DriftWords.of(drift, alarm),
                                                "/learning/drift")));
    }

    static boolean isWorth(Factors.Line line) {
        if (line.few() || line.proposed().planFactor() == null) {
            return false;
        }
        double inUse = line.inUse() == null ? 1 : line.inUse().planFactor();
        if (line.kind().equals(Learned.RESERVE)) {
            return Math.abs(line.proposed().planFactor() - inUse) > WORTH_OF_RESERVE;
        }
        return Math.abs(Math.log(line.proposed().planFactor() / inUse)) > WORTH;
    }
}
