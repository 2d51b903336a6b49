package strokewright.quote;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.Media;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.takeoff.Situations;

class RoutesPageBrowserTest extends BrowserTest {

    @Autowired private Quotes quotes;

    @Test
    void aPressToolIsComparedAtTheDeskOnAPhoneAndInPrint() {
        TestShop shop = openShop();
        String number =
                shop.user(Role.ESTIMATOR)
                        .call(
                                () ->
                                        quotes.begin(
                                                "Harbour Theatre",
                                                null,
                                                Situations.takeOff(QuotesApiTests.TAKE_OFF),
                                                List.of()));
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/quotes/" + number + "/items/1");
        page.getByRole(AriaRole.BUTTON, named("Other routes")).click();
        assertThat(page.getByText("No other route yet.")).isVisible();
        requireAccessible(page);
        page.getByLabel("Tool costs").fill("1900");
        page.getByLabel("Lead time").fill("35");
        page.getByRole(AriaRole.BUTTON, named("Begin with a press tool")).click();
        assertThat(page.getByRole(AriaRole.HEADING, named("Route: Press tool bought out")))
                .isVisible();
        page.getByLabel("Lasts").fill("5000");
        page.getByRole(AriaRole.BUTTON, named("Side by side")).click();

        assertThat(page.getByText("35 days")).isVisible();
        assertThat(
                        page.getByText(
                                java.util.regex.Pattern.compile(
                                        "Press tool bought out is cheaper than As taken off from"
                                                + " \\d+ pieces")))
                .isVisible();
        assertThat(page.locator("svg .route")).hasCount(2);
        assertThat(page.locator("svg .ring")).hasCount(1);
        for (int width : List.of(DESK, PHONE)) {
            page.setViewportSize(width, 900);
            requireAccessible(page);
            requireNoSidewaysScroll(page);
        }
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        assertThat(page.getByRole(AriaRole.BUTTON, named("Compare again"))).isHidden();
        assertThat(page.locator("svg .route").first()).isVisible();
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }
}
