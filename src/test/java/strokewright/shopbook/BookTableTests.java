package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Documents;
import strokewright.access.Role;
import strokewright.estimate.ShopBook;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Metal prices and time standards go out as files and come in again. */
class BookTableTests extends ServiceTest {

    private static final String API = "/api/v1/shop-book/";
    private static final String CSV = "text/csv";
    private static final String XLSX =
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    @Autowired private ShopBooks books;
    @Autowired private Drafts drafts;
    @Autowired private Documents documents;

    private TestShop shop;

    @BeforeEach
    void aShop() {
        shop = openShop();
    }

    // There and back ------------------------------------------------------------------------------

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void whatGoesOutChangesNothingWhenItComesIn(long seed) {
        randomBook(new Random(seed));
        for (String table : List.of("sheets", "standards")) {
            int rows = table.equals("sheets") ? book().sheets().size() : book().standards().size();
            byte[] csv = export(table, CSV);
            changesNothing(table, CSV, csv, rows);
            changesNothing(table, XLSX, export(table, XLSX), rows);
            changesNothing(table, CSV, withDecimalComma(csv), rows);
            JsonNode done = take(table, "", CSV, csv).getResponseBody();
            assertThat(done.path("same").intValue()).isEqualTo(rows);
        }
        assertThat(shop.user(Role.OWNER).call(drafts::facts))
                .as("nothing was changed, so no draft was begun")
                .isEmpty();
    }

    private void changesNothing(String table, String type, byte[] file, int rows) {
        EntityExchangeResult<JsonNode> answer = take(table, "?preview=true", type, file);
        JsonNode preview = answer.getResponseBody();
        assertThat(preview.path("faults")).as(preview.toString()).isEmpty();
        assertThat(preview.path("changes")).as(preview.toString()).isEmpty();
        assertThat(preview.path("same").intValue()).isEqualTo(rows);
        assertThat(preview.path("absent").intValue()).isZero();
        assertThat(preview.path("new").intValue()).isZero();
    }

    /** As somebody would type it in a country with a decimal comma. */
    private static byte[] withDecimalComma(byte[] csv) {
        StringBuilder typed = new StringBuilder();
        for (String line : new String(csv, StandardCharsets.UTF_8).split("\r\n")) {
            List<String> cells = new ArrayList<>();
            Matcher cell = Pattern.compile("(?:\"((?:[^\"]|\"\")*)\"|([^,]*))(,|$)").matcher(line);
            while (cell.find()
                    && (cell.end() > cell.start() || cells.isEmpty() || line.endsWith(","))) {
                String text = cell.group(1) == null ? cell.group(2) : cell.group(1);
                cells.add(
                        text.matches("-?\\d+\\.\\d+")
                                ? text.replace('.', ',')
                                : text.matches(".*[;\"].*") ? "\"" + text + "\"" : text);
                if (cell.group(3).isEmpty()) {
                    break;
                }
            }
            typed.append(String.join(";", cells)).append("\n");
        }
        return typed.toString().getBytes(StandardCharsets.UTF_8);
    }

    /** The starter book with prices and standards of every kind, in an edition of its own. */
    private void randomBook(Random random) {
        ObjectNode tree = documents.read(documents.write(book()), ObjectNode.class);
        ArrayNode sheets = (ArrayNode) tree.get("sheets");
        List<String> grades = book().grades().stream().map(ShopBook.Grade::code).toList();
        for (int i = 0; i < 30; i++) {
            sheets.add(randomPrice(random, grades.get(random.nextInt(grades.size())), i));
        }
        ArrayNode standards = (ArrayNode) tree.get("standards");
        for (int i = 0; i < 30; i++) {
            standards.add(randomStandard(random, i));
        }
        ShopBook wanted = documents.read(tree.toString(), ShopBook.class);
        shop.user(Role.OWNER).run(() -> books.change(wanted, "\"1\"", "random"));
    }

    private static ObjectNode randomPrice(Random random, String grade, int i) {
        ObjectNode price = Kind.JSON.objectNode();
        price.put("grade", grade);
        price.put("thicknessMm", 0.3 + i / 7.0 + random.nextDouble() / 1000);
        boolean bySheet = random.nextBoolean();
        if (bySheet || random.nextBoolean()) {
            price.put("lengthMm", 1000 + random.nextInt(3000) / 3.0);
            price.put("widthMm", 500 + random.nextInt(1000));
        }
        double amount = 1 + random.nextInt(5_000) / 100.0;
        price.set(bySheet ? "pricePerSheet" : "pricePerKg", money(amount, random));
        ArrayNode breaks = price.putArray("breaks");
        double from = 0;
        for (int n = random.nextInt(6); n > 0; n--) {
            from += 1 + random.nextInt(1200);
            amount *= 0.9;
            ObjectNode line = breaks.addObject();
            line.put("from", bySheet ? from : from + 0.125);
            line.set("price", money(amount, random));
        }
        price.put("origin", text(random));
        return price;
    }

    private static ObjectNode money(double amount, Random random) {
        ObjectNode money = Kind.JSON.objectNode();
        money.put(
                "amount",
                java.math.BigDecimal.valueOf(amount)
                        .setScale(4 + random.nextInt(3), java.math.RoundingMode.HALF_UP)
                        .toPlainString());
        money.put("currency", "EUR");
        return money;
    }

    private static ObjectNode randomStandard(Random random, int i) {
        ObjectNode standard = Kind.JSON.objectNode();
        standard.put("name", text(random) + " " + i);
        standard.put("workCentre", "Forming");
        standard.put("setupMinutes", random.nextInt(3) == 0 ? 0 : random.nextDouble() * 10);
        double each = 1.25 + random.nextDouble();
        standard.put("minutesPerUnit", each);
        standard.put(
                "unit", List.of("piece", "metre", "dm²", "kg", "dimension").get(random.nextInt(5)));
        standard.put("people", 1 + random.nextInt(3));
        standard.put("machinePaced", random.nextBoolean());
        standard.put("reserve", random.nextBoolean());
        if (random.nextBoolean()) {
            standard.set("minimumCharge", money(random.nextInt(5000) / 3.0, random));
        }
        switch (random.nextInt(3)) {
            case 0 ->
                    standard.putObject("spread")
                            .put("kind", "log-normal")
                            .put("sigma", random.nextDouble() / 2);
            case 1 ->
                    standard.putObject("spread")
                            .put("kind", "triangular")
                            .put("low", each / 2)
                            .put("high", each * 1.5);
            default -> {
                // the book's own
            }
        }
        standard.put("origin", text(random));
        return standard;
    }

    /** Such as would be a formula, a date or a number in careless hands. */
    private static String text(Random random) {
        return List.of(
                        "=1+1",
                        "'=quoted",
                        "-5 mm; \"inch\"",
                        "+49 30",
                        "@home",
                        "1/2",
                        "007",
                        "1E5",
                        "Ä, ö; ß",
                        "'",
                        "a\u202fb",
                        "3-12",
                        "TRUE")
                .get(random.nextInt(13));
    }

    // Changes -------------------------------------------------------------------------------------

    @Test
    void aPreviewTellsWhatWouldChangeAndChangesNothing() {
        byte[] file =
                csv(
                        "Grade;Thickness;Price per kg;Origin",
                        price(0, "9,99"),
                        "AL99.5-O;7,5;4,2;Quote of May");
        JsonNode preview = take("sheets", "?preview=true", CSV, file).getResponseBody();
        assertThat(preview.path("decimal").asString()).isEqualTo("comma");
        assertThat(preview.path("changed").intValue()).isEqualTo(1);
        assertThat(preview.path("new").intValue()).isEqualTo(1);
        assertThat(preview.path("absent").intValue()).isEqualTo(book().sheets().size() - 1);
        assertThat(preview.at("/changes/0/what").asString()).isEqualTo("changed");
        assertThat(preview.at("/changes/0/fields/0/column").asString()).isEqualTo("Price per kg");
        assertThat(preview.at("/changes/0/fields/0/now").asString()).isEqualTo("9,99\u00a0EUR/kg");
        assertThat(preview.at("/changes/1/row").intValue()).isEqualTo(3);
        assertThat(shop.user(Role.OWNER).call(drafts::facts)).isEmpty();
    }

    @Test
    void anImportGoesIntoTheDraftAndIsAdoptedAsEveryDraftIs() {
        byte[] file =
                csv(
                        "Grade;Thickness;Price per kg;Origin",
                        price(0, "9,99"),
                        "AL99.5-O;7,5;4,2;Quote of May");
        take("sheets", "", CSV, file);
        assertThat(book().edition()).isEqualTo(1);
        Draft draft = shop.user(Role.OWNER).call(drafts::now);
        assertThat(
                        draft.row("sheets", 1)
                                .orElseThrow()
                                .values()
                                .get("pricePerKg")
                                .path("amount")
                                .asString())
                .isEqualTo("9.99");
        assertThat(draft.living(section()).size()).isEqualTo(book().sheets().size() + 1);
        assertThat(new String(export("sheets?draft=true", CSV), StandardCharsets.UTF_8))
                .contains("AL99.5-O,7.5,,,4.2,,");
        assertThat(new String(export("sheets", CSV), StandardCharsets.UTF_8))
                .doesNotContain(",7.5,,,4.2,,");
        byte[] adopted = export("sheets?draft=true", XLSX);
        assertThat(
                        take("sheets", "?preview=true", XLSX, adopted)
                                .getResponseBody()
                                .path("same")
                                .intValue())
                .isEqualTo(book().sheets().size() + 1);
    }

    @Test
    void whatTheFileDoesNotHaveStaysUnlessItIsToBeTakenOut() {
        String first = "Grade;Thickness;Price per kg;Origin";
        JsonNode removed =
                take("sheets", "?remove=true", CSV, csv(first, price(0, "9,99"))).getResponseBody();
        assertThat(removed.path("removed").intValue()).isEqualTo(book().sheets().size() - 1);
        assertThat(shop.user(Role.OWNER).call(drafts::now).living(section())).hasSize(1);
        JsonNode used =
                take(
                                "standards",
                                "?remove=true&preview=true",
                                CSV,
                                csv(
                                        "Work;Minutes per unit",
                                        book().standards().get(0).name() + ";1,5"))
                        .getResponseBody();
        assertThat(used.path("faults").toString()).contains("would leave a fault at");
    }

    @Test
    void whatTheFileHasNoColumnForStaysAndAnEmptyCellEmpties() {
        ShopBook.Standard standard = book().standards().get(0);
        take("standards", "", CSV, csv("Work;Costs at least", standard.name() + ";12,50"));
        Map<String, JsonNode> values =
                shop.user(Role.OWNER).call(drafts::now).row("standards", 1).orElseThrow().values();
        assertThat(values.get("minimumCharge").path("amount").asString()).isEqualTo("12.50");
        assertThat(values.get("minutesPerUnit").doubleValue()).isEqualTo(standard.minutesPerUnit());
        take("standards", "", CSV, csv("Work;Costs at least", standard.name() + ";"));
        assertThat(
                        shop.user(Role.OWNER)
                                .call(drafts::now)
                                .row("standards", 1)
                                .orElseThrow()
                                .values())
                .doesNotContainKey("minimumCharge");
    }

    @Test
    void thicknessIsTakenInInchOrGaugeAndLengthByTheUnitOfItsHead() {
        byte[] file =
                csv(
                        "Grade;Thickness;Sheet length (in);Sheet width (cm);Price per sheet;Origin",
                        "AL99.5-O;1/8 in;100;125;80,00;x",
                        "AL99.5-O;16 ga aluminium;100;125;80,00;x");
        JsonNode preview = take("sheets", "?preview=true", CSV, file).getResponseBody();
        assertThat(preview.path("faults")).as(preview.toString()).isEmpty();
        assertThat(preview.toString()).contains("3,175", "16 ga aluminium");
        assertThat(preview.toString()).contains("2\u202f540", "1\u202f250");
        take("sheets", "", CSV, file);
        byte[] draft = export("sheets?draft=true", CSV);
        assertThat(new String(draft, StandardCharsets.UTF_8)).contains("16 ga aluminium");
        changesNothing("sheets", CSV, draft, book().sheets().size() + 2);
    }

    @Test
    void aGaugeAndItsMillimetresAreOneSheet() {
        String head = "Grade;Thickness;Price per kg;Origin";
        take("sheets", "", CSV, csv(head, "DC04;16 ga;1,90;x", "DC04;2,4;1,80;x"));
        JsonNode same =
                take(
                                "sheets",
                                "?preview=true",
                                CSV,
                                csv(head, "DC04;1,51892;1,90;x", "DC04;2,4 mm;1,80;x"))
                        .getResponseBody();
        assertThat(same.path("same").intValue()).as(same.toString()).isEqualTo(2);

        byte[] both = csv(head, "DC04;1,51892;1,95;x", "DC04;16 ga;1,90;x");
        JsonNode twice = take("sheets", "?preview=true", CSV, both).getResponseBody();
        assertThat(twice.path("faults").toString()).contains("stands in row 2 already");

        take("sheets", "", CSV, csv(head, "DC04;1,51892;1,95;x"));
        assertThat(new String(export("sheets?draft=true", CSV), StandardCharsets.UTF_8))
                .contains("DC04,16 ga,")
                .contains(",1.95,")
                .doesNotContain("1.51892");

        JsonNode galvanised =
                take("sheets", "?preview=true", CSV, csv(head, "DC04;16 ga galv;1,90;x"))
                        .getResponseBody();
        assertThat(galvanised.path("new").intValue()).as("another table").isEqualTo(1);
    }

    // Refusals ------------------------------------------------------------------------------------

    @Test
    void everyFaultIsToldWithItsRowAndColumnAndNothingIsStored() {
        byte[] file =
                csv(
                        "Grade;Thickness;Price per kg;Origin",
                        price(0, "9,99"),
                        "Unobtainium;2;4,2;x",
                        "AL99.5-O;two;-1;x",
                        "AL99.5-O;7;4,2;",
                        "AL99.5-O;8;4,2;x",
                        "AL99.5-O;8;4,3;x");
        EntityExchangeResult<JsonNode> answer = take("sheets", "", CSV, file);
        assertThat(answer.getStatus()).isEqualTo(HttpStatus.BAD_REQUEST);
        assertThat(pointers(answer.getResponseBody()))
                .containsExactlyInAnyOrder("/rows/4/Thickness", "/rows/7/Grade");
        byte[] second =
                csv(
                        "Grade;Thickness;Price per kg;Origin",
                        "Unobtainium;2;4,2;x",
                        "AL99.5-O;99;-1;x",
                        "AL99.5-O;7;4,2;");
        assertThat(pointers(take("sheets", "", CSV, second).getResponseBody()))
                .containsExactly(
                        "/rows/2/Grade",
                        "/rows/3/Thickness",
                        "/rows/3/Price per kg",
                        "/rows/4/Origin");
        assertThat(shop.user(Role.OWNER).call(drafts::facts)).isEmpty();
    }

    @Test
    void morePricesThanABookTakesAreRefusedAtOnce() {
        List<String> lines = new ArrayList<>(List.of("Grade;Thickness;Price per kg;Origin;"));
        for (int i = 0; i < 20_000 - 1; i++) {
            lines.add("Unobtainium;" + (1 + i / 1000.0) + ";-1;;" + (i % 2 == 0 ? "" : "x"));
        }
        EntityExchangeResult<JsonNode> answer =
                take("sheets", "?others=true", CSV, csv(lines.toArray(String[]::new)));
        assertThat(answer.getStatus()).isEqualTo(HttpStatus.BAD_REQUEST);
        assertThat(answer.getResponseBody().toString())
                .contains("rows of Metal prices: at most 500");
    }

    @Test
    void aNumberThatCouldBeTwoIsAskedAbout() {
        byte[] file = csv("Grade;Thickness;Price per kg;Origin", "AL99.5-O;7;1,234;x");
        EntityExchangeResult<JsonNode> asked = take("sheets", "", CSV, file);
        assertThat(asked.getStatus()).isEqualTo(HttpStatus.BAD_REQUEST);
        assertThat(asked.getResponseBody().toString())
                .contains("1,234", "a comma or a point", "?decimal");
        assertThat(
                        take("sheets", "?preview=true&decimal=comma", CSV, file)
                                .getResponseBody()
                                .toString())
                .contains("1,234\u00a0EUR/kg");
        assertThat(
                        take("sheets", "?preview=true&decimal=point", CSV, file)
                                .getResponseBody()
                                .toString())
                .contains("1\u202f234\u00a0EUR/kg");
        assertThat(take("sheets", "?decimal=dot", CSV, file).getStatus())
                .isEqualTo(HttpStatus.BAD_REQUEST);
    }

    @Test
    void whatWasShownIsWhatIsImported() {
        byte[] file = csv("Grade;Thickness;Price per kg;Origin", price(0, "9,99"));
        String tag = take("sheets", "?preview=true", CSV, file).getResponseHeaders().getETag();
        take("sheets", "", CSV, csv("Grade;Thickness;Price per kg;Origin", price(1, "8,88")));
        assertThat(takeIf("sheets", tag, file).getStatus())
                .isEqualTo(HttpStatus.PRECONDITION_FAILED);
        String now = take("sheets", "?preview=true", CSV, file).getResponseHeaders().getETag();
        assertThat(takeIf("sheets", now, file).getStatus()).isEqualTo(HttpStatus.OK);
    }

    @Test
    void aRepeatedRequestIsAnsweredAndNotDoneAgain() {
        byte[] file = csv("Grade;Thickness;Price per kg;Origin", price(0, "9,99"));
        for (int n = 0; n < 2; n++) {
            JsonNode answer =
                    shop.as(Role.OWNER)
                            .post()
                            .uri(API + "sheets/import")
                            .header("Idempotency-Key", "prices-1")
                            .contentType(MediaType.parseMediaType(CSV))
                            .body(file)
                            .exchange()
                            .expectStatus()
                            .isOk()
                            .expectBody(JsonNode.class)
                            .returnResult()
                            .getResponseBody();
            assertThat(answer.path("changed").intValue()).isEqualTo(1);
        }
        assertThat(shop.user(Role.OWNER).call(drafts::facts).orElseThrow().version()).isEqualTo(1);
        shop.as(Role.OWNER)
                .post()
                .uri(API + "sheets/import")
                .header("Idempotency-Key", "prices-1")
                .contentType(MediaType.parseMediaType(CSV))
                .body(csv("Grade;Thickness;Price per kg;Origin", price(0, "9,98")))
                .exchange()
                .expectStatus()
                .isEqualTo(422);
    }

    @Test
    void theOwnerAloneImportsAndTheEstimatorTakesOut() {
        for (Role role : List.of(Role.ESTIMATOR, Role.OFFICE, Role.FLOOR)) {
            shop.as(role)
                    .post()
                    .uri(API + "sheets/import")
                    .contentType(MediaType.parseMediaType(CSV))
                    .body(csv("Grade", "x"))
                    .exchange()
                    .expectStatus()
                    .isForbidden();
        }
        shop.as(Role.ESTIMATOR)
                .get()
                .uri(API + "standards")
                .accept(MediaType.parseMediaType(XLSX))
                .exchange()
                .expectStatus()
                .isOk();
        for (String any : List.of("*/*", "text/html, */*;q=0.1", "text/*")) {
            shop.as(Role.ESTIMATOR)
                    .get()
                    .uri(API + "standards")
                    .header("Accept", any)
                    .exchange()
                    .expectHeader()
                    .contentType("text/csv;charset=UTF-8");
        }
        shop.as(Role.ESTIMATOR)
                .get()
                .uri(API + "standards")
                .accept(MediaType.APPLICATION_PDF)
                .exchange()
                .expectStatus()
                .isEqualTo(HttpStatus.NOT_ACCEPTABLE);
        shop.as(Role.OFFICE).get().uri(API + "standards").exchange().expectStatus().isForbidden();
    }

    @Test
    void aFileThatIsTooLargeOrOfAnotherKindIsRefused() {
        byte[] large = new byte[50 << 20];
        assertThat(take("sheets", "", CSV, large).getStatus())
                .isEqualTo(HttpStatus.CONTENT_TOO_LARGE);
        assertThat(take("sheets", "", "application/pdf", new byte[10]).getStatus())
                .isEqualTo(HttpStatus.UNSUPPORTED_MEDIA_TYPE);
        EntityExchangeResult<JsonNode> mixedUp = take("sheets", "", XLSX, csv("Grade", "x"));
        assertThat(mixedUp.getStatus()).isEqualTo(HttpStatus.BAD_REQUEST);
        assertThat(mixedUp.getResponseBody().toString()).contains("but holds separated values");
    }

    // Files ---------------------------------------------------------------------------------------

    @Test
    void theWorkbookIsReadyToBeFilledIn() throws IOException {
        try (XSSFWorkbook workbook =
                new XSSFWorkbook(new ByteArrayInputStream(export("sheets", XLSX)))) {
            XSSFSheet sheet = workbook.getSheet("Metal prices");
            assertThat(sheet.getRow(0).getCell(1).getStringCellValue()).isEqualTo("Thickness (mm)");
            assertThat(sheet.getLastRowNum()).isEqualTo(book().sheets().size());
            assertThat(sheet.getRow(1).getCell(0).getStringCellValue())
                    .isEqualTo(book().sheets().get(0).grade());
            assertThat(sheet.getRow(1).getCell(4).getNumericCellValue())
                    .isEqualTo(book().sheets().get(0).pricePerKg().amount().doubleValue());
        }
    }

    // Pages ---------------------------------------------------------------------------------------

    @Test
    void aFileIsSentLookedThroughAndImported() {
        Person owner = person(Role.OWNER);
        byte[] file = csv("Grade;Thickness;Price per kg;Origin", price(0, "9,99"));
        HttpResponse<String> sent =
                owner.upload("/import/metal-prices", "/import/metal-prices", "prices.csv", file);
        String preview = Person.target(sent);
        String page = owner.open(preview).body();
        assertThat(page).contains("What <span>prices.csv</span> would change", "9,99\u00a0EUR/kg");
        assertThat(shop.user(Role.OWNER).call(drafts::facts)).isEmpty();
        HttpResponse<String> done =
                owner.submit(preview, preview, Map.of("do", "import", "tag", tag(page)));
        assertThat(Person.target(done))
                .isEqualTo("/import/metal-prices?added=0&changed=1&removed=0");
        assertThat(owner.open(Person.target(done)).body())
                .contains("0 new, 1 changed, 0 taken out");
        assertThat(owner.open(preview).statusCode()).as("the file is gone").isEqualTo(404);
        assertThat(shop.user(Role.OWNER).call(drafts::facts)).isPresent();
    }

    @Test
    void whatChangedMeanwhileIsLookedThroughOnceMore() {
        Person owner = person(Role.OWNER);
        byte[] file = csv("Grade;Thickness;Price per kg;Origin", price(0, "9,99"));
        String preview =
                Person.target(
                        owner.upload(
                                "/import/metal-prices", "/import/metal-prices", "p.csv", file));
        String page = owner.open(preview).body();
        take("sheets", "", CSV, csv("Grade;Thickness;Price per kg;Origin", price(1, "8,88")));
        String again =
                Person.target(
                        owner.submit(preview, preview, Map.of("do", "import", "tag", tag(page))));
        assertThat(owner.open(again).body()).contains("Something was changed since");
        assertThat(shop.user(Role.OWNER).call(drafts::facts).orElseThrow().version()).isEqualTo(1);
    }

    @Test
    void aFileThatCannotBeReadIsRefusedWithItsReason() {
        Person owner = person(Role.OWNER);
        HttpResponse<String> refused =
                owner.upload(
                        "/import/metal-prices",
                        "/import/metal-prices",
                        "prices.xlsx",
                        csv("Grade", "x"));
        assertThat(refused.statusCode()).isEqualTo(400);
        assertThat(refused.body()).contains("prices.xlsx", "but holds separated values");
        HttpResponse<String> large =
                owner.upload(
                        "/import/metal-prices",
                        "/import/metal-prices",
                        "prices.csv",
                        new byte[50 << 20]);
        assertThat(large.statusCode()).isEqualTo(413);
        assertThat(large.body())
                .contains(
                        "Too large",
                        "at most 10 MB",
                        "Nothing of it was kept",
                        "aria-label=\"Places\"");
        HttpResponse<String> none =
                owner.upload("/import/metal-prices", "/import/metal-prices", "", new byte[0]);
        assertThat(none.body()).contains("Choose a file first.");
    }

    @Test
    void faultsAreListedAndNobodyElseSeesTheFile() {
        Person owner = person(Role.OWNER);
        String preview =
                Person.target(
                        owner.upload(
                                "/import/time-standards",
                                "/import/time-standards",
                                "t.csv",
                                csv("Work;Minutes per unit;Unit", "Sawing;long;cut")));
        assertThat(owner.open(preview).body())
                .contains(
                        "1 fault: nothing can be imported yet", "Row 2, Minutes per unit (cell B2)")
                .doesNotContain("value=\"import\"");
        assertThat(person(Role.ESTIMATOR).open(preview).statusCode()).isEqualTo(403);
        TestShop other = openShop();
        Person stranger = new Person(port());
        stranger.signIn(other.user(Role.OWNER).userName(), TestShop.PASSWORD);
        assertThat(stranger.open(preview).statusCode()).isEqualTo(404);
    }

    @Test
    void filesArePickedUpWhereTheTableIs() {
        Person owner = person(Role.OWNER);
        assertThat(owner.open("/shop-book/draft/sheets").body())
                .contains("/import/metal-prices", "/export/metal-prices.xlsx?begun");
        assertThat(owner.open("/shop-book").body()).contains("/import/time-standards");
        Person estimator = person(Role.ESTIMATOR);
        assertThat(estimator.open("/shop-book").body())
                .contains("/export/time-standards.csv")
                .doesNotContain("/import/");
        HttpResponse<String> german =
                estimator.open("/export/metal-prices.csv", "Accept-Language", "de");
        assertThat(german.body()).startsWith("\ufeffGrade;Thickness (mm);");
        assertThat(german.headers().firstValue("Content-Disposition").orElse(""))
                .contains("metal-prices.csv");
    }

    private static String tag(String page) {
        Matcher m = Pattern.compile("name=\"tag\" value=\"([^\"]+)\"").matcher(page);
        assertThat(m.find()).isTrue();
        return m.group(1);
    }

    private Person person(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }

    // Requests ------------------------------------------------------------------------------------

    private String price(int n, String price) {
        ShopBook.Sheet sheet = book().sheets().get(n);
        String thickness =
                sheet.thicknessMm() == null ? "" : sheet.thicknessMm().toString().replace('.', ',');
        return sheet.grade()
                + ";"
                + thickness
                + ";"
                + price
                + ";"
                + sheet.origin().replace(";", ",");
    }

    private static byte[] csv(String... lines) {
        return String.join("\r\n", lines).getBytes(StandardCharsets.UTF_8);
    }

    private static BookSection section() {
        return BookParts.section("sheets").orElseThrow();
    }

    private ShopBook book() {
        return shop.user(Role.OWNER).call(books::current);
    }

    private byte[] export(String table, String type) {
        return shop.as(Role.OWNER)
                .get()
                .uri(API + table)
                .accept(MediaType.parseMediaType(type))
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(byte[].class)
                .returnResult()
                .getResponseBody();
    }

    private EntityExchangeResult<JsonNode> take(
            String table, String query, String type, byte[] file) {
        return shop.as(Role.OWNER)
                .post()
                .uri(API + table + "/import" + query)
                .contentType(MediaType.parseMediaType(type))
                .body(file)
                .exchange()
                .expectBody(JsonNode.class)
                .returnResult();
    }

    private EntityExchangeResult<JsonNode> takeIf(String table, String tag, byte[] file) {
        return shop.as(Role.OWNER)
                .post()
                .uri(API + table + "/import")
                .header("If-Match", tag)
                .contentType(MediaType.parseMediaType(CSV))
                .body(file)
                .exchange()
                .expectBody(JsonNode.class)
                .returnResult();
    }

    private static List<String> pointers(JsonNode problem) {
        List<String> pointers = new ArrayList<>();
        problem.path("errors").forEach(e -> pointers.add(e.path("pointer").asString()));
        return pointers;
    }
}
