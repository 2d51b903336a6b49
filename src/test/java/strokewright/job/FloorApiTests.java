package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** What comes back from the floor, over HTTP on a real database. */
class FloorApiTests extends ServiceTest {

    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;
    private FloorShop floor;
    private String job;

    @BeforeEach
    void shop() {
        shop = openShop();
        floor = new FloorShop(shop);
        job = floor.job();
    }

    // Pauses -------------------------------------------------------------------------------------

    @Test
    void aPauseAsksForNoCountsAndIsOfferedUntilItGoesOn() {
        String id = start();
        JsonNode paused = floor.floor("/bookings/" + id + "/pause", "{\"pieces\":7}", 200);
        assertThat(paused.at("/paused").asBoolean()).isTrue();
        assertThat(paused.at("/pieces").isMissingNode()).isTrue();
        assertThat(paused.at("/source").asString()).isEqualTo("clock");
        assertThat(floor.floor("/bookings/" + id + "/pause", null, 200)).isEqualTo(paused);
        assertThat(floor.leftOff()).hasSize(1);

        String again = start();
        assertThat(floor.leftOff()).isEmpty();
        floor.floor("/bookings/" + again + "/pause", null, 200);
        assertThat(floor.leftOff()).hasSize(1);

        String last = start();
        floor.floor("/bookings/" + last + "/stop", "{\"pieces\":5}", 200);
        assertThat(floor.leftOff()).isEmpty();
        assertThat(floor.bookings(job)).hasSize(3);
        assertThat(floor.bookings(job))
                .filteredOn(b -> !b.at("/pieces").isMissingNode())
                .extracting(b -> b.at("/id").asString())
                .containsExactly(last);
    }

    @Test
    void aPauseThatWasTheEndTakesTheCountsAndNothingElse() {
        String id = start();
        JsonNode paused = floor.floor("/bookings/" + id + "/pause", null, 200);
        floor.send(Role.ESTIMATOR, "POST", "/bookings/" + id + "/stop", "{\"pieces\":9}", 200);
        assertThat(floor.leftOff()).hasSize(1);

        JsonNode done =
                floor.floor("/bookings/" + id + "/stop", "{\"minutes\":99,\"pieces\":2}", 200);
        assertThat(done.at("/paused").asBoolean()).isFalse();
        assertThat(done.at("/pieces").asInt()).isEqualTo(2);
        assertThat(done.at("/minutes")).isEqualTo(paused.at("/minutes"));
        assertThat(floor.leftOff()).isEmpty();
        assertThat(floor.floor("/bookings/" + id + "/stop", "{\"pieces\":3}", 200)).isEqualTo(done);
    }

    @Test
    void aCorrectedPauseIsStillOffered() {
        String id = start();
        floor.floor("/bookings/" + id + "/pause", null, 200);
        JsonNode right =
                floor.floor(
                        "/bookings/" + id + "/correct",
                        FloorShop.fields("\"step\":1,\"minutes\":12"),
                        201);
        assertThat(floor.leftOff()).extracting(b -> b.at("/id")).containsExactly(right.at("/id"));
    }

    // Times of a phone ---------------------------------------------------------------------------

    @Test
    void aStretchKeptOnAPhoneHasItsOwnTimesAndArrivesOnce() {
        Instant from = Instant.now().minus(Duration.ofHours(30)).truncatedTo(ChronoUnit.SECONDS);
        String entry =
                FloorShop.fields(
                        "\"step\":1,\"startedAt\":\"%s\",\"endedAt\":\"%s\",\"pieces\":2"
                                .formatted(from, from.plusSeconds(2700)));
        JsonNode first = floor.floor("/jobs/" + job + "/bookings", entry, 201);

        assertThat(first.at("/minutes").asDouble()).isEqualTo(45);
        assertThat(first.at("/startedAt").asString()).isEqualTo(from.toString());
        assertThat(first.at("/workedOn").asString())
                .isEqualTo(
                        LocalDate.ofInstant(from, java.time.ZoneId.of("Europe/Berlin")).toString());
        assertThat(first.at("/source").asString()).isEqualTo("clock");
        assertThat(floor.floor("/jobs/" + job + "/bookings", entry, 201)).isEqualTo(first);
        assertThat(floor.bookings(job)).hasSize(1);
    }

    @Test
    void aStretchEndsTheClockOfItsStartWhoseAnswerGotLost() {
        Instant from = Instant.now().minus(Duration.ofMinutes(40));
        String id = UUID.randomUUID().toString();
        String start = "\"id\":\"%s\",\"step\":1,\"startedAt\":\"%s\"".formatted(id, from);
        floor.book(job, start, 201);
        JsonNode done =
                floor.book(
                        job,
                        start
                                + ",\"endedAt\":\"%s\",\"passes\":12"
                                        .formatted(from.plusSeconds(600)),
                        201);

        assertThat(done.at("/minutes").asDouble()).isEqualTo(10);
        assertThat(done.at("/passes").asInt()).isEqualTo(12);
        assertThat(floor.bookings(job)).hasSize(1);
        floor.send(Role.FLOOR, "GET", "/bookings/running", null, 404);
    }

    @Test
    void aClockIsStoppedWhenThePhoneSaysNotWhenItArrives() {
        Instant from = Instant.now().minus(Duration.ofHours(20));
        String id =
                floor.book(job, "\"step\":1,\"startedAt\":\"%s\"".formatted(from), 201)
                        .at("/id")
                        .asString();
        JsonNode problem = floor.floor("/bookings/" + id + "/stop", null, 400);
        assertThat(problem.at("/errors/0/pointer").asString()).isEqualTo("/minutes");
        floor.floor(
                "/bookings/" + id + "/stop",
                "{\"endedAt\":\"%s\"}".formatted(from.minusSeconds(1)),
                400);
        assertThat(
                        floor.floor(
                                        "/bookings/" + id + "/stop",
                                        "{\"endedAt\":\"%s\"}".formatted(from.plusSeconds(5400)),
                                        200)
                                .at("/minutes")
                                .asDouble())
                .isEqualTo(90);
    }

    // At once ------------------------------------------------------------------------------------

    @Test
    void twoPhonesOfOnePersonStartOneClockOnAJobThatNobodyBegan() throws Exception {
        List<Integer> answers =
                atOnce(
                        () -> status("/jobs/" + job + "/bookings", FloorShop.fields("\"step\":1")),
                        () -> status("/jobs/" + job + "/bookings", FloorShop.fields("\"step\":2")));
        assertThat(answers).containsExactlyInAnyOrder(201, 409);
        assertThat(floor.bookings(job)).hasSize(1);
        assertThat(floor.send(Role.FLOOR, "GET", "/jobs/" + job, null, 200).at("/state").asString())
                .isEqualTo("in-work");
    }

    @Test
    void whatIsSentTwiceAtOnceIsTakenOnce() throws Exception {
        for (String fields : List.of("\"step\":1", "\"step\":2,\"minutes\":5")) {
            String entry = FloorShop.fields(fields);
            Callable<Integer> sending = () -> status("/jobs/" + job + "/bookings", entry);
            assertThat(atOnce(sending, sending, sending)).containsOnly(201);
        }
        assertThat(floor.bookings(job)).hasSize(2);
    }

    private int status(String path, String body) {
        return floor.exchange(Role.FLOOR, "POST", path, body).getStatus().value();
    }

    @SafeVarargs
    private static List<Integer> atOnce(Callable<Integer>... work) throws Exception {
        ExecutorService threads = Executors.newFixedThreadPool(work.length);
        try {
            List<Future<Integer>> answers = threads.invokeAll(List.of(work));
            List<Integer> all = new java.util.ArrayList<>();
            for (Future<Integer> answer : answers) {
                all.add(answer.get());
            }
            return all;
        } finally {
            threads.shutdown();
        }
    }

    // Others' clocks, corrections, sorts ---------------------------------------------------------

    @Test
    void theOfficeTellsHowLongAForgottenClockOfAnotherReallyRan() {
        String id = start();
        inShop("update booking set started_at = started_at - interval '13 hours'");
        floor.send(Role.ESTIMATOR, "POST", "/bookings/" + id + "/stop", "{\"minutes\":50}", 409);
        floor.send(Role.OFFICE, "POST", "/bookings/" + id + "/stop", null, 400);
        JsonNode told =
                floor.send(
                        Role.OFFICE, "POST", "/bookings/" + id + "/stop", "{\"minutes\":50}", 200);
        assertThat(told.at("/minutes").asDouble()).isEqualTo(50);
        assertThat(told.at("/source").asString()).isEqualTo("minutes");
        assertThat(told.at("/who").asString()).isEqualTo("The floor");
    }

    @Test
    void aBookingThatNeverWasIsCorrectedToNothingAndStaysToBeRead() {
        String id = floor.book(job, "\"step\":1,\"minutes\":30", 201).at("/id").asString();
        JsonNode none =
                floor.floor(
                        "/bookings/" + id + "/correct",
                        FloorShop.fields("\"step\":1,\"minutes\":0"),
                        201);
        assertThat(none.at("/minutes").asDouble()).isZero();
        assertThat(none.at("/enteredBy").asString()).isEqualTo("The floor");
        for (String wrong : List.of("-1", "1441", "1e400", "\"NaN\"")) {
            floor.floor(
                    "/bookings/" + none.at("/id").asString() + "/correct",
                    FloorShop.fields("\"step\":1,\"minutes\":" + wrong),
                    400);
        }
    }

    @Test
    void whoeverBooksPerJobSaysTheSortOfWork() {
        assertThat(
                        floor.book(job, "\"minutes\":30,\"sort\":\"forming\"", 201)
                                .at("/sort")
                                .asString())
                .isEqualTo("forming");
        assertThat(
                        floor.book(job, "\"step\":1,\"minutes\":30,\"sort\":\"forming\"", 400)
                                .at("/errors/0/pointer")
                                .asString())
                .isEqualTo("/sort");
        floor.floor(
                "/bookings",
                FloorShop.fields("\"minutes\":3,\"reason\":\"x\",\"sort\":\"other\""),
                400);
    }

    @Test
    void aClosedJobTakesNoBookingButAClockThatRanOnItStops() {
        String id = start();
        floor.floor("/jobs/" + job + "/finish", null, 200);
        floor.send(Role.OFFICE, "POST", "/jobs/" + job + "/close", null, 200);
        floor.book(job, "\"step\":1,\"minutes\":5", 409);
        assertThat(floor.floor("/bookings/" + id + "/stop", null, 200).at("/minutes").isNumber())
                .isTrue();
    }

    @Test
    void anIdIsGoodForOnePersonAlone() {
        String entry = FloorShop.fields("\"step\":1,\"minutes\":5");
        floor.floor("/jobs/" + job + "/bookings", entry, 201);
        assertThat(
                        floor.send(Role.ESTIMATOR, "POST", "/jobs/" + job + "/bookings", entry, 400)
                                .at("/errors/0/pointer")
                                .asString())
                .isEqualTo("/id");
    }

    @Test
    void anIdIsGoodForOneJobAlone() {
        String entry = FloorShop.fields("\"step\":1,\"minutes\":5");
        floor.floor("/jobs/" + job + "/bookings", entry, 201);
        assertThat(
                        floor.floor("/jobs/" + floor.job() + "/bookings", entry, 400)
                                .at("/errors/0/pointer")
                                .asString())
                .isEqualTo("/id");
    }

    // Presence -----------------------------------------------------------------------------------

    @Test
    void aDaysPresenceIsEnteredAnewAndOnlyTheLastCounts() {
        String day = LocalDate.now().minusDays(2).toString();
        JsonNode first =
                floor.floor(
                        "/presence",
                        FloorShop.fields(
                                "\"day\":\"%s\",\"came\":\"07:00\",\"went\":\"15:45\",\"breakMinutes\":45"
                                        .formatted(day)),
                        201);
        assertThat(first.at("/minutes").asDouble()).isEqualTo(480);
        floor.floor(
                "/presence",
                FloorShop.fields("\"day\":\"%s\",\"minutes\":470".formatted(day)),
                201);
        floor.send(
                Role.OFFICE,
                "POST",
                "/presence",
                FloorShop.fields(
                        "\"user\":\"%s\",\"day\":\"%s\",\"came\":\"13:30\",\"went\":\"22:00\""
                                .formatted(shop.user(Role.FLOOR).userName(), day)),
                201);
        for (Role role : List.of(Role.FLOOR, Role.OWNER)) {
            JsonNode days = floor.send(role, "GET", "/presence", null, 200).at("/items");
            assertThat(days.size()).isEqualTo(1);
            assertThat(days.at("/0/minutes").asDouble()).isCloseTo(510, within(1e-9));
            assertThat(days.at("/0/enteredBy").asString()).isEqualTo("The office");
        }
        floor.floor(
                "/presence",
                FloorShop.fields(
                        "\"user\":\"%s\",\"minutes\":1"
                                .formatted(shop.user(Role.OWNER).userName())),
                403);
    }

    private String start() {
        return floor.book(job, "\"step\":1", 201).at("/id").asString();
    }

    private void inShop(String change) {
        shop.user(Role.OWNER)
                .run(
                        () ->
                                new TransactionTemplate(transactions)
                                        .executeWithoutResult(s -> sql.sql(change).update()));
    }
}
