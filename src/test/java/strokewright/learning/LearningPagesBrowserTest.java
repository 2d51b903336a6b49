package strokewright.learning;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.comparison.ComparingShop;
import tools.jackson.databind.JsonNode;

/** Factors, drift and accuracy as people read them, from an empty shop on. */
class LearningPagesBrowserTest extends BrowserTest {

    private static final String ITEMS =
            """
            "items":[{"quantity":1,"takeOff":{"title":"Ring","information":"drawing","quantities":[1],
             "parts":[{"name":"Ring","grade":"DC04","thicknessMm":1.5,
               "blank":{"lengthMm":1900,"widthMm":120},
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":1800,"radiusMm":300,"heightMm":30}]}]}}]
            """;

    /** What edges took, times the plan: as planned, and longer from the eleventh job on. */
    private static final double[] TOOK = {
        1.02, 0.97, 1.01, 1.05, 0.95, 1, 1.03, 0.98, 1.02, 0.99, 1.6, 1.55, 1.7, 1.6
    };

    @Test
    void anEmptyShopIsToldWhatIsMissingAndAWorkingOneWhatItsJobsTeach() {
        TestShop shop = openShop();
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.OWNER);
        page.navigate("/learning");
        assertThat(page.getByText("there is nothing to learn from")).isVisible();
        Locator around = page.getByRole(AriaRole.NAVIGATION, named("Learning"));
        around.getByText("Drift").press("Enter");
        assertThat(page.getByText(Pattern.compile("a chart needs \\d+ jobs of its kind")))
                .isVisible();
        around.getByText("Accuracy").press("Enter");
        assertThat(page.getByText("too few for figures")).isVisible();

        ComparingShop jobs = new ComparingShop(shop);
        String[] numbers = new String[TOOK.length];
        for (int i = 0; i < TOOK.length; i++) {
            numbers[i] = finished(jobs, TOOK[i]);
        }
        drift(page, numbers[10]);
        accuracy(page);
        factors(page);

        Page estimator = window(DESK, "de-DE");
        signIn(estimator, shop, Role.ESTIMATOR);
        estimator.navigate("/learning");
        assertThat(estimator.getByText("The owner can take them over.")).isVisible();
        assertThat(estimator.getByRole(AriaRole.CHECKBOX)).hasCount(0);
    }

    private static String finished(ComparingShop shop, double times) {
        JsonNode job = shop.job(ITEMS);
        String number = job.at("/number").asString();
        for (JsonNode step : job.at("/steps").values()) {
            boolean edge = step.at("/work/kind").asString().equals("curve-edge");
            double minutes =
                    step.at("/work/setupMinutes").asDouble()
                            + (edge ? times : 1) * step.at("/work/runMinutes").asDouble();
            if (minutes > 0) {
                shop.book(
                        Role.FLOOR,
                        number,
                        "\"step\":" + step.at("/n").asInt() + ",\"minutes\":" + minutes);
            }
        }
        shop.finish(number, null);
        return number;
    }

    private void drift(Page page, String since) {
        requireReadable(page, "/learning/drift");
        requireNothingCutOffInPrint(page);
        Locator signal = page.locator(".finding.doubt").first();
        assertThat(signal)
                .containsText(
                        Pattern.compile(
                                "Signal: Since job "
                                        + since
                                        + " it takes about [4-8]\\d % longer than before"));
        Locator chart = page.getByRole(AriaRole.IMG, named("Curve an edge"));
        for (String panel : new String[] {"each job", "EWMA", "CUSUM", "slower", "signal"}) {
            assertThat(chart).containsText(panel);
        }
        assertThat((String) chart.locator("desc").evaluate("e => e.textContent"))
                .contains("longer than before");
    }

    private void accuracy(Page page) {
        requireReadable(page, "/learning/accuracy");
        requireNothingCutOffInPrint(page);
        Locator measures = page.getByRole(AriaRole.TABLE).first();
        assertThat(measures.getByRole(AriaRole.ROW, beginning("Jobs"))).containsText("14");
        assertThat(measures.getByRole(AriaRole.ROW, beginning("Within 25 %")))
                .containsText(Pattern.compile("[1-9]\\d+ %\\s*[1-9]\\d+ %"));
        assertThat(measures.getByRole(AriaRole.ROW, beginning("All jobs together")))
                .containsText(Pattern.compile("over|under|as estimated"));
        assertThat(measures.getByRole(AriaRole.ROW, beginning("Within their P80")))
                .containsText("too few");
        Locator scatter = page.getByRole(AriaRole.IMG, named("Quoted against actual hours"));
        assertThat(scatter).containsText("estimated hours");
        assertThat(page.getByText("Farthest off")).isVisible();
    }

    private void factors(Page page) {
        requireReadable(page, "/learning");
        requireNothingCutOffInPrint(page);
        Locator lines = page.getByRole(AriaRole.REGION, named("Proposed factors"));
        Locator edge = lines.getByRole(AriaRole.ROW, inside("Curve an edge")).first();
        assertThat(edge).containsText("Changed since job");
        assertThat(edge.getByRole(AriaRole.IMG, inside("Factor, Curve an edge"))).isVisible();
        assertThat(edge.locator("b")).containsText("→ × 1.");
        assertThat(page.getByText("in bold")).isVisible();
        edge.getByRole(AriaRole.LINK, inside("14 jobs behind Curve an edge")).press("Enter");
        Locator behind = page.getByRole(AriaRole.REGION, named("Jobs behind Curve an edge"));
        assertThat(behind).isVisible();
        assertThat(behind.locator("tbody tr")).hasCount(14);

        for (Locator tick : lines.getByRole(AriaRole.CHECKBOX).all()) {
            if (!"Curve an edge".equals(tick.getAttribute("aria-label"))) {
                tick.press("Space");
            }
        }
        page.getByRole(AriaRole.BUTTON, named("Take the ticked lines over")).press("Enter");
        Locator before = page.getByRole(AriaRole.REGION, named("Taken over before"));
        assertThat(before.locator("tbody tr td.n")).hasText("1");
        assertThat(lines.getByRole(AriaRole.CHECKBOX, inside("Curve an edge").setExact(true)))
                .isDisabled();
        before.getByRole(AriaRole.BUTTON, inside("Undo edition 2")).press("Enter");
        assertThat(before).containsText("undone by edition 3");
        assertThat(lines.getByRole(AriaRole.CHECKBOX, inside("Curve an edge").setExact(true)))
                .isEnabled();
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    private static Locator.GetByRoleOptions beginning(String name) {
        return new Locator.GetByRoleOptions().setName(Pattern.compile("^" + name));
    }

    private static Locator.GetByRoleOptions inside(String name) {
        return new Locator.GetByRoleOptions().setName(name);
    }
}
