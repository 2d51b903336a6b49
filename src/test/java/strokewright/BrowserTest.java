package strokewright;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.APIRequestContext;
import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Request;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.FormData;
import com.microsoft.playwright.options.Media;
import com.microsoft.playwright.options.RequestOptions;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import strokewright.access.Role;

/**
 * The service as people see it, in Chromium. Every page that was opened is held to three things:
 * nothing that the content security policy had to stop, no script error, and no wider than the
 * window.
 */
@Tag("browser")
public abstract class BrowserTest extends ServiceTest {

    protected static final int DESK = 1280;
    protected static final int PHONE = 360;

    /** 176 mm: what the style sheet's margins leave. */
    private static final int A4_WIDTH = 665;

    private static final int PATIENCE_MS = 30_000;

    private static final List<String> RULES =
            List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice");

    private final List<BrowserContext> contexts = new ArrayList<>();
    private final List<String> complaints = new ArrayList<>();

    /** A window of its own, with nobody signed in. */
    protected final Page window(int width, String language) {
        return window(width, language, true);
    }

    protected final Page windowWithoutScripts(int width, String language) {
        return window(width, language, false);
    }

    /** Where windows find the service. */
    protected int windowPort() {
        return port();
    }

    private Page window(int width, String language, boolean scripts) {
        BrowserContext context =
                Chromium.running()
                        .newContext(
                                new Browser.NewContextOptions()
                                        .setBaseURL("http://localhost:" + windowPort())
                                        .setLocale(language)
                                        .setJavaScriptEnabled(scripts)
                                        .setViewportSize(width, width == PHONE ? 740 : 900));
        contexts.add(context);
        // the machine may be busy: two runs go on side by side
        context.setDefaultTimeout(PATIENCE_MS);
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
        Page page = context.newPage();
        page.onConsoleMessage(
                message -> {
                    if (message.type().equals("error") && !isMeant(message.text())) {
                        complaints.add(message.text());
                    }
                });
        page.onPageError(complaints::add);
        return page;
    }

    /**
     * An answer that a later key made superfluous is broken off on purpose, and a lost session has
     * to be told.
     */
    protected boolean isMeant(String error) {
        return error.matches("htmx:(sendAbort|afterRequest),.*")
                || error.matches("Response Status Error Code 401 .*")
                || error.contains("the server responded with a status of 401");
    }

    /** With a session of this window's own; {@code AccessPagesBrowserTest} types a password. */
    protected final void signIn(Page page, TestShop shop, Role role) {
        page.navigate(
                "about:blank"); // a page that goes on asking would change the session meanwhile
        APIRequestContext http = page.context().request();
        String form = http.get("/sign-in").text();
        APIResponse answer =
                http.post(
                        "/sign-in",
                        RequestOptions.create()
                                .setMaxRedirects(0)
                                .setForm(
                                        FormData.create()
                                                .set("username", shop.user(role).userName())
                                                .set("password", TestShop.PASSWORD)
                                                .set("_csrf", Person.csrfToken(form))));
        assertThat(answer.headers().get("location")).as("after it").doesNotContain("/sign-in");
    }

    /**
     * Does what sends a form by itself, and waits until the answer to it stands in the page:
     * figures may be read and the page may be left then.
     *
     * @param sent ends a name and a value of the request that counts, like {@code heightMm=40};
     *     those before it may still be answered
     */
    protected static void untilAnswered(Page page, String sent, Runnable action) {
        page.waitForResponse(
                answer ->
                        answer.request().method().equals("POST")
                                && fields(answer.request()).anyMatch(f -> f.endsWith(sent)),
                action);
        assertThat(page.locator(".htmx-request")).hasCount(0);
    }

    private static Stream<String> fields(Request request) {
        String body = request.postData() == null ? "" : request.postData();
        return Stream.of(body.split("&")).map(f -> URLDecoder.decode(f, StandardCharsets.UTF_8));
    }

    /** No serious or critical fault of WCAG 2.2 A and AA. */
    protected static void requireAccessible(Page page) {
        page.waitForLoadState();
        if (!(Boolean) page.evaluate("() => 'axe' in window")) {
            page.evaluate("() => {" + AxeBuilder.getAxeScript() + "}");
        }
        Object faults =
                page.evaluate(
                        """
                        async (rules) => {
                            const found = await axe.run({ runOnly: rules, resultTypes: ["violations"] });
                            return found.violations
                                .filter((v) => v.impact === "serious" || v.impact === "critical")
                                .map((v) => v.id + ": " + v.help + " " + v.nodes.map((n) => n.html));
                        }
                        """,
                        RULES);
        assertThat((List<?>) faults).as(page.url()).isEmpty();
    }

    protected static void requireNoSidewaysScroll(Page page) {
        page.waitForLoadState();
        int over =
                (int)
                        page.evaluate(
                                "() => document.documentElement.scrollWidth - window.innerWidth");
        assertThat(over).as("wider than the window: " + page.url()).isLessThanOrEqualTo(0);
    }

    /** A page is read as it is: at a desk and on a phone. */
    protected static void requireReadable(Page page, String path) {
        for (int width : new int[] {DESK, PHONE}) {
            page.setViewportSize(width, width == PHONE ? 740 : 900);
            page.navigate(path);
            requireAccessible(page);
            requireNoSidewaysScroll(page);
        }
        page.setViewportSize(DESK, 900);
    }

    /** Nothing of the page that is open is wider than A4 paper within its margins. */
    protected static void requireNothingCutOffInPrint(Page page) {
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        page.setViewportSize(A4_WIDTH, 1000);
        requireNoSidewaysScroll(page);
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));
        page.setViewportSize(DESK, 900);
    }

    @AfterEach
    void nothingWasStopped() {
        contexts.forEach(BrowserContext::close);
        assertThat(complaints).isEmpty();
    }
}
