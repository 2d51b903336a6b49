package strokewright.comparison;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import strokewright.BrowserTest;
import strokewright.access.Role;

/** Quoted against actual as owner, office and floor read it; one shop for all. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ComparisonPagesBrowserTest extends BrowserTest {

    private ComparingShop shop;
    private String over;
    private String under;

    @BeforeAll
    void oneJobTookLongerAndOneLess() {
        shop = new ComparingShop(openShop());
        shop.costRate(Role.FLOOR, "33.33", "2020-01-01");
        over = finished(3, 600);
        under = finished(4, 7.5);
    }

    private String finished(int quantity, double minutes) {
        String take = ComparisonApiTests.EDGE.formatted(quantity, "");
        String job = shop.job("\"items\":[{\"takeOff\":" + take + "}]").at("/number").asString();
        shop.book(Role.FLOOR, job, "\"step\":2,\"minutes\":" + minutes);
        shop.book(Role.ESTIMATOR, job, "\"minutes\":13.13,\"sort\":\"forming\"");
        shop.post(
                Role.OFFICE,
                "/jobs/" + job + "/materials",
                ComparingShop.withId(
                        "\"grade\":\"AL99.5-O\",\"kg\":4.44,\"paid\":{\"amount\":\"31.13\",\"currency\":\"EUR\"}"));
        shop.finish(job, null);
        return job;
    }

    @Test
    void whatIsOverOrUnderAddsUpAsItIsRead() {
        Page page = window(DESK, "en-GB");
        signIn(page, shop.shop(), Role.OWNER);
        for (String by : List.of("work-centre", "customer", "job")) {
            requireReadable(page, "/comparison?by=" + by);
            requireNothingCutOffInPrint(page);
            Locator parts = region(page, "What the cost is over or under by");
            for (Locator row : parts.locator("tbody tr, tfoot tr").all()) {
                List<String> cells = row.locator("td").allInnerTexts();
                assertThat(sum(cells.subList(0, cells.size() - 1)))
                        .as(by + ": " + cells)
                        .isEqualByComparingTo(amount(cells.get(cells.size() - 1)));
            }
            assertThat(sum(parts.locator("tbody tr td:last-child").allInnerTexts()))
                    .isEqualByComparingTo(amount(parts.locator("tfoot td:last-child").innerText()));
        }
    }

    @Test
    void rowsAreSortedAndAPeriodIsChosenByTheKeyboard() {
        Page page = window(DESK, "en-GB");
        signIn(page, shop.shop(), Role.OWNER);
        page.navigate("/comparison?by=job");
        Locator names = page.getByRole(AriaRole.TABLE).first().locator("tbody th");
        for (String head : List.of("Actual", "Margin earned")) {
            page.getByRole(AriaRole.LINK, named(head)).first().focus();
            page.keyboard().press("Enter");
            assertThat(page.locator("[aria-sort]")).containsText(head);
            assertThat(names.first()).containsText(over);
            assertThat(names.last()).containsText(under);
        }
        page.getByRole(AriaRole.LINK, named("Job").setExact(true)).press("Enter");
        assertThat(page.locator("[aria-sort=ascending]")).containsText("Job");

        page.getByLabel("Finished from").fill("2031-01-01");
        page.getByLabel("Put together by").focus();
        page.keyboard().type("Metal");
        page.getByRole(AriaRole.BUTTON, named("Compare")).press("Enter");
        assertThat(page.getByText("No job was finished in this period")).isVisible();
        page.getByRole(AriaRole.LINK, named("Compare all finished jobs")).press("Enter");
        assertThat(page.getByText("2 jobs finished")).isVisible();
        assertThat(page.getByLabel("Put together by")).hasValue("metal");

        page.navigate("/comparison?from=soon&sort=colour");
        assertThat(page.getByText("must be a day such as")).isVisible();
        assertThat(page.getByText("Nothing was compared")).isVisible();
    }

    @Test
    void aJobIsToldAndDrawnAndItsMarginIsTheOwnersAlone() {
        String path = "/jobs/" + over + "/comparison";
        Page page = window(DESK, "en-GB");
        signIn(page, shop.shop(), Role.OWNER);
        requireReadable(page, path);
        requireNothingCutOffInPrint(page);
        assertThat(picture(page, "Cost, from quoted to actual")).isVisible();
        assertThat(picture(page, "Margin, from quoted to earned")).isVisible();
        assertThat(region(page, "All together")).containsText("loss");
        assertThat(region(page, "By work centre").locator("tfoot")).containsText("over");
        Locator causes = page.getByRole(AriaRole.LINK, named("causes of Corner: Curve an edge"));
        causes.press("Enter");
        assertThat(page.locator("figure:target")).containsText("Not all split");

        Page office = window(DESK, "de-DE");
        signIn(office, shop.shop(), Role.OFFICE);
        office.navigate(path);
        assertThat(picture(office, "Cost, from quoted to actual")).isVisible();
        assertThat(office.locator("main")).not().containsText("Margin");
        assertThat(office.locator("main")).not().containsText("Labour rate");
        office.navigate("/comparison?by=customer");
        assertThat(office.getByText("are for the owner alone")).isVisible();
        assertThat(office.locator("table").first()).not().containsText("Margin");

        Page floor = window(PHONE, "de-DE");
        signIn(floor, shop.shop(), Role.FLOOR);
        floor.navigate(path);
        assertThat(floor.getByText("the owner gives roles")).isVisible();
        assertThat(floor.locator("nav.places")).not().containsText("Comparison");
    }

    private static Locator picture(Page page, String name) {
        return page.getByRole(AriaRole.IMG, named(name));
    }

    private static Locator region(Page page, String name) {
        return page.getByRole(AriaRole.REGION, named(name));
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    private static BigDecimal sum(List<String> said) {
        return said.stream()
                .map(ComparisonPagesBrowserTest::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
    }

    /** "1 234.50 over", "0.20 under", "as planned" or nothing. */
    private static BigDecimal amount(String said) {
        String digits = said.replaceAll("[^0-9.]", "");
        BigDecimal amount = digits.isEmpty() ? BigDecimal.ZERO : new BigDecimal(digits);
        return said.contains("under") ? amount.negate() : amount;
    }

    @Override
    protected boolean isMeant(String error) {
        return super.isMeant(error) || error.contains("the server responded with a status of 403");
    }
}
