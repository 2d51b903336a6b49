package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.ResponseEntity;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;

class OnceTests extends ServiceTest {

    private static final String PATH = "POST /api/v1/things";

    @Autowired private Once once;
    @Autowired private OldRequestKeys oldKeys;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private final AtomicInteger effects = new AtomicInteger();

    private record Thing(String name) {}

    private record Made(UUID id) {}

    private ResponseEntity<?> effect() {
        effects.incrementAndGet();
        return ResponseEntity.created(URI.create("/api/v1/things/1"))
                .eTag("\"1\"")
                .body(new Made(UUID.randomUUID()));
    }

    private ResponseEntity<byte[]> send(SignedIn who, String key, Object body) {
        return send(who, key, body, this::effect);
    }

    private ResponseEntity<byte[]> send(
            SignedIn who, String key, Object body, Supplier<ResponseEntity<?>> effect) {
        return who.call(() -> once.answer(key, PATH, body, effect));
    }

    private SignedIn estimator() {
        return openShop().user(Role.ESTIMATOR);
    }

    private static void assertRefused(int status, Callable<?> request) {
        assertThatThrownBy(request::call)
                .isInstanceOfSatisfying(
                        Problem.class,
                        p ->
                                assertThat(
                                                p.answer(
                                                                new org.springframework.mock.web
                                                                        .MockHttpServletRequest())
                                                        .getStatusCode()
                                                        .value())
                                        .isEqualTo(status));
    }

    @Test
    void aRepeatGetsTheFirstAnswerToTheByte() {
        SignedIn who = estimator();
        ResponseEntity<byte[]> first = send(who, "k", new Thing("Rim"));
        ResponseEntity<byte[]> again = send(who, "k", new Thing("Rim"));

        assertThat(effects).hasValue(1);
        assertThat(again.getStatusCode()).isEqualTo(first.getStatusCode());
        assertThat(again.getBody()).isEqualTo(first.getBody());
        assertThat(again.getHeaders().getETag()).isEqualTo("\"1\"");
        assertThat(again.getHeaders().getLocation()).isEqualTo(URI.create("/api/v1/things/1"));
        assertThat(again.getHeaders().getContentType())
                .isEqualTo(first.getHeaders().getContentType());
        assertThat(again.getHeaders().getFirst("Idempotency-Replayed")).isEqualTo("true");
        assertThat(first.getHeaders().getFirst("Idempotency-Replayed")).isNull();
    }

    @Test
    void withoutAKeyEveryRequestHasItsEffect() {
        SignedIn who = estimator();
        send(who, null, new Thing("Rim"));
        send(who, null, new Thing("Rim"));
        assertThat(effects).hasValue(2);
    }

    @Test
    void sixteenAtOnceHaveOneEffect() throws Exception {
        SignedIn who = estimator();
        CountDownLatch go = new CountDownLatch(1);
        List<Callable<ResponseEntity<byte[]>>> requests = new ArrayList<>();
        for (int i = 0; i < 16; i++) {
            requests.add(
                    () -> {
                        go.await();
                        return send(who, "k", new Thing("Rim"));
                    });
        }
        List<ResponseEntity<byte[]>> answers = together(requests, go);

        assertThat(effects).hasValue(1);
        assertThat(answers)
                .extracting(a -> new String(a.getBody(), StandardCharsets.UTF_8))
                .containsOnly(new String(answers.get(0).getBody(), StandardCharsets.UTF_8));
        assertThat(answers)
                .filteredOn(a -> a.getHeaders().containsHeader("Idempotency-Replayed"))
                .hasSize(15);
    }

    @Test
    void sixteenKeysAtOnceHaveSixteenEffects() throws Exception {
        SignedIn who = estimator();
        CountDownLatch go = new CountDownLatch(1);
        List<Callable<ResponseEntity<byte[]>>> requests = new ArrayList<>();
        for (int i = 0; i < 16; i++) {
            String key = "k" + i;
            requests.add(() -> send(who, key, new Thing("Rim")));
        }
        together(requests, go);
        assertThat(effects).hasValue(16);
    }

    private static <T> List<T> together(List<Callable<T>> requests, CountDownLatch go)
            throws Exception {
        ExecutorService threads = Executors.newFixedThreadPool(requests.size());
        try {
            List<Future<T>> running = requests.stream().map(threads::submit).toList();
            go.countDown();
            List<T> answers = new ArrayList<>();
            for (Future<T> answer : running) {
                answers.add(answer.get(30, TimeUnit.SECONDS));
            }
            return answers;
        } finally {
            threads.shutdownNow();
        }
    }

    @Test
    void aKeyStandsForOneRequestOfOneUser() {
        TestShop shop = openShop();
        SignedIn who = shop.user(Role.ESTIMATOR);
        send(who, "k", new Thing("Rim"));
        assertRefused(422, () -> send(who, "k", new Thing("Back")));
        assertRefused(422, () -> send(shop.user(Role.OWNER), "k", new Thing("Rim")));
        assertRefused(
                422,
                () ->
                        who.call(
                                () ->
                                        once.answer(
                                                "k",
                                                "POST /api/v1/others",
                                                new Thing("Rim"),
                                                this::effect)));
        send(estimator(), "k", new Thing("Rim"));
        assertThat(effects).as("another shop has keys of its own").hasValue(2);
    }

    @Test
    void theOrderOfNamedValuesMakesNoDifference() {
        SignedIn who = estimator();
        Map<String, Double> one = new LinkedHashMap<>(Map.of("copper", 1.0));
        one.put("brass", 0.8);
        Map<String, Double> other = new LinkedHashMap<>(Map.of("brass", 0.8));
        other.put("copper", 1.0);
        send(who, "k", one);
        send(who, "k", other);
        assertThat(effects).hasValue(1);
    }

    @Test
    void whatIsRefusedKeepsNoKey() {
        SignedIn who = estimator();
        assertThatThrownBy(
                        () ->
                                send(
                                        who,
                                        "k",
                                        new Thing("Rim"),
                                        () -> {
                                            throw Problem.wrongState("Not now.");
                                        }))
                .isInstanceOf(Problem.class);
        send(who, "k", new Thing("Back"));
        assertThat(effects).hasValue(1);
    }

    @Test
    void whoWaitsForARequestThatFailsHasTheEffectInItsPlace() throws Exception {
        SignedIn who = estimator();
        CountDownLatch started = new CountDownLatch(1);
        CountDownLatch fail = new CountDownLatch(1);
        ExecutorService threads = Executors.newFixedThreadPool(2);
        try {
            Future<?> first =
                    threads.submit(
                            () ->
                                    send(
                                            who,
                                            "k",
                                            new Thing("Rim"),
                                            () -> {
                                                started.countDown();
                                                await(fail);
                                                throw new IllegalStateException("lost");
                                            }));
            await(started);
            Future<ResponseEntity<byte[]>> second =
                    threads.submit(() -> send(who, "k", new Thing("Rim")));
            assertThat(second.isDone()).isFalse();
            fail.countDown();
            assertThat(second.get(10, TimeUnit.SECONDS).getStatusCode().value()).isEqualTo(201);
            assertThatThrownBy(first::get).hasRootCauseMessage("lost");
            assertThat(effects).hasValue(1);
        } finally {
            threads.shutdownNow();
        }
    }

    @Test
    void whoWaitsTooLongIsToldThatItIsStillAtWork() throws Exception {
        SignedIn who = estimator();
        CountDownLatch started = new CountDownLatch(1);
        CountDownLatch finish = new CountDownLatch(1);
        ExecutorService threads = Executors.newFixedThreadPool(1);
        try {
            Future<ResponseEntity<byte[]>> first =
                    threads.submit(
                            () ->
                                    send(
                                            who,
                                            "k",
                                            new Thing("Rim"),
                                            () -> {
                                                started.countDown();
                                                await(finish);
                                                return effect();
                                            }));
            await(started);
            assertRefused(409, () -> send(who, "k", new Thing("Rim")));
            finish.countDown();
            assertThat(first.get(10, TimeUnit.SECONDS).getStatusCode().value()).isEqualTo(201);
            assertThat(send(who, "k", new Thing("Rim")).getBody()).isEqualTo(first.get().getBody());
            assertThat(effects).hasValue(1);
        } finally {
            threads.shutdownNow();
        }
    }

    private static void await(CountDownLatch latch) {
        try {
            assertThat(latch.await(30, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "a\tb", "a\u0000", "schl\u00fcssel", "\u007f"})
    void keysThatCannotBePrintedAreRefused(String key) {
        SignedIn who = estimator();
        assertThatThrownBy(() -> send(who, key, new Thing("Rim"))).isInstanceOf(InvalidInput.class);
        assertThat(effects).hasValue(0);
    }

    @Test
    void aKeyHasUpTo255Characters() {
        SignedIn who = estimator();
        send(who, "k".repeat(255), new Thing("Rim"));
        assertThatThrownBy(() -> send(who, "k".repeat(256), new Thing("Rim")))
                .isInstanceOf(InvalidInput.class);
    }

    @Test
    void keysAreForgottenAfterThreeDaysInEveryShop() throws Exception {
        SignedIn one = estimator();
        SignedIn other = estimator();
        for (SignedIn who : List.of(one, other)) {
            send(who, "old", new Thing("Rim"));
            send(who, "young", new Thing("Rim"));
            age(who, "old", 73);
            age(who, "young", 71);
        }
        Callable<Boolean> forget =
                () -> {
                    oldKeys.forget();
                    return true;
                };
        together(List.of(forget, forget, forget), new CountDownLatch(1));

        effects.set(0);
        for (SignedIn who : List.of(one, other)) {
            send(who, "young", new Thing("Rim"));
            assertThat(effects).hasValue(0);
            send(who, "old", new Thing("Rim"));
            assertThat(effects.getAndSet(0)).isEqualTo(1);
        }
    }

    private void age(SignedIn who, String key, int hours) {
        who.run(
                () ->
                        new TransactionTemplate(transactions)
                                .executeWithoutResult(
                                        status ->
                                                sql.sql(
                                                                "update request_key set created_at ="
                                                                        + " now() - make_interval(hours => ?)"
                                                                        + " where key = ?")
                                                        .params(hours, key)
                                                        .update()));
    }
}
