package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collections;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.http.MediaType;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** Variants over HTTP with the starter shop book. */
class VariantsApiTests extends ServiceTest {

    private static final String RIM = RoutesApiTests.RIM;

    @Test
    void theTakeOffOfAVariantIsEstimatedAsToldAndCanBeQuoted() {
        TestShop shop = openShop();
        JsonNode compared = compared(shop, RIM, "[{\"grade\":\"DC04\",\"diameterMm\":750}]", 200);
        JsonNode variant = compared.at("/variants/0");
        JsonNode own = post(shop, "/api/v1/estimates", variant.at("/takeOff").toString(), 200);
        JsonNode base = post(shop, "/api/v1/estimates", RIM, 200);
        for (int i = 0; i < 3; i++) {
            String at = "/quantities/" + i;
            assertThat(variant.at(at + "/priceEach")).isEqualTo(own.at(at + "/priceEach"));
            assertThat(variant.at(at + "/cost")).isEqualTo(own.at(at + "/cost/total"));
            assertThat(variant.at(at + "/hours")).isEqualTo(own.at(at + "/hours/plan"));
            assertThat(compared.at("/base" + at + "/priceEach"))
                    .isEqualTo(base.at(at + "/priceEach"));
        }
        post(
                shop,
                "/api/v1/quotes",
                "{\"customer\":\"Bay\",\"items\":[{\"takeOff\":" + variant.at("/takeOff") + "}]}",
                201);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{}|/variants/0",
                "{\"grade\":\"unobtainium\"}|/variants/0/grade",
                "{\"thicknessMm\":0}|/variants/0/thicknessMm",
                "{\"thicknessMm\":51}|/variants/0/thicknessMm",
                "{\"diameterMm\":-1}|/variants/0/diameterMm",
                "{\"lengthMm\":2000,\"diameterMm\":800}|/variants/0/lengthMm",
                "{\"diameterMm\":90000}|/variants/0",
                "{\"part\":3,\"thicknessMm\":2}|/variants/0/part",
                "{\"machine\":\"Nowhere\"}|/variants/0/machine",
                "{\"tool\":\"Nothing\"}|/variants/0/tool",
                "{\"gradeCode\":\"DC04\"}|/variants/0/gradeCode",
                "{\"thicknessMm\":\"2\"}|/variants/0/thicknessMm",
                "null|/variants/0"
            })
    void tellsWhatIsWrongWithAVariant(String variant, String pointer) {
        JsonNode told = compared(openShop(), RIM, "[" + variant + "]", 400);
        assertThat(told.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .contains(pointer);
    }

    @Test
    void tenAtMostAndTheTakeOffMustBeUsable() {
        TestShop shop = openShop();
        String eleven = String.join(",", Collections.nCopies(11, "{\"thicknessMm\":2}"));
        JsonNode told = compared(shop, "{\"title\":\"Empty\"}", "[" + eleven + "]", 400);
        assertThat(told.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .contains("/takeOff/parts", "/variants");
        String ten = String.join(",", Collections.nCopies(10, "{\"thicknessMm\":2}"));
        assertThat(compared(shop, RIM, "[" + ten + "]", 200).at("/variants").size()).isEqualTo(10);
    }

    @ParameterizedTest
    @CsvSource({"OFFICE", "FLOOR"})
    void onlyWhoEstimatesMayAsk(Role role) {
        openShop()
                .as(role)
                .post()
                .uri("/api/v1/estimates/variants")
                .contentType(MediaType.APPLICATION_JSON)
                .body(asked(RIM, "[{\"thicknessMm\":2}]"))
                .exchange()
                .expectStatus()
                .isForbidden();
    }

    private JsonNode compared(TestShop shop, String takeOff, String variants, int status) {
        return post(shop, "/api/v1/estimates/variants", asked(takeOff, variants), status);
    }

    private static String asked(String takeOff, String variants) {
        return "{\"takeOff\":" + takeOff + ",\"variants\":" + variants + "}";
    }

    private static JsonNode post(TestShop shop, String path, String body, int status) {
        return shop.as(Role.ESTIMATOR)
                .post()
                .uri(path)
                .contentType(MediaType.APPLICATION_JSON)
                .body(body)
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }
}
