package strokewright.quote;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.access.Role;

/** The main job from end to end, as the estimator does it. */
class FromDrawingToWorkbookTest extends BrowserTest {

    @Test
    void theEstimatorPricesARoundSignFrameSavesTheQuoteAndDownloadsItsWorkbook()
            throws IOException {
        Page page = window(DESK, "en-GB");
        signIn(page, openShop(), Role.ESTIMATOR);
        page.navigate("/");
        assertThat(page).hasURL(java.util.regex.Pattern.compile(".*/take-off$"));
        type(page, "Title", "Round sign frame");
        type(page, "Quantities", "1, 2, 5");
        type(page, "Customer", "Harbour Theatre Workshop");
        type(page, "Thickness", "2");
        type(page, "Outside Ø D", "600");
        type(page, "Flange height F", "40");
        type(page, "Return B", "80");
        page.keyboard().press("Enter");
        Locator price = page.locator("#result .big");
        assertThat(price).containsText("EUR each");
        String each = price.textContent().strip().split("\\s")[0];
        page.keyboard().press("Control+Enter");

        assertThat(page.getByRole(AriaRole.HEADING).first()).containsText("Quote Q-");
        String number = page.url().substring(page.url().lastIndexOf('/') + 1);
        assertThat(
                        page.getByRole(
                                AriaRole.ROW,
                                new Page.GetByRoleOptions().setName("Total before tax")))
                .containsText(each);
        Download file =
                page.waitForDownload(
                        () ->
                                page.getByRole(
                                                AriaRole.LINK,
                                                new Page.GetByRoleOptions()
                                                        .setName("Download the workbook"))
                                        .click());
        OpenedWorkbook opened = new OpenedWorkbook(Files.readAllBytes(file.path()));
        BigDecimal stored = opened.amount("item_1_price_each");

        assertThat(file.suggestedFilename()).isEqualTo(number + ".xlsx");
        assertThat(stored).isEqualByComparingTo(each);
        assertThat(opened.texts(0)).containsAll(List.of(number, "Harbour Theatre Workshop"));
        assertThat(opened.calculate().amount("item_1_price_each")).isEqualTo(stored);
        assertThat(opened.words("item_1_check")).isEqualTo("Matches the stored revision.");
    }

    private static void type(Page page, String label, String text) {
        page.getByLabel(label, new Page.GetByLabelOptions().setExact(true)).first().focus();
        page.keyboard().type(text);
    }
}
