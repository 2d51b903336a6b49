package strokewright.quote;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;

class TakeOffPageBrowserTest extends BrowserTest {

    @Test
    void pricesARoundFrameByTheKeyboardAlone() {
        TestShop shop = openShop();
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        type(page, "Title", "Round sign frame");
        type(page, "Quantities", "1, 2, 5");
        type(page, "Thickness", "2");
        type(page, "Outside Ø", "600");
        type(page, "Flange height", "40");
        type(page, "Other leg", "80");

        assertThat(page.locator("#result .big")).containsText("EUR each");
        assertThat(field(page, "Blank length")).hasAttribute("placeholder", "1945");
        assertThat(field(page, "Heel length")).hasAttribute("placeholder", "1884.96");

        page.keyboard().press("Enter");
        assertThat(page.locator("select[data-kind]").last()).isFocused();
        page.keyboard().type("By time");
        page.keyboard().press("Tab");
        page.keyboard().type("TIG weld");
        page.keyboard().press("Tab");
        page.keyboard().type("1,9");
        assertThat(page.locator(".line").last().locator(".slot")).containsText("Welding");
        assertThat(field(page, "Amount")).isFocused();
        assertThat(field(page, "Amount")).hasValue("1,9");
        requireAccessible(page);
        requireNoSidewaysScroll(page);
        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);
    }

    private static void type(Page page, String label, String text) {
        field(page, label).focus();
        page.keyboard().type(text);
    }

    private static Locator field(Page page, String label) {
        return page.getByLabel(label, new Page.GetByLabelOptions().setExact(true)).first();
    }
}
