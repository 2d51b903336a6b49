package strokewright.comparison;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.access.Role;

/** The owner's pages, from an empty shop on. */
class OwnerPagesBrowserTest extends BrowserTest {

    @Test
    void anEmptyShopIsToldWhatIsMissingAndAWorkingOneWhatEarns() {
        ComparingShop shop = new ComparingShop(openShop());
        Page page = window(DESK, "en-GB");
        signIn(page, shop.shop(), Role.OWNER);
        page.navigate("/owner");
        assertThat(page.getByText("No job was finished in this period")).isVisible();
        assertThat(page.getByText("No quote was decided in this period")).isVisible();
        assertThat(page.getByText("Nobody booked hours or entered presence")).isVisible();
        assertThat(page.getByRole(AriaRole.TABLE)).hasCount(0);

        whatPeopleCost(page);
        works(shop);
        requireReadable(page, "/owner");
        requireNothingCutOffInPrint(page);
        Locator works = region(page, "Jobs by their main work");
        assertThat(works.locator("tbody")).containsText("Curve an edge");
        assertThat(works.locator("tbody")).containsText("over");
        assertThat(works.locator("tfoot")).containsText("loss");
        assertThat(works.getByRole(AriaRole.IMG).first()).isVisible();
        Locator won = region(page, "Orders won, by customer");
        assertThat(won.locator("tbody tr")).containsText("Harbour Theatre");
        assertThat(won.locator("tbody tr")).containsText("50.0 %");
        assertThat(page.getByRole(AriaRole.IMG, named("Decided, Harbour Theatre").setExact(true)))
                .isVisible();
        Locator hours = page.getByRole(AriaRole.IMG, named("Hours").setExact(true));
        assertThat(hours).containsText("Present");
        assertThat(hours).containsText("8.0 h");
        assertThat(page.getByText("On jobs of present")).isVisible();

        page.getByRole(AriaRole.LINK, named("1 accepted quote waits to be released as a job."))
                .press("Enter");
        assertThat(page.getByRole(AriaRole.HEADING, named("Ordered, not yet on the floor")))
                .isVisible();
        page.navigate("/owner?to=someday");
        assertThat(page.getByText("must be a day such as")).isVisible();
    }

    /** In one row at a desk, on the keyboard, and what is the owner's alone is there for nobody. */
    private void whatPeopleCost(Page page) {
        Locator places = page.getByRole(AriaRole.NAVIGATION, named("Places")).locator("li");
        org.assertj.core.api.Assertions.assertThat(places.last().boundingBox().y)
                .isEqualTo(places.first().boundingBox().y);
        Locator around = page.getByRole(AriaRole.NAVIGATION, named("Owner").setExact(true));
        assertThat(around.locator("[aria-current=page]")).hasText("What earns");
        around.getByRole(AriaRole.LINK, inside("What people cost")).press("Enter");
        assertThat(around.locator("[aria-current=page]")).hasText("What people cost");
        assertThat(page.locator("nav.places [aria-current]")).hasText("Owner");
        requireReadable(page, "/people/rates");
        requireNothingCutOffInPrint(page);
        page.getByLabel("Person").selectOption("The floor");
        page.getByLabel("An hour").fill("much");
        page.getByRole(AriaRole.BUTTON, named("Save")).press("Enter");
        assertThat(page.getByText("must be a number")).isVisible();
        assertThat(page.getByLabel("An hour")).hasValue("much");
        page.getByLabel("From").fill("2020-01-01");
        page.getByLabel("An hour").fill("31.50");
        page.getByLabel("An hour").press("Enter");
        assertThat(page.getByRole(AriaRole.STATUS)).containsText("Saved");
        assertThat(page.getByRole(AriaRole.ROW, named("The floor"))).containsText("31.50");
    }

    private static void works(ComparingShop shop) {
        for (String end : new String[] {"accept", "decline"}) {
            String quote =
                    shop.post(
                                    Role.ESTIMATOR,
                                    "/quotes",
                                    "{\"customer\":\"Harbour Theatre\",\"items\":[{\"takeOff\":"
                                            + ComparisonApiTests.EDGE.formatted(1, "")
                                            + "}]}")
                            .at("/number")
                            .asString();
            String path = "/quotes/" + quote + "/";
            shop.answer(Role.OFFICE, "POST", path + "issue", null, null, 200);
            String body = end.equals("decline") ? "{\"reason\":\"price\"}" : null;
            shop.answer(Role.OFFICE, "POST", path + end, null, body, 200);
        }
        String job =
                shop.job(
                                "\"items\":[{\"takeOff\":"
                                        + ComparisonApiTests.EDGE.formatted(2, "")
                                        + "}]")
                        .at("/number")
                        .asString();
        shop.book(Role.FLOOR, job, "\"step\":2,\"minutes\":900");
        shop.post(Role.FLOOR, "/presence", ComparingShop.withId("\"minutes\":480"));
        shop.finish(job, null);
    }

    private static Locator region(Page page, String name) {
        return page.getByRole(AriaRole.REGION, named(name));
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    private static Locator.GetByRoleOptions inside(String name) {
        return new Locator.GetByRoleOptions().setName(name);
    }
}
