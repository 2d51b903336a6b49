package strokewright.job;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.http.MediaType;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;

/** From an accepted quote to booked minutes, in a browser. */
class JobPagesBrowserTest extends BrowserTest {

    @Test
    void anOrderIsReleasedAndTimeIsBookedOnItFromAPhone() {
        TestShop shop = openShop();
        accepted(shop);
        Page desk = window(DESK, "en-GB");
        signIn(desk, shop, Role.OFFICE);
        desk.navigate("/jobs");
        requireAccessible(desk);
        desk.getByRole(AriaRole.BUTTON, named("Release")).click();
        assertThat(desk.getByRole(AriaRole.HEADING, named("Job J-"))).isVisible();
        requireAccessible(desk);
        String job = desk.url().substring(desk.url().lastIndexOf('/') + 1);

        Page phone = window(PHONE, "de-DE");
        signIn(phone, shop, Role.FLOOR);
        for (String path : List.of("/jobs", "/jobs/" + job, "/book/" + job + "/1")) {
            phone.navigate(path);
            requireAccessible(phone);
            requireNoSidewaysScroll(phone);
        }
        phone.getByRole(AriaRole.BUTTON, named("Start the clock")).click();
        phone.getByLabel("Pieces done").fill("1");
        phone.getByRole(AriaRole.BUTTON, named("Stop")).click();
        assertThat(phone.getByRole(AriaRole.STATUS)).containsText("Booked");

        phone.getByLabel("Minutes").fill("5");
        phone.getByRole(AriaRole.BUTTON, named("Start the clock")).click();
        assertThat(phone.getByText("would start no clock")).isVisible();
        phone.getByLabel("Two people the whole time").check();
        phone.getByLabel("Minutes").fill("quick");
        phone.getByRole(AriaRole.BUTTON, named("Book the minutes")).click();
        assertThat(phone.getByLabel("Minutes")).hasValue("quick");
        assertThat(phone.getByText("must be a number")).isVisible();
        assertThat(phone.getByLabel("Two people the whole time")).isChecked();
        phone.getByLabel("Minutes").fill("12,5");
        phone.getByLabel("Minutes").press("Enter");
        assertThat(phone.getByRole(AriaRole.STATUS)).containsText("Booked");

        phone.navigate("/jobs/" + job);
        assertThat(phone.getByText("12,5").first()).isVisible();
        phone.getByRole(AriaRole.BUTTON, named("Finished")).click();
        assertThat(phone.getByText("finished").first()).isVisible();
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    private static void accepted(TestShop shop) {
        String quote =
                shop.as(Role.ESTIMATOR)
                        .post()
                        .uri("/api/v1/quotes")
                        .contentType(MediaType.APPLICATION_JSON)
                        .body(JobsApiTests.QUOTE)
                        .exchange()
                        .expectBody(tools.jackson.databind.JsonNode.class)
                        .returnResult()
                        .getResponseBody()
                        .at("/number")
                        .asString();
        for (String step : List.of("issue", "accept")) {
            assertThat(
                            shop.as(Role.OFFICE)
                                    .post()
                                    .uri("/api/v1/quotes/" + quote + "/" + step)
                                    .exchange()
                                    .returnResult()
                                    .getStatus()
                                    .value())
                    .isEqualTo(200);
        }
    }
}
