package strokewright;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.diagnostics.FailureAnalysis;

class EmbeddedPostgresTests {

    @TempDir private Path temporary;
    private Path folder;

    @BeforeEach
    void freshFolder() throws IOException {
        folder = TestFolders.fresh(temporary);
    }

    @AfterEach
    void leaveTheSharedPrograms() throws IOException {
        TestFolders.unlink(temporary);
    }

    @Test
    void whatWasStoredIsThereAfterARestart() throws Exception {
        try (EmbeddedPostgres first = EmbeddedPostgres.start(folder)) {
            asOwner(first, "create table kept (n int)", "insert into kept values (7)");
        }
        assertThat(EmbeddedPostgres.pidIn(folder.resolve("data"))).isEmpty();
        try (EmbeddedPostgres second = EmbeddedPostgres.start(folder)) {
            assertThat(ask(second, "select n from kept")).isEqualTo("7");
        }
    }

    @Test
    void itIsDurableAndClosedAndTheServiceOwnsNothing() throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.start(folder)) {
            for (String setting : List.of("fsync", "full_page_writes", "synchronous_commit")) {
                assertThat(ask(server, "show " + setting)).as(setting).isEqualTo("on");
            }
            assertThat(ask(server, "show listen_addresses")).isEqualTo("127.0.0.1");
            assertThat(Files.readAllLines(folder.resolve("data").resolve("postmaster.pid")).get(4))
                    .as("folder of the socket file")
                    .isBlank();
            assertThat(
                            ask(
                                    server,
                                    "select rolsuper::text || rolbypassrls || rolcreaterole ||"
                                            + " rolcreatedb from pg_roles where rolname ="
                                            + " current_user"))
                    .isEqualTo("falsefalsefalsefalse");
            assertThat(
                            ask(
                                    server,
                                    "select datcollate from pg_database where datname = current_database()"))
                    .isEqualTo("C");
            refuses(server, EmbeddedPostgres.SERVICE, "wrong", "28P01");
            refuses(server, "postgres", "postgres", "28P01");
            assertThatThrownBy(() -> ask(server, "create table mine (n int)"))
                    .isInstanceOf(SQLException.class)
                    .hasMessageContaining("permission denied");
            assertThatThrownBy(() -> ask(server, "create temporary table mine (n int)"))
                    .isInstanceOf(SQLException.class)
                    .hasMessageContaining("permission denied");
        }
    }

    @Test
    void settingsOfTheServerItselfCannotMakeItForgetful() throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.start(folder)) {
            Files.writeString(
                    folder.resolve("data").resolve("postgresql.auto.conf"),
                    "fsync = off\nsynchronous_commit = off\n");
        }
        try (EmbeddedPostgres server = EmbeddedPostgres.start(folder)) {
            assertThat(ask(server, "show fsync")).isEqualTo("on");
            assertThat(ask(server, "show synchronous_commit")).isEqualTo("on");
        }
    }

    @Test
    void nobodyElseCanReadTheFolderOrThePasswords() throws Exception {
        assumeTrue(Files.getFileStore(temporary).supportsFileAttributeView("posix"));
        Path made = temporary.resolve("made");
        try (DatabaseFolder opened = DatabaseFolder.open(made)) {
            opened.secrets();
        }
        assertThat(mode(made)).isEqualTo("rwx------");
        assertThat(mode(made.resolve("secrets"))).isEqualTo("rw-------");
    }

    @Test
    void aServerThatDiesIsStartedAgainOnTheSamePort() throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.start(folder)) {
            asOwner(server, "create table kept (n int)", "insert into kept values (7)");
            long before = server.pid().orElseThrow();
            kill(before);
            await(() -> "7".equals(ask(server, "select n from kept")));
            assertThat(server.pid().orElseThrow()).isNotEqualTo(before);
        }
        assertThat(EmbeddedPostgres.pidIn(folder.resolve("data"))).isEmpty();
    }

    @Test
    void theServerOfAKilledServiceIsEndedAndItsDataTakenOver() throws Exception {
        long orphan = leaveAnOrphan();
        try (EmbeddedPostgres mine = EmbeddedPostgres.start(folder)) {
            assertThat(EmbeddedPostgres.isRunning(orphan)).isFalse();
            assertThat(ask(mine, "select n from kept")).isEqualTo("7");
        }
    }

    @Test
    void aLeftOverProcessNumberThatBelongsToAStrangerIsNoObstacle() throws Exception {
        EmbeddedPostgres.start(folder).close();
        Process stranger = new ProcessBuilder("sleep", "120").start();
        try {
            Files.writeString(
                    folder.resolve("data").resolve("postmaster.pid"), stranger.pid() + "\n");
            EmbeddedPostgres.start(folder).close();
            assertThat(stranger.isAlive()).isTrue();
        } finally {
            stranger.destroyForcibly();
        }
    }

    @Test
    void whatAKilledFirstStartLeftHalfMadeIsClearedAway() throws Exception {
        Path half = Files.createDirectory(folder.resolve("unfinished-123"));
        Files.writeString(half.resolve("PG_VERSION"), "18\n");
        EmbeddedPostgres.start(folder).close();
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left.map(path -> path.getFileName().toString()))
                    .noneMatch(name -> name.startsWith("unfinished"))
                    .contains("data", "secrets", "lock", "postgres.log");
        }
    }

    @Test
    void aSecondServiceOnTheSameFolderIsToldSo() throws Exception {
        EmbeddedPostgres first = EmbeddedPostgres.start(folder);
        try {
            refused("Another running service uses the folder " + folder + ".");
        } finally {
            first.close();
        }
    }

    @Test
    void dataOfAnotherVersionIsLeftAloneAndNamed() throws Exception {
        Path data = Files.createDirectory(folder.resolve("data"));
        Files.writeString(data.resolve("PG_VERSION"), "17\n");
        refused("was made by PostgreSQL 17, and this build brings PostgreSQL 18");
        assertThat(data.resolve("PG_VERSION")).hasContent("17\n");
    }

    @Test
    void lostPasswordsAreNamed() throws Exception {
        EmbeddedPostgres.start(folder).close();
        Files.delete(folder.resolve("secrets"));
        refused("has lost the file \"secrets\"");
    }

    @Test
    void aFolderThatCannotBeMadeIsNamed() throws Exception {
        Path file = Files.writeString(temporary.resolve("file"), "");
        folder = file.resolve("db");
        refused("The folder " + folder + " cannot be made or written");
    }

    @Test
    void anotherUsersFolderIsNamedWithItsOwner() throws Exception {
        assumeTrue(canGiveAway(folder), "only root can give a folder away");
        refused("belongs to another user (nobody)");
    }

    @Test
    void aServerThatCannotStartSaysWhatItsLogSays() throws Exception {
        EmbeddedPostgres.start(folder).close();
        Files.writeString(folder.resolve("data").resolve("postgresql.auto.conf"), "no_such = 1\n");
        refused("The embedded database in " + folder + " does not start: ");
        Files.writeString(folder.resolve("data").resolve("postgresql.auto.conf"), "");
        EmbeddedPostgres.start(folder).close(); // a refusal holds neither lock nor server
    }

    private void refused(String sentence) {
        assertThatThrownBy(() -> EmbeddedPostgres.start(folder).close())
                .isInstanceOfSatisfying(
                        CannotStart.class,
                        refusal -> {
                            assertThat(refusal.getMessage())
                                    .contains(sentence)
                                    .doesNotContain("\n");
                            FailureAnalysis told =
                                    new CannotStartAnalyzer()
                                            .analyze(new RuntimeException("wrapped", refusal));
                            assertThat(told.getDescription()).isEqualTo(refusal.getMessage());
                            assertThat(told.getAction()).endsWith(".").hasSizeGreaterThan(20);
                        });
    }

    /** As a killed service leaves it: the server runs, and nobody holds the lock. */
    private long leaveAnOrphan() throws Exception {
        Process service =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-cp",
                                System.getProperty("java.class.path"),
                                KilledService.class.getName(),
                                folder.toString())
                        .redirectErrorStream(true)
                        .redirectOutput(temporary.resolve("child.log").toFile())
                        .start();
        await(() -> Files.readString(temporary.resolve("child.log")).contains("stored"));
        long server = EmbeddedPostgres.pidIn(folder.resolve("data")).orElseThrow();
        service.destroyForcibly().waitFor();
        assertThat(EmbeddedPostgres.isRunning(server)).isTrue();
        return server;
    }

    /** Stores a row and waits to be killed. */
    static final class KilledService {

        public static void main(String[] arguments) throws Exception {
            EmbeddedPostgres server = EmbeddedPostgres.start(Path.of(arguments[0]));
            asOwner(server, "create table kept (n int)", "insert into kept values (7)");
            System.out.println("stored");
            TimeUnit.MINUTES.sleep(2);
        }
    }

    private static boolean canGiveAway(Path path) {
        try {
            Files.setOwner(
                    path,
                    path.getFileSystem()
                            .getUserPrincipalLookupService()
                            .lookupPrincipalByName("nobody"));
            return true;
        } catch (IOException | UnsupportedOperationException e) {
            return false;
        }
    }

    private static String mode(Path path) throws IOException {
        return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
    }

    private static void kill(long pid) {
        ProcessHandle.of(pid).orElseThrow().destroyForcibly();
    }

    private static void refuses(
            EmbeddedPostgres server, String user, String password, String state) {
        assertThatThrownBy(() -> DriverManager.getConnection(server.url(), user, password).close())
                .isInstanceOfSatisfying(
                        SQLException.class, e -> assertThat(e.getSQLState()).startsWith(state));
    }

    private static void asOwner(EmbeddedPostgres server, String... statements) throws SQLException {
        try (Connection owner =
                        DriverManager.getConnection(
                                server.url(), server.owner().name(), server.owner().password());
                Statement sql = owner.createStatement()) {
            for (String statement : statements) {
                sql.execute(statement);
            }
            sql.execute("grant select on all tables in schema public to " + server.service());
        }
    }

    private static String ask(EmbeddedPostgres server, String query) throws SQLException {
        try (Connection service =
                        DriverManager.getConnection(
                                server.url(),
                                server.service().name(),
                                server.service().password());
                Statement sql = service.createStatement();
                ResultSet answer = sql.executeQuery(query)) {
            answer.next();
            return answer.getString(1);
        }
    }

    private interface Hope {
        boolean isTrue() throws Exception;
    }

    private static void await(Hope hope) throws Exception {
        Instant end = Instant.now().plus(Duration.ofSeconds(60));
        while (true) {
            try {
                if (hope.isTrue()) {
                    return;
                }
            } catch (IOException | SQLException e) {
                if (Instant.now().isAfter(end)) {
                    throw e;
                }
            }
            assertThat(Instant.now()).as("gave up waiting").isBefore(end);
            TimeUnit.MILLISECONDS.sleep(100);
        }
    }
}
