package strokewright.shopbook;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

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
        double before = left(grades);
        for (int i = 0; i < 600 && !atItsRightEnd(grades); i++) {
            page.keyboard().press("ArrowRight");
            page.waitForTimeout(50); // it scrolls smoothly
        }
        assertThat(left(grades)).isGreaterThan(before);
        assertThat(atItsRightEnd(grades)).isTrue();
    }

    private static double left(Locator region) {
        return ((Number) region.evaluate("e => e.scrollLeft")).doubleValue();
    }

    private static boolean atItsRightEnd(Locator region) {
        return (Boolean) region.evaluate("e => e.scrollLeft + e.clientWidth >= e.scrollWidth - 2");
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
}
