package strokewright.forming;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One stretch of work as it changes with what nobody knows exactly: the bite of the tool, the
 * useful work of a stroke, the share of the stroke rate left under hand feed, the time for a check.
 * Tools, order, anneals and correction passes stay as planned. With all factors at 1 it takes the
 * {@link Minutes} that it stands beside.
 */
public final class Effort {

    private final @Nullable Reach reach;
    private final List<Climb> rows;
    private final List<Double> strokesOfAPass;
    private final List<Along> alongs;
    private final double fixedStrokes;
    private final double fixedPickUps;
    private final double fixedChecks;
    private final double findMinutes;
    private final double stations;
    private final Pace pace;

    private Effort(
            @Nullable Reach reach,
            List<Climb> rows,
            List<Double> strokesOfAPass,
            List<Along> alongs,
            double fixedStrokes,
            double fixedPickUps,
            double fixedChecks,
            double findMinutes,
            double stations,
            Pace pace) {
        this.reach = reach;
        this.rows = List.copyOf(rows);
        this.strokesOfAPass = List.copyOf(strokesOfAPass);
        this.alongs = List.copyOf(alongs);
        this.fixedStrokes = fixedStrokes;
        this.fixedPickUps = fixedPickUps;
        this.fixedChecks = fixedChecks;
        this.findMinutes = findMinutes;
        this.stations = stations;
        this.pace = pace;
    }

    /** Work whose strokes hang on no metal: smoothing, flattening, dents. */
    static Effort fixed(
            double strokes,
            double pickUps,
            double checks,
            double findMinutes,
            double stations,
            Pace pace) {
        return new Effort(
                null,
                List.of(),
                List.of(),
                List.of(),
                strokes,
                pickUps,
                checks,
                findMinutes,
                stations,
                pace);
    }

    /** What a plan of passes hangs on. */
    public record Course(PassPlan plan, Metal metal, Setting setting, double thicknessMm) {

        private Reach reach() {
            return new Reach(metal, setting, thicknessMm);
        }

        private List<Climb> climbs() {
            List<Climb> climbs = new ArrayList<>();
            for (double strain : plan.strains()) {
                climbs.add(new Climb(strain, plan, metal));
            }
            return climbs;
        }

        /** The strokes of a pass of each row, then what never changes. */
        Effort rows(
                List<Double> strokesOfAPass,
                double fixedStrokes,
                double fixedPasses,
                double fixedChecks,
                double stations,
                Pace pace) {
            return new Effort(
                    reach(),
                    climbs(),
                    strokesOfAPass,
                    List.of(),
                    fixedStrokes,
                    fixedPasses,
                    fixedChecks,
                    0,
                    stations,
                    pace);
        }

        /** Rows whose passes follow the strain along a stretch. */
        Effort along(
                Stretch stretch,
                List<Double> heights,
                double fixedStrokes,
                double fixedPasses,
                double fixedChecks,
                double stations,
                Pace pace) {
            List<Along> alongs = new ArrayList<>();
            for (double height : heights) {
                alongs.add(new Along(height, stretch, plan, metal, setting.pitchMm()));
            }
            return new Effort(
                    reach(),
                    climbs(),
                    List.of(),
                    alongs,
                    fixedStrokes,
                    fixedPasses,
                    fixedChecks,
                    0,
                    stations,
                    pace);
        }
    }

    /** Whether bite and stroke work change it at all. */
    public boolean hangsOnBite() {
        return reach != null;
    }

    /** Whether the work of a stroke changes it: not where the shop gives a strain per pass. */
    public boolean hangsOnWork() {
        return reach != null && reach.byWork;
    }

    /** n of its metal; 1 where nothing hangs on it. */
    public double hardening() {
        return hangsOnWork() ? reach.n : 1;
    }

    /** Share of the stroke rate left under hand feed, as planned. */
    public double feedEfficiency() {
        return pace.feedEfficiency().value();
    }

    /**
     * Adds the minutes of each trial. All arrays have one entry for each trial.
     *
     * @param count how often the same is done on one piece
     * @param bite factors on b; null where it does not hang on it
     * @param work factors on W; null where it does not hang on it
     * @param parting (work / bite)^(1/n), given because it is dear to reckon; null without them
     * @param feed factors on η, which stays at most 1
     * @param check factors on the time of a station
     * @param paced minutes that the machine alone paces, added to
     * @param hand all other minutes, added to
     */
    public void add(
            int count,
            double @Nullable [] bite,
            double @Nullable [] work,
            double @Nullable [] parting,
            double[] feed,
            double[] check,
            double[] paced,
            double[] hand) {
        double rate = pace.strokesPerMinute().value();
        double efficiency = feedEfficiency();
        double pickUp = pace.pickUpSeconds().value() / 60;
        double station = stations * pace.stationSeconds().value() / 60;
        double every = pace.checkEveryPasses().value();
        int most = rows.size();
        for (int t = 0; t < paced.length; t++) {
            double strokes = fixedStrokes;
            double pickUps = fixedPickUps;
            double checks = fixedChecks;
            if (reach != null) {
                if (reach.byWork) {
                    reach.with(bite[t], work[t], parting[t]);
                } else {
                    reach.with(bite[t], 1, 1);
                }
                double mostPasses = 0;
                for (int r = 0; r < most; r++) {
                    double passes = rows.get(r).passes(reach);
                    if (!strokesOfAPass.isEmpty()) {
                        strokes += passes * strokesOfAPass.get(r);
                    }
                    pickUps += passes;
                    mostPasses = Math.max(mostPasses, passes);
                }
                for (Along along : alongs) {
                    strokes += along.strokes(reach);
                }
                checks += Rounding.up(mostPasses / every);
            }
            double machine = strokes / rate;
            double share = Math.min(1, efficiency * feed[t]);
            paced[t] += count * machine;
            hand[t] +=
                    count
                            * (machine * (1 / share - 1)
                                    + pickUps * pickUp
                                    + checks * station * check[t]
                                    + findMinutes);
        }
    }

    /**
     * How far one pass reaches in one trial. With the closed form of {@link Passes#needed}: up to
     * the parting strain the bite holds a pass back, beyond it the work.
     */
    private static final class Reach {
        final boolean byWork;
        final double n;
        private final double bite;
        private final double workPasses;
        private final double ratio;
        private final double partingStrain;

        // Of the trial.
        private double biteNow;
        private double workPassesNow;
        private double partingNow;
        private double partingPower;

        Reach(Metal metal, Setting setting, double thicknessMm) {
            byWork = metal.strainPerPass() == null;
            if (!byWork) {
                n = 1;
                bite = metal.strainPerPass();
                workPasses = 0;
                ratio = 0;
                partingStrain = Double.POSITIVE_INFINITY;
                return;
            }
            n = metal.n().value();
            bite = setting.biteStrain();
            double k = metal.k().value();
            workPasses = thicknessMm * k / (setting.workPerAreaNmm() * (n + 1));
            ratio = setting.workPerAreaNmm() / (thicknessMm * bite * k);
            partingStrain = Math.pow(ratio, 1 / n);
        }

        void with(double biteFactor, double workFactor, double parting) {
            biteNow = bite * biteFactor;
            if (byWork) {
                workPassesNow = workPasses / workFactor;
                partingNow = partingStrain * parting;
                partingPower = partingNow * ratio * workFactor / biteFactor;
            }
        }

        /**
         * Passes for a strain in one cycle, not rounded up.
         *
         * @param power (ε₀ + ε)^(n+1)
         * @param offsetPower ε₀^(n+1)
         */
        double passes(double strain, double offset, double power, double offsetPower) {
            if (!byWork) {
                return strain / biteNow;
            }
            double byBite = partingNow - offset;
            if (byBite >= strain) {
                return strain / biteNow;
            }
            return byBite <= 0
                    ? workPassesNow * (power - offsetPower)
                    : byBite / biteNow + workPassesNow * (power - partingPower);
        }
    }

    private static double power(double base, Metal metal) {
        return metal.strainPerPass() == null ? Math.pow(base, metal.n().value() + 1) : 0;
    }

    /** One row with its strain in every cycle. */
    private static final class Climb {
        private final int anneals;
        private final boolean worthAPass;
        private final double first;
        private final double firstOffset;
        private final double firstPower;
        private final double firstOffsetPower;
        private final double further;
        private final double furtherOffset;
        private final double furtherPower;
        private final double furtherOffsetPower;

        Climb(double strain, PassPlan plan, Metal metal) {
            worthAPass = strain >= PassPlan.NOT_WORTH_A_PASS;
            anneals = plan.anneals();
            first = anneals == 0 ? strain : strain * plan.firstCycleShare();
            firstOffset = metal.offset();
            firstPower = power(firstOffset + first, metal);
            firstOffsetPower = power(firstOffset, metal);
            further = anneals == 0 ? 0 : strain * plan.furtherCycleShare();
            furtherOffset = anneals == 0 ? 0 : metal.annealedOffset();
            furtherPower = power(furtherOffset + further, metal);
            furtherOffsetPower = power(furtherOffset, metal);
        }

        double passes(Reach reach) {
            if (!worthAPass) {
                return 0;
            }
            double passes =
                    Rounding.up(reach.passes(first, firstOffset, firstPower, firstOffsetPower));
            if (anneals > 0) {
                passes +=
                        anneals
                                * Rounding.up(
                                        reach.passes(
                                                further,
                                                furtherOffset,
                                                furtherPower,
                                                furtherOffsetPower));
            }
            return Math.min(PassPlan.MOST_PASSES + 1.0, passes);
        }
    }

    /** All passes of one row along a stretch, put together: their length by the pitch. */
    private static final class Along {
        private final double pitchMm;
        private final int anneals;
        private final Cycle first;
        private final Cycle further;

        Along(double height, Stretch stretch, PassPlan plan, Metal metal, double pitchMm) {
            this.pitchMm = pitchMm;
            anneals = plan.anneals();
            first = new Cycle(height, stretch, plan.firstCycleShare(), metal.offset(), metal);
            further =
                    anneals == 0
                            ? null
                            : new Cycle(
                                    height,
                                    stretch,
                                    plan.furtherCycleShare(),
                                    metal.annealedOffset(),
                                    metal);
        }

        double strokes(Reach reach) {
            double length = first.lengthMm(reach);
            if (anneals > 0) {
                length += anneals * further.lengthMm(reach);
            }
            return Rounding.up(length / pitchMm);
        }
    }

    /** ∫ N(ε(s)) ds over the bends, least strained first, by sums from either end. */
    private static final class Cycle {
        private final double offset;
        private final double offsetPower;
        private final double[] strains;
        private final double[] byBite;
        private final double[] lengthFrom;
        private final double[] byWorkFrom;

        Cycle(double height, Stretch stretch, double share, double offset, Metal metal) {
            this.offset = offset;
            this.offsetPower = power(offset, metal);
            List<double[]> bends = new ArrayList<>();
            for (Bend bend : stretch.signed()) {
                double strain = Math.abs(Math.log(1 - height * bend.curvature()));
                if (strain >= PassPlan.NOT_WORTH_A_PASS) {
                    bends.add(new double[] {strain * share, bend.lengthMm()});
                }
            }
            bends.sort((a, b) -> Double.compare(a[0], b[0]));
            int size = bends.size();
            strains = new double[size];
            byBite = new double[size + 1];
            lengthFrom = new double[size + 1];
            byWorkFrom = new double[size + 1];
            for (int i = 0; i < size; i++) {
                strains[i] = bends.get(i)[0];
                byBite[i + 1] = byBite[i] + strains[i] * bends.get(i)[1];
            }
            for (int i = size - 1; i >= 0; i--) {
                double length = bends.get(i)[1];
                lengthFrom[i] = lengthFrom[i + 1] + length;
                byWorkFrom[i] = byWorkFrom[i + 1] + length * power(offset + strains[i], metal);
            }
        }

        double lengthMm(Reach reach) {
            if (!reach.byWork) {
                return byBite[strains.length] / reach.biteNow;
            }
            double parting = reach.partingNow - offset;
            if (parting <= 0) {
                return reach.workPassesNow * (byWorkFrom[0] - lengthFrom[0] * offsetPower);
            }
            int low = 0;
            int high = strains.length;
            while (low < high) {
                int middle = (low + high) >>> 1;
                if (strains[middle] <= parting) {
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            return byBite[low] / reach.biteNow
                    + lengthFrom[low] * parting / reach.biteNow
                    + reach.workPassesNow
                            * (byWorkFrom[low] - lengthFrom[low] * reach.partingPower);
        }
    }
}
