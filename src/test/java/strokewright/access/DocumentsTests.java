package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import strokewright.ServiceTest;
import strokewright.quantity.Money;
import tools.jackson.core.JacksonException;

class DocumentsTests extends ServiceTest {

    enum Kind {
        @JsonProperty("bought-out")
        BOUGHT_OUT
    }

    record Line(String name, double value, BigDecimal exact, @Nullable Integer count) {}

    record Sample(
            Money price, Kind kind, List<Line> lines, Map<String, Object> values, Instant at) {}

    @Autowired private Documents documents;
    @Autowired private JdbcClient sql;

    @Test
    void whatIsReadBackFromTheDatabaseEqualsWhatWasWritten() {
        Sample sample =
                new Sample(
                        Money.of("1234.50", "EUR"),
                        Kind.BOUGHT_OUT,
                        Collections.unmodifiableList(
                                Arrays.asList(
                                        new Line(
                                                "Ø 60 – \"rim\" 🔨",
                                                0.1 + 0.2,
                                                new BigDecimal("2.000"),
                                                3),
                                        new Line("", 1e-7, new BigDecimal("85.00"), null),
                                        new Line("big", 1.7976931348623157e308, BigDecimal.ZERO, 0),
                                        null)),
                        Map.of("text", "a", "whole", 7, "number", 2.0, "truth", true),
                        Instant.parse("2026-03-29T01:30:00.123456Z"));
        String stored =
                sql.sql("select ?::jsonb::text")
                        .param(documents.write(sample))
                        .query(String.class)
                        .single();
        assertThat(documents.read(stored, Sample.class)).isEqualTo(sample);
        assertThat(stored).contains("\"amount\": \"1234.50\"", "\"bought-out\"");
    }

    @Test
    void yenAndDinarKeepTheirDigits() {
        for (Money money : List.of(Money.of("1235", "JPY"), Money.of("0.125", "KWD"))) {
            assertThat(documents.read(documents.write(money), Money.class)).isEqualTo(money);
        }
    }

    @Test
    void aDocumentWithAFieldThatNobodyKnowsIsNotHalfRead() {
        assertThatThrownBy(
                        () ->
                                documents.read(
                                        "{\"amount\":\"1\",\"currency\":\"EUR\",\"rate\":2}",
                                        Money.class))
                .isInstanceOf(JacksonException.class);
    }
}
