package strokewright.access;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Page;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.TestShop;

class AccessPagesBrowserTest extends BrowserTest {

    @Test
    void signingInUsersAndOnesOwnPageAreAccessibleAndFitDeskAndPhone() {
        TestShop shop = openShop();
        for (int width : new int[] {DESK, PHONE}) {
            Page page = window(width, "en-GB");
            page.navigate("/sign-in");
            requireAccessible(page);
            signIn(page, shop, Role.OWNER);
            for (String path : new String[] {"/users", "/me"}) {
                page.navigate(path);
                requireAccessible(page);
                requireNoSidewaysScroll(page);
            }
        }
    }

    @Test
    void somebodySignsInByTheKeyboardAlone() {
        TestShop shop = openShop();
        Page page = window(DESK, "en-GB");
        page.navigate("/sign-in");
        page.getByLabel("User name").focus();
        page.keyboard().type(shop.user(Role.OFFICE).userName());
        page.keyboard().press("Tab");
        page.keyboard().type(TestShop.PASSWORD);
        page.keyboard().press("Enter");
        page.waitForURL(url -> !url.contains("/sign-in"));
        assertThat(page.locator(".me")).containsText("The office");
    }

    @Test
    void aWrongPasswordIsSaidAloud() {
        Page page = window(DESK, "en-GB");
        openShop();
        page.navigate("/sign-in");
        page.getByLabel("User name").fill("nobody-here");
        page.getByLabel("Password").fill("wrong password");
        page.keyboard().press("Enter");
        assertThat(page.getByRole(com.microsoft.playwright.options.AriaRole.ALERT))
                .hasText("The name or the password is not right.");
        requireAccessible(page);
    }

    @Test
    void theOwnerLetsSomebodyInAndOut() {
        Page page = window(DESK, "en-GB");
        TestShop shop = openShop();
        signIn(page, shop, Role.OWNER);
        page.navigate("/users");
        page.locator("#displayName").fill("Kim Example");
        String userName = "kim-" + java.util.UUID.randomUUID();
        page.locator("#userName").fill(userName);
        page.locator("#role").selectOption("FLOOR");
        page.locator("#password").fill("correct horse battery");
        page.locator("main button.primary").click();
        assertThat(page.locator("tbody")).containsText(userName);
        page.getByLabel("Shut out Kim Example").click();
        assertThat(page.getByLabel("Let in Kim Example again")).isVisible();
    }
}
