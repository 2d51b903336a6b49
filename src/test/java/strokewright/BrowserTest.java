package strokewright;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
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

    private static final int PATIENCE_MS = 30_000;

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

    /** Signs in by the keyboard. */
    protected final void signIn(Page page, TestShop shop, Role role) {
        page.navigate("/sign-in");
        page.getByLabel("User name").focus();
        page.keyboard().type(shop.user(role).userName());
        page.keyboard().press("Tab");
        page.keyboard().type(TestShop.PASSWORD);
        page.keyboard().press("Enter");
        page.waitForURL(url -> !url.contains("/sign-in"));
    }

    /** No serious or critical fault of WCAG 2.2 A and AA. */
    protected static void requireAccessible(Page page) {
        List<Rule> faults =
                new AxeBuilder(page)
                                .withTags(
                                        List.of(
                                                "wcag2a",
                                                "wcag2aa",
                                                "wcag21a",
                                                "wcag21aa",
                                                "wcag22aa",
                                                "best-practice"))
                                .analyze()
                                .getViolations()
                                .stream()
                                .filter(r -> Set.of("serious", "critical").contains(r.getImpact()))
                                .toList();
        assertThat(faults)
                .as(page.url())
                .extracting(r -> r.getId() + ": " + r.getHelp() + " " + r.getNodes())
                .isEmpty();
    }

    protected static void requireNoSidewaysScroll(Page page) {
        int over =
                (int)
                        page.evaluate(
                                "() => document.documentElement.scrollWidth - window.innerWidth");
        assertThat(over).as("wider than the window: " + page.url()).isLessThanOrEqualTo(0);
    }

    @AfterEach
    void nothingWasStopped() {
        contexts.forEach(BrowserContext::close);
        assertThat(complaints).isEmpty();
    }
}
