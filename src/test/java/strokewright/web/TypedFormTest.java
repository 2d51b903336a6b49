package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;

class TypedFormTest {

    private enum Pace {
        VERY_SLOW,
        FAST
    }

    private static TypedForm typed(String... namesAndTexts) {
        Map<String, String[]> parameters = new java.util.LinkedHashMap<>();
        for (int i = 0; i < namesAndTexts.length; i += 2) {
            parameters.put(namesAndTexts[i], new String[] {namesAndTexts[i + 1]});
        }
        return TypedForm.of(parameters, Numbers.of(Locale.GERMAN));
    }

    @Test
    void readsWhatWasTypedInTheReadersManner() {
        TypedForm form =
                typed(
                        "/text",
                        " a\r\nb ",
                        "/days",
                        "30",
                        "/share",
                        "2,5",
                        "/on",
                        "2026-02-28",
                        "/pace",
                        "very-slow",
                        "/lines",
                        "one\r\n\r\n two \n",
                        "_csrf",
                        "x");

        assertThat(form.text("/text")).isEqualTo("a\nb");
        assertThat(form.whole("/days")).isEqualTo(30);
        assertThat(form.number("/share")).isEqualTo(2.5);
        assertThat(form.date("/on")).isEqualTo(LocalDate.of(2026, 2, 28));
        assertThat(form.choice("/pace", Pace.class)).isEqualTo(Pace.VERY_SLOW);
        assertThat(form.lines("/lines")).containsExactly("one", "two");
        assertThat(form.at("_csrf")).isEmpty();
        assertThat(form.text("/none")).isNull();
        assertThat(form.whole("/none")).isNull();
        form.throwIfUnread();
        assertThat(form.isFaulty()).isFalse();
    }

    @Test
    void marksThatTurnTheReadingDirectionAreLeftOutOfPastedText() {
        assertThat(typed("/text", "\u202aRim\u202c \u2066x\u2069").text("/text"))
                .isEqualTo("Rim x");
    }

    @Test
    void whatCannotBeReadIsToldAtItsFieldAndStaysTyped() {
        TypedForm form =
                typed(
                        "/days",
                        "2,5",
                        "/share",
                        "1.234",
                        "/on",
                        "2026-02-30",
                        "/pace",
                        "warp",
                        "/count",
                        "99999999999");
        form.whole("/days");
        form.number("/share");
        form.date("/on");
        form.choice("/pace", Pace.class);

        assertThat(form.whole("/count")).isEqualTo(Integer.MAX_VALUE);
        assertThatThrownBy(form::throwIfUnread).isInstanceOf(InvalidInput.class);
        form.refused(new InvalidInput("/days", "must be from 0 to 365"));
        assertThat(form.fault("/days")).contains("whole number");
        assertThat(form.fault("/share")).contains("could be two numbers");
        assertThat(form.fault("/on")).contains("2026-03-31");
        assertThat(form.fault("/pace")).isNotNull();
        assertThat(form.at("/on")).isEqualTo("2026-02-30");
    }

    @Test
    void blankRowsFallOutAndTheOthersAreCountedAsTheirPointersAre() {
        TypedForm form =
                typed(
                        "/rows/0/name",
                        " ",
                        "/rows/0/mail",
                        "",
                        "/rows/3/name",
                        "B",
                        "/rows/3/mail",
                        "",
                        "/rows/12/name",
                        "",
                        "/rows/12/mail",
                        "c@d",
                        "/rowsbeside",
                        "stays");
        form.tidyRows("/rows");

        assertThat(form.rows("/rows")).isEqualTo(2);
        assertThat(form.at("/rows/0/name")).isEqualTo("B");
        assertThat(form.at("/rows/1/mail")).isEqualTo("c@d");
        assertThat(form.at("/rowsbeside")).isEqualTo("stays");
    }

    @Test
    void faultsStandAtTheNearestFieldThatHoldsThem() {
        TypedForm form = typed("/terms/assumptions", "a\nb", "/name", "x").holds("/stages");
        form.refused(
                new InvalidInput(
                        List.of(
                                new Fault("/terms/assumptions/1", "is too long"),
                                new Fault("/stages", "make 90 %"),
                                new Fault("/items/0/takeOff/title", "is missing"),
                                new Fault("", "cannot be used"))));

        assertThat(form.fault("/terms/assumptions")).isEqualTo("line 2 is too long");
        assertThat(form.fault("/stages")).isEqualTo("make 90 %");
        assertThat(form.fault("/name")).isNull();
        assertThat(form.elsewhere())
                .containsExactly("items/0/takeOff/title: is missing", "cannot be used");
        assertThat(form.isFaulty()).isTrue();
    }

    @Test
    void showsValuesAsOneWouldTypeThem() {
        TypedForm form = new TypedForm(Numbers.of(Locale.GERMAN));
        form.show("/a", 1234.5)
                .show("/b", null)
                .show("/c", Pace.VERY_SLOW)
                .show("/d", List.of("x", "y"))
                .show("/e", LocalDate.of(2026, 3, 1));

        assertThat(form.at("/a")).isEqualTo("1234,5");
        assertThat(form.at("/b")).isEmpty();
        assertThat(form.at("/c")).isEqualTo("very-slow");
        assertThat(form.at("/d")).isEqualTo("x\ny");
        assertThat(form.at("/e")).isEqualTo("2026-03-01");
        assertThat(form.number("/a")).isEqualTo(1234.5);
    }
}
