package strokewright;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Somebody at a browser without scripts: keeps cookies, fills in forms, follows no redirect. */
public final class Person {

    private static final Pattern CSRF = Pattern.compile("name=\"_csrf\" value=\"([^\"]+)\"");

    private final CookieManager cookies = new CookieManager();
    private final HttpClient client = HttpClient.newBuilder().cookieHandler(cookies).build();
    private final String base;

    public Person(int port) {
        base = "http://localhost:" + port;
    }

    public HttpResponse<String> open(String path, String... headers) {
        HttpRequest.Builder request = request(path).header("Accept", "text/html");
        if (headers.length > 0) {
            request.headers(headers);
        }
        return send(request.GET().build());
    }

    /** Opens the page, then sends its form with the token that stands in it. */
    public HttpResponse<String> submit(String page, String action, Map<String, String> fields) {
        String token = csrfToken(open(page).body());
        String body =
                fields.entrySet().stream()
                        .map(field -> field.getKey() + "=" + encoded(field.getValue()))
                        .collect(Collectors.joining("&"));
        return post(action, body + "&_csrf=" + encoded(token));
    }

    static String csrfToken(String page) {
        Matcher token = CSRF.matcher(page);
        if (!token.find()) {
            throw new AssertionError("no form in " + page);
        }
        return token.group(1);
    }

    /** Opens the page, then sends a file by its form. */
    public HttpResponse<String> upload(String page, String action, String name, byte[] content) {
        String token = csrfToken(open(page).body());
        String edge = "----edge";
        byte[] before =
                ("--"
                                + edge
                                + "\r\nContent-Disposition: form-data; name=\"_csrf\"\r\n\r\n"
                                + token
                                + "\r\n--"
                                + edge
                                + "\r\nContent-Disposition: form-data; name=\"file\"; filename=\""
                                + name
                                + "\"\r\nContent-Type: application/octet-stream\r\n\r\n")
                        .getBytes(StandardCharsets.UTF_8);
        byte[] after = ("\r\n--" + edge + "--\r\n").getBytes(StandardCharsets.UTF_8);
        return send(
                request(action)
                        .header("Content-Type", "multipart/form-data; boundary=" + edge)
                        .header("Accept", "text/html")
                        .POST(
                                HttpRequest.BodyPublishers.ofByteArrays(
                                        java.util.List.of(before, content, after)))
                        .build());
    }

    public HttpResponse<String> post(String path, String form, String... headers) {
        HttpRequest.Builder request =
                request(path)
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .header("Accept", "text/html");
        if (headers.length > 0) {
            request.headers(headers);
        }
        return send(request.POST(HttpRequest.BodyPublishers.ofString(form)).build());
    }

    public HttpResponse<String> signIn(String userName, String password) {
        return submit("/sign-in", "/sign-in", Map.of("username", userName, "password", password));
    }

    /** Path and query of the redirect. */
    public static String target(HttpResponse<String> answer) {
        URI location = URI.create(answer.headers().firstValue("Location").orElse(""));
        return location.getRawPath()
                + (location.getRawQuery() == null ? "" : "?" + location.getRawQuery());
    }

    private HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create(base + path)).timeout(Duration.ofSeconds(20));
    }

    private HttpResponse<String> send(HttpRequest request) {
        try {
            return client.send(request, BodyHandlers.ofString());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String encoded(String value) {
        return URLEncoder.encode(value, StandardCharsets.UTF_8);
    }
}
