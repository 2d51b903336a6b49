package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.core.annotation.AnnotatedElementUtils;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;

/** What holds for every address of the interface, those of features not yet written included. */
class InterfaceTests extends ServiceTest {

    @Autowired
    @Qualifier("requestMappingHandlerMapping")
    private RequestMappingHandlerMapping mappings;

    @Test
    void everyControllerForProgramsStandsUnderItsVersion() {
        List<String> paths = new ArrayList<>();
        mappings.getHandlerMethods()
                .forEach(
                        (mapping, method) -> {
                            if (AnnotatedElementUtils.hasAnnotation(
                                    method.getBeanType(), Api.class)) {
                                paths.addAll(mapping.getPatternValues());
                            }
                        });
        assertThat(paths).isNotEmpty().allMatch(path -> path.startsWith("/api/v1/"));
    }

    @Test
    void theDescriptionIsForThoseWhoAreSignedInAndNamesEveryAddress() {
        TestShop.stranger(port())
                .get()
                .uri("/api/v1/openapi")
                .exchange()
                .expectStatus()
                .isUnauthorized()
                .expectHeader()
                .contentType(MediaType.APPLICATION_PROBLEM_JSON);
        JsonNode api =
                openShop()
                        .as(Role.FLOOR)
                        .get()
                        .uri("/api/v1/openapi")
                        .exchange()
                        .expectStatus()
                        .isOk()
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();
        assertThat(api.get("paths").propertyNames())
                .contains("/api/v1/estimates", "/api/v1/shop-book", "/api/v1/quotes/{number}")
                .allMatch(path -> path.startsWith("/api/v1/"));
        assertThat(api.at("/paths/~1api~1v1~1quotes/post/responses/201/content").toString())
                .contains("QuoteDocument");
        assertThat(api.at("/components/schemas/Money").toString()).doesNotContain("number");
    }

    /** The library that describes the interface brings a reader of YAML with it. */
    @Test
    void noAddressTakesYaml() {
        TestShop shop = openShop();
        for (String path : List.of("estimates", "quotes", "customers", "tokens")) {
            shop.as(Role.OWNER)
                    .post()
                    .uri("/api/v1/" + path)
                    .header(HttpHeaders.CONTENT_TYPE, "application/yaml")
                    .body("name: x\n")
                    .exchange()
                    .expectStatus()
                    .isEqualTo(415)
                    .expectHeader()
                    .contentType(MediaType.APPLICATION_PROBLEM_JSON);
        }
        shop.as(Role.OWNER)
                .get()
                .uri("/api/v1/shop-book")
                .header(HttpHeaders.ACCEPT, "application/yaml")
                .exchange()
                .expectStatus()
                .isEqualTo(406);
    }
}
