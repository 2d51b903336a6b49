package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpRequest;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

@SpringBootTest(classes = WebOnly.class, webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
class ProblemTests {

    @LocalServerPort int port;

    private String at(String path) {
        return "http://localhost:" + port + path;
    }

    private Answer get(String path, String... headers) {
        return Answer.get(at(path), headers);
    }

    @Test
    void whatTheRequestMayNotDoIsTold() {
        get("/api").isProblem(404);
        get("/api/nowhere").isProblem(404);
        get("/api/test/nowhere").isProblem(404);
        Answer notFound = get("/api/test/missing").isProblem(404);
        assertThat(notFound.json().get("detail").asString())
                .isEqualTo("Quote Q-2026-0001 does not exist.");
        Answer wrongMethod =
                Answer.to(HttpRequest.newBuilder(URI.create(at("/api/test/sample"))).DELETE());
        wrongMethod.isProblem(405);
        assertThat(wrongMethod.header("Allow")).isEqualTo("POST");
        get("/api/test/numbers/1?from=2026-01-01", "Accept", "text/csv").isProblem(406);
        get("/api/test/numbers/1?from=2026-01-01", "Accept", "nonsense").isProblem(406);
    }

    @Test
    void faultsFoundByTheDomainAreToldInTheSameManner() {
        Answer answer = get("/api/test/invalid").isProblem(400);
        assertThat(answer.json().get("type").asString()).isEqualTo("/problems/invalid-fields");
        assertThat(answer.message("/parts/0/blank")).isEqualTo("is missing");
    }

    @ParameterizedTest
    @CsvSource({
        "numbers/one?from=2026-01-01, ?n,    does not fit: a whole number",
        "numbers/1?from=yesterday,    ?from, does not fit: a date such as 2026-03-31",
        "numbers/1,                   ?from, is missing",
    })
    void parametersOfTheAddressAreNamed(String path, String pointer, String message) {
        assertThat(get("/api/test/" + path).isProblem(400).message(pointer)).isEqualTo(message);
    }

    @Test
    void aFailureOfOursSaysNothingOfTheInside() {
        Answer answer = get("/api/test/broken").isProblem(500);
        assertThat(answer.json().get("type").asString()).isEqualTo("/problems/failed");
    }

    @Test
    void pagesAreAnsweredByPages() {
        Answer missing = get("/page/missing");
        assertThat(missing.status()).isEqualTo(404);
        assertThat(missing.header("Content-Type")).startsWith("text/html");
        assertThat(missing.body()).contains("Quote Q-2026-0001 does not exist.");
        Answer badSize = get("/page/list?size=many");
        assertThat(badSize.status()).isEqualTo(400);
        assertThat(badSize.body()).contains("?size", "must be a whole number from 1 to 200");
        Answer broken = get("/page/broken");
        assertThat(broken.status()).isEqualTo(500);
        assertThat(broken.body()).contains("Trace").doesNotContain("secret", "Exception");
        Answer nowhere = get("/page/nowhere", "Accept", "application/json");
        assertThat(nowhere.status()).isEqualTo(404);
        assertThat(nowhere.header("Content-Type")).startsWith("text/html");
    }

    @Test
    void textsAndBytesGoOutAsTheyAre() {
        Answer bytes = get("/api/test/bytes");
        assertThat(bytes.header("Content-Type")).isEqualTo("application/octet-stream");
        assertThat(bytes.body()).isEqualTo("\u0001\u0002\u0003");
        assertThat(get("/api/test/text").body()).isEqualTo("plain");
    }

    @Test
    void oneAddressServesSeveralFormsByAccept() {
        assertThat(get("/api/test/document", "Accept", "text/csv").body()).isEqualTo("as;csv");
        assertThat(get("/api/test/document", "Accept", "application/json").body())
                .isEqualTo("{\"as\":\"json\"}");
        assertThat(get("/api/test/document").body()).isEqualTo("{\"as\":\"json\"}");
        assertThat(get("/api/test/document", "Accept", "*/*").body())
                .isEqualTo("{\"as\":\"json\"}");
        get("/api/test/document", "Accept", "application/pdf").isProblem(406);
    }

    @ParameterizedTest
    @CsvSource({
        "/api/test/a;b",
        "/api/test//text",
        "/api/test/%2e%2e/text",
        "/api/test/%00",
        "/api/test/%2F",
        "/api/test/%5c",
        "/api/test/%zz",
        "/api/test/<x>",
        "/api/test/parameter?q=%00",
        "/api/test/parameter?q=%zz",
    })
    void addressesThatFirewallOrContainerRefuseAreProblemsToo(String path) throws IOException {
        String answer =
                raw("GET " + path + " HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
        assertThat(answer).startsWith("HTTP/1.1 400 ");
        assertThat(answer.toLowerCase(java.util.Locale.ROOT))
                .contains("content-type: application/problem+json")
                .contains("\"traceid\":\"")
                .doesNotContain("exception", "tomcat", "strokewright.");
    }

    @Test
    void headersThatAreTooLongAreProblemsToo() throws IOException {
        String answer =
                raw(
                        "GET /api/test/text HTTP/1.1\r\nHost: localhost\r\nX-Long: "
                                + "x".repeat(20_000)
                                + "\r\nConnection: close\r\n\r\n");
        assertThat(answer).startsWith("HTTP/1.1 4").contains("application/problem+json");
    }

    private String raw(String request) throws IOException {
        try (Socket socket = new Socket("localhost", port)) {
            socket.setSoTimeout(5000);
            OutputStream out = socket.getOutputStream();
            out.write(request.getBytes(StandardCharsets.ISO_8859_1));
            out.flush();
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
