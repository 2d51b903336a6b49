package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** One answer, as it came over the wire. */
record Answer(HttpResponse<String> response) {

    private static final HttpClient CLIENT =
            HttpClient.newBuilder().followRedirects(HttpClient.Redirect.NEVER).build();

    static Answer to(HttpRequest.Builder request) {
        try {
            return new Answer(CLIENT.send(request.build(), HttpResponse.BodyHandlers.ofString()));
        } catch (java.io.IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    static Answer get(String uri, String... headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(uri));
        return to(headers.length == 0 ? request : request.headers(headers));
    }

    static Answer post(String uri, String contentType, byte[] body) {
        return to(
                HttpRequest.newBuilder(URI.create(uri))
                        .header("Content-Type", contentType)
                        .POST(HttpRequest.BodyPublishers.ofByteArray(body)));
    }

    static Answer postJson(String uri, String body) {
        return post(
                uri, "application/json", body.getBytes(java.nio.charset.StandardCharsets.UTF_8));
    }

    int status() {
        return response.statusCode();
    }

    String header(String name) {
        return response.headers().firstValue(name).orElse("");
    }

    String body() {
        return response.body();
    }

    JsonNode json() {
        return JsonMapper.shared().readTree(response.body());
    }

    /** Problem details with a trace id and nothing of the inside. */
    Answer isProblem(int status) {
        assertThat(status()).as(body()).isEqualTo(status);
        assertThat(header("Content-Type")).isEqualTo("application/problem+json");
        assertThat(json().get("status").asInt()).isEqualTo(status);
        assertThat(json().get("traceId").asString()).matches("[0-9a-f]{16}");
        assertThat(body())
                .doesNotContain("strokewright.", "java.", "Exception", "jackson", "springframework")
                .doesNotContain("secret", "[Source");
        return this;
    }

    /** The faulty fields, in the order told. */
    List<String> pointers() {
        List<String> pointers = new ArrayList<>();
        json().path("errors").forEach(e -> pointers.add(e.get("pointer").asString()));
        return pointers;
    }

    String message(String pointer) {
        for (JsonNode error : json().path("errors")) {
            if (error.get("pointer").asString().equals(pointer)) {
                return error.get("message").asString();
            }
        }
        throw new AssertionError("no fault at " + pointer + " in " + body());
    }
}
