package strokewright;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Properties;
import javax.sql.DataSource;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.jdbc.datasource.SimpleDriverDataSource;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;

/** Each bad setting on a real server, made in the way that somebody would make it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class StartUpGateTests {

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

    @AfterEach
    void mend() throws SQLException {
        asSuperuser(
                "alter role strokewright_service reset all",
                "alter role strokewright_service nosuperuser nobypassrls",
                "alter database strokewright reset all",
                "drop table if exists loose, stolen");
    }

    @Test
    void lastlyNothingIsWrong() {
        assertThatCode(() -> new StartUpGate(service()).afterSingletonsInstantiated())
                .doesNotThrowAnyException();
    }

    @Test
    void refusesARoleThatDoesNotWaitForItsCommits() throws SQLException {
        asSuperuser("alter role strokewright_service set synchronous_commit = off");
        refuses("synchronous_commit off", "ALTER ROLE");
    }

    @Test
    void refusesADatabaseThatDoesNotWaitForItsCommits() throws SQLException {
        asSuperuser("alter database strokewright set synchronous_commit = off");
        refuses("synchronous_commit off", "ALTER DATABASE");
    }

    @Test
    void refusesAPoolThatSaysSoAtEachConnection() throws SQLException {
        try (Connection connection = service().getConnection();
                Statement sql = connection.createStatement()) {
            sql.execute("set synchronous_commit = off");
            refuses(
                    new SingleConnectionDataSource(connection, true),
                    "synchronous_commit off",
                    "connection's options");
        }
    }

    @Test
    void acceptsCommitsThatWaitForTheLocalDiskOnly() throws SQLException {
        asSuperuser("alter role strokewright_service set synchronous_commit = local");
        lastlyNothingIsWrong();
    }

    @Test
    void refusesASuperuser() throws SQLException {
        asSuperuser("alter role strokewright_service superuser");
        refuses("\"strokewright_service\" is a superuser or bypasses", "ordinary role");
    }

    @Test
    void refusesARoleThatBypassesRowLevelSecurity() throws SQLException {
        asSuperuser("alter role strokewright_service bypassrls");
        refuses("\"strokewright_service\" is a superuser or bypasses", "ordinary role");
    }

    @Test
    void refusesAServiceThatOwnsATable() throws SQLException {
        asSuperuser(
                "create table stolen (n int)", "alter table stolen owner to strokewright_service");
        refuses("owns the table \"stolen\"", "ordinary role");
    }

    @Test
    void refusesAServiceThatIsMemberOfTheOwner() throws SQLException {
        asSuperuser(
                "create table stolen (n int)",
                "alter table stolen owner to strokewright_owner",
                "grant strokewright_owner to strokewright_service");
        try {
            refuses("owns the table \"stolen\"", "ordinary role");
        } finally {
            asSuperuser("revoke strokewright_owner from strokewright_service");
        }
    }

    @Test
    void refusesATableOfShopsWithoutAGuard() throws SQLException {
        asSuperuser("create table loose (shop_id uuid, n int)");
        refuses("The table \"loose\" holds rows of shops", "force row-level security");
        asSuperuser("alter table loose enable row level security");
        refuses("The table \"loose\" holds rows of shops", "force row-level security");
        asSuperuser("alter table loose force row level security");
        lastlyNothingIsWrong();
    }

    /** Cannot be set for one role or database: the server itself is started without. */
    @Test
    void refusesAServerThatDoesNotWriteThrough() throws Exception {
        Path folder = temporary.resolve("db");
        server.close();
        try {
            for (String setting : new String[] {"fsync", "full_page_writes"}) {
                try (RawServer forgetful = new RawServer(folder, "-c " + setting + "=off")) {
                    refuses(forgetful.as("service"), "runs with " + setting + " off", "Set it on");
                }
            }
        } finally {
            server = EmbeddedPostgres.start(folder);
        }
    }

    private void refuses(String sentence, String action) {
        refuses(service(), sentence, action);
    }

    private static void refuses(DataSource source, String sentence, String action) {
        assertThatThrownBy(() -> new StartUpGate(source).afterSingletonsInstantiated())
                .isInstanceOfSatisfying(
                        CannotStart.class,
                        refusal -> {
                            assertThat(refusal).hasMessageContaining(sentence);
                            assertThat(refusal.action()).contains(action);
                        });
    }

    private DataSource service() {
        return new SimpleDriverDataSource(
                new org.postgresql.Driver(),
                server.url(),
                server.service().name(),
                server.service().password());
    }

    private void asSuperuser(String... statements) throws SQLException {
        try (Connection connection =
                        DriverManager.getConnection(
                                server.url(), "postgres", secrets().getProperty("superuser"));
                Statement sql = connection.createStatement()) {
            for (String statement : statements) {
                sql.execute(statement);
            }
        }
    }

    private Properties secrets() {
        return secrets(temporary.resolve("db"));
    }

    private static Properties secrets(Path folder) {
        Properties secrets = new Properties();
        try (var in = Files.newInputStream(folder.resolve("secrets"))) {
            secrets.load(in);
            return secrets;
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /** The same data under a server that our launcher would never start. */
    private static final class RawServer implements AutoCloseable {

        private final Path folder;
        private final int port;

        RawServer(Path folder, String options) throws Exception {
            this.folder = folder;
            try (var socket = new java.net.ServerSocket(0)) {
                port = socket.getLocalPort();
            }
            pgCtl(
                    "-o",
                    "-p "
                            + port
                            + " -c listen_addresses=127.0.0.1 -c unix_socket_directories= "
                            + options,
                    "-w",
                    "-l",
                    folder.resolve("raw.log").toString(),
                    "start");
        }

        DataSource as(String role) {
            return new SimpleDriverDataSource(
                    new org.postgresql.Driver(),
                    "jdbc:postgresql://127.0.0.1:" + port + "/" + EmbeddedPostgres.DATABASE,
                    "strokewright_" + role,
                    secrets(folder).getProperty(role));
        }

        @Override
        public void close() throws Exception {
            pgCtl("-m", "fast", "-w", "stop");
        }

        private void pgCtl(String... arguments) throws Exception {
            var command = new java.util.ArrayList<String>();
            if (Integer.valueOf(0).equals(Files.getAttribute(folder, "unix:uid"))) {
                command.addAll(java.util.List.of("unshare", "-U"));
            }
            command.add(PostgresBinaries.in(folder).resolve("bin").resolve("pg_ctl").toString());
            command.addAll(java.util.List.of("-D", folder.resolve("data").toString()));
            command.addAll(java.util.List.of(arguments));
            Process process =
                    new ProcessBuilder(command)
                            .redirectErrorStream(true)
                            .redirectOutput(folder.resolve("raw.out").toFile())
                            .start();
            assertThat(process.waitFor()).isZero();
        }
    }
}
