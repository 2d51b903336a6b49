package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.office.Column;
import strokewright.office.Value;
import strokewright.office.Xlsx;
import tools.jackson.databind.JsonNode;

/** Time sheets taken in as files. */
class TimeSheetsTests extends ServiceTest {

    private static final LocalDate DAY = LocalDate.now().minusDays(3);
    private static final String HEAD = "Person,Date,Job,Step,Minutes,Hours,Pieces,What,Reason\n";

    private TestShop shop;
    private FloorShop floor;
    private String job;

    @BeforeEach
    void shop() {
        shop = openShop();
        floor = new FloorShop(shop);
        job = floor.job();
    }

    @Test
    void rowsBecomeBookingsOnceHoweverOftenTheFileIsSent() {
        String german =
                "\ufeffPerson;Datum\n".replace("Datum", "Date;Job;Step;Hours;Pieces;What;Reason")
                        + "The floor;%s;%s;Curve an edge;7,5;2;;\n".formatted(dotted(), job)
                        + "the FLOOR;%s;%s;2;0:45;;set-up;\n".formatted(dotted(), job)
                        + "The floor;%s;%s;2;0:45;;set-up;\n".formatted(dotted(), job)
                        + "The floor;%s;;;0,5;;;Cleaning\n".formatted(dotted());
        JsonNode preview = send(german, "?preview=true", 200);
        assertThat(preview.at("/new").asInt()).as("%s", preview).isEqualTo(4);
        assertThat(floor.bookings(job)).isEmpty();

        assertThat(send(german, "", 200).at("/new").asInt()).isEqualTo(4);
        JsonNode again = send(german, "", 200);
        assertThat(again.at("/new").asInt()).isZero();
        assertThat(again.at("/same").asInt()).isEqualTo(4);

        List<JsonNode> booked = floor.bookings(job);
        assertThat(booked).hasSize(3);
        assertThat(booked)
                .allSatisfy(
                        b -> {
                            assertThat(b.at("/source").asString()).isEqualTo("sheet");
                            assertThat(b.at("/who").asString()).isEqualTo("The floor");
                            assertThat(b.at("/enteredBy").asString()).isEqualTo("The office");
                            assertThat(b.at("/workedOn").asString()).isEqualTo(DAY.toString());
                        })
                .extracting(b -> b.at("/minutes").asDouble())
                .containsExactlyInAnyOrder(450.0, 45.0, 45.0);
        assertThat(booked)
                .filteredOn(b -> b.at("/minutes").asDouble() == 450)
                .allSatisfy(
                        b -> {
                            assertThat(b.at("/work").asString()).isEqualTo("Rim: Curve an edge");
                            assertThat(b.at("/what").asString()).isEqualTo("run");
                        });
        String more = german + "The floor;%s;;;1;;;Waiting\n".formatted(dotted());
        assertThat(send(more, "", 200).at("/new").asInt()).isEqualTo(1);
    }

    @Test
    void theSameRowsInAWorkbookAreKnownAgain() {
        send(HEAD + "The floor,%s,%s,1,450,,2,,\n".formatted(DAY, job), "", 200);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Xlsx.write(
                out,
                "Time sheets",
                "Time sheets",
                List.of(
                        Column.text("Person", 10),
                        Column.text("Date", 10),
                        Column.text("Job", 10),
                        Column.number("Step", 0, 10),
                        Column.number("Hours", 2, 10),
                        Column.number("Pieces", 0, 10)),
                List.of(
                                List.of(
                                        Value.text("The floor"),
                                        Value.day(DAY),
                                        Value.text(job),
                                        Value.number(1),
                                        Value.number(new BigDecimal("7.5")),
                                        Value.number(2)))
                        .iterator());
        JsonNode preview = send(out.toByteArray(), Xlsx.MEDIA_TYPE, "?preview=true", 200);
        assertThat(preview.at("/same").asInt()).as("%s", preview).isEqualTo(1);
    }

    @Test
    void wordsThatAreNotKnownAreOfferedTheNearestAndRemembered() {
        String second = floor.job();
        String count = job.substring(2, 4) + "-" + second.replaceFirst(".*-0*", "");
        String file =
                HEAD
                        + "T. Floor,%s,%s,curving,30,,,,\n".formatted(DAY, count)
                        + "T. Floor,%s,%s,curving,40,,,,\n".formatted(DAY, count);
        JsonNode preview = send(file, "?preview=true", 200);
        assertThat(preview.at("/new").asInt()).isZero();
        assertThat(preview.at("/faults/0/column").asString()).isEqualTo("Person");
        JsonNode person = word(preview, "person");
        assertThat(person.at("/word").asString()).isEqualTo("T. Floor");
        assertThat(person.at("/rows").asInt()).isEqualTo(2);
        assertThat(person.at("/options/0/label").asString()).isEqualTo("The floor");
        assertThat(word(preview, "job").at("/options/0/value").asString()).isEqualTo(second);
        send(file, "", 400);

        for (String kind : List.of("person", "job")) {
            choose(word(preview, kind));
        }
        preview = send(file, "?preview=true", 200);
        JsonNode work = word(preview, "work");
        assertThat(work.at("/options/0/label").asString()).contains("Curve an edge");
        choose(work);
        assertThat(send(file, "", 200).at("/new").asInt()).isEqualTo(2);
        assertThat(floor.bookings(second)).hasSize(2);

        JsonNode later = send(file.replace(",30,", ",35,"), "?preview=true", 200);
        assertThat(later.at("/new").asInt()).isEqualTo(1);
        assertThat(word(later, "person").at("/meant").asString())
                .isEqualTo(shop.user(Role.FLOOR).userId().toString());

        floor.send(Role.OFFICE, "DELETE", "/bookings/words?kind=person&word=t. floor", null, 200);
        assertThat(send(file.replace(",30,", ",35,"), "?preview=true", 200).at("/new").asInt())
                .isZero();
    }

    @Test
    void everyFaultIsNamedByRowAndColumnAndNothingIsBooked() {
        String closed = floor.job();
        for (String step : List.of("start", "finish", "close")) {
            floor.send(Role.OFFICE, "POST", "/jobs/" + closed + "/" + step, null, 200);
        }
        String file =
                HEAD
                        + "The floor,%s,%s,1,30,,,,\n".formatted(DAY, job)
                        + ",%s,%s,99,-5,,1.5,,\n".formatted(DAY, job)
                        + "The floor,2999-01-01,%s,1,1e9,,,,\n".formatted(job)
                        + "The floor,3/4/2026,%s,1,30,2,,,\n".formatted(job)
                        + "The floor,%s,%s,1,30,,,rework,\n".formatted(DAY, job)
                        + "The floor,%s,%s,1,30,,,,\n".formatted(DAY, closed)
                        + "The floor,%s,,1,30,,,,\n".formatted(DAY)
                        + "The floor,%s,%s,1,,,,,\n".formatted(DAY, job);
        JsonNode problem = send(file, "", 400);
        assertThat(problem.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .contains("/rows/5/Date", "/rows/3/Person", "/rows/6/Reason");
        problem = send(file.replace("3/4/2026", DAY.toString()), "", 400);
        assertThat(problem.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .contains(
                        "/rows/3/Person",
                        "/rows/3/Step",
                        "/rows/3/Pieces",
                        "/rows/4/Minutes",
                        "/rows/5/Hours",
                        "/rows/6/Reason",
                        "/rows/7/Job",
                        "/rows/8/Step",
                        "/rows/9/Minutes");
        assertThat(floor.bookings(job)).isEmpty();
    }

    @Test
    void aWordMeansOnlyWhatIsThere() {
        for (String[] wrong :
                List.of(
                        new String[] {"person", java.util.UUID.randomUUID().toString()},
                        new String[] {"job", "J-2026-9999"},
                        new String[] {"work", "step:first"})) {
            JsonNode problem =
                    floor.send(
                            Role.OFFICE,
                            "POST",
                            "/bookings/words",
                            "{\"kind\":\"%s\",\"word\":\"x\",\"meaning\":\"%s\"}"
                                    .formatted(wrong[0], wrong[1]),
                            400);
            assertThat(problem.at("/errors/0/pointer").asString()).isEqualTo("/meaning");
        }
    }

    @Test
    void aTimeWithSecondsLosesNone() {
        send(HEAD + "The floor,%s,%s,1,0:12:30,,2,,\n".formatted(DAY, job), "", 200);
        assertThat(floor.bookings(job).get(0).at("/minutes").asDouble()).isEqualTo(12.5);
    }

    @Test
    void aJobShowsItsLatestBookingsAndTheMinutesOfAll() {
        StringBuilder file = new StringBuilder(HEAD);
        for (int i = 0; i < 205; i++) {
            file.append("The floor,%s,%s,1,%d,,,,\n".formatted(DAY, job, 1 + i % 3));
        }
        assertThat(send(file.toString(), "", 200).at("/new").asInt()).isEqualTo(205);
        Person office = new Person(port());
        office.signIn(shop.user(Role.OFFICE).userName(), TestShop.PASSWORD);
        String page = office.open("/jobs/" + job).body();
        assertThat(page)
                .contains("The latest <span>200</span> of <span>205</span>")
                .contains(">409.0<");
        assertThat(office.open("/jobs/" + job + "?all").body()).doesNotContain("The latest");
    }

    @Test
    void thePageOffersTheChoicesAndTheFloorTakesInNoSheets() {
        Person office = new Person(port());
        office.signIn(shop.user(Role.OFFICE).userName(), TestShop.PASSWORD);
        byte[] file =
                (HEAD + "Florr,%s,%s,1,30,,,,\n".formatted(DAY, job))
                        .getBytes(StandardCharsets.UTF_8);
        String preview =
                Person.target(
                        office.upload("/import/time-sheets", "/import/time-sheets", "w.csv", file));
        String page = office.open(preview).body();
        assertThat(page).contains("Florr").contains("nobody’s name here");
        String floorsId = shop.user(Role.FLOOR).userId().toString();
        assertThat(page).contains("<option value=\"" + floorsId + "\">The floor</option>");

        String path = preview.replaceFirst("\\?.*", "");
        String next =
                Person.target(
                        office.submit(
                                path,
                                path + "/words",
                                java.util.Map.of(
                                        "kind", "person", "word", "Florr", "meaning", floorsId)));
        assertThat(office.open(next).body()).contains("read as The floor").contains(">1</b> new");

        send(Role.FLOOR, file, "text/csv", "", 403);
    }

    private void choose(JsonNode word) {
        floor.send(
                Role.OFFICE,
                "POST",
                "/bookings/words",
                "{\"kind\":\"%s\",\"word\":\"%s\",\"meaning\":\"%s\"}"
                        .formatted(
                                word.at("/kind").asString(),
                                word.at("/word").asString(),
                                word.at("/options/0/value").asString()),
                200);
    }

    private static JsonNode word(JsonNode preview, String kind) {
        return preview.at("/words").values().stream()
                .filter(w -> w.at("/kind").asString().equals(kind))
                .findFirst()
                .orElseThrow(() -> new AssertionError(preview.toString()));
    }

    private static String dotted() {
        return "%d.%d.%d".formatted(DAY.getDayOfMonth(), DAY.getMonthValue(), DAY.getYear());
    }

    private JsonNode send(String file, String query, int status) {
        return send(file.getBytes(StandardCharsets.UTF_8), "text/csv", query, status);
    }

    private JsonNode send(byte[] file, String type, String query, int status) {
        return send(Role.OFFICE, file, type, query, status);
    }

    private JsonNode send(Role role, byte[] file, String type, String query, int status) {
        EntityExchangeResult<JsonNode> answer =
                shop.as(role)
                        .post()
                        .uri("/api/v1/bookings/import" + query)
                        .contentType(MediaType.parseMediaType(type))
                        .body(file)
                        .exchange()
                        .expectBody(JsonNode.class)
                        .returnResult();
        assertThat(answer.getStatus().value()).as("%s", answer.getResponseBody()).isEqualTo(status);
        return answer.getResponseBody();
    }
}
