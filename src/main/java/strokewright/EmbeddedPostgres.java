package strokewright;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A real PostgreSQL, started beside the service over a folder of its own: durable (fsync and
 * synchronous commit on), closed (password on loopback only, no socket file), restarted when it
 * dies, and found again when the service was killed and the server was not.
 */
class EmbeddedPostgres implements Database, AutoCloseable {

    static final String DATABASE = "strokewright";
    static final String OWNER = "strokewright_owner";
    static final String SERVICE = "strokewright_service";

    private static final Logger log = LoggerFactory.getLogger(EmbeddedPostgres.class);
    private static final String SUPERUSER = "postgres";
    private static final long LONGEST_LOG = 10 << 20;
    private static final int LONGEST_PAUSE_SECONDS = 10;

    private final DatabaseFolder folder;
    private final Path programs;
    private final Properties secrets;
    private final int port;
    private final Thread watch = new Thread(this::keepRunning, "database-watch");
    private volatile boolean closing;

    /**
     * @throws CannotStart with what to do about it
     */
    static EmbeddedPostgres start(Path configured) {
        DatabaseFolder folder = DatabaseFolder.open(configured);
        try {
            return new EmbeddedPostgres(folder);
        } catch (IOException | SQLException e) {
            close(folder);
            CannotStart refusal =
                    new CannotStart(
                            "The embedded database in "
                                    + folder.path()
                                    + " does not start: "
                                    + e.getMessage(),
                            "Look at the last lines of "
                                    + folder.log()
                                    + "; a full disk is the usual reason.");
            refusal.initCause(e);
            throw refusal;
        } catch (RuntimeException e) {
            close(folder);
            throw e;
        }
    }

    private EmbeddedPostgres(DatabaseFolder folder) throws IOException, SQLException {
        this.folder = folder;
        checkUserNamespaces();
        checkVersion();
        programs = PostgresBinaries.in(folder.path()).resolve("bin");
        secrets = folder.secrets();
        if (!Files.exists(folder.data())) {
            initialise();
        }
        turnLog();
        port = startOnFreePort();
        try {
            prepareRoles();
        } catch (SQLException | RuntimeException e) {
            stop();
            throw e;
        }
        watch.setDaemon(true);
        watch.start();
    }

    @Override
    public String url() {
        return "jdbc:postgresql://127.0.0.1:" + port + "/" + DATABASE;
    }

    @Override
    public Role service() {
        return new Role(SERVICE, secrets.getProperty("service"));
    }

    @Override
    public Role owner() {
        return new Role(OWNER, secrets.getProperty("owner"));
    }

    /** Process id of the running server, for those who have to see it die. */
    Optional<Long> pid() {
        return pidIn(folder.data());
    }

    @Override
    public void close() {
        closing = true;
        watch.interrupt();
        try {
            watch.join(TimeUnit.SECONDS.toMillis(90));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        stop();
        close(folder);
    }

    private static void close(DatabaseFolder folder) {
        try {
            folder.close();
        } catch (IOException e) {
            log.warn("cannot give back the lock of {}", folder.path(), e);
        }
    }

    // ---- making the data folder

    private void checkVersion() throws IOException {
        Path version = folder.data().resolve("PG_VERSION");
        if (!Files.exists(version)) {
            return;
        }
        String found = Files.readString(version).trim();
        if (!found.equals(String.valueOf(PostgresBinaries.MAJOR_VERSION))) {
            throw new CannotStart(
                    "The data in "
                            + folder.data()
                            + " was made by PostgreSQL "
                            + found
                            + ", and this build brings PostgreSQL "
                            + PostgresBinaries.MAJOR_VERSION
                            + ".",
                    "Start the build that made it, or choose another folder: set"
                            + " STROKEWRIGHT_DATABASE_FOLDER. The data was left as it is.");
        }
    }

    /** Made beside its place and moved there whole, so that a kill half-way leaves no ruin. */
    private void initialise() throws IOException {
        Path unfinished = Files.createTempDirectory(folder.path(), "unfinished-");
        Path password = Files.createTempFile(folder.path(), "unfinished-", "");
        Files.writeString(password, secrets.getProperty("superuser") + "\n");
        run(
                120,
                "initdb",
                "-D",
                unfinished.toString(),
                "-U",
                SUPERUSER,
                "-A",
                "scram-sha-256",
                "--pwfile=" + password,
                "-E",
                "UTF8",
                "--locale=C",
                "--locale-provider=builtin",
                "--builtin-locale=C.UTF-8");
        Files.delete(password);
        Files.writeString(
                unfinished.resolve("pg_hba.conf"),
                "host all all 127.0.0.1/32 scram-sha-256\n",
                StandardOpenOption.TRUNCATE_EXISTING,
                StandardOpenOption.SYNC);
        Files.move(unfinished, folder.data(), StandardCopyOption.ATOMIC_MOVE);
        folder.sync();
    }

    private void prepareRoles() throws SQLException {
        try (Connection connection = asSuperuser("postgres");
                Statement sql = connection.createStatement()) {
            if (!exists(sql, "pg_roles where rolname = '" + OWNER + "'")) {
                sql.execute("create role " + OWNER);
            }
            if (!exists(sql, "pg_roles where rolname = '" + SERVICE + "'")) {
                sql.execute("create role " + SERVICE);
            }
            // bypassrls: a migration or a backup under forced row-level security sees no row at all
            sql.execute(
                    ("alter role %s login nosuperuser nocreatedb nocreaterole bypassrls"
                                    + " password '%s'")
                            .formatted(OWNER, owner().password()));
            sql.execute(
                    ("alter role %s login nosuperuser nocreatedb nocreaterole nobypassrls"
                                    + " password '%s'")
                            .formatted(SERVICE, service().password()));
            if (!exists(sql, "pg_database where datname = '" + DATABASE + "'")) {
                sql.execute("create database " + DATABASE + " owner " + OWNER);
            }
            sql.execute("revoke all on database " + DATABASE + " from public");
            sql.execute("grant connect on database " + DATABASE + " to " + SERVICE);
        }
    }

    private static boolean exists(Statement sql, String what) throws SQLException {
        try (ResultSet found = sql.executeQuery("select 1 from " + what)) {
            return found.next();
        }
    }

    private Connection asSuperuser(String database) throws SQLException {
        return DriverManager.getConnection(
                "jdbc:postgresql://127.0.0.1:" + port + "/" + database,
                SUPERUSER,
                secrets.getProperty("superuser"));
    }

    // ---- starting, watching, stopping

    private int startOnFreePort() throws IOException {
        for (int attempt = 1; ; attempt++) {
            int free = freePort();
            try {
                endOrphan();
                start(free);
                return free;
            } catch (IOException e) {
                if (attempt
                        == 3) { // three strangers in a row did not take the port: it is not that
                    throw e;
                }
            }
        }
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    private void start(int onPort) throws IOException {
        try {
            pgCtlStart(onPort);
        } catch (IOException e) {
            throw new IOException(lastComplaint().orElse(e.getMessage()), e);
        }
    }

    /** What pg_ctl says is only that it failed; the server's log says why. */
    private Optional<String> lastComplaint() throws IOException {
        if (!Files.exists(folder.log())) {
            return Optional.empty();
        }
        try (Stream<String> lines = Files.lines(folder.log(), StandardCharsets.ISO_8859_1)) {
            return lines.filter(line -> line.contains("FATAL: ") || line.contains("PANIC: "))
                    .reduce((earlier, later) -> later)
                    .map(line -> line.replaceFirst("^.*(?:FATAL|PANIC): +", ""));
        }
    }

    private void pgCtlStart(int onPort) throws IOException {
        run(
                330,
                "pg_ctl",
                "-D",
                folder.data().toString(),
                "-o",
                // the command line beats what anybody set with ALTER SYSTEM
                "-p "
                        + onPort
                        + " -c listen_addresses=127.0.0.1 -c unix_socket_directories="
                        + " -c fsync=on -c full_page_writes=on -c synchronous_commit=on"
                        + " -c password_encryption=scram-sha-256 -c max_connections=40",
                "-l",
                folder.log().toString(),
                "-w",
                "-t",
                "300",
                "start");
    }

    private void stop() {
        if (pid().filter(EmbeddedPostgres::isRunning).isEmpty()) {
            return;
        }
        try {
            stop("fast");
        } catch (IOException e) {
            log.warn("the database does not stop in time; it will recover at its next start");
            try {
                stop("immediate");
            } catch (IOException e2) {
                log.error("the database does not stop: {}", e2.getMessage());
            }
        }
    }

    private void stop(String mode) throws IOException {
        run(90, "pg_ctl", "-D", folder.data().toString(), "-m", mode, "-w", "-t", "60", "stop");
    }

    /**
     * A service that was killed leaves its server running, or a pid file whose number may meanwhile
     * belong to anybody: the first is stopped, the second removed, for a server that reads it
     * refuses to start.
     */
    private void endOrphan() throws IOException {
        Optional<Long> pid = pid();
        if (pid.isEmpty()) {
            return;
        }
        if (isRunning(pid.get()) && isServerOf(pid.get(), folder.data())) {
            log.info("stopping the database that a killed service left running");
            stop();
        }
        Files.deleteIfExists(folder.data().resolve("postmaster.pid"));
    }

    private void keepRunning() {
        while (!closing) {
            try {
                awaitDeath();
                if (!closing) {
                    log.warn("the database stopped by itself; starting it again");
                    restart();
                }
            } catch (InterruptedException e) {
                return; // closing
            }
        }
    }

    private void awaitDeath() throws InterruptedException {
        while (pid().filter(EmbeddedPostgres::isRunning).isPresent()) {
            TimeUnit.MILLISECONDS.sleep(250);
        }
    }

    private void restart() throws InterruptedException {
        for (int pause = 1; !closing; pause = Math.min(2 * pause, LONGEST_PAUSE_SECONDS)) {
            try {
                endOrphan();
                start(port);
                log.info("the database runs again");
                return;
            } catch (IOException e) {
                log.warn(
                        "the database does not start, next try in {} s: {}", pause, e.getMessage());
                TimeUnit.SECONDS.sleep(pause);
            }
        }
    }

    static Optional<Long> pidIn(Path data) {
        try {
            return Files.readAllLines(data.resolve("postmaster.pid")).stream()
                    .findFirst()
                    .map(line -> Long.valueOf(line.trim()));
        } catch (IOException | NumberFormatException e) { // none, or half written
            return Optional.empty();
        }
    }

    /** A zombie, left where nobody collects dead processes, has a handle and counts as alive. */
    static boolean isRunning(long pid) {
        if (!ProcessHandle.of(pid).map(ProcessHandle::isAlive).orElse(false)) {
            return false;
        }
        try {
            String stat = Files.readString(Path.of("/proc/" + pid + "/stat"));
            return stat.charAt(stat.lastIndexOf(')') + 2) != 'Z';
        } catch (IOException e) { // no /proc on this system, or just gone
            return ProcessHandle.of(pid).map(ProcessHandle::isAlive).orElse(false);
        }
    }

    static boolean isServerOf(long pid, Path data) {
        boolean postgres =
                ProcessHandle.of(pid)
                        .flatMap(handle -> handle.info().command())
                        .map(command -> Path.of(command).getFileName().toString())
                        .filter(name -> name.equals("postgres") || name.equals("postgres.exe"))
                        .isPresent();
        if (!postgres || !Files.isDirectory(Path.of("/proc"))) {
            return postgres;
        }
        try {
            return Files.isSameFile(Path.of("/proc/" + pid + "/cwd"), data);
        } catch (IOException e) { // gone, or another user's
            return false;
        }
    }

    private void turnLog() throws IOException {
        Path file = folder.log();
        if (Files.exists(file) && Files.size(file) > LONGEST_LOG) {
            Files.move(
                    file,
                    file.resolveSibling("postgres.log.1"),
                    StandardCopyOption.REPLACE_EXISTING);
        }
    }

    // ---- running the server's programs

    /** PostgreSQL refuses to be root: in a user namespace without a mapping we are nobody. */
    private void checkUserNamespaces() throws IOException {
        if (!folder.isOfRoot()) {
            return;
        }
        try {
            run(10, List.of("unshare", "-U", "true"));
        } catch (IOException e) {
            throw new CannotStart(
                    "The embedded database cannot run as root on this machine, which forbids user"
                            + " namespaces.",
                    "Start the service as an ordinary user, or name a PostgreSQL of your own: set"
                            + " STROKEWRIGHT_DATABASE_URL.");
        }
    }

    private void run(int seconds, String program, String... arguments) throws IOException {
        List<String> command = new ArrayList<>();
        if (folder.isOfRoot()) {
            command.addAll(List.of("unshare", "-U"));
        }
        command.add(programs.resolve(program).toString());
        command.addAll(Arrays.asList(arguments));
        run(seconds, command);
    }

    private void run(int seconds, List<String> command) throws IOException {
        Path output = Files.createTempFile(folder.path(), "unfinished-", "");
        try {
            ProcessBuilder builder =
                    new ProcessBuilder(command)
                            .redirectErrorStream(true)
                            .redirectOutput(output.toFile())
                            .directory(folder.path().toFile());
            // PGDATA, PGPORT and the like would be obeyed; messages are read by people and tests
            builder.environment().keySet().removeIf(name -> name.startsWith("PG"));
            builder.environment().put("LC_ALL", "C");
            Process process = builder.start();
            process.getOutputStream().close();
            try {
                if (!process.waitFor(seconds, TimeUnit.SECONDS)) {
                    throw new IOException(command.get(0) + " took more than " + seconds + " s");
                }
                if (process.exitValue() != 0) {
                    throw new IOException(lastLine(output));
                }
            } finally {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        } finally {
            Files.deleteIfExists(output);
        }
    }

    private static String lastLine(Path file) throws IOException {
        String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
        return text.lines()
                .filter(line -> !line.isBlank())
                .filter(line -> !line.startsWith("Examine the log"))
                .reduce((earlier, later) -> later)
                .orElse("no reason given");
    }
}
