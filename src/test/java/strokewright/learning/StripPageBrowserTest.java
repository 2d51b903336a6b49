package strokewright.learning;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.ShopBook;
import strokewright.learning.TestStrips.Reading;
import strokewright.shopbook.ShopBooks;

/** Test strips from the first figure typed to the hours that rest on them. */
class StripPageBrowserTest extends BrowserTest {

    @Autowired private ShopBooks books;
    @Autowired private StripSets sets;

    private TestShop shop;
    private ShopBook starter;

    @BeforeEach
    void shop() {
        shop = openShop();
        starter = shop.user(Role.OWNER).call(books::current);
    }

    @Test
    void fromReadingsTypedByTheKeyboardToHoursThatAreMeasured() {
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.OWNER);
        page.navigate("/");
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Enter test strips"))
                .click();
        describe(page);
        requireAccessible(page);
        page.getByLabel("Reading 1, heel radius in mm").focus();
        for (Reading reading : MeasuredShop.notes(starter).strips().get(0).readings()) {
            for (double figure :
                    List.of(reading.radiusMm(), reading.strokes(), reading.minutes())) {
                page.keyboard().type(String.format(Locale.ROOT, "%.3f", figure));
                page.keyboard().press("Enter");
            }
        }
        assertThat(page.getByLabel("Reading 8, heel radius in mm")).isFocused();
        fit(page);

        assertThat(page.locator("h1")).containsText("Shrink, steel-faced, low-carbon-steel");
        assertThat(row(page, "Bite, thick sheet").first()).containsText("1.87");
        assertThat(row(page, "Stroke work").first()).containsText("0.920");
        assertThat(row(page, "Feed efficiency").first()).containsText("0.470");
        assertThat(row(page, "Bite, thick sheet").last()).containsText("1.60→ 1.87");
        assertThat(page.locator("svg.drawing path.dashed")).hasCount(1);
        assertThat(page.locator("svg.drawing desc"))
                .containsText(Pattern.compile("the bite holds it up to \\d"));
        requireAccessible(page);
        requireNoSidewaysScroll(page);

        page.getByText("Adopt into the shop book").click();
        assertThat(page.locator(".notice")).containsText("edition 2 of the shop book");
        assertThat(page.getByText("Adopt into the shop book")).hasCount(0);
        page.locator(".notice a").click();
        assertThat(page.locator("#main")).containsText("measured, test strips of 20");

        page.navigate("/take-off");
        assertThat(page.locator("#result")).not().containsText("factor of two");
    }

    @Test
    void aSlipIsToldBesideItsFieldAndNothingTypedIsLost() {
        Page page = window(DESK, "de-DE");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/learning/test-strips");
        describe(page);
        page.getByLabel("Thickness").fill("1,5");
        type(page, 1, "900", "260", "1:30");
        type(page, 2, "600", "200", "1,8");
        // row 3 stays empty
        type(page, 4, "450", "viele", "");
        page.getByText("Fit and keep").click();

        assertThat(page.locator(".notice.bad")).containsText("Not fitted yet");
        Locator said = page.locator("tr.said .fault");
        assertThat(said)
                .hasText(
                        new Pattern[] {
                            Pattern.compile("Strokes must be over the figure before it.*"),
                            Pattern.compile("Strokes must be a number.*"),
                            Pattern.compile("Minutes is missing.*"),
                        });
        assertThat(page.getByLabel("Reading 2, strokes")).isFocused();
        assertThat(page.getByLabel("Reading 4, strokes")).hasValue("viele");
        assertThat(page.getByLabel("Reading 1, minutes")).hasValue("1:30");
        requireAccessible(page);

        page.getByLabel("Reading 2, strokes").fill("420");
        type(page, 4, "450", "580", "3,4");
        fit(page);
        assertThat(page.locator("tbody tr", new Page.LocatorOptions().setHasText("900")))
                .containsText("1,5");
    }

    @Test
    void aBlockFromASpreadsheetFillsTheRowsAndMakesMore() {
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/learning/test-strips");
        StringBuilder block = new StringBuilder();
        for (int i = 0; i < 9; i++) {
            block.append(900 - 50 * i)
                    .append('\t')
                    .append(300 + 100 * i)
                    .append("\t")
                    .append(i + 1);
            block.append("\r\n");
        }
        page.getByLabel("Reading 1, heel radius in mm")
                .evaluate(
                        """
                        (cell, text) => {
                          const data = new DataTransfer();
                          data.setData("text/plain", text);
                          cell.dispatchEvent(new ClipboardEvent("paste",
                            {clipboardData: data, bubbles: true, cancelable: true}));
                        }
                        """,
                        block.toString());

        assertThat(page.getByLabel("Reading 9, heel radius in mm")).hasValue("500");
        assertThat(page.getByLabel("Reading 9, strokes")).hasValue("1100");
        assertThat(page.getByLabel("Reading 10, heel radius in mm")).isFocused();
    }

    @Test
    void severalStripsComeAndGoAndPhonesHaveRoomForThem() {
        Page page = window(PHONE, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/learning/test-strips");
        describe(page);
        type(page, 1, "900", "260", "1.5");
        page.getByText("Another strip of this family").click();
        assertThat(page.locator("fieldset.strip")).hasCount(2);
        assertThat(page.getByLabel("Thickness").nth(1)).isFocused();
        assertThat(page.getByLabel("Grade").nth(1)).hasValue(MeasuredShop.GRADE);
        assertThat(page.getByLabel("Reading 1, strokes").first()).hasValue("260");
        requireNoSidewaysScroll(page);
        page.getByLabel("Remove strip 2").click();
        assertThat(page.locator("fieldset.strip")).hasCount(1);
        page.getByText("More rows").click();
        assertThat(page.getByLabel("Reading 10, heel radius in mm")).isVisible();
        requireNoSidewaysScroll(page);
        requireAccessible(page);
    }

    @Test
    void worksWithoutScripts() {
        Page page = windowWithoutScripts(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/learning/test-strips");
        describe(page);
        page.getByText("More rows").click();
        assertThat(page.getByLabel("Reading 10, heel radius in mm")).isVisible();
        type(page, 1, "600", "400", "3");
        type(page, 2, "300", "900", "7");
        fit(page);

        assertThat(page.locator(".finding.refusal")).containsText("Only 2 readings");
        assertThat(page.getByText("Adopt into the shop book")).hasCount(0);
        page.getByText("Change and enter again").click();
        assertThat(page.getByLabel("Reading 2, strokes")).hasValue("900");
        assertThat(page.locator("#entered")).isVisible();
        assertThat(page.locator("tbody .state")).hasText("not fitted");
    }

    @Test
    void theEstimatorSeesWhatWouldChangeAndLeavesItToTheOwner() {
        StripSetDocument set =
                shop.user(Role.ESTIMATOR).call(() -> sets.enter(MeasuredShop.notes(starter)));
        Page page = window(PHONE, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/learning/test-strips/" + set.id());

        assertThat(page.locator("#main")).containsText("The owner can adopt them.");
        assertThat(page.getByText("Adopt into the shop book")).hasCount(0);
        requireNoSidewaysScroll(page);
        requireAccessible(page);
    }

    private static void describe(Page page) {
        page.getByLabel("Tool").selectOption(MeasuredShop.TOOL);
        page.getByLabel("Machine").selectOption(MeasuredShop.MACHINE);
        page.getByLabel("Grade").selectOption(MeasuredShop.GRADE);
        page.getByLabel("Thickness").fill("1.5");
        page.getByLabel("Length").fill("700");
        page.getByLabel("Flange height").fill("32");
    }

    private static void type(
            Page page, int reading, String radius, String strokes, String minutes) {
        page.getByLabel("Reading " + reading + ", heel radius in mm").fill(radius);
        page.getByLabel("Reading " + reading + ", strokes").fill(strokes);
        page.getByLabel("Reading " + reading + ", minutes").fill(minutes);
    }

    private static void fit(Page page) {
        page.getByText("Fit and keep").click();
        page.waitForURL(Pattern.compile(".*/learning/test-strips/[0-9a-f-]{36}"));
    }

    private static Locator row(Page page, String name) {
        return page.locator("table.compact tbody tr", new Page.LocatorOptions().setHasText(name));
    }
}
