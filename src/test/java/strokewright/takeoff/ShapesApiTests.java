package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.http.MediaType;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Shapes over HTTP with the starter shop book. */
class ShapesApiTests extends ServiceTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{'type':'ring','outsideDiameterMm':600,'flangeHeightMm':40,'returnMm':80}",
                "{'type':'arc','outsideDiameterMm':900,'sweepDeg':120,'flangeHeightMm':30,'returnMm':30}",
                "{'type':'u-frame','outsideWidthMm':500,'outsideHeightMm':500,'flangeHeightMm':30,'returnMm':40}",
                "{'type':'flanged-disc','diameterMm':400,'flangeHeightMm':20}",
                "{'type':'bowl','diameterMm':300,'depthMm':60,'smoothTimesOver':2}",
                "{'type':'bowl-with-rim','diameterMm':300,'depthMm':40,'rim':'turned','rimWidthMm':10}",
                "{'type':'arch-edge','openingWidthMm':700,'riseMm':300,'flangeHeightMm':12,'faceMm':100}",
                "{'type':'curved-rib','heelRadiusMm':900,'sweepDeg':45,'flangeHeightMm':25,'webMm':60}",
                "{'type':'panel-with-dents','lengthMm':900,'widthMm':500,'spots':6}"
            })
    void whatComesBackIsATakeOffThatCanBePriced(String shape) {
        TestShop shop = openShop();
        String full =
                shape.replace("}", ",'grade':'AL99.5-O','thicknessMm':1.5}").replace('\'', '"');
        JsonNode taken = post(shop, "/api/v1/shapes", full, 200);
        assertThat(taken.at("/notes").values()).isNotEmpty();
        ObjectNode takeOff = JsonMapper.shared().createObjectNode();
        takeOff.put("title", "From a shape");
        takeOff.set("parts", taken.get("parts"));
        takeOff.set("assembly", taken.get("assembly"));
        JsonNode estimate = post(shop, "/api/v1/estimates", takeOff.toString(), 200);
        assertThat(estimate.at("/feasible").asBoolean()).isTrue();
        assertThat(
                        estimate.at("/operations").values().stream()
                                .filter(line -> !line.has("proposal")))
                .hasSize(taken.at("/parts/0/operations").size() + taken.at("/assembly").size());
    }

    @Test
    void faultsOfBothStagesNameTheirFields() {
        TestShop shop = openShop();
        JsonNode unread =
                post(
                        shop,
                        "/api/v1/shapes",
                        "{\"type\":\"ring\",\"flange\":\"up\",\"depthMm\":5,\"thicknessMm\":\"2\"}",
                        400);
        assertThat(unread.at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactlyInAnyOrder("/flange", "/depthMm", "/thicknessMm");
        assertThat(post(shop, "/api/v1/shapes", "{\"type\":\"cube\"}", 400).at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly("/type");
        assertThat(post(shop, "/api/v1/shapes", "{\"type\":\"bowl\"}", 400).at("/errors").values())
                .extracting(e -> e.at("/pointer").asString())
                .containsExactly("/grade", "/thicknessMm", "/diameterMm", "/depthMm");
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
