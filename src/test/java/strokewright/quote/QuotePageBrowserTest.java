package strokewright.quote;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.Media;
import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.takeoff.Situations;

class QuotePageBrowserTest extends BrowserTest {

    @Autowired private Quotes quotes;

    private TestShop shop;
    private QuoteDocument quote;

    @BeforeEach
    void aDraftWithAnOption() {
        shop = openShop();
        var takeOff = Situations.takeOff(QuotesApiTests.TAKE_OFF);
        QuoteRequest request =
                new QuoteRequest(
                        new CustomerChoice(null, "Harbour Theatre Workshop", "Quay 1\nQuillmoor"),
                        null,
                        null,
                        Terms.UNSAID,
                        List.of(
                                new QuoteRequest.Item(1, null, null, takeOff, null),
                                new QuoteRequest.Item(2, "Spare frame", true, takeOff, null)));
        quote = shop.user(Role.ESTIMATOR).call(() -> quotes.create(request)).document();
    }

    @Test
    void canBeReadAtTheDeskOnAPhoneAndInPrint() {
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.OFFICE);
        for (String path : List.of("/quotes", "/quotes/" + quote.number())) {
            page.setViewportSize(DESK, 900);
            page.navigate(path);
            requireAccessible(page);
            requireNoSidewaysScroll(page);
            page.setViewportSize(PHONE, 740);
            requireAccessible(page);
            requireNoSidewaysScroll(page);
        }
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        assertThat(page.getByRole(AriaRole.BUTTON, named("Issue"))).isHidden();
        assertThat(page.getByText("Identification number")).isVisible();
    }

    @Test
    void writesAmountsAsTheReaderDoes() {
        Page page = window(DESK, "de-DE");
        signIn(page, shop, Role.OFFICE);
        page.navigate("/quotes/" + quote.number());
        String withTax = quote.total().withTax().amount().toPlainString().replace('.', ',');

        assertThat(page.getByRole(AriaRole.ROW, row("Total with tax"))).containsText(withTax);
    }

    @Test
    void isIssuedByTheKeyboardAndDownloaded() throws IOException {
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.OFFICE);
        page.navigate("/");
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName(quote.number())).click();
        page.getByRole(AriaRole.BUTTON, named("Issue")).focus();
        page.keyboard().press("Enter");
        assertThat(page.getByRole(AriaRole.STATUS)).containsText("frozen");

        Download file =
                page.waitForDownload(
                        () ->
                                page.getByRole(
                                                AriaRole.LINK,
                                                new Page.GetByRoleOptions()
                                                        .setName("Download the workbook"))
                                        .click());
        OpenedWorkbook opened = new OpenedWorkbook(Files.readAllBytes(file.path()));

        assertThat(file.suggestedFilename()).isEqualTo(quote.number() + ".xlsx");
        assertThat(opened.amount("quote_with_tax")).isEqualTo(quote.total().withTax().amount());
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name).setExact(true);
    }

    private static Page.GetByRoleOptions row(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }
}
