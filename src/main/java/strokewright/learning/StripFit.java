package strokewright.learning;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.PassLimit;
import strokewright.forming.FormingFormula;
import strokewright.forming.Metal;
import strokewright.forming.PassPlan;
import strokewright.learning.TestStrips.Strip;
import strokewright.quantity.Faults;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Severity;
import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * What test strips say of a tool in a metal family: bite, stroke work and feed efficiency, each
 * with its 95 % interval, and how well the readings agree with them.
 *
 * @param biteStrain of thick sheet; null when refused
 * @param strokeWorkJ null when refused
 * @param feedEfficiency null when refused
 * @param residualSdStrokes how far a reading is off, typically; null when nothing could be fitted
 * @param readings in the order in which they were noted; empty when nothing could be fitted
 * @param findings pointers lead into the notes; with a refusal among them there are no figures
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record StripFit(
        @Nullable Fitted biteStrain,
        @Nullable Fitted strokeWorkJ,
        @Nullable Fitted feedEfficiency,
        @Nullable Double residualSdStrokes,
        @Nullable Integer degreesOfFreedom,
        List<Compared> readings,
        List<Finding> findings) {

    static final int FEWEST_READINGS = 3;

    /** Residuals beyond this share of the strokes are no scatter any more. */
    static final double MOST_SCATTER = 0.25;

    StripFit {
        readings = List.copyOf(readings);
        findings = List.copyOf(findings);
    }

    /**
     * A reading beside what the fit makes of it.
     *
     * @param strip counted from 0, as in the notes
     * @param strain of the outermost row
     * @param residualStrokes noted less fitted
     * @param heldBy what held the strokes back up to there
     */
    record Compared(
            int strip,
            int reading,
            double strain,
            double strokes,
            double fittedStrokes,
            double residualStrokes,
            Held heldBy) {}

    /** Whether it says too little to be taken over. */
    boolean refused() {
        return findings.stream().anyMatch(f -> f.severity() == Severity.REFUSAL);
    }

    /** b for reckoning strokes; where it is only bounded, it never holds. */
    double modelBite() {
        return biteStrain.bound() == null ? biteStrain.value() : Double.POSITIVE_INFINITY;
    }

    /** W for reckoning strokes of this tool, N/mm; likewise. */
    double modelWork(ShopBook.Tool tool) {
        return strokeWorkJ.bound() == null
                ? FormingFormula.WORK_PER_AREA.apply(
                        strokeWorkJ.value(), tool.pitchMm(), tool.jawMm())
                : Double.POSITIVE_INFINITY;
    }

    /**
     * @throws InvalidInput with every fault of the notes
     */
    static StripFit of(TestStrips notes, ShopBook book) {
        Faults faults = TestStripsCheck.faults(notes, book);
        faults.throwIfAny();
        return new Fit(notes, book).fit();
    }

    private static final class Fit {

        private final TestStrips notes;
        private final ShopBook book;
        private final ShopBook.Tool tool;
        private final ShopBook.Machine machine;
        private final List<Observed> readings;
        private final List<Finding> findings = new ArrayList<>();

        Fit(TestStrips notes, ShopBook book) {
            this.notes = notes;
            this.book = book;
            tool = book.tool(notes.tool()).orElseThrow();
            machine = book.machine(notes.machine()).orElseThrow();
            readings = Observed.all(notes, book);
        }

        StripFit fit() {
            enough();
            readings.forEach(this::withinOneCycle);
            if (!findings.isEmpty()) {
                return new StripFit(null, null, null, null, null, List.of(), findings);
            }
            PassFit passes = PassFit.of(readings);
            Fitted work = passes.work() == null ? null : passes.work().times(joulesPerWork());
            Fitted efficiency = feedEfficiency();
            scatter(passes);
            toldApart(passes);
            if (findings.isEmpty()) {
                credible(
                        "/strips",
                        "bite-not-credible",
                        passes.bite(),
                        PassLimit.LOWEST_BITE,
                        PassLimit.HIGHEST_BITE);
                credible(
                        "/strips",
                        "work-not-credible",
                        work,
                        PassLimit.LOWEST_WORK_J,
                        PassLimit.HIGHEST_WORK_J);
            }
            credible("/strips", "feed-not-credible", efficiency, PassLimit.LOWEST_EFFICIENCY, 1);
            boolean refused = !findings.isEmpty();
            if (!refused) {
                bounds(passes.bite(), work);
            }
            return new StripFit(
                    refused ? null : passes.bite(),
                    refused ? null : work,
                    refused ? null : efficiency,
                    passes.residualSd(),
                    passes.degreesOfFreedom(),
                    readings.stream().map(r -> compared(r, passes)).toList(),
                    findings);
        }

        /** J of one stroke for each N/mm of work per area. */
        private double joulesPerWork() {
            return 1 / FormingFormula.WORK_PER_AREA.apply(1, tool.pitchMm(), tool.jawMm());
        }

        private Fitted feedEfficiency() {
            double rate =
                    FormingFormula.STROKE_RATE.apply(
                            tool.strokesPerMinute() == null
                                    ? machine.strokesPerMinute()
                                    : tool.strokesPerMinute(),
                            machine.strokesPerMinute());
            return LeastSquares.slope(
                    readings.stream().mapToDouble(r -> rate * r.minutes()).toArray(),
                    readings.stream().mapToDouble(Observed::strokes).toArray());
        }

        private static Compared compared(Observed reading, PassFit passes) {
            double fitted = reading.strokesBy(passes.modelBite(), passes.modelWork());
            return new Compared(
                    reading.strip(),
                    reading.reading(),
                    reading.edgeStrain(),
                    reading.strokes(),
                    fitted,
                    reading.strokes() - fitted,
                    reading.heldBy(passes.modelBite(), passes.modelWork()));
        }

        private void enough() {
            if (readings.size() < FEWEST_READINGS) {
                refuse(
                        "too-few-readings",
                        "/strips",
                        Map.of("readings", readings.size(), "needed", FEWEST_READINGS));
            }
        }

        /**
         * Beyond one cycle the metal has torn, wrinkled or been annealed: none of it is modelled.
         */
        private void withinOneCycle(Observed reading) {
            Strip strip = notes.strips().get(reading.strip());
            double room = room(strip);
            if (!(reading.edgeStrain() <= room + 1e-9)) {
                refuse(
                        "beyond-one-cycle",
                        "/strips/"
                                + reading.strip()
                                + "/readings/"
                                + reading.reading()
                                + "/radiusMm",
                        Map.of("strain", reading.edgeStrain(), "room", room));
            }
        }

        private double room(Strip strip) {
            Grade grade = book.grade(strip.grade()).orElseThrow();
            Metal metal = grade.metal("");
            Double limit = strip.shrinks() ? grade.shrinkLimit() : grade.edgeStretchLimit();
            if (limit == null && strip.shrinks()) {
                return Double.POSITIVE_INFINITY;
            }
            double known =
                    limit == null
                            ? FormingFormula.EDGE_STRETCH_LIMIT.apply(grade.hardeningExponent())
                            : limit;
            return PassPlan.room(
                    metal, Input.computed("limit", known, ""), !strip.shrinks(), new Working());
        }

        private void scatter(PassFit passes) {
            double usual = LeastSquares.mean(readings.stream().map(Observed::strokes).toList());
            if (!(passes.residualSd() <= MOST_SCATTER * usual)) {
                Observed worst =
                        readings.stream()
                                .max(
                                        Comparator.comparingDouble(
                                                r ->
                                                        Math.abs(
                                                                compared(r, passes)
                                                                        .residualStrokes())))
                                .orElseThrow();
                refuse(
                        "readings-contradict",
                        "/strips/" + worst.strip() + "/readings/" + worst.reading(),
                        Map.of(
                                "residualSdPercent",
                                100 * passes.residualSd() / usual,
                                "mostPercent",
                                100 * MOST_SCATTER));
            }
        }

        private void toldApart(PassFit passes) {
            if (findings.isEmpty() && passes.bite() == null) {
                refuse("limits-not-told-apart", "/strips", Map.of());
            }
        }

        private void credible(
                String at, String code, @Nullable Fitted figure, double low, double high) {
            if (figure != null && !(figure.value() >= low && figure.value() <= high)) {
                refuse(code, at, Map.of("value", figure.value(), "low", low, "high", high));
            }
        }

        private void bounds(Fitted bite, Fitted work) {
            if (work.bound() != null) {
                note("work-only-bounded", Map.of("strokeWorkJ", work.value()));
            }
            if (bite.bound() != null) {
                note("bite-only-bounded", Map.of("biteStrain", bite.value()));
            }
        }

        private void refuse(String code, String pointer, Map<String, Object> values) {
            findings.add(new Finding(code, Severity.REFUSAL, pointer, values));
        }

        private void note(String code, Map<String, Object> values) {
            findings.add(new Finding(code, Severity.DOUBT, "/strips", values));
        }
    }
}
