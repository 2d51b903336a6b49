package strokewright;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A fresh machine: the first start, the page that opens the shop, and the next start. */
class FromNothingTests {

    private static final String PASSWORD = "correct horse battery";

    @TempDir private Path temporary;

    @AfterEach
    void leaveTheSharedPrograms() throws Exception {
        TestFolders.unlink(temporary);
    }

    @Test
    void anEmptyInstallationAsksForItsShopOnceAndKeepsItOverARestart() throws Exception {
        Path folder = TestFolders.fresh(temporary);
        int port = ServiceProcess.freePort();
        Person sam = new Person(port);
        try (ServiceProcess first = ServiceProcess.start(folder, port)) {
            first.awaitReady();
            for (String page : new String[] {"/", "/sign-in", "/shop-book", "/nowhere"}) {
                assertThat(Person.target(sam.open(page))).as(page).isEqualTo("/first-start");
            }
            HttpResponse<String> faulty = open(sam, "short");
            assertThat(faulty.statusCode()).isEqualTo(200);
            assertThat(faulty.body())
                    .contains("must have 10 to 200 characters", "value=\"Bent Corner Works\"");
            assertThat(Person.target(open(sam, PASSWORD))).isEqualTo("/sign-in?opened");
            assertThat(Person.target(sam.open("/first-start"))).isEqualTo("/");
            assertThat(Person.target(sam.signIn("sam", PASSWORD))).isEqualTo("/");
            assertThat(sam.open("/shop-book").statusCode()).isEqualTo(200);
            assertThat(first.output()).contains("open http://localhost:" + port);

            long server = first.serverPid();
            assertThat(first.stop()).isEqualTo(143);
            assertThat(EmbeddedPostgres.isRunning(server)).isFalse();
        }
        try (ServiceProcess second = ServiceProcess.start(folder, port)) {
            second.awaitReady();
            assertThat(sam.open("/shop-book").statusCode())
                    .as("the session outlives the restart")
                    .isEqualTo(200);
            assertThat(sam.open("/me").body()).contains("Bent Corner Works");
        }
    }

    private static HttpResponse<String> open(Person sam, String password) {
        return sam.submit(
                "/first-start",
                "/first-start",
                Map.of(
                        "name", "Bent Corner Works",
                        "currency", "EUR",
                        "timeZone", "Europe/Berlin",
                        "displayName", "Sam Example",
                        "userName", "Sam",
                        "password", password));
    }
}
