package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
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
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** Customers go out as a file and come in again. */
class CustomersTableTests extends ServiceTest {

    private static final String API = "/api/v1/customers";
    private static final String CSV = "text/csv";
    private static final String XLSX =
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    @Autowired private Customers customers;

    private TestShop shop;

    @BeforeEach
    void aShop() {
        shop = openShop();
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void whatGoesOutChangesNothingWhenItComesIn(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 40; i++) {
            CustomerCard card = random(random, i);
            shop.user(Role.OFFICE).run(() -> customers.add(card));
        }
        List<CustomerCard> before = all();
        for (String type : List.of(CSV, XLSX)) {
            byte[] file = export(type);
            JsonNode preview = take("?preview=true", type, file).getResponseBody();
            assertThat(preview.path("faults")).as(preview.toString()).isEmpty();
            assertThat(preview.path("changes")).as(preview.toString()).isEmpty();
            assertThat(preview.path("same").intValue()).isEqualTo(40);
            take("", type, file);
            assertThat(all()).isEqualTo(before);
        }
    }

    /** In an empty shop the same file makes the same customers, but for their ids. */
    @Test
    void aFileWithoutIdsMakesTheSameCustomersInAnotherShop() throws IOException {
        Random random = new Random(7);
        for (int i = 0; i < 20; i++) {
            CustomerCard card = random(random, i);
            shop.user(Role.OFFICE).run(() -> customers.add(card));
        }
        List<CustomerCard> before = all();
        String csv = new String(export(CSV), StandardCharsets.UTF_8);
        shop = openShop();
        String withoutIds = csv.replaceAll("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", "");
        JsonNode done =
                take("", CSV, withoutIds.getBytes(StandardCharsets.UTF_8)).getResponseBody();
        assertThat(done.path("new").intValue()).as(done.toString()).isEqualTo(20);
        assertThat(all())
                .usingRecursiveFieldByFieldElementComparatorIgnoringFields("id")
                .isEqualTo(before);
    }

    @Test
    void aRowIsACustomerByIdOrByNameAndANewNameIsANewCustomer() {
        CustomerCard ann = add("Ann Rivet");
        CustomerCard bob = add("Bob Seam");
        JsonNode done =
                take(
                                "",
                                CSV,
                                csv(
                                        "Id;Name;Phone;Settlement discount (%)",
                                        ann.id() + ";Ann Rivet-Seam;111;2,5",
                                        ";Bob Seam;222;",
                                        ";Cy Burr;333;3"))
                        .getResponseBody();
        assertThat(done.path("new").intValue()).as(done.toString()).isEqualTo(1);
        assertThat(done.path("changed").intValue()).isEqualTo(2);
        assertThat(all())
                .extracting(CustomerCard::name)
                .containsExactly("Ann Rivet-Seam", "Bob Seam", "Cy Burr");
        assertThat(all()).extracting(CustomerCard::phone).containsExactly("111", "222", "333");
        assertThat(all().get(0).payment().settlementDiscountPercent()).isEqualTo(2.5);
        assertThat(all().get(1).id()).isEqualTo(bob.id());
    }

    @Test
    void faultsAreToldByRowAndColumnAndNothingIsStored() {
        add("Twin");
        add("Twin");
        EntityExchangeResult<JsonNode> answer =
                take(
                        "",
                        CSV,
                        csv(
                                "Id;Name;E-mail;Tax;Payment days;Contact 1 name;Contact 1 e-mail;Stage 1 when;Stage 1 share",
                                ";Good;a@example.com;;14;Kim;kim@example.com;;",
                                ";;a@example.com;;;;;;",
                                ";Mail;nowhere;;;;;;",
                                ";Tax;;none;;;;;",
                                ";Days;;;4,5;;;;",
                                ";Contact;;;;;kim@example.com;;",
                                ";Stage;;;;;;now;40",
                                "4711;Id;;;;;;;",
                                ";Twin;;;;;;;",
                                ";Good;;;;;;;"));
        assertThat(answer.getStatus()).isEqualTo(HttpStatus.BAD_REQUEST);
        List<String> pointers = new ArrayList<>();
        answer.getResponseBody()
                .path("errors")
                .forEach(e -> pointers.add(e.path("pointer").asString()));
        assertThat(pointers)
                .containsExactly(
                        "/rows/3/Name",
                        "/rows/4/E-mail",
                        "/rows/5/Tax",
                        "/rows/6/Payment days",
                        "/rows/7/Contact 1 name",
                        "/rows/8/Stage 1 share",
                        "/rows/9/Id",
                        "/rows/10/Name",
                        "/rows/11/Name");
        assertThat(all()).hasSize(2);
    }

    @Test
    void anotherShopsCustomerIsNone() {
        CustomerCard mine = add("Mine");
        TestShop own = shop;
        shop = openShop();
        assertThat(take("", CSV, csv("Id;Name", mine.id() + ";Theirs")).getStatus())
                .isEqualTo(HttpStatus.BAD_REQUEST);
        shop = own;
        assertThat(all()).extracting(CustomerCard::name).containsExactly("Mine");
    }

    @Test
    void nobodyIsTakenOut() {
        add("Ann");
        assertThat(take("?remove=true", CSV, csv("Name", "Bob")).getStatus())
                .isEqualTo(HttpStatus.BAD_REQUEST);
        JsonNode preview = take("?preview=true", CSV, csv("Name", "Bob")).getResponseBody();
        assertThat(preview.path("absent").intValue()).isEqualTo(1);
        assertThat(all()).hasSize(1);
    }

    @Test
    void withoutAWishTheListIsStillJson() {
        add("Ann");
        for (String accept : List.of("*/*", "application/json", "application/*")) {
            shop.as(Role.OFFICE)
                    .get()
                    .uri(API)
                    .header("Accept", accept)
                    .exchange()
                    .expectStatus()
                    .isOk()
                    .expectHeader()
                    .contentTypeCompatibleWith(MediaType.APPLICATION_JSON);
        }
    }

    @Test
    void theWorkbookKeepsTelephoneNumbersAndIsNoFormula() throws IOException {
        CustomerCard card =
                new CustomerCard(
                        null,
                        "=Rivet & Co",
                        "Street 1\nTown",
                        null,
                        null,
                        "+49 30 1",
                        "007",
                        List.of(),
                        null,
                        null,
                        "-");
        shop.user(Role.OFFICE).run(() -> customers.add(card));
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(export(XLSX)))) {
            XSSFSheet sheet = book.getSheet("Customers");
            assertThat(sheet.getRow(1).getCell(1).getStringCellValue()).isEqualTo("=Rivet & Co");
            assertThat(sheet.getRow(1).getCell(1).getCellStyle().getQuotePrefixed()).isTrue();
            assertThat(sheet.getRow(1).getCell(2).getStringCellValue()).isEqualTo("Street 1\nTown");
            assertThat(sheet.getRow(1).getCell(5).getStringCellValue()).isEqualTo("+49 30 1");
            assertThat(sheet.getRow(1).getCell(6).getStringCellValue()).isEqualTo("007");
        }
        assertThat(new String(export(CSV), StandardCharsets.UTF_8))
                .contains("'=Rivet & Co,\"Street 1\nTown\",,,'+49 30 1,007");
    }

    @Test
    void theOfficeImportsOnThePage() {
        Person office = new Person(port());
        office.signIn(shop.user(Role.OFFICE).userName(), TestShop.PASSWORD);
        assertThat(office.open("/customers").body()).contains("/import/customers");
        String preview =
                Person.target(
                        office.upload(
                                "/import/customers",
                                "/import/customers",
                                "customers.csv",
                                csv("Name;Phone", "Ann Rivet;1")));
        String page = office.open(preview).body();
        Matcher tag = Pattern.compile("name=\"tag\" value=\"([^\"]+)\"").matcher(page);
        assertThat(tag.find()).isTrue();
        office.submit(preview, preview, Map.of("do", "import", "tag", tag.group(1)));
        assertThat(all()).extracting(CustomerCard::name).containsExactly("Ann Rivet");
    }

    // Situations ----------------------------------------------------------------------------------

    private static CustomerCard random(Random random, int i) {
        List<CustomerCard.Contact> contacts = new ArrayList<>();
        for (int n = random.nextInt(5); n > 0; n--) {
            contacts.add(
                    new CustomerCard.Contact(
                            text(random) + " " + n,
                            maybe(random),
                            random.nextBoolean() ? null : "c" + n + "@example.com",
                            maybe(random)));
        }
        List<Payment.Stage> stages = new ArrayList<>();
        if (random.nextBoolean()) {
            double first = 10 + random.nextInt(600) / 10.0;
            stages.add(new Payment.Stage(text(random), first));
            stages.add(new Payment.Stage("on delivery", 100 - first));
        }
        TaxRule tax =
                switch (random.nextInt(4)) {
                    case 0 -> new TaxRule(TaxRule.Kind.OWN_RATE, 7.25, null);
                    case 1 -> new TaxRule(TaxRule.Kind.REVERSE_CHARGE, null, text(random));
                    case 2 -> new TaxRule(TaxRule.Kind.EXEMPT, null, null);
                    default -> TaxRule.SHOP_RATE;
                };
        return new CustomerCard(
                null,
                text(random) + " " + i,
                random.nextBoolean() ? null : text(random) + "\n12345 Town",
                maybe(random),
                random.nextBoolean() ? null : "office@example.com",
                maybe(random),
                maybe(random),
                contacts,
                tax,
                new Payment(
                        random.nextBoolean() ? null : 30,
                        random.nextBoolean() ? null : random.nextInt(500) / 100.0,
                        random.nextBoolean() ? null : 10,
                        random.nextBoolean() ? null : 12.5,
                        stages),
                random.nextBoolean() ? null : text(random) + ";\n\"" + text(random) + "\"");
    }

    private static String maybe(Random random) {
        return random.nextBoolean() ? null : text(random);
    }

    private static String text(Random random) {
        return List.of(
                        "=1+1",
                        "'=x",
                        "-5",
                        "+49 30 12",
                        "@home",
                        "1/2",
                        "007",
                        "1E5",
                        "Ä & ß",
                        "'",
                        "3-12",
                        "TRUE",
                        "a, b; c",
                        "_x0041_",
                        "Say \"so\"")
                .get(random.nextInt(15));
    }

    private CustomerCard add(String name) {
        return shop.user(Role.OFFICE)
                .call(() -> customers.add(CustomerCard.named(name, null)))
                .card();
    }

    private List<CustomerCard> all() {
        return shop.user(Role.OFFICE).call(customers::all);
    }

    private static byte[] csv(String... lines) {
        return String.join("\r\n", lines).getBytes(StandardCharsets.UTF_8);
    }

    private byte[] export(String type) {
        return shop.as(Role.OFFICE)
                .get()
                .uri(API)
                .accept(MediaType.parseMediaType(type))
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(byte[].class)
                .returnResult()
                .getResponseBody();
    }

    private EntityExchangeResult<JsonNode> take(String query, String type, byte[] file) {
        return shop.as(Role.OFFICE)
                .post()
                .uri(API + "/import" + query)
                .contentType(MediaType.parseMediaType(type))
                .body(file)
                .exchange()
                .expectBody(JsonNode.class)
                .returnResult();
    }
}
