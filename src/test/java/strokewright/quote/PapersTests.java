package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.OpenedPdf;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.office.Mail;
import strokewright.office.Pdf;
import tools.jackson.databind.JsonNode;

/** The papers of a quote over HTTP and from its page, on a real database. */
class PapersTests extends ServiceTest {

    private static final String QUOTE =
            """
            {"customer":{"name":"Harbour Theatre","address":"Quay 1\\nQuillmoor"},
             "terms":{"customerReference":"HT-204"},"contact":"Imogen Holloway",
             "items":[{"title":"Frame","takeOff":{"title":"Frame","quantities":[1,5],"mainQuantity":5,
               "parts":[{"name":"Rim","grade":"AL99.5-O","thicknessMm":2,
                 "blank":{"lengthMm":1950,"widthMm":120},
                 "operations":[{"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,
                   "heightMm":40}]}]}}]}
            """;

    private TestShop shop;
    private RestTestClient office;
    private String number;
    private String path;

    @BeforeEach
    void issuedQuote() {
        shop = openShop();
        office = shop.as(Role.OFFICE);
        JsonNode made = post(shop.as(Role.ESTIMATOR), "/api/v1/quotes", QUOTE, 201);
        number = made.at("/number").asString();
        path = "/api/v1/quotes/" + number;
    }

    @Test
    void anOrderIsConfirmedAndDeliveredOnPaper() {
        post(office, path + "/issue", "", 200);
        assertThat(status(path + "/confirmation", Pdf.TYPE)).isEqualTo(409);
        JsonNode refused = post(office, path + "/delivery-note", "{}", 409);
        assertThat(refused.at("/detail").asString()).contains("is not ordered");
        post(office, path + "/accept", "{\"orderNumber\":\"P-1\"}", 200);

        EntityExchangeResult<byte[]> confirmation = get(path + "/confirmation", Pdf.TYPE);
        assertThat(fileName(confirmation)).isEqualTo(number + "-order.pdf");
        try (OpenedPdf opened = new OpenedPdf(confirmation.getResponseBody())) {
            assertThat(opened.title()).isEqualTo("Order confirmation " + number + ": Frame");
            assertThat(opened.text()).contains("Your order\nP-1, ", "Imogen Holloway", "HT-204");
        }
        EntityExchangeResult<byte[]> note =
                office.post()
                        .uri(path + "/delivery-note")
                        .contentType(MediaType.APPLICATION_JSON)
                        .accept(MediaType.parseMediaType(Pdf.TYPE))
                        .body("{\"delivery\":2,\"items\":[{\"position\":1,\"quantity\":3}]}")
                        .exchange()
                        .expectStatus()
                        .isOk()
                        .expectBody(byte[].class)
                        .returnResult();
        assertThat(fileName(note)).isEqualTo(number + "-D2.pdf");
        try (OpenedPdf opened = new OpenedPdf(note.getResponseBody())) {
            assertThat(opened.text()).contains("1 Frame 5 3 ").doesNotContain("EUR");
        }
        JsonNode fault =
                post(
                        office,
                        path + "/delivery-note",
                        "{\"items\":[{\"position\":1,\"quantity\":6},{\"position\":7}]}",
                        400);
        assertThat(fault.at("/errors/0/pointer").asString()).isEqualTo("/items/0/quantity");
        assertThat(fault.at("/errors/1/pointer").asString()).isEqualTo("/items/1/position");
    }

    @Test
    void whatIsOfferedGoesOutByMailAndADraftDoesNot() {
        assertThat(status(path + "/revisions/1", Mail.TYPE)).isEqualTo(409);
        post(office, path + "/issue", "", 200);

        EntityExchangeResult<byte[]> mail = get(path + "/revisions/1", Mail.TYPE);
        assertThat(fileName(mail)).isEqualTo(number + ".eml");
        String text = new String(mail.getResponseBody(), StandardCharsets.ISO_8859_1);
        assertThat(text)
                .contains(
                        "X-Unsent: 1\r\n",
                        "Subject: Quote " + number + ": Frame\r\n",
                        "filename=" + number + ".pdf",
                        "Dear Imogen Holloway,")
                .doesNotContain("Message-ID");
        assertThat(status(path + "/confirmation", Mail.TYPE)).isEqualTo(409);
        post(office, path + "/accept", "{}", 200);
        assertThat(fileName(get(path + "/confirmation", Mail.TYPE)))
                .isEqualTo(number + "-order.eml");
        post(office, path + "/take-back", "", 200);
        post(office, path + "/withdraw", "{}", 200);
        assertThat(status(path + "/revisions/1", Mail.TYPE)).isEqualTo(409);
    }

    @Test
    void withoutAnAcceptedTypeAConfirmationIsAPdf() {
        post(office, path + "/issue", "", 200);
        post(office, path + "/accept", "{}", 200);

        assertThat(get(path + "/confirmation", "*/*").getResponseHeaders().getContentType())
                .hasToString(Pdf.TYPE);
    }

    @Test
    void papersAreNotForTheFloorNorForAnotherShop() {
        post(office, path + "/issue", "", 200);
        post(office, path + "/accept", "{}", 200);
        for (String paper : new String[] {"/confirmation", "/revisions/1"}) {
            shop.as(Role.FLOOR).get().uri(path + paper).exchange().expectStatus().isForbidden();
            openShop()
                    .as(Role.OWNER)
                    .get()
                    .uri(path + paper)
                    .exchange()
                    .expectStatus()
                    .isNotFound();
        }
        post(shop.as(Role.FLOOR), path + "/delivery-note", "{}", 403);
        post(openShop().as(Role.OWNER), path + "/delivery-note", "{}", 404);
    }

    @Test
    void thePageOfTheDeliveryNoteAsksForQuantitiesAndKeepsWhatWasTyped() {
        post(office, path + "/issue", "", 200);
        post(office, path + "/accept", "{}", 200);
        Person person = new Person(port());
        person.signIn(shop.user(Role.OFFICE).userName(), TestShop.PASSWORD);
        String page = "/quotes/" + number + "/delivery-note";

        assertThat(person.open("/quotes/" + number).body())
                .contains(
                        "/quotes/" + number + "/confirmation\"",
                        "/quotes/" + number + "/confirmation/mail\"",
                        page + "\"");
        assertThat(person.open(page).body()).contains("1. Frame", "of 5", "value=\"5\"");
        HttpResponse<String> wrong =
                person.submit(
                        page,
                        page,
                        Map.of("/delivery", "2", "/date", "2026-03-02", "/items/1", "17"));
        assertThat(wrong.body())
                .contains("value=\"17\"", "must be at most 5, as many as were ordered");
        HttpResponse<String> nothing =
                person.submit(page, page, Map.of("/delivery", "2", "/date", "", "/items/1", "0"));
        assertThat(nothing.body()).contains("something must go out");
        HttpResponse<String> note =
                person.submit(
                        page,
                        page,
                        Map.of("/delivery", "2", "/date", "2026-03-02", "/items/1", "3"));
        assertThat(note.statusCode()).isEqualTo(200);
        assertThat(note.body()).startsWith("%PDF-");
        assertThat(note.headers().firstValue("Content-Disposition").orElse(""))
                .contains(number + "-D2.pdf");
    }

    private EntityExchangeResult<byte[]> get(String uri, String type) {
        return office.get()
                .uri(uri)
                .header(HttpHeaders.ACCEPT, type)
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(byte[].class)
                .returnResult();
    }

    private int status(String uri, String type) {
        return office.get()
                .uri(uri)
                .header(HttpHeaders.ACCEPT, type)
                .exchange()
                .expectBody(byte[].class)
                .returnResult()
                .getStatus()
                .value();
    }

    private static JsonNode post(RestTestClient who, String uri, String body, int status) {
        RestTestClient.RequestBodySpec request = who.post().uri(uri);
        EntityExchangeResult<JsonNode> answer =
                (body.isEmpty()
                                ? request.exchange()
                                : request.contentType(MediaType.APPLICATION_JSON)
                                        .body(body)
                                        .exchange())
                        .expectBody(JsonNode.class)
                        .returnResult();
        assertThat(answer.getStatus().value())
                .as(uri + " " + body + ": " + answer.getResponseBody())
                .isEqualTo(status);
        return answer.getResponseBody();
    }

    private static String fileName(EntityExchangeResult<byte[]> file) {
        return file.getResponseHeaders().getContentDisposition().getFilename();
    }
}
