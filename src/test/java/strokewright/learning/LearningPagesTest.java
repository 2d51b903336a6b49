package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import strokewright.job.Booking;
import strokewright.web.Numbers;

/** What the pages say and draw. */
class LearningPagesTest {

    private static final Numbers NUMBERS = Numbers.of(Locale.ENGLISH);

    @Test
    void aSignalIsToldInWordsAndDrawn_seed2() {
        Lessons lessons = Lessons.of(slowerAfter(30));
        DriftViews views = new DriftViews(NUMBERS);

        List<DriftViews.Chart> charts = views.charts("kind", lessons.kinds());

        assertThat(charts).extracting(DriftViews.Chart::name).startsWith("Curve an edge");
        assertThat(charts.get(0).signals()).hasSize(1);
        assertThat(charts.get(0).signals().get(0))
                .matches("Since job J-\\d+ it takes about \\d+ % longer than before: .*");
        assertThat(charts.get(0).picture()).contains("slower", "booked over estimated");
        assertThat(charts.get(1).signals()).isEmpty();
        assertThat(views.few(lessons))
                .extracting(DriftViews.Few::name)
                .containsExactly("Dish a disc");
    }

    @Test
    void aChangedKindIsMarkedAmongTheFactors_seed2() {
        Lessons lessons = Lessons.of(slowerAfter(30));
        FactorViews.View view =
                new FactorViews(NUMBERS)
                        .view(Factors.of(lessons, List.of(), List.of(), FinishedJobs.BOOK));

        assertThat(view.lines().get(0).work()).isEqualTo("Curve an edge");
        assertThat(view.lines().get(0).note()).contains("Changed since job J-");
        assertThat(view.lines())
                .extracting(FactorViews.Row::work)
                .contains("All other work", "What all work of a job has in common");
        assertThat(view.behind().get(0).jobs()).hasSize(45);
    }

    private static List<Observation> slowerAfter(int change) {
        Random random = new Random(2);
        List<Observation> jobs = new ArrayList<>();
        for (int i = 0; i < 45; i++) {
            double more = i < change ? 0 : 0.25;
            jobs.add(job(i, "curve-edge", more + 0.1 * random.nextGaussian()));
            jobs.add(job(i, "smooth", 0.1 * random.nextGaussian()));
            if (i % 10 == 0) {
                jobs.add(job(i, "dish", 0.1 * random.nextGaussian()));
            }
        }
        return jobs;
    }

    private static Observation job(int n, String kind, double y) {
        return new Observation(
                "J-" + n,
                LocalDate.EPOCH.plusDays(n),
                kind,
                "stainless",
                60,
                60 * Math.exp(y),
                Booking.Source.MINUTES,
                1);
    }
}
