package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpRequest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

@SpringBootTest(classes = WebOnly.class, webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
class VersionTagTests {

    @LocalServerPort int port;

    private Answer put(String... headers) {
        HttpRequest.Builder request =
                HttpRequest.newBuilder(URI.create(at())).PUT(HttpRequest.BodyPublishers.noBody());
        return Answer.to(headers.length == 0 ? request : request.headers(headers));
    }

    private String at() {
        return "http://localhost:" + port + "/api/test/versioned";
    }

    @ParameterizedTest
    @ValueSource(strings = {"\"7\"", "\"6\", \"7\"", "\"a,b\",\"7\"", "*", " \"7\" "})
    void aChangeOfTheVersionThatWasReadGoesThrough(String ifMatch) {
        Answer answer = put("If-Match", ifMatch);
        assertThat(answer.status()).isEqualTo(200);
        assertThat(answer.header("ETag")).isEqualTo("\"8\"");
    }

    @Test
    void severalHeadersAreOneList() {
        assertThat(put("If-Match", "\"6\"", "If-Match", "\"7\"").status()).isEqualTo(200);
    }

    @ParameterizedTest
    @ValueSource(strings = {"\"6\"", "W/\"7\"", "\"70\"", "\"7 \"", "\"6\", W/\"7\""})
    void aChangeOfAnotherVersionIsRefused(String ifMatch) {
        Answer answer = put("If-Match", ifMatch).isProblem(412);
        assertThat(answer.json().get("type").asString()).isEqualTo("/problems/changed-meanwhile");
    }

    @Test
    void withoutIfMatchNothingIsChanged() {
        assertThat(put().isProblem(428).json().get("type").asString())
                .isEqualTo("/problems/if-match-required");
        put("If-Match", "").isProblem(428);
    }

    @ParameterizedTest
    @ValueSource(strings = {"7", "\"7"})
    void whatIsNoTagAtAllIsTold(String ifMatch) {
        assertThat(put("If-Match", ifMatch).isProblem(400).message(""))
                .isEqualTo("has a header If-Match that is not an ETag in quotes, such as \"7\"");
    }

    @Test
    void whatIsKnownAlreadyIsNotSentAgain() {
        Answer first = Answer.get(at());
        assertThat(first.header("ETag")).isEqualTo("\"7\"");
        Answer again = Answer.get(at(), "If-None-Match", first.header("ETag"));
        assertThat(again.status()).isEqualTo(304);
        assertThat(again.body()).isEmpty();
        assertThat(again.header("ETag")).isEqualTo("\"7\"");
        assertThat(Answer.get(at(), "If-None-Match", "W/\"7\"").status()).isEqualTo(304);
        assertThat(Answer.get(at(), "If-None-Match", "\"6\"").status()).isEqualTo(200);
    }
}
