package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Runs the examples of docs/http.md in their order, all in one fresh shop: each answer has the
 * status, the headers and the fields that the page shows (it may have more). {@code …} stands for
 * any text, and in a list for any entries before the one behind it; <code>{name}</code> for a text
 * that comes back later on the page.
 */
class HttpDocumentTests extends ServiceTest {

    private static final Pattern BLOCK = Pattern.compile("```http\n(.*?)```", Pattern.DOTALL);
    private static final Pattern NAME = Pattern.compile("\\{([a-z]+)}");

    private final Map<String, String> known = new LinkedHashMap<>();

    @Test
    void everyExampleIsAnsweredAsThePageSays() throws IOException {
        TestShop shop = openShop();
        List<String> blocks =
                BLOCK.matcher(Files.readString(Path.of("docs", "http.md")))
                        .results()
                        .map(block -> block.group(1))
                        .toList();
        assertThat(blocks).hasSizeGreaterThan(20).hasSize(blocks.size() / 2 * 2);
        for (int i = 0; i < blocks.size(); i += 2) {
            assertThat(blocks.get(i + 1)).startsWith("HTTP/1.1 ");
            compare(blocks.get(i), blocks.get(i + 1), send(shop, blocks.get(i)));
        }
    }

    private Answer send(TestShop shop, String example) {
        String[] parts = filledIn(example).split("\n\n", 2);
        String[] lines = parts[0].strip().split("\n");
        String[] target = lines[0].split(" ");
        HttpRequest.Builder request =
                HttpRequest.newBuilder(URI.create("http://localhost:" + port() + target[1]))
                        .header("Authorization", "Bearer " + shop.token(Role.OWNER))
                        .method(
                                target[0],
                                parts.length == 1
                                        ? BodyPublishers.noBody()
                                        : BodyPublishers.ofString(parts[1].strip()));
        for (int i = 1; i < lines.length; i++) {
            String[] header = lines[i].split(": ", 2);
            request.header(header[0], header[1]);
        }
        return Answer.to(request);
    }

    private void compare(String request, String example, Answer answer) {
        String[] parts = example.split("\n\n", 2);
        String[] lines = parts[0].strip().split("\n");
        assertThat(answer.status())
                .as(request + "\n" + answer.body())
                .isEqualTo(Integer.parseInt(lines[0].split(" ")[1]));
        for (int i = 1; i < lines.length; i++) {
            String[] header = lines[i].split(": ", 2);
            same(request + header[0], header[1], answer.header(header[0]));
        }
        if (parts.length == 2 && !parts[1].isBlank()) {
            covers(request, "", JsonMapper.shared().readTree(parts[1]), answer.json());
        }
    }

    private void covers(String request, String at, JsonNode shown, JsonNode answered) {
        assertThat(answered).as(request + at).isNotNull();
        if (shown.isObject()) {
            shown.properties()
                    .forEach(
                            p ->
                                    covers(
                                            request,
                                            at + "/" + p.getKey(),
                                            p.getValue(),
                                            answered.get(p.getKey())));
        } else if (shown.isArray() && shown.size() == 2 && shown.get(0).asString("").equals("…")) {
            assertThat(answered.values())
                    .as(request + at + answered)
                    .anySatisfy(one -> covers(request, at, shown.get(1), one));
        } else if (shown.isArray()) {
            assertThat(answered.size()).as(request + at + answered).isEqualTo(shown.size());
            for (int i = 0; i < shown.size(); i++) {
                covers(request, at + "/" + i, shown.get(i), answered.get(i));
            }
        } else if (shown.isString()) {
            same(request + at, shown.asString(), answered.asString());
        } else {
            assertThat(answered).as(request + at).isEqualTo(shown);
        }
    }

    /** What a name stands for is learnt where it is first seen. */
    private void same(String what, String shown, String answered) {
        List<String> names = new ArrayList<>();
        Matcher open = NAME.matcher(filledIn(shown));
        while (open.find()) {
            names.add(open.group(1));
        }
        String pattern =
                Pattern.compile("…|\\{[a-z]+}")
                        .splitAsStream(filledIn(shown))
                        .map(Pattern::quote)
                        .reduce((a, b) -> a + "(.*)" + b)
                        .orElse("");
        if (filledIn(shown).matches("(?s).*(…|\\{[a-z]+})")) {
            pattern += "(.*)";
        }
        Matcher match = Pattern.compile(pattern, Pattern.DOTALL).matcher(answered);
        assertThat(match.matches()).as(what + "\n" + shown + "\n" + answered).isTrue();
        MatchResult found = match.toMatchResult();
        for (int i = 0; i < names.size(); i++) {
            known.put(names.get(i), found.group(i + 1));
        }
    }

    private String filledIn(String text) {
        return NAME.matcher(text)
                .replaceAll(
                        name ->
                                Matcher.quoteReplacement(
                                        known.getOrDefault(name.group(1), name.group())));
    }
}
