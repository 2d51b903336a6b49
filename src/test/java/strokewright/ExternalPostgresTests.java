package strokewright;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ExternalPostgresTests {

    @TempDir private static Path temporary;
    private EmbeddedPostgres server;

    @BeforeAll
    void start() throws IOException {
        server = EmbeddedPostgres.start(TestFolders.fresh(temporary));
    }

    @AfterAll
    void stop() throws IOException {
        server.close();
        TestFolders.unlink(temporary);
    }

    @Test
    void reachesAServerWithBothRoles() {
        ExternalPostgres reached =
                ExternalPostgres.reach(
                        settings(server.url(), service(), password(), ownerPassword()));
        assertThat(reached.url()).isEqualTo(server.url());
        assertThat(reached.service().name()).isEqualTo(service());
        assertThat(reached.toString()).doesNotContain(password(), ownerPassword());
    }

    @Test
    void aBlankUrlMeansTheEmbeddedServer() {
        assertThat(settings(null, null, null, null).embedded()).isTrue();
        assertThat(settings(" ", null, null, null).embedded()).isTrue();
        assertThat(settings(server.url(), null, null, null).embedded()).isFalse();
    }

    @Test
    void namesEveryVariableThatIsMissing() {
        refuses(
                settings(server.url(), null, " ", null),
                "these are not: STROKEWRIGHT_DATABASE_USER, STROKEWRIGHT_DATABASE_OWNER_PASSWORD.");
    }

    @Test
    void saysThatNobodyAnswers() throws IOException {
        int free;
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            free = socket.getLocalPort();
        }
        refuses(
                settings(
                        "jdbc:postgresql://127.0.0.1:" + free + "/shop?password=hidden",
                        service(),
                        password(),
                        ownerPassword()),
                "The database at 127.0.0.1:" + free + "/shop does not answer.");
    }

    @Test
    void saysWhoseNameOrPasswordIsRefused() {
        refuses(
                settings(server.url(), service(), "wrong", ownerPassword()),
                "refuses the user \"strokewright_service\".");
        refuses(
                settings(server.url(), service(), password(), "wrong"),
                "refuses the user \"strokewright_owner\".");
        refuses(
                settings(server.url(), "stranger", password(), ownerPassword()),
                "refuses the user \"stranger\".");
    }

    @Test
    void saysThatTheDatabaseIsNotThere() {
        refuses(
                settings(
                        server.url().replace("/strokewright", "/elsewhere"),
                        service(),
                        password(),
                        ownerPassword()),
                "/elsewhere does not exist on that server.");
    }

    @Test
    void saysThatTheUrlIsForSomethingElse() {
        refuses(
                settings("jdbc:h2:mem:x", service(), password(), ownerPassword()),
                "names no PostgreSQL: jdbc:h2:mem:x.");
    }

    private static void refuses(DatabaseSettings settings, String sentence) {
        assertThatThrownBy(() -> ExternalPostgres.reach(settings))
                .isInstanceOfSatisfying(
                        CannotStart.class,
                        refusal -> {
                            assertThat(refusal)
                                    .hasMessageContaining(sentence)
                                    .hasMessageNotContaining("hidden");
                            assertThat(refusal.action()).endsWith(".").doesNotContain("wrong");
                        });
    }

    private static DatabaseSettings settings(
            @Nullable String url,
            @Nullable String user,
            @Nullable String password,
            @Nullable String ownerPassword) {
        return new DatabaseSettings(
                url,
                user,
                password,
                new DatabaseSettings.Owner(EmbeddedPostgres.OWNER, ownerPassword),
                Path.of("unused"));
    }

    private String service() {
        return server.service().name();
    }

    private String password() {
        return server.service().password();
    }

    private String ownerPassword() {
        return server.owner().password();
    }
}
