package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.Test;
import strokewright.Person;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** What a finished job took is offered beside the next quote of the like. */
class EarlierHoursApiTests extends JobAsking {

    @Test
    void anEarlierQuoteTellsWhatItTookOnceItsJobIsFinished() {
        String quote = accepted(JobsApiTests.QUOTE, 5);
        String job = "/jobs/" + released(quote).at("/number").asString();
        JsonNode before = earlier();
        assertThat(before.at("/number").asString()).isEqualTo(quote);
        assertThat(before.has("made") || before.has("actualHours")).isFalse();
        assertThat(panel()).contains("planned ", quote).doesNotContain("took ");

        post(Role.FLOOR, job + "/bookings", withId("\"step\":1,\"minutes\":700"));
        post(
                Role.FLOOR,
                job + "/bookings",
                withId("\"step\":2,\"minutes\":22,\"withHelper\":true"));
        assertThat(earlier().has("actualHours")).as("while it is worked on").isFalse();
        ok("POST", job + "/finish", "{\"made\":[{\"position\":1,\"quantity\":4}]}");

        JsonNode after = earlier();
        assertThat(after.at("/made").asInt()).isEqualTo(4);
        assertThat(after.at("/actualHours").asDouble()).isCloseTo(744 / 60.0, within(1e-9));
        assertThat(after.at("/plannedHours")).isEqualTo(before.at("/plannedHours"));
        assertThat(panel()).contains("took 12.4\u00a0h for\u00a04", "planned ");
    }

    private JsonNode earlier() {
        JsonNode number = answer(Role.ESTIMATOR, "GET", "/quotes", null, 200).at("/items/0/number");
        JsonNode item = get(Role.ESTIMATOR, "/quotes/" + number.asString());
        return answer(
                        Role.ESTIMATOR,
                        "POST",
                        "/quotes/similar",
                        item.at("/items/0/takeOff").toString(),
                        200)
                .at("/items/0");
    }

    private String panel() {
        Person person = new Person(port());
        person.signIn(shop.user(Role.ESTIMATOR).userName(), TestShop.PASSWORD);
        return person.submit(
                        "/take-off",
                        "/take-off/similar",
                        Map.ofEntries(
                                Map.entry("/parts/p1/grade", "AL99.5-O"),
                                Map.entry("/parts/p1/thicknessMm", "2"),
                                Map.entry("/parts/p1/massKg", "1.2"),
                                Map.entry("/quantities", "1"),
                                Map.entry("/parts/p1/operations/o1/type", "curve-edge"),
                                Map.entry("/parts/p1/operations/o1/sense", "shrink"),
                                Map.entry("/parts/p1/operations/o1/radiusMm", "300"),
                                Map.entry("/parts/p1/operations/o1/lengthMm", "1885"),
                                Map.entry("/parts/p1/operations/o1/heightMm", "40")))
                .body();
    }
}
