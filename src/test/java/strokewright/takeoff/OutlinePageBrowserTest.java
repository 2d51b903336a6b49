package strokewright.takeoff;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.FilePayload;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;

/** An outline handed over to the take-off page, and what is seen of it. */
class OutlinePageBrowserTest extends BrowserTest {

    /** Two quarters of 200 and 150, one each way, straights and a square corner. */
    private static final String FILE =
            """
            <?xml version="1.0"?>
            <svg xmlns="http://www.w3.org/2000/svg" width="50cm" height="60cm" viewBox="0 0 250 300">
              <g transform="translate(5 5)">
                <path d="M0 0A100 100 0 0 1 100 100V160A75 75 0 0 0 175 235H215V250"/>
              </g>
            </svg>
            """;

    private static final Pattern READ = Pattern.compile("M10 10A200 200 .*L440 510");

    @Test
    void aPastedFileBecomesPathDataAPictureAndMinutes() {
        Page page = begun("en-GB");
        Locator outline = outline(page);
        paste(outline, FILE);
        assertThat(outline).hasValue(READ);
        assertThat(page.locator("[data-outline-told]").first())
                .hasText("Read one shape. By its size one unit is 2 mm.");
        seen(page);

        requireAccessible(page);
        requireNoSidewaysScroll(page);
        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);
        requireAccessible(page);
    }

    @Test
    void aDroppedFileIsReadAndTheBrowsersUndoBringsBackWhatWasThere() {
        Page page = begun("de-DE");
        Locator outline = outline(page);
        outline.fill("M0 0h20");
        drop(outline, "bow.svg", FILE);
        assertThat(outline).hasValue(READ);
        seen(page);
        page.keyboard().press("Control+z");
        assertThat(outline).hasValue("M0 0h20");
    }

    @Test
    void aFileIsChosenByTheKeyboardAndKeptWithTheDraft() {
        Page page = begun("en-GB");
        page.getByLabel("From a file")
                .first()
                .setInputFiles(
                        new FilePayload(
                                "bow.svg", "image/svg+xml", FILE.getBytes(StandardCharsets.UTF_8)));
        seen(page);
        assertThat(page.locator("#result")).containsText("Kept as you type");
        untilAnswered(page, "title=Bow", () -> page.getByLabel("Title").fill("Bow"));
        page.reload();
        assertThat(outline(page)).hasValue(READ);
        seen(page);
    }

    @Test
    void whatCannotBeReadIsToldBesideTheFieldAndNothingIsLost() {
        Page page = begun("en-GB");
        Locator outline = outline(page);
        outline.fill("M0 0h20");
        Locator told = page.locator("[data-outline-told]").first();
        drop(
                outline,
                "hostile.svg",
                "<!DOCTYPE svg [<!ENTITY a 'ha'>]><svg><text>&a;</text><path d='M0 0h9'/></svg>");
        assertThat(told)
                .hasText("hostile.svg declares entities of its own: save it as a plain SVG file.");
        assertThat(outline).hasValue("M0 0h20");
        drop(outline, "large.svg", "<svg>" + " ".repeat(1 << 20) + "</svg>");
        assertThat(told).containsText("large.svg is larger than 1 MiB");
        paste(outline, "<svg><path d='M0 0 h 9'</svg>");
        assertThat(told).containsText("What was pasted cannot be read as SVG: line 1 is not XML");
        assertThat(outline).hasValue("<svg><path d='M0 0 h 9'</svg>");
        Locator fault = page.locator("[id$='-path-fault']").first();
        assertThat(fault).containsText("cannot be read as SVG");
        assertThat(outline).hasAttribute("aria-invalid", "true");
        outline.fill("M0 0 round");
        assertThat(fault).containsText("is not SVG path data");
        outline.fill("M0 0h200a200 200 0 0 1 200 200");
        assertThat(fault).isEmpty();
        assertThat(picture(page)).isVisible();
    }

    @Test
    void segmentsAreTypedByTheKeyboardAlone() {
        Page page = begun("en-GB");
        page.locator(".segments > summary").first().focus();
        page.keyboard().press("Enter");
        page.keyboard().press("Tab");
        page.keyboard().press("Enter");
        page.keyboard().type("200");
        page.keyboard().press("Enter");
        page.keyboard().type("300");
        page.keyboard().press("Tab");
        page.keyboard().type("-150");
        assertThat(page.locator(".segment")).hasCount(2);
        assertThat(picture(page)).containsText("1: stretches over 300 mm, tightest R 150");
        page.keyboard().press("Alt+ArrowUp");
        assertThat(page.locator(".segment input").first()).hasValue("300");
        page.keyboard().press("Alt+Delete");
        assertThat(page.locator(".segment")).hasCount(1);
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Undo")).click();
        assertThat(page.locator(".segment")).hasCount(2);
        page.locator(".segment input").nth(1).fill("150 or so");
        assertThat(page.locator(".segment .fault").nth(1)).containsText("must be a number");
        requireAccessible(page);
        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);
        assertThat(page.locator(".line").first().locator(".line, [name*='KEY']")).hasCount(0);
    }

    @Test
    void theQuoteShowsTheOutlineAndTheItemOpensWithItsPathData() {
        Page page = begun("en-GB");
        drop(outline(page), "bow.svg", FILE);
        seen(page);
        page.getByLabel("Title").fill("Bow");
        page.getByLabel("Customer").fill("Harbour Theatre");
        page.locator("#save").click();
        page.waitForURL(Pattern.compile(".*/quotes/Q-.*"));
        Locator picture = page.locator("figure.outline");
        assertThat(picture).isVisible();
        assertThat(picture).containsText("2: stretches over 236 mm");
        assertThat(page.locator("table:has(caption:text('Work on one piece'))"))
                .containsText("Bow 1: Follow an outline, 780\u00a0mm, 2 stretches, 1 corner");
        requireAccessible(page);
        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);
        page.setViewportSize(DESK, 900);
        page.getByText("Change item 1").click();
        assertThat(outline(page)).hasValue(READ);
    }

    @Test
    void withoutScriptsAPastedFileIsReadToo() {
        TestShop shop = openShop();
        Page page = windowWithoutScripts(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        page.locator("[data-kind]").first().selectOption("follow-outline");
        page.locator("button[value=kept]").last().click();
        metal(page);
        outline(page).fill(FILE);
        page.locator("button[value=kept]").last().click();
        assertThat(outline(page)).hasValue(Pattern.compile("<\\?xml.*", Pattern.DOTALL));
        assertThat(picture(page)).containsText("1: shrinks over 314 mm");
        page.locator(".segments > summary").click();
        page.locator("[value$='/segments']").click();
        assertThat(page.locator(".segment")).hasCount(1);
    }

    private static void seen(Page page) {
        assertThat(picture(page)).containsText("1: shrinks over 314 mm, tightest R 200");
        assertThat(picture(page)).containsText("2: stretches over 236 mm, tightest R 150");
        assertThat(picture(page)).containsText("C1 turns 90°");
        assertThat(picture(page).locator("svg")).isVisible();
        assertThat(page.locator(".line .readout").first())
                .hasText(
                        Pattern.compile(
                                ".*outline\\s+780\\s+mm.*at the machine\\s+[0-9].*min.*",
                                Pattern.DOTALL));
        assertThat(page.locator("#result .big")).containsText("EUR each");
    }

    private static Locator picture(Page page) {
        return page.locator(".line figure.outline").first();
    }

    private static Locator outline(Page page) {
        return page.locator("#parts [data-outline]").first();
    }

    private static void paste(Locator into, String text) {
        into.focus();
        into.page()
                .evaluate(
                        """
                        text => {
                            const data = new DataTransfer();
                            data.setData("text/plain", text);
                            document.activeElement.dispatchEvent(new ClipboardEvent("paste",
                                { clipboardData: data, bubbles: true, cancelable: true }));
                        }
                        """,
                        text);
    }

    private static void drop(Locator onto, String name, String text) {
        Object data =
                onto.page()
                        .evaluateHandle(
                                """
                                file => {
                                    const data = new DataTransfer();
                                    data.items.add(new File([file.text], file.name, { type: "image/svg+xml" }));
                                    return data;
                                }
                                """,
                                Map.of("name", name, "text", text));
        onto.dispatchEvent("drop", Map.of("dataTransfer", data));
    }

    private Page begun(String language) {
        TestShop shop = openShop();
        Page page = window(DESK, language);
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/take-off");
        page.locator("#parts [data-kind]").first().selectOption("follow-outline");
        metal(page);
        return page;
    }

    private static void metal(Page page) {
        Locator parts = page.locator("#parts");
        parts.getByLabel("Part", new Locator.GetByLabelOptions().setExact(true)).fill("Bow");
        parts.getByLabel("Thickness").fill("2");
        parts.getByLabel("Blank length").fill("900");
        parts.getByLabel("Blank width").fill("50");
        parts.getByLabel("Flange height").first().fill("30");
    }
}
