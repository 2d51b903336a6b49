package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.ServiceTest;
import strokewright.TestShop;
import tools.jackson.databind.JsonNode;

class TokensTests extends ServiceTest {

    @Test
    void aTokenIsShownOnceAndWorksUntilItIsDeleted() {
        TestShop shop = openShop();
        RestTestClient estimator = shop.as(Role.ESTIMATOR);
        JsonNode made =
                estimator
                        .post()
                        .uri("/api/v1/tokens")
                        .contentType(MediaType.APPLICATION_JSON)
                        .body(Map.of("name", "spreadsheet"))
                        .exchange()
                        .expectStatus()
                        .isCreated()
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();
        String token = made.get("token").asString();
        assertThat(token).startsWith("strokewright_").hasSize("strokewright_".length() + 43);
        assertThat(list(estimator).findValuesAsString("name")).contains("spreadsheet");
        assertThat(list(estimator).toString()).doesNotContain(token);

        RestTestClient program = bearer(token);
        program.get().uri("/api/v1/tokens").exchange().expectStatus().isOk();
        estimator
                .delete()
                .uri("/api/v1/tokens/{id}", made.get("id").asString())
                .exchange()
                .expectStatus()
                .isNoContent();
        program.get().uri("/api/v1/tokens").exchange().expectStatus().isUnauthorized();
    }

    @Test
    void nobodySeesOrDeletesTheTokensOfSomebodyElse() {
        TestShop shop = openShop();
        String id = list(shop.as(Role.OWNER)).get("tokens").get(0).get("id").asString();
        RestTestClient office = shop.as(Role.OFFICE);
        assertThat(list(office).toString()).doesNotContain(id);
        office.delete().uri("/api/v1/tokens/{id}", id).exchange().expectStatus().isNotFound();
        shop.as(Role.OWNER).get().uri("/api/v1/tokens").exchange().expectStatus().isOk();
    }

    @Test
    void aMadeUpTokenIsRefused() {
        bearer("strokewright_" + UUID.randomUUID())
                .get()
                .uri("/api/v1/tokens")
                .exchange()
                .expectStatus()
                .isUnauthorized()
                .expectHeader()
                .contentType(MediaType.APPLICATION_PROBLEM_JSON);
    }

    private RestTestClient bearer(String token) {
        return TestShop.stranger(port())
                .mutate()
                .defaultHeader("Authorization", "Bearer " + token)
                .build();
    }

    private static JsonNode list(RestTestClient client) {
        return client.get()
                .uri("/api/v1/tokens")
                .exchange()
                .expectStatus()
                .isOk()
                .expectBody(JsonNode.class)
                .returnResult()
                .getResponseBody();
    }
}
