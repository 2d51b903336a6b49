package strokewright.takeoff;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;

class TakeOffPageBrowserTest extends BrowserTest {

    @Test
    void pricesARoundFrameByTheKeyboardAlone() {
        Page page = takeOff("en-GB");
        enterRoundFrame(page, TakeOffPageBrowserTest::type);

        assertThat(price(page)).containsText("EUR each");

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
    void anArrowKeyMakesAnotherQuantityTheMainOneAndStaysThere() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        untilAnswered(page, "=1, 5, 20", () -> field(page, "Quantities").fill("1, 5, 20"));
        assertThat(page.locator(".price-list [data-main]")).hasCount(3);

        page.locator("#main-1").focus();
        page.keyboard().press("ArrowDown");
        assertThat(field(page, "Main quantity")).hasValue("5");
        assertThat(page.locator("#result .answer")).containsText("for 5");
        assertThat(page.locator("#main-5")).isChecked();
        assertThat(page.locator("#main-5")).isFocused();
        assertThat(page.locator(".steps caption")).containsText("for 5");

        page.keyboard().press("ArrowDown");
        assertThat(page.locator("#result .answer")).containsText("for 20");
        requireAccessible(page);
    }

    @Test
    void aFaultStandsBesideItsFieldAndGoesWhenItIsMended() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        assertThat(price(page)).isVisible();
        field(page, "Heel radius").fill("1,200");
        Locator beside = page.locator("#f-parts-p1-operations-o1-radiusMm-fault");
        assertThat(beside).containsText("did you mean 1200 or 1.200");
        assertThat(field(page, "Heel radius")).hasAttribute("aria-invalid", "true");
        assertThat(field(page, "Heel radius")).hasValue("1,200");
        field(page, "Heel radius").fill("1200");
        assertThat(beside).isEmpty();
    }

    @Test
    void aMarketsPriceSaysWhatItLeavesAndIsStillThereLater() {
        TestShop shop = openShop();
        Page page = takeOff("de-DE", shop);
        roundFrame(page);
        Locator left = page.locator(".market");
        assertThat(left).hasCount(0);

        field(page, "Market price each").fill("250,50");
        assertThat(left).containsText("1 at 250,50");
        assertThat(left).containsText("Profit left");
        assertThat(left).containsText("Hours left with no profit");
        assertThat(page.locator("#faults")).hasCount(0);
        requireAccessible(page);

        field(page, "Market price each").fill("1");
        assertThat(left).containsText("A loss of");
        field(page, "Market price each").fill("0");
        assertThat(left).containsText("The market price must be over 0");
        untilAnswered(page, "=99,5", () -> field(page, "Market price each").fill("99,5"));
        page.close();
        Page later = takeOff("de-DE", shop);
        assertThat(field(later, "Market price each")).hasValue("99,5");
        assertThat(later.locator(".market")).containsText("1 at 99,50");
    }

    @Test
    void numbersAreThoseOfTheBrowsersLanguage() {
        Page page = takeOff("de-DE");
        roundFrame(page);
        field(page.locator("#parts"), "Thickness").fill("1,5");
        assertThat(page.locator(".part > .slot")).containsText("0,95 kg");
        field(page, "Heel radius").fill("1.200");
        assertThat(page.locator("#f-parts-p1-operations-o1-radiusMm-fault"))
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
        untilAnswered(
                page,
                "=Frame with two areas",
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
        assertThat(field(page, "Heel radius")).hasValue("300");
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
        assertThat(field(later, "Heel radius")).hasValue("300");
        assertThat(price(later)).hasText(priced);

        button(later, "Start a fresh one").click();
        assertThat(field(later, "Heel radius")).hasValue("");
        button(later, "Back to the one before").click();
        assertThat(field(later, "Heel radius")).hasValue("300");
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
        assertThat(field(other, "Heel radius")).hasValue("");
    }

    @Test
    void aLostSessionIsMendedInPlaceAndLosesNoKey() {
        TestShop shop = openShop();
        Page page = takeOff("en-GB", shop);
        roundFrame(page);
        assertThat(price(page)).isVisible();
        page.context()
                .clearCookies(new BrowserContext.ClearCookiesOptions().setName("strokewright"));

        field(page, "Heel radius").fill("700");
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
        assertThat(field(page, "Heel radius")).hasValue("700");
        assertThat(page.locator("#result")).containsText("Kept as you type");
        // a form that is sent the plain way is accepted too
        button(page, "Start a fresh one").click();
        assertThat(field(page, "Heel radius")).hasValue("");
    }

    @Test
    void withoutScriptsTheButtonsDoTheSame() {
        TestShop shop = openShop();
        Page page = windowWithoutScripts(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        enterRoundFrame(page, Locator::fill);
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
        assertThat(field(page, "Heel radius")).hasValue("300");
    }

    @Test
    void oneKeyTakesAProposedLineOutAndPutsItBack() {
        TestShop shop = openShop();
        Page page = takeOff("en-GB", shop);
        roundFrame(page);
        Locator deburr = page.locator(".part [data-proposed]").filter(withText("Deburr"));
        assertThat(deburr).containsText("4.13 m");
        assertThat(deburr).not().hasClass("out");
        String all = price(page).innerText();

        field(page, "Heel radius").focus();
        page.keyboard().press("Alt+p");
        assertThat(page.locator(".part [data-proposed] button").first()).isFocused();
        page.keyboard().press("ArrowDown");
        page.keyboard().press("ArrowDown");
        page.keyboard().press("Delete");
        assertThat(deburr).hasClass("out");
        assertThat(page.locator("#said")).hasText("Deburr is taken out.");
        assertThat(price(page)).not().hasText(all);
        assertThat(deburr.locator("button")).isFocused();
        requireAccessible(page);
        requireNoSidewaysScroll(page);

        String without = price(page).innerText();
        page.reload();
        assertThat(deburr).hasClass("out");
        assertThat(price(page)).hasText(without);
        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);

        deburr.locator("button").focus();
        page.keyboard().press("Delete");
        assertThat(price(page)).hasText(all);
        assertThat(deburr).not().hasClass("out");
    }

    @Test
    void whatWasTakenOutIsSavedWithTheQuote() {
        TestShop shop = openShop();
        Page page = takeOff("en-GB", shop);
        roundFrame(page);
        field(page, "Templates held").fill("300");
        field(page, "Customer").fill("Harbour Theatre");
        button(page, "Take out Packing").click();
        assertThat(page.locator("#proposed .out")).hasCount(1);
        button(page, "Save as quote").click();
        page.waitForURL(Pattern.compile(".*/quotes/.*"));
        assertThat(page.locator("main")).containsText("Packing was taken out: 6.0 min each");
        assertThat(page.locator("main")).containsText("proposed: Deburr");
        assertThat(page.locator("main")).not().containsText("proposed: Make template");
    }

    @Test
    void withoutScriptsAProposedLineIsTakenOutByAReload() {
        TestShop shop = openShop();
        Page page = windowWithoutScripts(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        enterRoundFrame(page, Locator::fill);
        button(page, "Reckon").click();
        button(page, "Take out Deburr").click();
        assertThat(page.locator(".proposed .out")).containsText("Deburr");
        button(page, "Put back Deburr").click();
        assertThat(page.locator(".proposed .out")).hasCount(0);
    }

    @Test
    void anEmptyAmountShowsWhatTheGeometryOffersAndCountsIt() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        page.keyboard().press("Enter");
        lastKind(page).selectOption("standard");
        page.locator(".part .line").last().getByLabel("Time standard").selectOption("Degrease");
        Locator line = page.locator(".part .line").last();
        assertThat(line.locator(".slot")).containsText("amount, from the geometry 23.34 dm²");
        assertThat(field(line, "Amount")).hasAttribute("placeholder", "23.34");
        field(line, "Amount").fill("10");
        assertThat(line.locator(".slot")).not().containsText("from the geometry");
    }

    private static Locator.FilterOptions withText(String text) {
        return new Locator.FilterOptions().setHasText(text);
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

    @Test
    void aShapeIsStartedFromAndEditedByTheKeyboardAlone() {
        Page page = takeOff("de-DE");
        Locator panel = page.locator("#shape");
        field(panel, "Shape").focus();
        page.keyboard().type("U-");
        assertThat(panel.locator("svg").first()).containsText("Plan of a U");
        page.keyboard().press("Tab");
        assertThat(field(panel, "Grade")).isFocused();
        page.keyboard().press("Tab");
        page.keyboard().type("1,5");
        page.keyboard().press("Tab");
        page.keyboard().type("400");
        page.keyboard().press("Tab");
        page.keyboard().type("500");
        page.keyboard().press("Tab");
        page.keyboard().type("150");
        page.keyboard().press("Enter");

        // what is missing stands beside its field, and what was typed stays
        assertThat(panel.locator(".fault").filter(filled())).hasCount(2);
        assertThat(field(panel, "Flange height F")).isFocused();
        assertThat(field(panel, "Corner radius R")).hasValue("150");
        requireAccessible(page);
        page.keyboard().type("30");
        page.keyboard().press("Tab");
        page.keyboard().type("40");
        page.keyboard().press("Enter");

        assertThat(page.locator(".part")).hasCount(1);
        assertThat(field(page.locator("#parts"), "Part")).hasValue("U-frame");
        assertThat(field(page.locator("#parts"), "Part")).isFocused();
        assertThat(page.locator("#parts [name$='/radiusMm']")).hasValue("150");
        assertThat(page.locator("#parts [name$='/count']")).hasValue("2");
        // legs 350, run 100, two quarters of 150: 1271.24
        assertThat(field(page.locator("#parts"), "Blank length")).hasValue("1272");
        assertThat(page.locator("#proposed")).containsText("Make template");
        assertThat(panel).containsText("Blank 1\u2009272 × 70 mm");
        assertThat(price(page)).containsText("EUR each");

        String before = price(page).textContent();
        page.locator("#parts [name$='/heightMm']").fill("25");
        assertThat(price(page)).not().hasText(before);
        requireAccessible(page);
        requireNoSidewaysScroll(page);
        page.setViewportSize(PHONE, 740);
        panel.locator("summary").click();
        requireNoSidewaysScroll(page);
        requireAccessible(page);
    }

    @Test
    void aSecondShapeStandsBehindTheFirstAndUndoKeepsBothApart() {
        Page page = takeOff("en-GB");
        addRing(page, "600");
        assertThat(page.locator(".part")).hasCount(1);
        page.locator(".part .line").last().locator("[data-remove]").click();
        addRing(page, "500");
        assertThat(page.locator(".part")).hasCount(2);
        assertThat(page.locator(".part [name$='/radiusMm']").last()).hasValue("250");
        button(page, "Undo").click();
        assertThat(price(page)).containsText("EUR each");
        List<Object> names =
                page.locator("form [name^='/']").evaluateAll("fields => fields.map(f => f.name)")
                                instanceof List<?> all
                        ? new ArrayList<>(all)
                        : List.of();
        assertThat(names).doesNotHaveDuplicates().hasSizeGreaterThan(70);
    }

    @Test
    void theSketchFollowsWhatIsChosenAndAnotherShapeKeepsTheNumbers() {
        Page page = takeOff("en-GB");
        Locator panel = page.locator("#shape");
        field(panel, "Outside Ø D").fill("600");
        field(panel, "Flange").selectOption("outside");
        assertThat(panel.locator("svg:visible desc"))
                .hasText(Pattern.compile(".*pointing outside.*"));
        field(panel, "Shape").selectOption("arc");
        assertThat(field(panel, "Outside Ø D")).hasValue("600");
        assertThat(field(panel, "Flange")).hasValue("outside");
        assertThat(panel.locator("svg:visible desc"))
                .hasText(Pattern.compile(".*arc.*pointing outside.*"));
        field(panel, "Sweep α").fill("90");
        assertThat(page.locator("#result")).containsText("Kept as you type");
        untilAnswered(page, "=20", () -> field(panel, "Return B").fill("20"));
        page.reload();
        assertThat(field(panel, "Sweep α")).hasValue("90");
        assertThat(field(panel, "Shape")).hasValue("arc");
    }

    @Test
    void withoutScriptsAShapeIsAddedByAReload() {
        TestShop shop = openShop();
        Page page = windowWithoutScripts(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        Locator panel = page.locator("#shape");
        field(panel, "Shape").selectOption("bowl");
        panel.locator("button").first().click();
        field(panel, "Thickness").fill("1.5");
        field(panel, "Mouth Ø D").fill("300");
        field(panel, "Depth H").fill("160");
        button(page, "Add to the take-off").click();
        assertThat(panel).containsText("at most half the Ø, 150 mm");
        field(panel, "Depth H").fill("60");
        button(page, "Add to the take-off").click();
        assertThat(page.locator(".part")).hasCount(1);
        assertThat(field(page.locator("#parts"), "Blank length")).hasValue("329");
        assertThat(price(page)).containsText("EUR each");
    }

    @Test
    void ownMinutesStandBesideTheComputedOnesAndGoAgain() {
        Page page = takeOff("en-GB");
        roundFrame(page);
        String computed = price(page).textContent();
        Locator line = page.locator(".line").first();
        line.locator(".own > summary").focus();
        page.keyboard().press("Enter");
        page.keyboard().press("Tab");
        page.keyboard().type("90");
        assertThat(line.locator("[name$='/overrideReason']")).hasAttribute("aria-invalid", "true");
        assertThat(price(page)).hasText(computed);
        page.keyboard().press("Tab");
        page.keyboard().type("Like the last one");
        assertThat(price(page)).not().hasText(computed);
        assertThat(line.locator(".readout")).containsText("own minutes, which count 90.0 min");
        assertThat(line.locator(".readout"))
                .containsText(Pattern.compile("computed\\s+\\d+\\.\\d\\s+min"));
        requireAccessible(page);

        page.locator("input[name='/title']").fill("Frame");
        field(page, "Customer").fill("Harbour Theatre Workshop");
        page.keyboard().press("Control+Enter");
        assertThat(page.locator("main"))
                .containsText(
                        Pattern.compile(
                                "Own minutes instead of \\d+\\.\\d computed: Like the last one"));
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Change")).click();
        assertThat(page.locator(".line").first().locator("[name$='/overrideMinutes']"))
                .hasValue("90");
        page.locator(".line").first().locator("[data-computed]").click();
        assertThat(price(page)).hasText(computed);
        assertThat(page.locator(".line").first().locator(".readout"))
                .not()
                .containsText("own minutes");
    }

    private static void addRing(Page page, String outside) {
        Locator panel = page.locator("#shape");
        if (panel.locator("details[open]").count() == 0) {
            panel.locator("summary").click();
        }
        field(panel, "Thickness").fill("2");
        field(panel, "Outside Ø D").fill(outside);
        field(panel, "Flange height F").fill("40");
        field(panel, "Return B").fill("80");
        int parts =
                page.locator(".part")
                        .filter(new Locator.FilterOptions().setHas(page.locator("[value='Ring']")))
                        .count();
        button(page, "Add to the take-off").click();
        assertThat(
                        page.locator(".part")
                                .filter(
                                        new Locator.FilterOptions()
                                                .setHas(page.locator("[value='Ring']"))))
                .hasCount(parts + 1);
    }

    private static Locator.FilterOptions filled() {
        return new Locator.FilterOptions().setHasText(Pattern.compile("\\S"));
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

    /** Until its price stands there; the field that was typed in last has the focus. */
    private static void roundFrame(Page page) {
        untilAnswered(page, "heightMm=40", () -> enterRoundFrame(page, Locator::fill));
    }

    private static void enterRoundFrame(Page page, BiConsumer<Locator, String> by) {
        by.accept(field(page, "Title"), "Round frame");
        by.accept(field(page, "Quantities"), "1, 2, 5");
        Locator part = page.locator("#parts");
        by.accept(field(part, "Thickness"), "2");
        by.accept(field(part, "Blank length"), "1945");
        by.accept(field(part, "Blank width"), "120");
        by.accept(field(part, "Heel radius"), "300");
        by.accept(field(part, "Heel length"), "1884.96");
        by.accept(field(part, "Flange height"), "40");
    }

    private static void type(Locator field, String text) {
        field.focus();
        field.page().keyboard().type(text);
    }

    private static Locator field(Page page, String label) {
        return page.getByLabel(label, new Page.GetByLabelOptions().setExact(true)).first();
    }

    private static Locator field(Locator within, String label) {
        return within.getByLabel(label, new Locator.GetByLabelOptions().setExact(true)).first();
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
