package strokewright.quote;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.BrowserTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.takeoff.Situations;

class OfficePagesBrowserTest extends BrowserTest {

    @Autowired private Quotes quotes;
    @Autowired private Customers customers;

    private TestShop shop;
    private CustomerCard card;
    private String draft;
    private String revised;
    private String issued;

    @BeforeEach
    void aCustomerWithADraftAndARevisedQuote() {
        shop = openShop();
        card =
                shop.user(Role.OFFICE)
                        .call(
                                () ->
                                        customers.add(
                                                CustomerCard.named(
                                                        "Harbour Theatre Workshop",
                                                        "Quay Road 4\nQuillmoor")))
                        .card();
        draft = create();
        revised = create();
        issued = create();
        shop.user(Role.ESTIMATOR)
                .run(
                        () -> {
                            quotes.issue(issued, null);
                            quotes.issue(revised, null);
                            quotes.revise(revised, java.util.Map.of(1, 3));
                        });
    }

    private String create() {
        QuoteRequest request =
                new QuoteRequest(
                        new CustomerChoice(card.id(), null, null),
                        null,
                        null,
                        Terms.UNSAID,
                        List.of(
                                new QuoteRequest.Item(
                                        1,
                                        null,
                                        null,
                                        Situations.takeOff(QuotesApiTests.TAKE_OFF),
                                        null)));
        return shop.user(Role.ESTIMATOR).call(() -> quotes.create(request)).document().number();
    }

    @Test
    void canBeReadAtTheDeskAndOnAPhone() {
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.OWNER);
        for (String path :
                List.of(
                        "/customers",
                        "/customers/new",
                        "/customers/" + card.id(),
                        "/quotes/" + draft + "/terms",
                        "/quotes/" + revised,
                        "/quotes/" + revised + "/revisions/1",
                        "/quotes/" + issued + "/accept",
                        "/quotes/" + issued + "/decline",
                        "/letterhead")) {
            page.setViewportSize(DESK, 900);
            page.navigate(path);
            requireAccessible(page);
            requireNoSidewaysScroll(page);
            page.setViewportSize(PHONE, 740);
            requireAccessible(page);
            requireNoSidewaysScroll(page);
        }
    }

    @Test
    void aSentenceIsAddedByTheKeyboardWithoutLosingWhatIsTyped() {
        Page page = window(DESK, "en-GB");
        signIn(page, shop, Role.ESTIMATOR);
        page.navigate("/quotes/" + draft + "/terms");
        page.getByLabel("Their reference").fill("Inquiry 12");
        Locator add =
                page.getByRole(
                        AriaRole.BUTTON,
                        new Page.GetByRoleOptions().setName("Add assumption: Made to the drawing"));
        add.focus();
        page.keyboard().press("Enter");

        assertThat(page.getByLabel("Assumptions"))
                .hasValue("Made to the drawing that we were given.");
        assertThat(add).hasCount(0);
        assertThat(page.getByLabel("Their reference")).hasValue("Inquiry 12");
        page.getByLabel("Their reference").focus();
        page.keyboard().press("Enter");
        page.waitForURL("**/quotes/" + draft + "?saved");
        assertThat(page.getByText("Inquiry 12")).isVisible();
    }

    @Test
    void anOrderIsTakenWithoutScripts() {
        shop.user(Role.ESTIMATOR).run(() -> quotes.issue(draft, null));
        Page page = windowWithoutScripts(PHONE, "en-GB");
        signIn(page, shop, Role.OFFICE);
        page.navigate("/quotes/" + draft);
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Ordered").setExact(true))
                .click();
        page.getByLabel("Order number").fill("B-17");
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Take the order"))
                .click();
        assertThat(page.getByRole(AriaRole.STATUS)).containsText("Ordered");
        assertThat(page.getByText("order B-17").first()).isVisible();
    }
}
