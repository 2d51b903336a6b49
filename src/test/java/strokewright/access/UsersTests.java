package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.http.HttpResponse;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.quantity.InvalidInput;

class UsersTests extends ServiceTest {

    private static final String OTHER_PASSWORD = "another battery horse";

    @Autowired private Shops shops;

    private TestShop shop;
    private Person owner;

    @BeforeEach
    void open() {
        shop = openShop();
        owner = signedIn(Role.OWNER);
    }

    @Test
    void theOwnerLetsSomebodyIn() {
        String name = "new-" + UUID.randomUUID();
        HttpResponse<String> answer = letIn(name, "Sam <b>Example</b>", OTHER_PASSWORD);
        assertThat(Person.target(answer)).isEqualTo("/users");
        assertThat(owner.open("/users").body())
                .contains(name, "Sam &lt;b&gt;Example&lt;/b&gt;")
                .doesNotContain("<b>Example");
        Person sam = new Person(port());
        assertThat(Person.target(sam.signIn(name, OTHER_PASSWORD))).isEqualTo("/");
        assertThat(sam.open("/users").statusCode()).isEqualTo(403);
    }

    @Test
    void faultsStandBesideTheirFieldsAndNothingTypedIsLost() {
        HttpResponse<String> answer = letIn("no spaces", "Sam Example", "short");
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body())
                .contains("value=\"no spaces\"", "value=\"Sam Example\"")
                .contains("1 to 60 characters", "must have 10 to 200 characters")
                .doesNotContain("value=\"short\"");
    }

    @Test
    void aUserNameIsTakenWhereverItIsTaken() {
        String taken = openShop().user(Role.FLOOR).userName();
        assertThat(letIn(taken, "Sam Example", OTHER_PASSWORD).body()).contains("is taken");
        SignedIn me = shop.user(Role.OWNER);
        NewUser same = new NewUser(taken, "Sam Example", Role.FLOOR, OTHER_PASSWORD);
        assertThatThrownBy(() -> shops.admit(me, same)).isInstanceOf(InvalidInput.class);
    }

    @Test
    void whoeverIsShutOutIsOutAtOnceAndCanBeLetInAgain() {
        Person office = signedIn(Role.OFFICE);
        var program = shop.as(Role.OFFICE);
        program.get().uri("/api/v1/tokens").exchange().expectStatus().isOk();

        owner.submit("/users", "/users/" + id(Role.OFFICE) + "/shut-out", Map.of());
        assertThat(office.open("/me").statusCode()).isEqualTo(302);
        program.get().uri("/api/v1/tokens").exchange().expectStatus().isUnauthorized();
        assertThat(Person.target(signIn(Role.OFFICE, TestShop.PASSWORD)))
                .isEqualTo("/sign-in?fault");

        owner.submit("/users", "/users/" + id(Role.OFFICE) + "/let-in", Map.of());
        assertThat(Person.target(signIn(Role.OFFICE, TestShop.PASSWORD))).isEqualTo("/");
    }

    @Test
    void theOwnerCannotShutOutOneself() {
        HttpResponse<String> answer =
                owner.submit("/users", "/users/" + id(Role.OWNER) + "/shut-out", Map.of());
        assertThat(answer.statusCode()).isEqualTo(409);
        assertThat(owner.open("/me").statusCode()).isEqualTo(200);
    }

    @Test
    void peopleOfAnotherShopAreOutOfReach() {
        TestShop other = openShop();
        String path = "/users/" + other.user(Role.OFFICE).userId();
        assertThat(owner.submit("/users", path + "/shut-out", Map.of()).statusCode())
                .isEqualTo(404);
        Map<String, String> password = Map.of("password", OTHER_PASSWORD);
        assertThat(owner.submit("/users", path + "/password", password).statusCode())
                .isEqualTo(404);
        assertThat(owner.open("/users").body()).doesNotContain(other.user(Role.OFFICE).userName());
    }

    @Test
    void aNewPasswordFromTheOwnerEndsTheOldOneAndItsSessions() {
        Person office = signedIn(Role.OFFICE);
        owner.submit(
                "/users",
                "/users/" + id(Role.OFFICE) + "/password",
                Map.of("password", OTHER_PASSWORD));
        assertThat(office.open("/me").statusCode()).isEqualTo(302);
        assertThat(Person.target(signIn(Role.OFFICE, TestShop.PASSWORD)))
                .isEqualTo("/sign-in?fault");
        assertThat(Person.target(signIn(Role.OFFICE, OTHER_PASSWORD))).isEqualTo("/");
    }

    @Test
    void onesOwnPasswordChangesOnlyWithTheOldOneAndSignsOutElsewhere() {
        Person elsewhere = signedIn(Role.OWNER);
        HttpResponse<String> wrong =
                owner.submit(
                        "/me",
                        "/me/password",
                        Map.of("old", "not my password", "password", OTHER_PASSWORD));
        assertThat(wrong.body()).contains("is not your password");
        HttpResponse<String> right =
                owner.submit(
                        "/me",
                        "/me/password",
                        Map.of("old", TestShop.PASSWORD, "password", OTHER_PASSWORD));
        assertThat(Person.target(right)).isEqualTo("/me?changed");
        assertThat(owner.open("/me?changed").body()).contains("The password is changed");
        assertThat(elsewhere.open("/me").statusCode()).isEqualTo(302);
    }

    @Test
    void aTokenMadeOnThePageWorksAndIsNotShownAgain() {
        HttpResponse<String> answer =
                owner.submit("/me", "/me/tokens", Map.of("name", "office pc"));
        Matcher token = Pattern.compile("strokewright_[\\w-]{43}").matcher(answer.body());
        assertThat(token.find()).isTrue();
        TestShop.stranger(port())
                .get()
                .uri("/api/v1/tokens")
                .header("Authorization", "Bearer " + token.group())
                .exchange()
                .expectStatus()
                .isOk();
        assertThat(owner.open("/me").body()).contains("office pc").doesNotContain(token.group());
    }

    @Test
    void aSecondFirstShopIsRefused() {
        NewShop another = new NewShop("Another", "EUR", "Europe/Berlin");
        NewUser somebody =
                new NewUser("x" + UUID.randomUUID(), "Somebody", Role.OWNER, OTHER_PASSWORD);
        assertThatThrownBy(() -> shops.openFirst(another, somebody))
                .isInstanceOf(Shops.AlreadyOpen.class);
    }

    @Test
    void openingAShopNamesEveryFaultTogether() {
        NewShop shop = new NewShop(" ", "EURO", "Berlin");
        NewUser user = new NewUser(null, null, null, "short");
        assertThatThrownBy(() -> shops.open(shop, user))
                .isInstanceOfSatisfying(
                        InvalidInput.class,
                        e ->
                                assertThat(e.faults())
                                        .extracting(f -> f.pointer())
                                        .containsExactlyInAnyOrder(
                                                "/name",
                                                "/currency",
                                                "/timeZone",
                                                "/userName",
                                                "/displayName",
                                                "/role",
                                                "/password"));
    }

    private HttpResponse<String> letIn(String userName, String displayName, String password) {
        return owner.submit(
                "/users",
                "/users",
                Map.of(
                        "userName",
                        userName,
                        "displayName",
                        displayName,
                        "role",
                        "ESTIMATOR",
                        "password",
                        password));
    }

    private UUID id(Role role) {
        return shop.user(role).userId();
    }

    private HttpResponse<String> signIn(Role role, String password) {
        return new Person(port()).signIn(shop.user(role).userName(), password);
    }

    private Person signedIn(Role role) {
        Person person = new Person(port());
        person.signIn(shop.user(role).userName(), TestShop.PASSWORD);
        return person;
    }
}
