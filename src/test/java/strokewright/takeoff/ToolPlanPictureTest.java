package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.EN;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.Plan;
import strokewright.estimate.Estimate.Visit;

class ToolPlanPictureTest {

    private final ToolPlanPicture strip = new ToolPlanPicture(EN);
    private final Estimate estimate = Guard.estimate();

    @Test
    void visitsStandInTheOrderOfThePlanBelowTheirTool() {
        String picture = strip.of(estimate, estimate.plan(), "x");

        String spoken = picture.replaceAll(".*<desc[^>]*>(.*)</desc>.*", "$1");
        int at = 0;
        for (Visit visit : estimate.plan().visits()) {
            if (visit.change()) {
                at = spoken.indexOf("Put in " + visit.tool(), at);
                assertThat(at).isNotNegative();
            }
            if (visit.annealed()) {
                at = spoken.indexOf("Annealed.", at);
                assertThat(at).isNotNegative();
            }
            at = spoken.indexOf(visit.part() + " " + visit.position() + ": ", at);
            assertThat(at).as(visit.toString()).isNotNegative();
        }
        assertThat(spoken).startsWith("On Forming machine 5 mm.").endsWith("Exact plan.");
        assertThat(estimate.plan().visits().stream().filter(Visit::annealed)).hasSize(3);
    }

    @Test
    void anOwnChoiceIsToldWithWhatItCosts() {
        List<String> words = strip.words(estimate.plan());

        assertThat(words.get(1)).startsWith("Exact plan");
        assertThat(words.get(2))
                .startsWith("Own choice at Rim 1: Edge, soft-faced takes 73.9 min, Shrink");
        assertThat(words.get(3)).contains("add 17.6 min to one item");
    }

    @Test
    void aPlanMadeStepByStepSaysSo() {
        Plan plan = estimate.plan();
        Plan greedy =
                new Plan(plan.visits(), plan.changes(), plan.minutes(), false, null, List.of());

        assertThat(strip.words(greedy)).hasSize(2);
        assertThat(strip.words(greedy).get(1)).startsWith("Planned step by step: too many ways");
        assertThat(strip.of(estimate, greedy, "x")).contains("Planned step by step");
    }

    @Test
    void ofVeryManyVisitsTheRestIsCounted() {
        Plan plan = estimate.plan();
        List<Visit> many = new ArrayList<>();
        for (int i = 0; i < 150; i++) {
            many.addAll(plan.visits());
        }
        int rest = many.size() - 120;

        assertThat(strip.of(estimate, new Plan(many, 1, 1, true, null, List.of()), "x"))
                .contains("and " + rest + " more visits");
    }
}
