package strokewright;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import tools.jackson.databind.json.JsonMapper;

/**
 * A few writers who write one after the other, remember what was acknowledged, and want to see it
 * again. Bounded: it ends with the test, and only speaks to this machine.
 */
final class Load implements AutoCloseable {

    static final String USER = "sam";
    static final String PASSWORD = "correct horse battery";

    private static final int WRITERS = 6;

    private final HttpClient client =
            HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(3)).build();
    private final List<Thread> writers = new ArrayList<>();
    private final Set<String> acknowledged = new ConcurrentSkipListSet<>();
    private final Map<Integer, AtomicInteger> answers = new ConcurrentHashMap<>();
    private final AtomicInteger next = new AtomicInteger();
    private final int port;
    private volatile boolean ended;
    private String token = "";

    Load(int port) {
        this.port = port;
    }

    void openShop() {
        new Person(port)
                .submit(
                        "/first-start",
                        "/first-start",
                        Map.of(
                                "name", "Bent Corner Works",
                                "currency", "EUR",
                                "timeZone", "Europe/Berlin",
                                "displayName", "Sam Example",
                                "userName", USER,
                                "password", PASSWORD));
    }

    String token() throws Exception {
        String basic = Base64.getEncoder().encodeToString((USER + ":" + PASSWORD).getBytes());
        HttpResponse<String> made =
                send(post("Basic " + basic, "/api/v1/tokens", "{\"name\":\"load\"}"));
        assertThat(made.statusCode()).isEqualTo(201);
        return JsonMapper.shared().readTree(made.body()).get("token").asString();
    }

    void begin() throws Exception {
        openShop();
        token = token();
        for (int i = 0; i < WRITERS; i++) {
            Thread writer = new Thread(this::write, "writer-" + i);
            writer.start();
            writers.add(writer);
        }
    }

    private void write() {
        while (!ended) {
            String name = "w" + next.incrementAndGet();
            try {
                HttpResponse<String> answer = send(newToken(name));
                answers.computeIfAbsent(answer.statusCode(), s -> new AtomicInteger())
                        .incrementAndGet();
                if (answer.statusCode() == 201) {
                    acknowledged.add(name);
                } else {
                    TimeUnit.MILLISECONDS.sleep(50);
                }
            } catch (IOException e) { // nobody is there, or was killed before it answered
                sleepALittle();
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    private static void sleepALittle() {
        try {
            TimeUnit.MILLISECONDS.sleep(50);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Waits for so many more acknowledgements; answers how long that took. */
    Duration awaitProgress(int more) throws Exception {
        Instant begin = Instant.now();
        int before = acknowledged.size();
        while (acknowledged.size() < before + more) {
            assertThat(Duration.between(begin, Instant.now()))
                    .as("no progress; answers so far: " + answers)
                    .isLessThan(Duration.ofSeconds(60));
            TimeUnit.MILLISECONDS.sleep(10);
        }
        return Duration.between(begin, Instant.now());
    }

    /** Everything acknowledged by now is there, once; refusals were honest ones. */
    void requireNothingLost() throws Exception {
        Set<String> promised = new TreeSet<>(acknowledged);
        List<String> stored = stored();
        assertThat(stored).doesNotHaveDuplicates().containsAll(promised);
        assertThat(answers.keySet()).isSubsetOf(Set.of(201, 503));
        System.out.println("faults: " + promised.size() + " acknowledged, none lost; " + answers);
    }

    private List<String> stored() throws Exception {
        for (int attempt = 1; ; attempt++) {
            HttpResponse<String> list =
                    send(request("Bearer " + token, "/api/v1/tokens").GET().build());
            if (list.statusCode() == 200) {
                return JsonMapper.shared()
                        .readTree(list.body())
                        .get("tokens")
                        .valueStream()
                        .map(one -> one.get("name").asString())
                        .toList();
            }
            assertThat(list.statusCode()).isEqualTo(503);
            assertThat(attempt).isLessThan(20);
            TimeUnit.MILLISECONDS.sleep(250);
        }
    }

    private HttpRequest newToken(String name) {
        return post("Bearer " + token, "/api/v1/tokens", "{\"name\":\"" + name + "\"}");
    }

    private HttpRequest post(String authorization, String path, String json) {
        return request(authorization, path)
                .header("Content-Type", "application/json")
                .POST(BodyPublishers.ofString(json))
                .build();
    }

    private HttpRequest.Builder request(String authorization, String path) {
        return HttpRequest.newBuilder(URI.create("http://localhost:" + port + path))
                .timeout(Duration.ofSeconds(10))
                .header("Authorization", authorization);
    }

    private HttpResponse<String> send(HttpRequest request)
            throws IOException, InterruptedException {
        return client.send(request, BodyHandlers.ofString());
    }

    @Override
    public void close() throws InterruptedException {
        ended = true;
        for (Thread writer : writers) {
            writer.interrupt();
            writer.join();
        }
    }
}
