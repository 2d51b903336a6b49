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
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * A few writers who store quotes one after the other. Each repeats a quote with the same
 * Idempotency-Key until it is acknowledged, and remembers under which number. Bounded: it ends with
 * the test, and only speaks to this machine.
 */
final class Load implements AutoCloseable {

    static final String USER = "sam";
    static final String PASSWORD = "correct horse battery";

    private static final int WRITERS = 6;
    private static final Pattern NEXT = Pattern.compile("<([^>]+)>; rel=\"next\"");
    private static final String QUOTE =
            """
            {"customer":{"name":"Fernhill Fountain Makers"},
             "items":[{"takeOff":{"title":"%s",
               "parts":[{"name":"Rim","grade":"AL99.5-O","thicknessMm":2,
                 "blank":{"lengthMm":1950,"widthMm":120},
                 "operations":[{"type":"curve-edge","sense":"shrink",
                   "lengthMm":1885,"radiusMm":300,"heightMm":40}]}]}}]}
            """;

    private final HttpClient client =
            HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(3)).build();
    private final List<Thread> writers = new ArrayList<>();
    private final Map<String, String> acknowledged = new ConcurrentHashMap<>();
    private final Map<Integer, AtomicInteger> answers = new ConcurrentHashMap<>();
    private final AtomicInteger replayed = new AtomicInteger();
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
        return read(made).get("token").asString();
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
            String title = "w" + next.incrementAndGet();
            while (!ended && !isStored(title)) {
                sleepALittle();
            }
        }
    }

    private boolean isStored(String title) {
        try {
            HttpResponse<String> answer = send(newQuote(title));
            answers.computeIfAbsent(answer.statusCode(), s -> new AtomicInteger())
                    .incrementAndGet();
            if (answer.statusCode() != 201) {
                return false;
            }
            if (answer.headers().firstValue("Idempotency-Replayed").isPresent()) {
                replayed.incrementAndGet();
            }
            acknowledged.put(title, read(answer).get("number").asString());
            return true;
        } catch (IOException e) { // nobody is there, or was killed before it answered
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
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

    /**
     * Everything acknowledged by now is there, once and under its number; no number is left out;
     * refusals were honest ones.
     */
    void requireNothingLost() throws Exception {
        Map<String, String> promised = new TreeMap<>(acknowledged);
        Map<String, String> stored = new HashMap<>();
        List<Integer> numbers = new ArrayList<>();
        for (JsonNode quote : quotes()) {
            String number = quote.get("number").asString();
            assertThat(stored.put(quote.get("title").asString(), number))
                    .as("stored twice")
                    .isNull();
            numbers.add(Integer.valueOf(number.substring(number.lastIndexOf('-') + 1)));
        }
        assertThat(stored).containsAllEntriesOf(promised);
        assertThat(numbers)
                .containsExactlyElementsOf(
                        IntStream.rangeClosed(1, numbers.size())
                                .map(i -> numbers.size() + 1 - i)
                                .boxed()
                                .toList());
        assertThat(answers.keySet()).isSubsetOf(Set.of(201, 409, 503));
        System.out.println(
                "faults: "
                        + promised.size()
                        + " acknowledged, none lost or doubled; "
                        + replayed
                        + " answered again; "
                        + answers);
    }

    /** Newest first, from one page of the list to the next. */
    private List<JsonNode> quotes() throws Exception {
        List<JsonNode> all = new ArrayList<>();
        Optional<String> page = Optional.of("/api/v1/quotes?size=200");
        while (page.isPresent()) {
            HttpResponse<String> answer = patiently(page.get());
            read(answer).get("items").valueStream().forEach(all::add);
            page =
                    answer.headers()
                            .firstValue("Link")
                            .map(NEXT::matcher)
                            .filter(Matcher::find)
                            .map(found -> found.group(1));
        }
        return all;
    }

    private HttpResponse<String> patiently(String path) throws Exception {
        for (int attempt = 1; ; attempt++) {
            HttpResponse<String> answer = send(request("Bearer " + token, path).GET().build());
            if (answer.statusCode() == 200) {
                return answer;
            }
            assertThat(answer.statusCode()).isEqualTo(503);
            assertThat(attempt).isLessThan(20);
            TimeUnit.MILLISECONDS.sleep(250);
        }
    }

    private HttpRequest newQuote(String title) {
        return HttpRequest.newBuilder(
                        post("Bearer " + token, "/api/v1/quotes", QUOTE.formatted(title)),
                        (name, value) -> true)
                .header("Idempotency-Key", title)
                .build();
    }

    private static JsonNode read(HttpResponse<String> answer) {
        return JsonMapper.shared().readTree(answer.body());
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
