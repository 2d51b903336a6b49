package strokewright.quote;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;

class TakeOffPageBrowserTest extends BrowserTest {

    @Test
    void pricesARoundFrameByTheKeyboardAlone() {
        Page page = takeOff("en-GB");
        roundFrame(page);

        assertThat(price(page)).containsText("EUR each");
        assertThat(field(page, "Blank length")).hasAttribute("placeholder", "1945");
        assertThat(field(page, "Heel length")).hasAttribute("placeholder", "1884.96");

        page.keyboard().press("Enter");
        assertThat(lastKind(page)).isFocused();
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
        requireAccessible(page);
    }

    @Test
    void aFaultStandsBesideItsFieldAndGoesWhenItIsMended() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        assertThat(price(page)).isVisible();
        field(page, "Outside Ø").fill("1,200");
        Locator beside = page.locator("#f-parts-p1-operations-o1-outsideMm-fault");
        assertThat(beside).containsText("did you mean 1200 or 1.200");
        assertThat(field(page, "Outside Ø")).hasAttribute("aria-invalid", "true");
        assertThat(field(page, "Outside Ø")).hasValue("1,200");
        field(page, "Outside Ø").fill("1200");
        assertThat(beside).isEmpty();
        assertThat(field(page, "Blank length")).hasAttribute("placeholder", "3830");
    }

    @Test
    void numbersAreThoseOfTheBrowsersLanguage() {
        Page page = takeOff("de-DE");
        roundFrame(page);
        field(page, "Thickness").fill("1,5");
        assertThat(page.locator(".part > .slot")).containsText("0,95 kg");
        field(page, "Outside Ø").fill("1.200");
        assertThat(page.locator("#f-parts-p1-operations-o1-outsideMm-fault"))
                .containsText("did you mean 1200 or 1,200");
    }

    @Test
    void rowsMoveAndGoByKeysAndComeBackByUndo() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        page.keyboard().press("Enter");
        lastKind(page).selectOption("smooth");
        field(page, "Area").fill("15");
        assertThat(page.locator(".line")).hasCount(2);

        page.keyboard().press("Alt+ArrowUp");
        assertThat(page.locator(".line").first().locator("[data-kind]")).hasValue("smooth");
        assertThat(field(page, "Area")).isFocused();

        page.keyboard().press("Alt+Delete");
        assertThat(page.locator(".line")).hasCount(1);
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Undo")).click();
        assertThat(page.locator(".line")).hasCount(2);
        assertThat(field(page, "Area")).hasValue("15");

        page.keyboard().press("Alt+Enter");
        assertThat(page.locator(".part")).hasCount(2);
        assertThat(page.locator(".part").last().getByLabel("Thickness")).hasValue("2");
    }

    @Test
    void aRowThatWasAddedMeanwhileIsNotTheOneThatUndoBringsBack() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        page.keyboard().press("Enter");
        lastKind(page).selectOption("smooth");
        field(page, "Area").fill("15");
        page.keyboard().press("Alt+Delete");
        assertThat(page.locator(".line")).hasCount(1);
        button(page, "Add a line of work").click();
        lastKind(page).selectOption("flatten");
        field(page, "Area").fill("22");
        button(page, "Undo").click();
        assertThat(page.locator(".line")).hasCount(3);
        assertThat(page.locator("#result")).containsText("Kept as you type");
        page.waitForResponse(
                answer -> answer.url().endsWith("/take-off/estimate"),
                () -> field(page, "Title").fill("Frame with two areas"));
        page.reload();
        assertThat(page.locator(".line")).hasCount(3);
        assertThat(page.locator("input[name$='/areaMm2']").first()).hasValue("15");
        assertThat(page.locator("input[name$='/areaMm2']").last()).hasValue("22");
    }

    @Test
    void anotherKindOfWorkAndBackKeepsWhatWasTyped() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        lastKind(page).selectOption("turn-flange");
        assertThat(field(page, "Flange height")).hasValue("40");
        lastKind(page).selectOption("curve-edge");
        assertThat(field(page, "Outside Ø")).hasValue("600");
    }

    @Test
    void whatWasTypedIsThereAgainWhenThePageIsOpenedLater() {
        TestShop shop = openShop();
        Page page = takeOff("en-GB", shop);
        roundFrame(page);
        assertThat(page.locator("#result")).containsText("Kept as you type");
        String priced = price(page).textContent();
        page.close();

        Page later = takeOff("en-GB", shop);
        assertThat(later.locator(".notice")).containsText("what you last typed here");
        assertThat(field(later, "Outside Ø")).hasValue("600");
        assertThat(price(later)).hasText(priced);

        button(later, "Start a fresh one").click();
        assertThat(field(later, "Outside Ø")).hasValue("");
        button(later, "Back to the one before").click();
        assertThat(field(later, "Outside Ø")).hasValue("600");
    }

    @Test
    void anotherUserOfTheShopSeesNothingOfIt() {
        TestShop shop = openShop();
        Page page = takeOff("en-GB", shop);
        roundFrame(page);
        assertThat(page.locator("#result")).containsText("Kept as you type");
        Page other = window(DESK, "en-GB");
        signIn(other, shop, Role.OWNER);
        other.navigate("/take-off");
        assertThat(field(other, "Outside Ø")).hasValue("");
    }

    @Test
    void aLostSessionIsMendedInPlaceAndLosesNoKey() {
        TestShop shop = openShop();
        Page page = takeOff("en-GB", shop);
        roundFrame(page);
        assertThat(price(page)).isVisible();
        page.context()
                .clearCookies(new BrowserContext.ClearCookiesOptions().setName("strokewright"));

        field(page, "Outside Ø").fill("700");
        Locator dialog = page.getByRole(AriaRole.DIALOG);
        assertThat(dialog).isVisible();
        requireAccessible(page);
        dialog.getByLabel("User name").fill(shop.user(Role.ESTIMATOR).userName());
        dialog.getByLabel("Password").fill("not the password");
        page.keyboard().press("Enter");
        assertThat(dialog).containsText("not right");
        dialog.getByLabel("Password").fill(TestShop.PASSWORD);
        page.keyboard().press("Enter");

        assertThat(dialog).isHidden();
        assertThat(field(page, "Outside Ø")).hasValue("700");
        assertThat(field(page, "Heel length")).hasAttribute("placeholder", "2199.11");
        // a form that is sent the plain way is accepted too
        button(page, "Start a fresh one").click();
        assertThat(field(page, "Outside Ø")).hasValue("");
    }

    @Test
    void withoutScriptsTheButtonsDoTheSame() {
        TestShop shop = openShop();
        Page page = windowWithoutScripts(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        roundFrame(page);
        button(page, "Reckon").click();
        assertThat(price(page)).containsText("EUR each");
        button(page, "Add a line of work").click();
        assertThat(page.locator(".line")).hasCount(2);
        page.locator(".line").last().locator("select").first().selectOption("smooth");
        button(page, "Show its fields").last().click();
        field(page, "Area").fill("15");
        page.locator(".line").last().locator("[aria-label='Move this line up']").click();
        assertThat(page.locator(".line").first().locator("select").first()).hasValue("smooth");
        assertThat(field(page, "Area")).hasValue("15");
        page.locator(".line").first().locator("[aria-label='Remove this line']").click();
        assertThat(page.locator(".line")).hasCount(1);
        assertThat(field(page, "Outside Ø")).hasValue("600");
    }

    @Test
    void cautionsStandWhereTheyAreCalledFor() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        assertThat(page.locator(".line .slot").first()).containsText("Pinch points");
        assertThat(page.locator(".part > .slot")).containsText("Deburr");
        assertThat(page.locator(".part > .slot")).containsText("ask for help"); // 1945 mm long
        assertThat(page.locator("#result"))
                .containsText("assumed, good to about a factor of two either way");
        assertThat(page.locator(".foot").textContent()).contains("licensed person");
    }

    private Page takeOff(String language) {
        return takeOff(language, openShop());
    }

    private Page takeOff(String language, TestShop shop) {
        Page page = window(DESK, language);
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        return page;
    }

    private static void roundFrame(Page page) {
        type(page, "Title", "Round frame");
        type(page, "Quantities", "1, 2, 5");
        type(page, "Thickness", "2");
        type(page, "Outside Ø", "600");
        type(page, "Flange height", "40");
        type(page, "Other leg", "80");
    }

    private static void type(Page page, String label, String text) {
        field(page, label).focus();
        page.keyboard().type(text);
    }

    private static Locator field(Page page, String label) {
        return page.getByLabel(label, new Page.GetByLabelOptions().setExact(true)).first();
    }

    private static Locator button(Page page, String name) {
        return page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name));
    }

    private static Locator lastKind(Page page) {
        return page.locator("select[data-kind]").last();
    }

    private static Locator price(Page page) {
        return page.locator("#result .big");
    }
}
