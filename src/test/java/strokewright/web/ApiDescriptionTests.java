package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import tools.jackson.databind.JsonNode;

@SpringBootTest(classes = WebOnly.class, webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
class ApiDescriptionTests {

    @LocalServerPort int port;

    @Test
    void theInterfaceDescribesItself() {
        Answer answer = Answer.get("http://localhost:" + port + "/api/v1/openapi");
        assertThat(answer.status()).as(answer.body()).isEqualTo(200);
        assertThat(answer.header("Content-Type")).startsWith("application/json");
        JsonNode api = answer.json();
        assertThat(api.get("openapi").asString()).startsWith("3.1");
        assertThat(api.at("/components/securitySchemes/token/scheme").asString())
                .isEqualTo("bearer");
        assertThat(api.at("/components/schemas/Problem/properties/errors/items/required").size())
                .isEqualTo(2);
        JsonNode list = api.at("/paths/~1api~1test~1list/get");
        assertThat(list.get("parameters").findValuesAsString("name"))
                .containsExactlyInAnyOrder("upTo", "size", "after");
        assertThat(list.at("/responses/default/content/application~1problem+json").isObject())
                .isTrue();
    }

    @Test
    void moneyIsDescribedAsItIsSent() {
        JsonNode api = Answer.get("http://localhost:" + port + "/api/v1/openapi").json();
        JsonNode cost = api.at("/components/schemas/Extra/properties/cost");
        JsonNode money = cost.has("$ref") ? api.at("/components/schemas/Money") : cost;
        assertThat(money.at("/properties/amount/type").asString()).isEqualTo("string");
        assertThat(money.at("/properties/currency/type").asString()).isEqualTo("string");
    }
}
