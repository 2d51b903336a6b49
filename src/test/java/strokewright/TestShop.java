package strokewright;

import java.util.EnumMap;
import java.util.Map;
import java.util.UUID;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.client.RestTestClient;
import strokewright.access.NewShop;
import strokewright.access.NewUser;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import tools.jackson.databind.JsonNode;

/** A shop of one test with its four users, seen from outside (HTTP) and from inside (acting as). */
public final class TestShop {

    public static final String PASSWORD = "correct horse battery";

    private final Map<Role, SignedIn> users = new EnumMap<>(Role.class);
    private final Map<Role, String> tokens = new EnumMap<>(Role.class);
    private final int port;

    private TestShop(int port) {
        this.port = port;
    }

    static TestShop open(Shops shops, int port) {
        String suffix = UUID.randomUUID().toString().substring(0, 13);
        TestShop shop = new TestShop(port);
        SignedIn owner =
                shops.open(
                        new NewShop("Shop " + suffix, "EUR", "Europe/Berlin"),
                        user(Role.OWNER, suffix));
        shop.users.put(Role.OWNER, owner);
        for (Role role : Role.values()) {
            shop.users.computeIfAbsent(role, r -> shops.admit(owner, user(r, suffix)));
        }
        return shop;
    }

    private static NewUser user(Role role, String suffix) {
        return new NewUser(role.word() + "-" + suffix, "The " + role.word(), role, PASSWORD);
    }

    public SignedIn user(Role role) {
        return users.get(role);
    }

    public UUID id() {
        return users.get(Role.OWNER).shopId();
    }

    /** A client of the interface that signs in with a token of this role. */
    public RestTestClient as(Role role) {
        return stranger(port)
                .mutate()
                .defaultHeader(HttpHeaders.AUTHORIZATION, "Bearer " + token(role))
                .build();
    }

    /** A client that does not sign in. */
    public static RestTestClient stranger(int port) {
        return RestTestClient.bindToServer().baseUrl("http://localhost:" + port).build();
    }

    public String token(Role role) {
        return tokens.computeIfAbsent(role, this::newToken);
    }

    private String newToken(Role role) {
        JsonNode made =
                stranger(port)
                        .post()
                        .uri("/api/v1/tokens")
                        .headers(h -> h.setBasicAuth(users.get(role).userName(), PASSWORD))
                        .contentType(MediaType.APPLICATION_JSON)
                        .body("{\"name\":\"test\"}")
                        .exchange()
                        .expectStatus()
                        .isCreated()
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();
        return made.get("token").asString();
    }
}
