package strokewright.takeoff;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;

/** Variants beside the take-off by the keyboard, in Chromium. */
class InsteadPageBrowserTest extends BrowserTest {

    @Test
    void steelThreeMillimetresAndALargerOneByTheKeyboardAlone() {
        TestShop shop = openShop();
        Page page = frame(shop);
        Locator rows = page.locator("[data-instead]");

        page.keyboard().press("Alt+i");
        assertThat(page.locator("#f-instead")).isFocused();
        for (String said : new String[] {"steel", "3 mm", "Ø 800"}) {
            page.keyboard().type(said); // without waiting for any answer
            page.keyboard().press("Enter");
        }
        assertThat(rows).hasCount(3);
        assertThat(rows.nth(0)).containsText("Low-carbon steel, cold-rolled · DC04");
        assertThat(rows.nth(0)).containsText("+");
        assertThat(rows.nth(2)).containsText("at the heel or bend line, not 600 mm");
        assertThat(page.locator("#f-instead")).hasValue("");
        assertThat(page.locator("#f-instead")).isFocused();

        page.keyboard().type("nonsense");
        page.keyboard().press("Enter");
        assertThat(page.locator("#f-instead-fault")).containsText("is not understood");
        assertThat(page.locator("#f-instead")).hasValue("nonsense");
        assertThat(page.locator("#f-instead")).hasAttribute("aria-invalid", "true");
        assertThat(rows).hasCount(3);
        requireAccessible(page);
        requireNoSidewaysScroll(page);

        page.locator("#f-instead").fill("");
        page.keyboard().press("ArrowDown");
        page.keyboard().press("ArrowDown");
        page.keyboard().press("Delete");
        assertThat(rows).hasCount(2);
        assertThat(rows.nth(1)).containsText("Ø 800");

        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);
        requireAccessible(page);
    }

    @Test
    void followsWhatIsTypedElsewhereAndIsTakenOverWithOneKey() {
        TestShop shop = openShop();
        Page page = frame(shop);
        page.keyboard().press("Alt+i");
        page.keyboard().type("Ø 800");
        page.keyboard().press("Enter");
        Locator row = page.locator("[data-instead]");
        assertThat(row).containsText("not 600 mm");

        page.getByLabel("Heel radius").fill("350");
        assertThat(row).containsText("not 700 mm");
        page.getByLabel("Flange height").last().fill("");
        assertThat(row).containsText("goes with curved work, a dish or an outline");
        page.getByLabel("Flange height").last().fill("40");
        assertThat(row).containsText("not 700 mm");

        row.locator("button").first().focus();
        page.keyboard().press("Enter");
        assertThat(page.locator(".notice")).containsText("Taken over: Ø 800");
        assertThat(page.getByLabel("Heel radius")).hasValue("400");
        assertThat(page.locator("[data-instead]")).hasCount(0);
        page.locator("button[value=before]").click();
        assertThat(page.getByLabel("Heel radius")).hasValue("350");
        assertThat(page.locator("[data-instead]")).hasCount(1);
    }

    @Test
    void aLikelyOneIsOnePress() {
        Page page = frame(openShop());
        // the panel is answered when it opens: a press belongs to what stands there afterwards
        page.waitForResponse(
                r -> r.url().contains("instead"), () -> page.keyboard().press("Alt+i"));
        assertThat(page.locator("#instead")).containsText("Now Ø 600 mm");
        Locator steel = page.locator(".quick button", new Page.LocatorOptions().setHasText("DC04"));
        steel.focus();
        assertThat(steel).isFocused();
        page.keyboard().press("Enter");
        assertThat(page.locator("[data-instead]")).containsText("DC04");
        assertThat(page.locator("#f-instead")).isFocused();
        page.reload();
        assertThat(page.locator("[data-instead]")).containsText("DC04");
    }

    private Page frame(TestShop shop) {
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        page.getByLabel("Title").fill("Round frame");
        Locator part = page.locator("#parts");
        part.getByLabel("Thickness").fill("2");
        part.getByLabel("Blank length").fill("1945");
        part.getByLabel("Blank width").fill("120");
        part.getByLabel("Heel radius").fill("300");
        part.getByLabel("Heel length").fill("1885");
        part.getByLabel("Flange height").fill("40");
        assertThat(page.locator("#result .big")).isVisible();
        return page;
    }
}
