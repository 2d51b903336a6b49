package strokewright.takeoff;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;

/** A folded part typed by the keyboard, seen, kept and opened again. */
class FoldPageBrowserTest extends BrowserTest {

    @Test
    void aFoldIsTypedByTheKeyboardDrawnAndStillThereInTheQuote() {
        Page page = begun("en-GB");
        page.locator("details.fold > summary").first().click();
        page.getByLabel("Bend length").fill("500");
        page.getByLabel("First leg").fill("50");
        page.getByLabel("First leg").press("Enter");
        bend(page, 0, "", "3", "60");
        field(page, 0, "legMm").press("Enter");
        bend(page, 1, "120", "3", "30");
        field(page, 1, "way").selectOption("down");

        Locator slot = page.locator("section.part > .slot");
        assertThat(slot).containsText("134.01");
        assertThat(page.locator("[name='/parts/p1/blank/widthMm']"))
                .hasAttribute("placeholder", "134.01");
        assertThat(slot.locator("svg.drawing")).hasCount(2);
        requireAccessible(page);
        requireNoSidewaysScroll(page);
        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);
        requireAccessible(page);
        page.setViewportSize(DESK, 900);

        field(page, 1, "radiusMm").fill("0.4");
        assertThat(slot).containsText("may crack at an inside radius under 1\u00a0mm");
        field(page, 1, "radiusMm").fill("3");
        assertThat(slot).not().containsText("may crack");

        page.locator("details.more > summary").first().click();
        page.locator("[name='/parts/p1/grain']").selectOption("along-length");
        page.locator("[name='/parts/p1/irreplaceable']").selectOption("true");
        page.locator("[name='/parts/p1/operations/o1/type']").selectOption("standard");
        page.locator("[name='/parts/p1/operations/o1/standard']").selectOption("Fold");
        page.locator("[name='/parts/p1/operations/o1/amount']").fill("2");
        assertThat(page.locator("#faults li")).hasCount(0);
        page.getByLabel("Customer").fill("Somebody");
        page.locator("#save").click();
        page.waitForURL("**/quotes/**");
        page.navigate(page.url().replaceAll("[?#].*", "") + "/items/1");

        assertThat(field(page, 1, "openingDeg")).hasValue("120");
        assertThat(field(page, 1, "way")).hasValue("down");
        assertThat(page.locator("[name$='/fold/firstLegMm']").first()).hasValue("50");
        assertThat(page.locator("[name$='/grain']").first()).hasValue("along-length");
        assertThat(page.locator("[name$='/irreplaceable']").first()).hasValue("true");
    }

    @Test
    void aWrongRadiusIsToldBesideItsField() {
        Page page = begun("de-DE");
        page.locator("details.fold > summary").first().click();
        page.getByLabel("Bend length").fill("500");
        page.getByLabel("First leg").fill("50,5");
        page.getByLabel("First leg").press("Enter");
        bend(page, 0, "90", "drei", "40");

        assertThat(field(page, 0, "radiusMm")).hasAttribute("aria-invalid", "true");
        field(page, 0, "radiusMm").fill("1,5");
        assertThat(page.locator("section.part > .slot")).containsText("developed");
    }

    private static void bend(Page page, int index, String opening, String radius, String leg) {
        field(page, index, "openingDeg").fill(opening);
        field(page, index, "radiusMm").fill(radius);
        field(page, index, "legMm").fill(leg);
    }

    private static Locator field(Page page, int index, String name) {
        return page.locator("li.of-bend").nth(index).locator("[name$='/" + name + "']");
    }

    private Page begun(String locale) {
        TestShop shop = openShop();
        Page page = window(DESK, locale);
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        page.getByLabel("Title").fill("Bracket");
        page.locator("[name='/parts/p1/grade']").selectOption("DC04");
        page.locator("[name='/parts/p1/thicknessMm']").fill("2");
        return page;
    }
}
