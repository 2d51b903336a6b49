package strokewright.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.comparison.ComparingShop.money;
import static strokewright.comparison.ComparingShop.number;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import strokewright.ServiceTest;
import strokewright.access.Role;
import strokewright.office.Csv;
import strokewright.office.Xlsx;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Published variances and the rules of the comparison, through the service. */
class ComparisonApiTests extends ServiceTest {

    private ComparingShop shop;

    @BeforeEach
    void newShop() {
        shop = new ComparingShop(openShop());
    }

    /** 8 minutes at a bench of 1.80 an hour, sheet at 4.15 a kg. */
    private static ObjectNode textbook() {
        ObjectNode book = ComparingShop.plainBook();
        ((ArrayNode) book.at("/standards"))
                .add(
                        ComparingShop.JSON.readTree(
                                """
                                {"name":"Assemble","workCentre":"Bench","setupMinutes":0,
                                 "minutesPerUnit":8,"unit":"piece","origin":"textbook"}
                                """));
        ((ObjectNode) book.at("/workCentres/3/labourRate")).put("amount", "1.80");
        ((ObjectNode) book.at("/sheets/1/pricePerKg")).put("amount", "4.15");
        return book;
    }

    private static final String PIECE =
            """
            {"title":"Bracket","quantities":[%d],
             "parts":[{"name":"Body","grade":"STEEL-DC","thicknessMm":2.0,"massKg":1.0,
               "operations":[{"type":"standard","standard":"%s","amount":1}]}]}
            """;

    @Test
    void theTextbookVariancesOfLabourAndMaterialComeOut() {
        shop.useBook(textbook());
        shop.costRate(Role.FLOOR, "1.95", "2020-01-01");
        String job =
                shop.job("\"items\":[{\"takeOff\":" + PIECE.formatted(1020, "Assemble") + "}]")
                        .at("/number")
                        .asString();
        for (int i = 0; i < 17; i++) {
            shop.book(Role.FLOOR, job, "\"step\":1,\"minutes\":600");
        }
        shop.post(
                Role.OFFICE,
                "/jobs/" + job + "/materials",
                ComparingShop.withId(
                        "\"grade\":\"STEEL-DC\",\"kg\":1000,\"paid\":{\"amount\":\"4280.00\",\"currency\":\"EUR\"}"));
        shop.finish(job, null);

        JsonNode c = shop.get(Role.OWNER, "/jobs/" + job + "/comparison");
        assertThat(money(c, "/over/rate")).isEqualByComparingTo("25.50");
        assertThat(money(c, "/over/efficiency")).isEqualByComparingTo("61.20");
        assertThat(money(c, "/workCentres/0/labour/over")).isEqualByComparingTo("86.70");
        assertThat(money(c, "/over/price")).isEqualByComparingTo("130");
        assertThat(money(c, "/over/usage")).isEqualByComparingTo("-83");
        assertThat(money(c, "/metal/0/cost/over")).isEqualByComparingTo("47");
        assertThat(number(c, "/hours/planned")).isEqualByComparingTo("136");
        assertThat(number(c, "/hours/actual")).isEqualByComparingTo("170");
        assertThat(money(c, "/cost/over")).isEqualByComparingTo("133.70");
        addsUp(c);

        JsonNode seen = shop.get(Role.ESTIMATOR, "/jobs/" + job + "/comparison");
        assertThat(seen.at("/labourAt").asString()).isEqualTo("book-rates");
        assertThat(seen.at("/margin").isMissingNode()).isTrue();
        assertThat(seen.at("/bridge").isMissingNode()).isTrue();
        assertThat(seen.toString()).doesNotContain("\"rate\"").doesNotContain("1.95");
        assertThat(money(seen, "/over/efficiency")).isEqualByComparingTo("61.20");
        assertThat(money(seen, "/cost/over")).isEqualByComparingTo("108.20");
        shop.answer(Role.FLOOR, "GET", "/jobs/" + job + "/comparison", null, null, 403);
    }

    /** 10 g at 4.15 a kg are 4 cents; a kg at those would be 4.00. */
    @Test
    void aPlannedPriceIsNotMadeOfRoundedCents() {
        shop.useBook(textbook());
        String job =
                shop.job(
                                "\"items\":[{\"takeOff\":"
                                        + PIECE.formatted(1, "Assemble")
                                                .replace("\"massKg\":1.0", "\"massKg\":0.01")
                                        + "}]")
                        .at("/number")
                        .asString();
        shop.post(
                Role.OFFICE,
                "/jobs/" + job + "/materials",
                ComparingShop.withId(
                        "\"grade\":\"STEEL-DC\",\"kg\":1000,\"paid\":{\"amount\":\"4280.00\",\"currency\":\"EUR\"}"));
        shop.finish(job, null);

        JsonNode c = shop.get(Role.OWNER, "/jobs/" + job + "/comparison");
        assertThat(money(c, "/metal/0/cost/planned")).isEqualByComparingTo("0.04");
        assertThat(money(c, "/over/price")).isEqualByComparingTo("130");
        assertThat(money(c, "/over/usage")).isEqualByComparingTo("4149.96");
        addsUp(c);
    }

    @Test
    void theJobFormComesOut() {
        ObjectNode book = textbook();
        ((ObjectNode) book.at("/workCentres/3/labourRate")).put("amount", "55.00");
        ((ObjectNode) book.at("/standards/5")).put("minutesPerUnit", 60);
        shop.useBook(book);
        shop.costRate(Role.FLOOR, "58", "2020-01-01");
        String job =
                shop.job("\"items\":[{\"takeOff\":" + PIECE.formatted(10, "Assemble") + "}]")
                        .at("/number")
                        .asString();
        shop.book(Role.FLOOR, job, "\"step\":1,\"minutes\":690");

        JsonNode c = shop.get(Role.OWNER, "/jobs/" + job + "/comparison");
        assertThat(money(c, "/over/rate")).isEqualByComparingTo("34.50");
        assertThat(money(c, "/over/efficiency")).isEqualByComparingTo("82.50");
        assertThat(money(c, "/workCentres/0/labour/over")).isEqualByComparingTo("117");
        assertThat(c.at("/notes").toString())
                .contains("not-finished", "no-metal")
                .doesNotContain("no-cost-rate");
        addsUp(c);
    }

    @Test
    void theRateOfTheDayWorkedCountsAndWithoutOneThatOfTheBook() {
        shop.useBook(textbook());
        shop.costRate(Role.FLOOR, "30", "2026-03-01");
        shop.costRate(Role.FLOOR, "40", "2026-04-01");
        String job =
                shop.job("\"items\":[{\"takeOff\":" + PIECE.formatted(10, "Assemble") + "}]")
                        .at("/number")
                        .asString();
        shop.book(Role.FLOOR, job, "\"step\":1,\"minutes\":60,\"workedOn\":\"2026-02-28\"");
        assertThat(money(shop.get(Role.OWNER, "/jobs/" + job + "/comparison"), "/over/rate"))
                .isZero();
        shop.book(Role.FLOOR, job, "\"step\":1,\"minutes\":60,\"workedOn\":\"2026-03-31\"");
        shop.book(
                Role.FLOOR,
                job,
                "\"step\":1,\"minutes\":60,\"workedOn\":\"2026-04-01\",\"withHelper\":true");
        JsonNode c = shop.get(Role.OWNER, "/jobs/" + job + "/comparison");
        // nobody knows what the helper costs: the book's rate, as for what was worked before
        assertThat(money(c, "/cost/actual")).isEqualByComparingTo("73.60");
        addsUp(c);
    }

    @Test
    void aCostRateIsKeptWithItsHistoryAndIsTheOwnersAlone() {
        String path = "/people/" + shop.shop().user(Role.FLOOR).userId() + "/cost-rate";
        shop.answer(Role.OWNER, "PUT", path, null, "{\"validFrom\":\"2026-01-01\"}", 428);
        shop.answer(Role.OWNER, "PUT", path, "\"7\"", "{\"validFrom\":\"2026-01-01\"}", 412);
        shop.costRate(Role.FLOOR, "31.25", "2026-01-01");
        shop.costRate(Role.FLOOR, "32.50", "2026-01-01");
        JsonNode said = shop.get(Role.OWNER, path);
        assertThat(said.at("/rates").size()).isEqualTo(1);
        assertThat(money(said, "/rates/0/perHour")).isEqualByComparingTo("32.50");
        for (Role other : new Role[] {Role.ESTIMATOR, Role.OFFICE, Role.FLOOR}) {
            shop.answer(other, "GET", path, null, null, 403);
            shop.answer(other, "GET", "/people", null, null, 403);
        }
        JsonNode faults =
                shop.answer(
                        Role.OWNER,
                        "PUT",
                        path,
                        "*",
                        "{\"perHour\":{\"amount\":\"-3\",\"currency\":\"USD\"}}",
                        400);
        assertThat(faults.at("/errors").findValuesAsString("pointer"))
                .containsExactlyInAnyOrder("/validFrom", "/perHour", "/perHour/currency");
        shop.answer(
                Role.OWNER,
                "GET",
                "/people/6f1c1b1e-0000-4000-8000-000000000000/cost-rate",
                null,
                null,
                404);
    }

    static final String EDGE =
            """
            {"title":"Wing corner","quantities":[%d],
             "parts":[{"name":"Corner","grade":"AL99.5-O","thicknessMm":2.0,
               "blank":{"lengthMm":600,"widthMm":300},
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":500,"radiusMm":300,"heightMm":30}%s]}],
             "extras":[{"name":"Powder coat","per":"order","kind":"bought-out",
               "cost":{"amount":"85.00","currency":"EUR"}}]}
            """;

    @Test
    void metalOfAGradeThatTheShopLearnedOfLaterIsWeighedWithTheBookOfThatDay() {
        ObjectNode book = ComparingShop.plainBook();
        shop.useBook(book);
        String job =
                shop.job("\"items\":[{\"takeOff\":" + EDGE.formatted(1, "") + "}]")
                        .at("/number")
                        .asString();
        ObjectNode grade = (ObjectNode) book.at("/grades/0").deepCopy();
        grade.put("code", "NEW").put("densityKgM3", 5000);
        ((ArrayNode) book.at("/grades")).add(grade);
        shop.useBook(book);
        JsonNode taken =
                shop.post(
                        Role.OFFICE,
                        "/jobs/" + job + "/materials",
                        ComparingShop.withId(
                                """
                                "grade":"NEW","thicknessMm":2,"lengthMm":1000,"widthMm":1000,
                                "count":1,"offcutLengthMm":500,"offcutWidthMm":1000,
                                "paid":{"amount":"60.00","currency":"EUR"}
                                """));
        assertThat(taken.at("/takenKg").asDouble()).isEqualTo(10);
        assertThat(taken.at("/backKg").asDouble()).isEqualTo(5);
        grade.put("densityKgM3", 9000);
        shop.useBook(book);

        JsonNode metal = shop.get(Role.OWNER, "/jobs/" + job + "/comparison").at("/metal");
        assertThat(metal.values())
                .filteredOn(m -> m.at("/grade").asString().equals("NEW"))
                .singleElement()
                .satisfies(
                        m -> {
                            assertThat(number(m, "/kg/actual")).isEqualByComparingTo("5");
                            assertThat(money(m, "/cost/actual")).isEqualByComparingTo("30");
                        });
    }

    @Test
    void fewerMadeWholeJobHoursBillsAndChangeOrdersAllAddUp() {
        ObjectNode book = ComparingShop.plainBook();
        book.set(
                "priceScheme",
                ComparingShop.JSON.readTree(
                        """
                        {"kind":"surcharge","priceFrom":"p80","materialOverheadPercent":8,
                         "productionOverheadPercent":60,"administrationPercent":10,"salesPercent":6,
                         "profitPercent":12,"settlementDiscountPercent":2,"commissionPercent":1.5,
                         "tradeDiscountPercent":5,"taxPercent":19,"boughtOutHandlingPercent":5}
                        """));
        book.remove("times");
        shop.useBook(book);
        shop.costRate(Role.FLOOR, "33.33", "2020-01-01");
        JsonNode made = shop.job("\"items\":[{\"takeOff\":" + EDGE.formatted(7, "") + "}]");
        String job = made.at("/number").asString();
        shop.post(
                Role.OFFICE,
                "/jobs/" + job + "/change-orders",
                ComparingShop.withId(
                        "\"reason\":\"one more\",\"items\":[{\"takeOff\":"
                                + EDGE.formatted(2, "")
                                + "}]"));
        int forming = 0;
        for (JsonNode step : made.at("/steps").values()) {
            if (step.at("/work/kind").asString().equals("curve-edge")) {
                forming = step.at("/n").asInt();
            }
        }
        shop.book(
                Role.FLOOR,
                job,
                "\"step\":" + forming + ",\"minutes\":97.35,\"passes\":70,\"checks\":40");
        shop.book(
                Role.ESTIMATOR,
                job,
                "\"step\":"
                        + forming
                        + ",\"what\":\"rework\",\"reason\":\"slipped\",\"minutes\":11.1");
        shop.book(Role.FLOOR, job, "\"minutes\":47.77,\"sort\":\"other\"");
        shop.book(Role.FLOOR, job, "\"minutes\":33.33");
        shop.post(
                Role.OFFICE,
                "/jobs/" + job + "/costs",
                ComparingShop.withId(
                        "\"name\":\"Coating\",\"extra\":\"Powder coat\",\"amount\":{\"amount\":\"91.19\",\"currency\":\"EUR\"}"));
        shop.post(
                Role.OFFICE,
                "/jobs/" + job + "/materials",
                ComparingShop.withId(
                        "\"grade\":\"AL99.5-O\",\"kg\":9.7,\"paid\":{\"amount\":\"61.13\",\"currency\":\"EUR\"}"));
        shop.finish(job, "{\"made\":[{\"position\":1,\"quantity\":5}]}");

        JsonNode c = shop.get(Role.OWNER, "/jobs/" + job + "/comparison");
        addsUp(c);
        assertThat(c.at("/orders").size()).isEqualTo(2);
        assertThat(c.at("/orders/0/items/0/made").asInt()).isEqualTo(5);
        assertThat(money(c, "/net/made")).isLessThan(money(c, "/net/ordered"));
        JsonNode whole = c.at("/workCentres/" + (c.at("/workCentres").size() - 1));
        assertThat(whole.at("/workCentre").isMissingNode()).isTrue();
        assertThat(number(whole, "/hours/actual")).isEqualByComparingTo("1.351667");
        JsonNode step =
                c.at("/work")
                        .valueStream()
                        .filter(w -> w.at("/kind").asString("").equals("curve-edge"))
                        .findFirst()
                        .orElseThrow();
        assertThat(step.at("/causes/passes").isMissingNode()).isFalse();
        assertThat(number(step, "/causes/rework")).isEqualByComparingTo("0.185000");
        assertThat(money(c, "/boughtOut/0/cost/actual")).isEqualByComparingTo("91.19");
        addsUp(shop.get(Role.OFFICE, "/jobs/" + job + "/comparison"));
        shop.answer(Role.OWNER, "GET", "/jobs/J-2026-9999/comparison", null, null, 404);
    }

    @Test
    void warrantyWithoutAPieceMadeHasNoPercentAndIsNotSplit() {
        JsonNode made =
                shop.post(
                        Role.OFFICE,
                        "/jobs",
                        """
                        {"kind":"warranty","customer":"Harbour Theatre","reason":"cracked",
                         "items":[{"takeOff":%s}]}
                        """
                                .formatted(EDGE.formatted(1, "")));
        String job = made.at("/number").asString();
        shop.book(Role.FLOOR, job, "\"step\":1,\"minutes\":30");
        shop.finish(job, "{\"made\":[{\"position\":1,\"quantity\":0}]}");
        JsonNode c = shop.get(Role.OWNER, "/jobs/" + job + "/comparison");
        addsUp(c);
        assertThat(number(c, "/hours/planned")).isZero();
        assertThat(c.at("/margin/earned/percent").isMissingNode()).isTrue();
        assertThat(money(c, "/margin/earned/amount")).isNegative();
        assertThat(c.at("/notes").toString()).contains("nothing-made");
    }

    @Test
    void anEstimatorsOwnMinutesStandBesideTheComputedOnes() {
        String own =
                """
                ,{"type":"smooth","areaMm2":90000,"timesOver":2,
                  "override":{"minutes":10,"reason":"done before"}}
                """;
        JsonNode made = shop.job("\"items\":[{\"takeOff\":" + EDGE.formatted(3, own) + "}]");
        JsonNode c =
                shop.get(Role.ESTIMATOR, "/jobs/" + made.at("/number").asString() + "/comparison");
        JsonNode override =
                c.at("/work")
                        .valueStream()
                        .map(w -> w.at("/override"))
                        .filter(o -> !o.isMissingNode())
                        .findFirst()
                        .orElseThrow();
        assertThat(override.at("/reason").asString()).isEqualTo("done before");
        assertThat(number(override, "/computedHours"))
                .isGreaterThan(number(override, "/statedHours"));
    }

    @Test
    void aPeriodAddsUpToItsJobsWhateverTheyArePutTogetherBy() {
        shop.costRate(Role.FLOOR, "33.33", "2020-01-01");
        List<JsonNode> jobs = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            String job =
                    shop.job("\"items\":[{\"takeOff\":" + EDGE.formatted(3 + i, "") + "}]")
                            .at("/number")
                            .asString();
            shop.book(Role.FLOOR, job, "\"step\":2,\"minutes\":" + (40 + 7.77 * i));
            shop.book(Role.ESTIMATOR, job, "\"minutes\":13.13,\"sort\":\"forming\"");
            shop.post(
                    Role.OFFICE,
                    "/jobs/" + job + "/materials",
                    ComparingShop.withId(
                            "\"grade\":\"AL99.5-O\",\"kg\":4.44,\"paid\":{\"amount\":\"31.13\",\"currency\":\"EUR\"}"));
            shop.finish(job, i == 1 ? "{\"made\":[{\"position\":1,\"quantity\":2}]}" : null);
            jobs.add(shop.get(Role.OWNER, "/jobs/" + job + "/comparison"));
        }
        for (By by : By.values()) {
            JsonNode period = shop.get(Role.OWNER, "/comparison?by=" + by.word());
            assertThat(period.at("/jobs").asInt()).isEqualTo(3);
            for (String stage : new String[] {"quoted", "planned", "actual", "over"}) {
                BigDecimal hours = BigDecimal.ZERO;
                BigDecimal cost = BigDecimal.ZERO;
                for (JsonNode job : jobs) {
                    hours = hours.add(number(job, "/hours/" + stage));
                    cost = cost.add(money(job, "/cost/" + stage));
                }
                assertThat(number(period, "/total/hours/" + stage)).isEqualByComparingTo(hours);
                assertThat(sum(period.at("/rows"), "/hours/" + stage)).isEqualByComparingTo(hours);
                assertThat(money(period, "/total/cost/" + stage)).isEqualByComparingTo(cost);
                assertThat(moneys(period.at("/rows"), "/cost/" + stage)).isEqualByComparingTo(cost);
            }
            for (String part : new String[] {"rate", "efficiency", "machine", "price", "usage"}) {
                BigDecimal over = BigDecimal.ZERO;
                for (JsonNode job : jobs) {
                    over = over.add(money(job, "/over/" + part));
                }
                assertThat(moneys(period.at("/rows"), "/over/" + part)).isEqualByComparingTo(over);
                assertThat(money(period, "/total/over/" + part)).isEqualByComparingTo(over);
            }
            assertThat(period.at("/rows/0/margin").isMissingNode()).isEqualTo(!by.ofWholeJobs());
            JsonNode seen = shop.get(Role.OFFICE, "/comparison?by=" + by.word());
            assertThat(seen.toString()).doesNotContain("\"rate\"").doesNotContain("margin");
        }
        assertThat(shop.get(Role.OWNER, "/comparison?by=operation").at("/rows").toString())
                .contains("whole-job", "curve-edge");
        assertThat(shop.get(Role.OWNER, "/comparison?from=2031-01-01").at("/jobs").asInt())
                .isZero();
    }

    @Test
    void aPeriodIsAskedForByNameOrFaulted() {
        JsonNode faults =
                shop.answer(
                        Role.OFFICE,
                        "GET",
                        "/comparison?from=yesterday&to=2026-02-30&by=weather&size=3",
                        null,
                        null,
                        400);
        assertThat(faults.at("/errors").findValuesAsString("pointer"))
                .containsExactlyInAnyOrder("?from", "?to", "?by", "?size");
        faults =
                shop.answer(
                        Role.OFFICE,
                        "GET",
                        "/comparison?from=2026-03-01&to=2026-02-01",
                        null,
                        null,
                        400);
        assertThat(faults.at("/errors").findValuesAsString("pointer")).containsExactly("?to");
        shop.answer(Role.FLOOR, "GET", "/comparison", null, null, 403);
    }

    @Test
    void aPeriodGoesOutAsAFile() {
        String job =
                shop.job("\"items\":[{\"takeOff\":" + EDGE.formatted(3, "") + "}]")
                        .at("/number")
                        .asString();
        shop.finish(job, null);
        for (String type : new String[] {Csv.MEDIA_TYPE, Xlsx.MEDIA_TYPE}) {
            EntityExchangeResult<byte[]> file =
                    shop.shop()
                            .as(Role.OFFICE)
                            .get()
                            .uri("/api/v1/comparison?by=job")
                            .accept(MediaType.parseMediaType(type))
                            .exchange()
                            .expectStatus()
                            .isOk()
                            .returnResult(byte[].class);
            assertThat(file.getResponseHeaders().getContentDisposition().getFilename())
                    .startsWith("comparison-by-job.");
            if (type.equals(Csv.MEDIA_TYPE)) {
                List<String> lines =
                        new String(file.getResponseBody(), StandardCharsets.UTF_8).lines().toList();
                assertThat(lines).hasSize(2);
                assertThat(lines.get(0)).startsWith("Job,Jobs,Hours quoted").doesNotContain("rate");
                assertThat(lines.get(1)).startsWith(job + " Wing corner,1,").contains(",under,");
            }
        }
    }

    @Test
    void theOwnerSeesWhatIsWonWhereTheHoursGoAndWhatIsToBeDecided() {
        for (String end : new String[] {"accept", "decline", "withdraw", ""}) {
            String quote =
                    shop.post(
                                    Role.ESTIMATOR,
                                    "/quotes",
                                    "{\"customer\":\"Harbour Theatre\",\"items\":[{\"takeOff\":"
                                            + EDGE.formatted(1, "")
                                            + "}]}")
                            .at("/number")
                            .asString();
            String path = "/quotes/" + quote + "/";
            shop.answer(Role.OFFICE, "POST", path + "issue", null, null, 200);
            if (!end.isEmpty()) {
                String body = end.equals("decline") ? "{\"reason\":\"price\"}" : null;
                shop.answer(Role.OFFICE, "POST", path + end, null, body, 200);
            }
        }
        String job =
                shop.job("\"items\":[{\"takeOff\":" + EDGE.formatted(2, "") + "}]")
                        .at("/number")
                        .asString();
        shop.book(Role.FLOOR, job, "\"step\":2,\"minutes\":1200");
        shop.post(
                Role.FLOOR,
                "/bookings",
                ComparingShop.withId("\"reason\":\"cleaning\",\"minutes\":30"));
        JsonNode report = shop.get(Role.OWNER, "/owner");
        assertThat(report.at("/won/won").asInt()).isEqualTo(1);
        assertThat(report.at("/won/declined").asInt()).isEqualTo(1);
        assertThat(report.at("/won/lapsed").asInt()).isZero();
        assertThat(number(report, "/won/percent")).isEqualByComparingTo("50");
        assertThat(number(report, "/hours/onJobs")).isEqualByComparingTo("20");
        assertThat(number(report, "/hours/onNoJob")).isEqualByComparingTo("0.5");
        assertThat(report.at("/decisions").findValuesAsString("code"))
                .contains("job-over-plan", "jobs-to-release", "people-without-rate");
        shop.finish(job, null);
        report = shop.get(Role.OWNER, "/owner");
        assertThat(report.at("/jobs/jobs").asInt()).isEqualTo(1);
        assertThat(report.at("/works/0/name").asString()).isEqualTo("Curve an edge");
        assertThat(money(report, "/works/0/margin/earned/amount")).isNegative();
        assertThat(report.at("/decisions").findValuesAsString("code"))
                .contains("jobs-to-close", "jobs-incomplete");
        shop.answer(Role.OFFICE, "GET", "/owner", null, null, 403);
    }

    /** Every whole is the sum of its parts, to the last digit. */
    static void addsUp(JsonNode c) {
        for (String stage : new String[] {"quoted", "planned", "actual", "over"}) {
            assertThat(sum(c.at("/work"), "/hours/" + stage))
                    .isEqualByComparingTo(number(c, "/hours/" + stage));
            assertThat(sum(c.at("/workCentres"), "/hours/" + stage))
                    .isEqualByComparingTo(number(c, "/hours/" + stage));
            assertThat(sum(c.at("/orders"), "/hours/" + stage))
                    .isEqualByComparingTo(number(c, "/hours/" + stage));
            BigDecimal cost =
                    moneys(c.at("/work"), "/labour/" + stage)
                            .add(moneys(c.at("/work"), "/machine/" + stage))
                            .add(moneys(c.at("/metal"), "/cost/" + stage))
                            .add(moneys(c.at("/boughtOut"), "/cost/" + stage))
                            .add(moneys(c.at("/overheads"), "/cost/" + stage));
            assertThat(cost).isEqualByComparingTo(money(c, "/cost/" + stage));
            assertThat(moneys(c.at("/orders"), "/cost/" + stage))
                    .isEqualByComparingTo(money(c, "/cost/" + stage));
        }
        BigDecimal over = BigDecimal.ZERO;
        for (String part :
                new String[] {
                    "rate", "efficiency", "machine", "price", "usage", "boughtOut", "overheads"
                }) {
            if (!c.at("/over/" + part).isMissingNode()) {
                over = over.add(money(c, "/over/" + part));
            }
        }
        assertThat(over).isEqualByComparingTo(money(c, "/cost/over"));
        for (JsonNode w : c.at("/work").values()) {
            BigDecimal labour = money(w, "/efficiency");
            if (!w.at("/rate").isMissingNode()) {
                labour = labour.add(money(w, "/rate"));
            }
            assertThat(labour).isEqualByComparingTo(money(w, "/labour/over"));
            if (!w.at("/causes").isMissingNode()) {
                BigDecimal causes = BigDecimal.ZERO;
                for (JsonNode cause : w.at("/causes").values()) {
                    causes = cause.isNumber() ? causes.add(cause.decimalValue()) : causes;
                }
                assertThat(causes)
                        .isEqualByComparingTo(
                                number(w, "/hours/actual").subtract(number(w, "/hours/quoted")));
            }
        }
        if (!c.at("/bridge").isMissingNode()) {
            BigDecimal bridge = BigDecimal.ZERO;
            int last = c.at("/bridge").size() - 1;
            for (int i = 0; i < last; i++) {
                bridge = bridge.add(money(c, "/bridge/" + i + "/amount"));
            }
            assertThat(bridge).isEqualByComparingTo(money(c, "/bridge/" + last + "/amount"));
            assertThat(bridge).isEqualByComparingTo(money(c, "/margin/earned/amount"));
            assertThat(money(c, "/net/madeAfterDiscounts").subtract(money(c, "/cost/actual")))
                    .isEqualByComparingTo(money(c, "/margin/earned/amount"));
        }
    }

    private static BigDecimal sum(JsonNode list, String pointer) {
        BigDecimal sum = BigDecimal.ZERO;
        for (JsonNode one : list.values()) {
            sum = sum.add(number(one, pointer));
        }
        return sum;
    }

    private static BigDecimal moneys(JsonNode list, String pointer) {
        BigDecimal sum = BigDecimal.ZERO;
        for (JsonNode one : list.values()) {
            sum = sum.add(money(one, pointer));
        }
        return sum;
    }
}
