package strokewright.job;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import strokewright.BrowserTest;
import strokewright.Line;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** Booking where the connection comes and goes. */
class KeptOnThePhoneBrowserTest extends BrowserTest {

    private Line line;
    private TestShop shop;
    private FloorShop floor;
    private String job;
    private Page phone;
    private String step;

    @BeforeEach
    void aPhoneOnTheFloor() {
        line = Line.to(port());
        shop = openShop();
        floor = new FloorShop(shop);
        job = floor.job();
        step = "/book/" + job + "/1";
        phone = window(PHONE, "en-GB");
        signIn(phone, shop, Role.FLOOR);
    }

    @Test
    void whatIsBookedWithoutAConnectionArrivesExactlyOnce() {
        phone.navigate("/book");
        waitForPages("/book", step);
        disconnect();

        phone.navigate(step);
        button("Start the clock").click();
        assertThat(kept()).containsText("1 entry");
        assertThat(phone.getByText("Your clock runs here")).isVisible();
        phone.reload();
        assertThat(kept()).containsText("1 entry");
        requireAccessible(phone);
        requireNoSidewaysScroll(phone);
        phone.getByLabel("Pieces done").first().fill("3");
        button("Stop").click();
        assertThat(phone.getByText("Your clock runs here")).isHidden();

        phone.getByText("Enter minutes instead").click();
        Locator minutes = phone.locator("details.enter");
        minutes.getByLabel("Minutes").fill("12.5");
        minutes.getByLabel("Pieces done").fill("-1");
        button("Book the minutes").click();
        assertThat(kept()).containsText("2 entries");
        phone.navigate("/book");
        assertThat(kept()).containsText("2 entries");
        assertThat(floor.bookings(job)).isEmpty();

        connect(); // the page notices by itself
        assertThat(kept()).containsText("Pieces done must be from 0 to 1000000");
        List<JsonNode> booked = floor.bookings(job);
        assertThat(booked).hasSize(1);
        assertThat(booked.get(0).at("/pieces").asInt()).isEqualTo(3);
        assertThat(booked.get(0).at("/source").asString()).isEqualTo("clock");

        requireAccessible(phone);
        button("Mend").click();
        phone.locator("#kept-list").getByLabel("Pieces done").fill("1");
        button("Send again").click();
        assertThat(kept()).isHidden();
        assertThat(floor.bookings(job)).hasSize(2);
        assertThat(phone.getByText("12.5 min").first()).isVisible();
    }

    @Test
    void anAnswerThatGetsLostAfterTheServiceTookItDoublesNothing() {
        phone.navigate(step);
        waitForPages(step);
        line.loseAnswers();
        button("Start the clock").click();
        assertThat(kept()).containsText("No connection");
        assertThat(floor.bookings(job)).hasSize(1);

        line.mend();
        button("Stop").click();
        assertThat(phone.getByText("Booked.")).isVisible();
        List<JsonNode> booked = floor.bookings(job);
        assertThat(booked).hasSize(1);
        assertThat(booked.get(0).at("/minutes").isNumber()).isTrue();
    }

    @Test
    void aQueueWaitsForWhoeverFilledItAndForASignIn() {
        phone.navigate("/book/no-job");
        waitForPages("/book/no-job");
        disconnect();
        phone.getByText("Waiting").click();
        phone.getByLabel("Minutes").fill("20");
        button("Book the minutes").click();
        assertThat(kept()).containsText("1 entry");

        phone.context().clearCookies();
        connect(); // the page notices by itself
        assertThat(phone.getByText("Signed out in the meantime")).isVisible();
        assertThat(kept()).containsText("sign in again");
        Locator dialog = phone.locator("#sign-in-again");
        dialog.getByLabel("User name").fill(shop.user(Role.OFFICE).userName());
        dialog.getByLabel("Password").fill(TestShop.PASSWORD);
        dialog.getByRole(AriaRole.BUTTON).click();
        assertThat(kept()).containsText("Somebody else is signed in");

        phone.navigate("/book");
        assertThat(kept()).containsText("For The floor: 1 entry");
        assertThat(kept()).not().containsText("Waiting");
        phone.context().clearCookies();
        signIn(phone, shop, Role.FLOOR);
        phone.navigate("/book");
        assertThat(phone.locator("main")).containsText("no job: Waiting");
        assertThat(kept()).isHidden();
    }

    private void disconnect() {
        line.cut();
        phone.context().setOffline(true); // tells the page
    }

    private void connect() {
        line.mend();
        phone.context().setOffline(false);
    }

    @Override
    protected int windowPort() {
        return line.port();
    }

    @AfterEach
    void closeTheLine() {
        line.close();
    }

    /** Until the phone has what it shows without a connection. */
    private void waitForPages(String... paths) {
        for (String path : paths) {
            phone.evaluate(
                    """
                    async (path) => {
                        for (let i = 0; i < 600 && !(await caches.match(path)); i++) {
                            await new Promise((go) => setTimeout(go, 50));
                        }
                        await navigator.serviceWorker.ready;
                        if (!(await caches.match(path))) {
                            throw new Error("not kept: " + path);
                        }
                    }
                    """,
                    path);
        }
    }

    private Locator kept() {
        return phone.locator("#kept");
    }

    private Locator button(String name) {
        return phone.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name))
                .and(phone.locator(":visible"))
                .first();
    }

    /** A line is cut in the middle of whatever is on its way. */
    @Override
    protected boolean isMeant(String error) {
        return super.isMeant(error)
                || error.contains("net::ERR_")
                || error.matches(".*the server responded with a status of (400|403|412) .*");
    }
}
