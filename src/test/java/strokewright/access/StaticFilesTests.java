package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import strokewright.Person;
import strokewright.ServiceTest;

/** Style sheet and scripts are fetched once, and anew as soon as their content is another. */
class StaticFilesTests extends ServiceTest {

    private static final Pattern FILE =
            Pattern.compile("(?:href|src)=\"(/[^\"]+\\.(?:css|js|svg))\"");

    @Test
    void theirAddressNamesTheirContentSoTheyMayBeKept() {
        openShop(); // without any shop every page leads to the first start
        Person stranger = new Person(port());
        HttpResponse<String> page = stranger.open("/sign-in");
        assertThat(page.headers().firstValue("Cache-Control").orElse("")).contains("no-store");
        List<String> files = FILE.matcher(page.body()).results().map(m -> m.group(1)).toList();
        assertThat(files).hasSizeGreaterThanOrEqualTo(4);
        for (String file : files) {
            assertThat(Pattern.compile("-[0-9a-f]{32}\\.").matcher(file)).matches(Matcher::find);
            HttpResponse<String> answer = stranger.open(file);
            assertThat(answer.statusCode()).as(file).isEqualTo(200);
            assertThat(answer.headers().firstValue("Cache-Control").orElse(""))
                    .as(file)
                    .contains("max-age=2592000")
                    .doesNotContain("no-store");
        }
    }
}
