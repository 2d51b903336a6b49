package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

@SpringBootTest(classes = WebOnly.class, webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
class PagingTests {

    private static final Pattern NEXT = Pattern.compile("<([^>]+)>; rel=\"next\"");

    @LocalServerPort int port;

    private Answer get(String path) {
        return Answer.get("http://localhost:" + port + path);
    }

    @Test
    void theLinksLeadThroughTheWholeListOnce() {
        List<Integer> seen = new ArrayList<>();
        List<Integer> sizes = new ArrayList<>();
        String path = "/api/test/list?upTo=45&size=20";
        while (path != null) {
            Answer page = get(path);
            assertThat(page.status()).as(page.body()).isEqualTo(200);
            page.json().get("items").forEach(n -> seen.add(n.asInt()));
            sizes.add(page.json().get("items").size());
            Matcher next =
                    NEXT.matcher(String.join(", ", page.response().headers().allValues("Link")));
            path = next.find() ? next.group(1) : null;
        }
        assertThat(sizes).containsExactly(20, 20, 5);
        assertThat(seen).hasSize(45).doesNotHaveDuplicates().isSorted();
    }

    @Test
    void aListThatEndsWithItsPageHasNoNext() {
        assertThat(get("/api/test/list?upTo=20").header("Link")).isEmpty();
        assertThat(get("/api/test/list?upTo=21").header("Link"))
                .isEqualTo("</api/test/list?upTo=21&after=MjA>; rel=\"next\"");
        assertThat(get("/api/test/list?upTo=21&after=MjA").header("Link"))
                .isEqualTo("</api/test/list?upTo=21>; rel=\"first\"");
        assertThat(get("/api/test/list?upTo=0").body()).isEqualTo("{\"items\":[]}");
    }

    @Test
    void aPageHasAtMostTwoHundred() {
        assertThat(get("/api/test/list?upTo=1000&size=200").json().get("items").size())
                .isEqualTo(200);
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "201", "-1", "1.5", "99999999999", "all", ""})
    void otherSizesAreRefused(String size) {
        assertThat(get("/api/test/list?upTo=1&size=" + size).isProblem(400).message("?size"))
                .isEqualTo("must be a whole number from 1 to 200");
    }

    @ParameterizedTest
    @ValueSource(strings = {"*", "_w"})
    void marksThatWereNotGivenOutAreRefused(String after) {
        assertThat(get("/api/test/list?upTo=1&after=" + after).isProblem(400).pointers())
                .containsExactly("?after");
    }
}
