package strokewright.whatif;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import org.junit.jupiter.api.Test;
import org.springframework.http.MediaType;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.quote.QuotesApiTests;

/** The effect on open drafts, in Chromium. */
class EffectPageBrowserTest extends BrowserTest {

    @Test
    void aDearerMetalIsTriedCorrectedAndFollowedToTheDraftByTheKeyboard() {
        TestShop shop = openShop();
        quote(shop, "\"AL99.5-O\"");
        quote(shop, "\"DC04\"");
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.OWNER);
        page.navigate("/quotes");
        page.getByText("Effect of other rates").press("Enter");
        assertThat(page.getByLabel("Forming, labour")).isVisible();
        requireAccessible(page);

        page.locator("summary", new Page.LocatorOptions().setHasText("Metal prices"))
                .press("Enter");
        page.getByLabel("DC04").fill("dear");
        page.getByLabel("DC04").press("Enter");
        assertThat(page.getByLabel("DC04")).hasAttribute("aria-invalid", "true");
        assertThat(page.getByLabel("DC04")).hasValue("dear");
        requireAccessible(page);

        page.getByLabel("DC04").fill("50");
        page.getByLabel("DC04").press("Enter");
        Locator rows = page.locator(".effect-table tbody");
        assertThat(rows).hasCount(1);
        assertThat(rows.first()).containsText("-0002");
        assertThat(rows.first()).containsText("+");
        assertThat(page.getByText("1 draft stays as saved")).isVisible();
        requireAccessible(page);
        requireNoSidewaysScroll(page);
        page.setViewportSize(PHONE, 740);
        requireAccessible(page);
        requireNoSidewaysScroll(page);

        rows.first().getByRole(AriaRole.LINK).press("Enter");
        assertThat(page.locator("h1")).containsText("-0002");
    }

    private static void quote(TestShop shop, String grade) {
        shop.as(Role.ESTIMATOR)
                .post()
                .uri("/api/v1/quotes")
                .contentType(MediaType.APPLICATION_JSON)
                .body(
                        "{\"customer\":\"Bay\",\"items\":[{\"takeOff\":"
                                + QuotesApiTests.TAKE_OFF.replace("\"AL99.5-O\"", grade)
                                + "}]}")
                .exchange()
                .expectStatus()
                .isCreated();
    }
}
