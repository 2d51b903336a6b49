package strokewright.shopbook;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.estimate.ShopBook;

class DraftPageBrowserTest extends BrowserTest {

    @Autowired private ShopBooks books;

    @Test
    void everyPartCanBeReadAndTypedAtTheDeskAndOnAPhone() {
        Page page = window(DESK, "en-GB");
        signIn(page, openShop(), Role.OWNER);
        page.navigate("/shop-book/draft");
        requireAccessible(page);
        requireNoSidewaysScroll(page);
        for (BookPart part : BookParts.ALL) {
            BookSection section = part.sections().get(0);
            page.setViewportSize(DESK, 900);
            page.navigate(
                    "/shop-book/draft/"
                            + part.key()
                            + (section.isTable() ? "?open=" + section.key() + "-1" : ""));
            assertThat(page.locator("h1")).hasText(part.title());
            requireAccessible(page);
            requireNoSidewaysScroll(page);
            page.setViewportSize(PHONE, 740);
            requireNoSidewaysScroll(page);
        }
    }

    /** From the shop book to the next edition without a mouse, in German. */
    @Test
    void aFigureIsChangedAndAdoptedByTheKeyboardAlone() {
        TestShop shop = openShop();
        Page page = window(DESK, "de-DE");
        signIn(page, shop, Role.OWNER);
        page.navigate("/shop-book");
        follow(page, "Change the shop book");
        follow(page, "Tools");
        follow(page, "Change Shrink, soft-faced");
        Locator bite = page.locator("#f-tools-1-biteStrain");
        assertThat(page.locator("#f-tools-1-name")).isFocused();
        page.keyboard().press("Enter");
        page.keyboard().press("Enter");
        page.keyboard().press("Enter");
        assertThat(bite).isFocused();
        assertThat(bite).hasValue("1,2");
        page.keyboard().press("Control+a");
        page.keyboard().type("1,35");
        assertThat(page.locator("#kept")).isVisible();
        follow(page, "See what changed, and adopt");
        assertThat(page.locator("table.changes")).containsText("1,2\u00a0%");
        assertThat(page.locator("table.changes ins")).hasText("1,35\u00a0%");
        requireAccessible(page);
        page.getByLabel("Why").focus();
        page.keyboard().type("Measured on our own strips");
        page.keyboard().press("Enter");
        assertThat(page.locator("h1")).hasText("Shop book, edition 2");
        assertThat(page.locator("#editions + div")).containsText("Measured on our own strips");
        follow(page, "What edition 2 changed");
        assertThat(page.locator("table.changes")).containsText("Bite");
        requireAccessible(page);
        requireNoSidewaysScroll(page);
        page.setViewportSize(PHONE, 740);
        requireNoSidewaysScroll(page);
        ShopBook book = shop.user(Role.OWNER).call(books::current);
        assertThat(book.tools().get(0).biteStrain()).isEqualTo(0.0135);
    }

    @Test
    void aFaultStandsBesideItsFieldAndInTheSummaryAndGoesAway() {
        Page page = window(DESK, "en-GB");
        signIn(page, openShop(), Role.OWNER);
        page.navigate("/shop-book/draft/grades?open=grades-1#row-grades-1");
        Locator proof = page.locator("#f-grades-1-proofMpa");
        proof.fill("95");
        Locator fault = page.locator("#f-grades-1-proofMpa-fault");
        assertThat(fault).hasText("must be at most “Tensile strength”, which is 90");
        assertThat(proof).hasAttribute("aria-invalid", "true");
        Locator link = page.locator("#faults a").first();
        assertThat(link).containsText("Proof stress");
        requireAccessible(page);
        page.locator("#f-grades-1-code").focus();
        link.focus();
        // an answer that comes while somebody is on the link leaves them there
        link.evaluate("link => link.classList.add('before')");
        page.locator("#row-grades-1").dispatchEvent("change");
        assertThat(page.locator("#faults a.before")).hasCount(0);
        assertThat(page.locator("#faults a").first()).isFocused();
        page.keyboard().press("Enter");
        assertThat(proof).isFocused();
        proof.fill("thirty");
        assertThat(fault).hasText("must be a number, like 12.5");
        page.reload();
        assertThat(proof).hasValue("thirty");
        assertThat(fault).hasText("must be a number, like 12.5");
        proof.fill("35");
        assertThat(fault).hasText("");
        assertThat(page.locator("#faults")).hasCount(0);
    }

    /** A key and at once a click on another page: it is kept all the same. */
    @Test
    void nothingTypedIsLostByGoingOn() {
        Page page = window(DESK, "en-GB");
        signIn(page, openShop(), Role.OWNER);
        page.navigate("/shop-book/draft/times");
        page.locator("#f-times-1-stationSeconds").fill("17");
        page.locator("#f-handling-2-seconds").fill("11");
        page.getByRole(AriaRole.LINK, exactly("Cutting")).click();
        assertThat(page.locator("h1")).hasText("Cutting");
        page.navigate("/shop-book/draft/times");
        assertThat(page.locator("#f-times-1-stationSeconds")).hasValue("17");
        assertThat(page.locator("#f-handling-2-seconds")).hasValue("11");
        page.locator("#f-handling-3-seconds").fill("31");
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Add a class")).click();
        assertThat(page.locator("#row-handling-6")).isVisible();
        assertThat(page.locator("#f-handling-3-seconds")).hasValue("31");
        assertThat(page.locator("#f-handling-6-upToKg")).isFocused();
    }

    @Test
    void twoWhoChangeTheSameRowAreToldAndChoose() {
        TestShop shop = openShop();
        Page one = window(DESK, "en-GB");
        signIn(one, shop, Role.OWNER);
        Page two = window(DESK, "en-GB");
        signIn(two, shop, Role.OWNER);
        String row = "/shop-book/draft/standards?open=standards-3";
        one.navigate(row);
        two.navigate(row);
        one.locator("#f-standards-3-minutesPerUnit").fill("20");
        assertThat(one.locator("#kept")).isVisible();
        two.locator("#f-standards-3-minutesPerUnit").fill("25");
        Locator told = two.locator("#c-standards-3");
        assertThat(told).containsText("The owner changed this row meanwhile");
        assertThat(told).containsText("Each: 20\u00a0min there, 25\u00a0min here");
        requireAccessible(two);
        two.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Keep mine")).click();
        assertThat(two.locator("#f-standards-3-minutesPerUnit")).hasValue("25");
        one.locator("#f-standards-3-people").fill("2");
        assertThat(one.locator("#c-standards-3")).containsText("25\u00a0min there");
        one.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Take theirs")).click();
        assertThat(one.locator("#f-standards-3-minutesPerUnit")).hasValue("25");
        assertThat(one.locator("#f-standards-3-people")).hasValue("1");
    }

    @Test
    void aTakenOutRowTellsItsUsesAndComesBack() {
        Page page = window(DESK, "en-GB");
        signIn(page, openShop(), Role.OWNER);
        page.navigate("/shop-book/draft/work-centres?open=work-centres-2");
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Take Cutting out"))
                .click();
        assertThat(page.locator("#removed-work-centres"))
                .containsText("time standard Guillotine cut");
        assertThat(page.locator("#faults")).containsText("Time standards");
        requireAccessible(page);
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Put Cutting back"))
                .click();
        assertThat(page.locator("#faults")).hasCount(0);
    }

    @Test
    void worksWithoutScripts() {
        TestShop shop = openShop();
        Page page = windowWithoutScripts(DESK, "en-GB");
        signIn(page, shop, Role.OWNER);
        page.navigate("/shop-book/draft/machines?open=machines-1");
        page.locator("#f-machines-1-throatMm").fill("30 in");
        page.getByRole(AriaRole.BUTTON, exactlyButton("Keep")).last().click();
        assertThat(page.locator("#f-machines-1-throatMm")).hasValue("762");
        page.locator("#f-machines-1-throatMm").fill("wide");
        page.getByRole(AriaRole.BUTTON, exactlyButton("Keep")).last().click();
        assertThat(page.locator("#f-machines-1-throatMm")).hasValue("wide");
        assertThat(page.locator("#f-machines-1-throatMm-fault")).containsText("must be a number");
        page.locator("#f-machines-1-throatMm").fill("700");
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Copy ")).click();
        assertThat(page.locator("#f-machines-3-throatMm")).hasValue("700");
        page.navigate("/shop-book/draft/adopt");
        page.getByLabel("Why").fill("A second machine");
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Adopt as edition 2"))
                .click();
        assertThat(page.locator("h1")).hasText("Shop book, edition 2");
        ShopBook book = shop.user(Role.OWNER).call(books::current);
        assertThat(book.machines()).hasSize(3);
        assertThat(book.machines().get(0).throatMm()).isEqualTo(700);
    }

    /** The last row of a long book is typed like the first. */
    @Test
    void aBookOfFiveHundredStandardsStaysUsable() {
        TestShop shop = openShop();
        ShopBook long_ = LongBook.of(shop.user(Role.OWNER).call(books::current), 500);
        shop.user(Role.OWNER).run(() -> books.change(long_, "\"1\"", "long"));
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.OWNER);
        page.navigate("/shop-book/draft/standards");
        page.getByRole(AriaRole.LINK, exactly("Change Work 500")).click(); // no new page
        assertThat(page.locator("#f-standards-500-name")).isFocused();
        page.locator("#f-standards-500-minutesPerUnit").fill("7.5");
        assertThat(page.locator("#kept")).isVisible();
        page.locator("#f-standards-500-people").fill("2");
        page.getByRole(AriaRole.BUTTON, exactlyButton("Close")).click();
        Locator row = page.locator("#row-standards-500");
        assertThat(row).containsText("7.5");
        requireNoSidewaysScroll(page);
        assertThat(page.locator("main table tbody tr").count()).isEqualTo(500);
    }

    private static void follow(Page page, String link) {
        page.getByRole(AriaRole.LINK, exactly(link)).first().press("Enter");
    }

    private static Page.GetByRoleOptions exactly(String name) {
        return new Page.GetByRoleOptions().setName(name).setExact(true);
    }

    private static Page.GetByRoleOptions exactlyButton(String name) {
        return new Page.GetByRoleOptions().setName(name).setExact(true);
    }

    /** A shop that has written down a great deal. */
    static final class LongBook {

        private LongBook() {}

        static ShopBook of(ShopBook book, int standards) {
            List<ShopBook.Standard> all = new java.util.ArrayList<>(book.standards());
            ShopBook.Standard last = all.get(all.size() - 1);
            while (all.size() < standards) {
                all.add(
                        new ShopBook.Standard(
                                "Work " + (all.size() + 1),
                                last.workCentre(),
                                1.0,
                                2.0,
                                last.unit(),
                                1,
                                false,
                                null,
                                false,
                                null,
                                "invented"));
            }
            return new ShopBook(
                    null,
                    book.currency(),
                    book.grades(),
                    book.sheets(),
                    book.machines(),
                    book.tools(),
                    book.familyBite(),
                    book.passLimits(),
                    book.times(),
                    all,
                    book.workCentres(),
                    book.priceScheme(),
                    book.routes(),
                    book.proposals(),
                    book.cutting(),
                    book.bending(),
                    book.inspection(),
                    book.uncertainty(),
                    book.learned());
        }
    }
}
