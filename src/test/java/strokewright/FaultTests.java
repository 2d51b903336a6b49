package strokewright;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Kills at random moments under load: nothing that was acknowledged is lost, nothing is stored
 * twice, and everything comes back by itself. The times are printed, not judged.
 */
@Tag("faults")
class FaultTests {

    private static final long SEED = 20260105;

    @TempDir private Path temporary;
    private Path folder;
    private int port;
    private final Random random = new Random(SEED);

    @BeforeEach
    void freshFolder() throws IOException {
        folder = TestFolders.fresh(temporary);
        port = ServiceProcess.freePort();
    }

    @AfterEach
    void leaveTheSharedPrograms() throws IOException {
        ServiceProcess.killServer(folder);
        TestFolders.unlink(temporary);
    }

    @ParameterizedTest(name = "seed " + SEED + ", server killed too: {0}")
    @ValueSource(booleans = {false, true})
    void killsOfTheServiceLoseNothing(boolean serverToo) throws Exception {
        try (Load load = new Load(port)) {
            ServiceProcess service = start();
            try {
                load.begin();
                for (int kill = 1; kill <= 4; kill++) {
                    load.awaitProgress(10);
                    pause();
                    service.kill();
                    if (serverToo) {
                        service.killServer();
                    }
                    service = ServiceProcess.start(folder, port);
                    tell("service killed", service.awaitReady());
                    load.requireNothingLost();
                }
                load.awaitProgress(10);
            } finally {
                service.close();
            }
        }
    }

    @Test
    void killsOfTheServerLoseNothingAndItComesBackByItself() throws Exception {
        try (Load load = new Load(port);
                ServiceProcess service = start()) {
            load.begin();
            for (int kill = 1; kill <= 6; kill++) {
                load.awaitProgress(10);
                pause();
                Instant before = Instant.now();
                service.killServerAndAwaitTheNext();
                load.awaitProgress(1);
                tell("server killed", Duration.between(before, Instant.now()));
                load.requireNothingLost();
            }
        }
    }

    @Test
    void killsOfSingleConnectionsLoseNothing() throws Exception {
        try (Load load = new Load(port);
                ServiceProcess service = start()) {
            load.begin();
            for (int kill = 1; kill <= 10; kill++) {
                load.awaitProgress(10);
                pause();
                List<ProcessHandle> backends =
                        ProcessHandle.of(service.serverPid()).orElseThrow().children().toList();
                backends.get(random.nextInt(backends.size())).destroyForcibly();
                tell("connection killed", load.awaitProgress(10));
                load.requireNothingLost();
            }
        }
    }

    @ParameterizedTest(name = "after {0} ms")
    @ValueSource(longs = {300, 1200, 2000, 2600, 3200, 4000, 5000, 7000})
    void aFirstStartThatIsKilledHalfWayIsMadeGoodByTheNext(long millis) throws Exception {
        TestFolders.unlink(temporary); // unpacking is part of it
        ServiceProcess killed = ServiceProcess.start(folder, port);
        TimeUnit.MILLISECONDS.sleep(millis);
        killed.kill();
        if (random.nextBoolean()) {
            ServiceProcess.killServer(folder);
        }
        try (ServiceProcess second = ServiceProcess.start(folder, port)) {
            tell("next start", second.awaitReady());
            assertThat(Person.target(new Person(port).open("/"))).isEqualTo("/first-start");
        }
    }

    @Test
    void whileTheDatabaseIsAwayNobodyIsCalledAStrangerAndNobodyWaitsLong() throws Exception {
        EmbeddedPostgres elsewhere = EmbeddedPostgres.start(folder);
        Path own = temporary.resolve("own");
        try (ServiceProcess service =
                ServiceProcess.start(
                        own,
                        port,
                        "--strokewright.database.url=" + elsewhere.url(),
                        "--strokewright.database.user=" + elsewhere.service().name(),
                        "--strokewright.database.password=" + elsewhere.service().password(),
                        "--strokewright.database.owner.user=" + elsewhere.owner().name(),
                        "--strokewright.database.owner.password=" + elsewhere.owner().password())) {
            service.awaitReady();
            assertThat(own).doesNotExist();
            Load load = new Load(port);
            load.openShop();
            Person sam = new Person(port);
            sam.signIn(Load.USER, Load.PASSWORD);
            String bearer = "Bearer " + load.token();
            String basic =
                    "Basic "
                            + Base64.getEncoder()
                                    .encodeToString((Load.USER + ":" + Load.PASSWORD).getBytes());
            assertThat(sam.open("/me").statusCode()).isEqualTo(200);

            elsewhere.close();
            for (String credentials : List.of(bearer, basic)) {
                HttpResponse<String> answer =
                        promptly(
                                () ->
                                        new Person(port)
                                                .open(
                                                        "/api/v1/tokens",
                                                        "Authorization",
                                                        credentials));
                assertThat(answer.statusCode()).isEqualTo(503);
                assertThat(answer.headers().firstValue("Content-Type").orElse(""))
                        .startsWith("application/problem+json");
                assertThat(answer.headers().firstValue("Retry-After")).isPresent();
            }
            HttpResponse<String> page = promptly(() -> sam.open("/me"));
            assertThat(page.statusCode()).isEqualTo(503);
            assertThat(page.body()).contains("Not available just now");
            HttpResponse<String> signIn =
                    promptly(
                            () ->
                                    new Person(port)
                                            .submit(
                                                    "/sign-in",
                                                    "/sign-in",
                                                    Map.of(
                                                            "username", Load.USER,
                                                            "password", Load.PASSWORD)));
            assertThat(signIn.statusCode()).isEqualTo(503);
            assertThat(new Person(port).open("/strokewright.css").statusCode()).isEqualTo(200);
        } finally {
            elsewhere.close();
        }
    }

    @Test
    void aTakenPortIsOneSentenceAndTheDatabaseIsStoppedAgain() throws Exception {
        try (ServerSocket taken = new ServerSocket(port);
                ServiceProcess service = ServiceProcess.start(folder, port)) {
            assertThat(service.awaitExit()).isEqualTo(1);
            requireOneSentence(service, "Port " + port + " is taken by another program.");
            assertThat(EmbeddedPostgres.pidIn(folder.resolve("data"))).isEmpty();
            assertThat(taken.isBound()).isTrue();
        }
    }

    @Test
    void aSecondServiceOnTheSameFolderIsOneSentenceAndLeavesTheFirstAlone() throws Exception {
        try (ServiceProcess first = ServiceProcess.start(folder, port)) {
            first.awaitReady();
            ServiceProcess second = ServiceProcess.start(folder, ServiceProcess.freePort());
            assertThat(second.awaitExit()).isEqualTo(1);
            requireOneSentence(second, "Another running service uses the folder " + folder + ".");
            assertThat(new Person(port).open("/first-start").statusCode()).isEqualTo(200);
        }
    }

    @Test
    void aDatabaseThatDoesNotAnswerIsOneSentence() throws Exception {
        String nobody = "jdbc:postgresql://127.0.0.1:" + ServiceProcess.freePort() + "/shop";
        try (ServiceProcess service =
                ServiceProcess.start(
                        folder,
                        port,
                        "--strokewright.database.url=" + nobody,
                        "--strokewright.database.user=a",
                        "--strokewright.database.password=b",
                        "--strokewright.database.owner.user=c",
                        "--strokewright.database.owner.password=d")) {
            assertThat(service.awaitExit()).isEqualTo(1);
            requireOneSentence(service, "does not answer.");
        }
    }

    private static void requireOneSentence(ServiceProcess service, String sentence)
            throws IOException {
        assertThat(service.output())
                .contains(sentence, "Action:")
                .doesNotContain("\tat ")
                .doesNotContain("Exception");
    }

    private interface Asking {
        HttpResponse<String> ask() throws Exception;
    }

    private static HttpResponse<String> promptly(Asking asking) throws Exception {
        Instant before = Instant.now();
        HttpResponse<String> answer = asking.ask();
        assertThat(Duration.between(before, Instant.now())).isLessThan(Duration.ofSeconds(8));
        return answer;
    }

    private ServiceProcess start() throws Exception {
        ServiceProcess service = ServiceProcess.start(folder, port);
        tell("first start", service.awaitReady());
        return service;
    }

    private void pause() throws InterruptedException {
        TimeUnit.MILLISECONDS.sleep(200 + random.nextInt(1500));
    }

    private static void tell(String what, Duration time) {
        System.out.println("faults: " + what + ", working after " + time.toMillis() + " ms");
    }
}
