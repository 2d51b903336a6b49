package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.takeoff.Situations;
import tools.jackson.databind.JsonNode;

class AttachmentsApiTests extends ServiceTest {

    @Autowired private Quotes quotes;
    @Autowired private Letterheads letterheads;

    private TestShop shop;
    private String number;

    @BeforeEach
    void aDraft() {
        shop = openShop();
        QuoteRequest request =
                new QuoteRequest(
                        CustomerChoice.named("Harbour Theatre"),
                        null,
                        null,
                        Terms.UNSAID,
                        List.of(
                                new QuoteRequest.Item(
                                        null,
                                        null,
                                        null,
                                        Situations.takeOff(QuotesApiTests.TAKE_OFF),
                                        null)));
        number = shop.user(Role.ESTIMATOR).call(() -> quotes.create(request)).document().number();
    }

    @Test
    void aDrawingComesBackAsItCameButOnlyToBeKept() throws Exception {
        byte[] content = AttachmentKindTest.PDF.getBytes(StandardCharsets.UTF_8);
        JsonNode kept = post(content, "../a/frame «1».pdf", 201);

        assertThat(kept.at("/name").asString()).isEqualTo("frame «1».pdf");
        assertThat(kept.at("/type").asString()).isEqualTo("application/pdf");
        assertThat(kept.at("/size").asInt()).isEqualTo(content.length);
        assertThat(kept.at("/sha256").asString())
                .isEqualTo(
                        HexFormat.of()
                                .formatHex(MessageDigest.getInstance("SHA-256").digest(content)));
        as(Role.OFFICE)
                .get()
                .uri(path() + "/" + kept.at("/id").asString())
                .exchange()
                .expectStatus()
                .isOk()
                .expectHeader()
                .valueMatches("Content-Disposition", "attachment; .*")
                .expectHeader()
                .valueEquals("X-Content-Type-Options", "nosniff")
                .expectHeader()
                .valueEquals("Content-Security-Policy", "default-src 'none'; sandbox")
                .expectHeader()
                .contentType(MediaType.APPLICATION_PDF)
                .expectBody(byte[].class)
                .isEqualTo(content);
    }

    @Test
    void onesOfSeveralPiecesComeBackWhole() throws Exception {
        byte[] content = new byte[3_500_000];
        new java.util.Random(7).nextBytes(content);
        System.arraycopy("%PDF-1.7".getBytes(StandardCharsets.US_ASCII), 0, content, 0, 8);
        System.arraycopy(
                "\n%%EOF".getBytes(StandardCharsets.US_ASCII), 0, content, content.length - 6, 6);
        JsonNode kept = post(content, "large.pdf", 201);
        as(Role.OFFICE)
                .get()
                .uri(path() + "/" + kept.at("/id").asString())
                .exchange()
                .expectBody(byte[].class)
                .isEqualTo(content);
    }

    @Test
    void theSameAgainChangesNothingAndTheNameSaysWhatItIs() throws Exception {
        byte[] picture = AttachmentKindTest.picture("png");
        JsonNode first = post(picture, "photo.exe", 201);
        JsonNode again = post(picture, "other.png", 201);

        assertThat(first.at("/name").asString()).isEqualTo("photo.exe.png");
        assertThat(again).isEqualTo(first);
        assertThat(list()).hasSize(1);
    }

    @Test
    void whatIsNoDrawingOrTooLargeOrTooMuchIsRefusedWithItsReason() {
        assertThat(post(new byte[] {'M', 'Z'}, "a.pdf", 400).toString()).contains("PNG, JPEG");
        assertThat(post(new byte[(10 << 20) + 1], "a.pdf", 400).toString()).contains("10 MB");
        assertThat(post(new byte[0], "a.pdf", 400).toString()).contains("is missing");
        for (int i = 0; i < 20; i++) {
            post((AttachmentKindTest.PDF + "%" + i).getBytes(StandardCharsets.UTF_8), "a", 201);
        }
        assertThat(
                        post(AttachmentKindTest.SVG.getBytes(StandardCharsets.UTF_8), "b", 409)
                                .toString())
                .contains("at most 20");
    }

    @Test
    void oneGoesFromADraftAndStaysOnceItWasIssued() {
        String id =
                post(AttachmentKindTest.SVG.getBytes(StandardCharsets.UTF_8), "a.svg", 201)
                        .at("/id")
                        .asString();
        String other =
                post(AttachmentKindTest.PDF.getBytes(StandardCharsets.UTF_8), "a.pdf", 201)
                        .at("/id")
                        .asString();
        as(Role.OFFICE).delete().uri(path() + "/" + id).exchange().expectStatus().isNoContent();
        shop.user(Role.OFFICE).run(() -> quotes.issue(number, null));
        as(Role.OFFICE).delete().uri(path() + "/" + other).exchange().expectStatus().isEqualTo(409);
        assertThat(list()).hasSize(1);
    }

    @Test
    void drawingsAreNotForTheFloorNorForAnotherShop() {
        String id =
                post(AttachmentKindTest.SVG.getBytes(StandardCharsets.UTF_8), "a.svg", 201)
                        .at("/id")
                        .asString();
        as(Role.FLOOR).get().uri(path()).exchange().expectStatus().isForbidden();
        shop = openShop();
        as(Role.OWNER).get().uri(path() + "/" + id).exchange().expectStatus().isNotFound();
    }

    @Test
    void theOwnerWritesTheLetterheadAndNobodyElse() {
        Person owner = signedIn(Role.OWNER);
        java.util.Map<String, String> typed = new java.util.HashMap<>();
        typed.put("version", "\"0\"");
        typed.put("/address", "Foundry Yard 3\r\nQuillmoor");
        typed.put("/paper", "letter");
        typed.put("/locale", "german please");
        typed.put("/validityDays", "21");
        typed.put("/bank", "one\r\n\r\ntwo");
        typed.put("/assumptions", "");
        assertThat(owner.submit("/letterhead", "/letterhead", typed).body())
                .contains("f-locale-fault\">is no language tag", "Foundry Yard 3");
        typed.put("/locale", "de-DE");
        assertThat(Person.target(owner.submit("/letterhead", "/letterhead", typed)))
                .isEqualTo("/letterhead?saved");

        Letterhead kept = shop.user(Role.OWNER).call(letterheads::get).letterhead();
        assertThat(kept.paper()).isEqualTo(Letterhead.Paper.LETTER);
        assertThat(kept.validityDays()).isEqualTo(21);
        assertThat(kept.bank()).containsExactly("one", "two");
        assertThat(owner.submit("/letterhead", "/letterhead", typed).body())
                .contains("somebody changed the letterhead meanwhile");
        assertThat(signedIn(Role.OFFICE).open("/letterhead").statusCode()).isEqualTo(403);
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }

    private RestTestClient as(Role role) {
        return shop.as(role);
    }

    private String path() {
        return "/api/v1/quotes/" + number + "/attachments";
    }

    private JsonNode post(byte[] content, String name, int status) {
        return as(Role.OFFICE)
                .post()
                .uri(path() + "?name={name}", name)
                .contentType(MediaType.APPLICATION_OCTET_STREAM)
                .body(content)
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }

    private List<JsonNode> list() {
        return as(Role.OFFICE)
                .get()
                .uri(path())
                .exchange()
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody()
                .at("/items")
                .valueStream()
                .toList();
    }
}
