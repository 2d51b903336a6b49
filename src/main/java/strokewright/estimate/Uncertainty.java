package strokewright.estimate;

import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * How sure the shop is of what it reckons with. Spreads are standard deviations of the natural
 * logarithm: 0.25 means that four times in five the truth lies between 0.73 and 1.38 times the
 * figure. All assumed until they are learned.
 *
 * @param trials of the simulation
 * @param seed the same seed gives the same figures
 * @param information spread of all hand-paced minutes of a job by what stands behind the quote
 * @param biteSpread of a tool's bite in a metal family, not measured
 * @param strokeWorkSpread of the useful work of a stroke, not measured
 * @param measuredSpread of either where the shop has measured it
 * @param feedEfficiencySpread of the share of the stroke rate left under hand feed
 * @param checkSpread of the time for one station
 * @param standardSpread of a time standard that states none of its own
 * @param materialPriceSpread of what a grade costs on the day it is bought
 * @param origin where the figures come from
 * @param jobSpread learned spread of all work of a job quoted from a drawing, where finished jobs
 *     have told it: takes the place of {@code information}, which only says how others compare
 * @param jobSpreadJobs how many it was learned from
 */
public record Uncertainty(
        Integer trials,
        Long seed,
        ByInformation information,
        Double biteSpread,
        Double strokeWorkSpread,
        Double measuredSpread,
        Double feedEfficiencySpread,
        Double checkSpread,
        Double standardSpread,
        Double materialPriceSpread,
        @Nullable String origin,
        @Nullable Double jobSpread,
        @Nullable Integer jobSpreadJobs) {

    public static final Uncertainty DEFAULTS =
            new Uncertainty(
                    null, null, null, null, null, null, null, null, null, null, null, null, null);

    public Uncertainty {
        trials = trials == null ? Integer.valueOf(10_000) : trials;
        seed = seed == null ? Long.valueOf(1) : seed;
        information =
                information == null
                        ? new ByInformation(null, null, null, null, null, null, null)
                        : information;
        biteSpread = or(biteSpread, 0.40);
        strokeWorkSpread = or(strokeWorkSpread, 0.40);
        measuredSpread = or(measuredSpread, 0.15);
        feedEfficiencySpread = or(feedEfficiencySpread, 0.15);
        checkSpread = or(checkSpread, 0.20);
        standardSpread = or(standardSpread, 0.20);
        materialPriceSpread = or(materialPriceSpread, 0.05);
    }

    /** With what finished jobs told about whole jobs, or without. */
    public Uncertainty withJobSpread(@Nullable Double spread, @Nullable Integer jobs) {
        return new Uncertainty(
                trials,
                seed,
                information,
                biteSpread,
                strokeWorkSpread,
                measuredSpread,
                feedEfficiencySpread,
                checkSpread,
                standardSpread,
                materialPriceSpread,
                origin,
                spread,
                jobs);
    }

    public Uncertainty withTrials(int other) {
        return new Uncertainty(
                other,
                seed,
                information,
                biteSpread,
                strokeWorkSpread,
                measuredSpread,
                feedEfficiencySpread,
                checkSpread,
                standardSpread,
                materialPriceSpread,
                origin,
                jobSpread,
                jobSpreadJobs);
    }

    /** Spread of all hand-paced minutes of a job. */
    public double ofJob(TakeOff.Information behind) {
        return jobSpread == null
                ? information.of(behind)
                : jobSpread * information.comparedWithDrawing(behind);
    }

    /** Spread for each kind of information behind a quote. */
    public record ByInformation(
            Double phone,
            Double sketch,
            Double photo,
            Double drawing,
            Double drawingAndTemplate,
            Double oldPart,
            Double repeat) {

        /** Nothing is so sure that a job of it tells all about the others. */
        private static final double LEAST_COMPARED = 0.2;

        public ByInformation {
            phone = or(phone, 0.40);
            sketch = or(sketch, 0.35);
            photo = or(photo, 0.35);
            drawing = or(drawing, 0.25);
            drawingAndTemplate = or(drawingAndTemplate, 0.20);
            oldPart = or(oldPart, 0.20);
            repeat = or(repeat, 0.10);
        }

        /** How far off a whole job may be, compared with one quoted from a drawing. */
        public double comparedWithDrawing(TakeOff.Information information) {
            double compared = drawing == 0 ? 1 : of(information) / drawing;
            return Math.max(LEAST_COMPARED, compared);
        }

        public double of(TakeOff.Information information) {
            return switch (information) {
                case PHONE -> phone;
                case SKETCH -> sketch;
                case PHOTO -> photo;
                case DRAWING -> drawing;
                case DRAWING_AND_TEMPLATE -> drawingAndTemplate;
                case OLD_PART -> oldPart;
                case REPEAT -> repeat;
            };
        }
    }

    private static Double or(@Nullable Double given, double otherwise) {
        return Objects.requireNonNullElse(given, otherwise);
    }
}
