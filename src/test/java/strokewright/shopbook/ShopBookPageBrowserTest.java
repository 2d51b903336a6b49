package strokewright.shopbook;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.access.Role;

class ShopBookPageBrowserTest extends BrowserTest {

    @Test
    void canBeReadAtTheDeskAndOnAPhone() {
        Page page = window(DESK, "en-GB");
        signIn(page, openShop(), Role.ESTIMATOR);
        page.navigate("/shop-book");
        assertThat(page.getByRole(AriaRole.HEADING, heading("Shop book, edition 1"))).isVisible();
        requireAccessible(page);
        requireNoSidewaysScroll(page);
        page.setViewportSize(PHONE, 740);
        requireAccessible(page);
        requireNoSidewaysScroll(page);
    }

    /** The far columns of a wide table are reached without a mouse. */
    @Test
    void wideTablesScrollByTheKeyboard() {
        Page page = window(PHONE, "en-GB");
        signIn(page, openShop(), Role.ESTIMATOR);
        page.navigate("/shop-book");
        Locator grades = page.getByRole(AriaRole.REGION, region("Grades"));
        grades.focus();
        page.keyboard().press("End");
        for (int i = 0; i < 40; i++) {
            page.keyboard().press("ArrowRight");
        }
        assertThat(grades.getByRole(AriaRole.COLUMNHEADER, column("Anneal here"))).isInViewport();
    }

    @Test
    void writesNumbersAsTheReaderDoes() {
        Page page = window(DESK, "de-DE");
        signIn(page, openShop(), Role.OWNER);
        page.navigate("/shop-book");
        assertThat(page.getByRole(AriaRole.REGION, region("Work centres"))).containsText("42,10");
    }

    private static Page.GetByRoleOptions heading(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    private static Page.GetByRoleOptions region(String name) {
        return new Page.GetByRoleOptions().setName(name).setExact(true);
    }

    private static Locator.GetByRoleOptions column(String name) {
        return new Locator.GetByRoleOptions().setName(name);
    }
}
