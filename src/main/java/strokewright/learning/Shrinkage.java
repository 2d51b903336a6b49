package strokewright.learning;

import java.util.List;

/**
 * Groups that are alike but not the same: y of a group is normal about its own level with a known
 * variance, the levels are normal about a common one.
 */
final class Shrinkage {

    private Shrinkage() {}

    /** What was found in one group, with its variance. */
    record Group(double y, double variance) {}

    /** Level with its variance. */
    record Level(double mean, double variance) {}

    /** Common level, each group weighed by one over its variance and what lies between groups. */
    static Level common(List<Group> groups, double between) {
        double weights = 0;
        double sum = 0;
        for (Group group : groups) {
            double weight = 1 / (group.variance + between);
            weights += weight;
            sum += weight * group.y;
        }
        return new Level(sum / weights, 1 / weights);
    }

    /** Sum of squares about the common level, each over its variance: Cochran's Q. */
    static double heterogeneity(List<Group> groups) {
        double mean = common(groups, 0).mean;
        return groups.stream().mapToDouble(g -> (g.y - mean) * (g.y - mean) / g.variance).sum();
    }

    /**
     * Variance between groups by moments, over several sets of groups that each have their own
     * common level: DerSimonian and Laird 1986, Controlled Clinical Trials 7.
     */
    static double between(List<List<Group>> sets) {
        double excess = 0;
        double scale = 0;
        for (List<Group> groups : sets) {
            if (groups.size() > 1) {
                double w = groups.stream().mapToDouble(g -> 1 / g.variance).sum();
                double ww = groups.stream().mapToDouble(g -> Math.pow(g.variance, -2)).sum();
                excess += heterogeneity(groups) - (groups.size() - 1);
                scale += w - ww / w;
            }
        }
        return scale == 0 ? 0 : Math.max(0, excess / scale);
    }

    /**
     * Share of what was found in a group that is believed.
     *
     * @param between the variance between groups, known
     */
    static double believed(double variance, double between) {
        return between / (variance + between);
    }

    /**
     * The same where the variance between k groups was itself found by moments from them: what is
     * not believed is less by (k − 3)/(k − 1). James and Stein 1961; Morris 1983, JASA 78.
     */
    static double believed(double variance, double between, int k) {
        double not = k > 3 ? (k - 3.0) / (k - 1) : 0;
        return 1 - not * (1 - believed(variance, between));
    }

    /** Level of a group of its own, from the common one. */
    static Level level(Group group, double common, double believed) {
        return new Level(common + believed * (group.y - common), believed * group.variance);
    }

    /** Mean of a ratio whose logarithm is normal. */
    static double meanRatio(double mean, double variance) {
        return Math.exp(mean + variance / 2);
    }
}
