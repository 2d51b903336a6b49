package strokewright.job;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
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
        for (String path :
                List.of(
                        "/jobs",
                        "/jobs/" + job,
                        "/book/no-job",
                        "/book/presence",
                        "/book/" + job,
                        "/book",
                        "/book/" + job + "/1")) {
            phone.navigate(path);
            requireAccessible(phone);
            requireNoSidewaysScroll(phone);
        }
        phone.getByRole(AriaRole.BUTTON, named("Start the clock")).click();
        phone.waitForURL(url -> url.endsWith("/1"));
        phone.getByLabel("Pieces done").first().fill("-1");
        phone.getByRole(AriaRole.BUTTON, named("Stop")).click();
        assertThat(phone.getByText("must be from 0")).isVisible();
        phone.getByLabel("Pieces done").first().fill("1");
        phone.getByRole(AriaRole.BUTTON, named("Stop")).click();
        assertThat(phone.getByText("Booked.")).isVisible();
        requireLargeTargets(phone);

        phone.getByText("Enter minutes instead").click();
        Locator form = phone.locator("details.enter");
        form.getByLabel("Two people the whole time").check();
        form.getByLabel("Minutes").fill("quick");
        phone.getByRole(AriaRole.BUTTON, named("Book the minutes")).click();
        assertThat(form.getByText("must be a number")).isVisible();
        assertThat(form.getByLabel("Minutes")).hasValue("quick");
        assertThat(form.getByLabel("Two people the whole time")).isChecked();
        form.getByLabel("Minutes").fill("12,5");
        form.getByLabel("Minutes").press("Enter");
        assertThat(form.getByLabel("Minutes")).hasValue("");
        assertThat(phone.getByText("Booked.")).isVisible();

        phone.navigate("/jobs/" + job);
        assertThat(phone.getByText("12,5").first()).isVisible();
        phone.getByRole(AriaRole.LINK, named("Finish")).click();
        assertThat(phone.getByLabel("Round sign frame")).hasValue("1");
        phone.getByRole(AriaRole.BUTTON, named("Finished")).click();
        assertThat(phone.getByText("finished").first()).isVisible();
    }

    @Test
    void aRepairWithoutAQuoteGetsAPlanAChangeOrderMetalAndABill() {
        Page desk = window(DESK, "de-DE");
        signIn(desk, openShop(), Role.OFFICE);
        desk.navigate("/jobs/new");
        desk.getByLabel("Why").selectOption("repair");
        desk.getByLabel("Agreed price").fill("80,50");
        desk.getByLabel("Work, line 1").selectOption("Guillotine cut");
        desk.getByLabel("Amount, line 1").fill("viel");
        desk.getByRole(AriaRole.BUTTON, named("Release")).click();
        assertThat(desk.getByText("must be a number")).isVisible();
        requireAccessible(desk);
        desk.getByLabel("Amount, line 1").fill("4");
        desk.getByRole(AriaRole.BUTTON, named("Release")).click();
        assertThat(desk.getByText("must be a number")).hasCount(0);
        assertThat(desk.getByLabel("Agreed price")).hasValue("80,50");
        desk.getByLabel("Customer").fill("Harbour Theatre");
        desk.getByLabel("Title").fill("Bracket");
        desk.getByRole(AriaRole.BUTTON, named("Release")).click();
        assertThat(desk.locator("main")).containsText("80,50");
        assertThat(desk.locator("tbody tr")).hasCount(1);

        desk.getByRole(AriaRole.LINK, named("Change order")).click();
        requireAccessible(desk);
        desk.getByLabel("Title").fill("Second bracket");
        desk.getByLabel("Why").fill("one more turned up");
        desk.getByLabel("Work, line 1").selectOption("Guillotine cut");
        desk.getByLabel("Amount, line 1").fill("2");
        desk.getByRole(AriaRole.BUTTON, named("Add to the job")).click();
        assertThat(desk.locator("tbody tr")).hasCount(2);

        desk.getByRole(AriaRole.LINK, named("Metal and bills")).click();
        desk.getByRole(AriaRole.LINK, named("Write down metal")).click();
        requireAccessible(desk);
        desk.getByLabel("Grade").selectOption("AL99.5-O");
        desk.getByLabel("Mass in all").fill("2,5");
        desk.getByLabel("Paid in all").fill("20");
        desk.getByRole(AriaRole.BUTTON, named("Write down")).click();
        desk.getByRole(AriaRole.LINK, named("Correct")).click();
        desk.getByLabel("Paid in all").fill("19");
        desk.getByRole(AriaRole.BUTTON, named("Write down")).click();
        desk.getByRole(AriaRole.LINK, named("Write down a bill")).click();
        desk.getByLabel("What was bought").fill("Clear coat");
        desk.getByLabel("Amount, before tax").fill("12");
        desk.getByRole(AriaRole.BUTTON, named("Write down")).click();
        assertThat(desk.locator("tr.replaced")).hasCount(1);
        assertThat(desk.locator("tfoot").first()).containsText("19,00");
        requireAccessible(desk);
        isFoundAmongTheJobs(desk);
    }

    private static void isFoundAmongTheJobs(Page desk) {
        desk.navigate("/jobs");
        desk.getByLabel("Title, customer or number").focus();
        desk.keyboard().type("harbour");
        desk.keyboard().press("Enter");
        assertThat(desk.locator(".job-list tbody tr")).containsText("Bracket");
        desk.getByLabel("State").focus();
        desk.keyboard().type("clo");
        desk.getByRole(AriaRole.BUTTON, named("Find")).press("Enter");
        assertThat(desk.getByText("No job fits.")).isVisible();
        assertThat(desk.getByLabel("Title, customer or number")).hasValue("harbour");
        requireReadable(desk, "/jobs?find=bracket&state=released");
        desk.getByRole(AriaRole.LINK, named("J-")).press("Enter");
        assertThat(desk.locator("tfoot")).containsText("All steps together");
        requireNothingCutOffInPrint(desk);
    }

    /** What is pressed with a thumb is at least 44 px high. */
    private static void requireLargeTargets(Page page) {
        Object small =
                page.evaluate(
                        """
                        () => [...document.querySelectorAll(
                                "main button, main .button, main summary, main .targets a, main input[type=text]")]
                            .filter((e) => e.checkVisibility() && !e.matches(".visually-hidden"))
                            .filter((e) => e.getBoundingClientRect().height < 44)
                            .map((e) => e.outerHTML)
                        """);
        assertThat((List<?>) small).isEmpty();
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    @Override
    protected boolean isMeant(String error) {
        return super.isMeant(error) || error.contains("the server responded with a status of 400");
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
