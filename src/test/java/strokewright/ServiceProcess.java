package strokewright;

import java.io.File;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;

/** The service in a process of its own, to be stopped and killed. */
final class ServiceProcess implements AutoCloseable {

    private static final Duration LONGEST_START = Duration.ofSeconds(120);

    private final Process process;
    private final Path folder;
    private final Path log;
    private final int port;
    private final Instant started = Instant.now();

    private ServiceProcess(Process process, Path folder, Path log, int port) {
        this.process = process;
        this.folder = folder;
        this.log = log;
        this.port = port;
    }

    static ServiceProcess start(Path folder, int port, String... arguments) throws IOException {
        Path log = Files.createTempFile(folder.getParent(), "service-", ".log");
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-XX:TieredStopAtLevel=1", "-Xmx512m", "-cp", classPath()));
        command.add(Strokewright.class.getName());
        command.add("--server.port=" + port);
        command.add("--strokewright.database.folder=" + folder);
        command.addAll(List.of(arguments));
        Process process =
                new ProcessBuilder(command)
                        .directory(folder.getParent().toFile())
                        .redirectErrorStream(true)
                        .redirectOutput(log.toFile())
                        .start();
        return new ServiceProcess(process, folder, log, port);
    }

    /** Without the classes of the tests: the service would take their controllers for its own. */
    private static String classPath() {
        String all =
                System.getProperty(
                        "surefire.test.class.path", System.getProperty("java.class.path"));
        return Arrays.stream(all.split(File.pathSeparator))
                .filter(entry -> !entry.endsWith("test-classes"))
                .collect(Collectors.joining(File.pathSeparator));
    }

    static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    /** Waits until it says that it is ready; answers how long the start took. */
    Duration awaitReady() throws Exception {
        while (!isReady()) {
            if (!process.isAlive() || elapsed().compareTo(LONGEST_START) > 0) {
                throw new AssertionError("not ready after " + elapsed() + ":\n" + output());
            }
            TimeUnit.MILLISECONDS.sleep(100);
        }
        return elapsed();
    }

    private boolean isReady() {
        try {
            HttpRequest request =
                    HttpRequest.newBuilder(
                                    URI.create(
                                            "http://localhost:"
                                                    + port
                                                    + "/actuator/health/readiness"))
                            .timeout(Duration.ofSeconds(5))
                            .build();
            return HttpClient.newHttpClient().send(request, BodyHandlers.discarding()).statusCode()
                    == 200;
        } catch (IOException e) {
            return false;
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private Duration elapsed() {
        return Duration.between(started, Instant.now());
    }

    int port() {
        return port;
    }

    String output() throws IOException {
        return Files.readString(log);
    }

    long serverPid() {
        return EmbeddedPostgres.pidIn(folder.resolve("data")).orElseThrow();
    }

    /** Asks it to stop, and answers the exit code. */
    int stop() throws InterruptedException {
        process.destroy();
        return awaitExit();
    }

    int awaitExit() throws InterruptedException {
        if (!process.waitFor(LONGEST_START.toSeconds(), TimeUnit.SECONDS)) {
            throw new AssertionError("does not end");
        }
        return process.exitValue();
    }

    void kill() throws InterruptedException {
        process.destroyForcibly().waitFor();
    }

    void killServer() {
        killServer(folder);
    }

    void killServerAndAwaitTheNext() throws InterruptedException {
        Path data = folder.resolve("data");
        long before = serverPid();
        killServer();
        Instant end = Instant.now().plusSeconds(60);
        while (EmbeddedPostgres.pidIn(data).filter(pid -> pid != before).isEmpty()) {
            if (Instant.now().isAfter(end)) {
                throw new AssertionError("the server does not come back");
            }
            TimeUnit.MILLISECONDS.sleep(10);
        }
    }

    static void killServer(Path folder) {
        EmbeddedPostgres.pidIn(folder.resolve("data"))
                .filter(pid -> EmbeddedPostgres.isServerOf(pid, folder.resolve("data")))
                .flatMap(ProcessHandle::of)
                .ifPresent(ProcessHandle::destroyForcibly);
    }

    /** Leaves nothing running, whatever the test did. */
    @Override
    public void close() throws InterruptedException {
        process.destroy();
        if (!process.waitFor(30, TimeUnit.SECONDS)) {
            kill();
        }
        killServer();
    }
}
