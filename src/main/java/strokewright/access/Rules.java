package strokewright.access;

import static strokewright.access.Role.ESTIMATOR;
import static strokewright.access.Role.OFFICE;
import static strokewright.access.Role.OWNER;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpMethod;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AuthorizeHttpRequestsConfigurer;

/**
 * Who may do what, by method and path; the first that fits counts. What no line names is the
 * owner's alone, so that a forgotten line closes a door and opens none. The same table in words:
 * docs/security.md.
 *
 * @param method any when null
 */
record Rules(@Nullable HttpMethod method, String path, Role... roles) {

    private static final Role[] EVERYBODY = Role.values();

    static final List<Rules> OF_THE_API =
            List.of(
                    any("/api/v1/openapi/**", EVERYBODY),
                    any("/api/v1/tokens/**", EVERYBODY),
                    any("/api/v1/estimates/**", ESTIMATOR, OWNER),
                    any("/api/v1/routes/**", ESTIMATOR, OWNER),
                    any("/api/v1/shapes", ESTIMATOR, OWNER),
                    get("/api/v1/shop-book/**", ESTIMATOR, OWNER),
                    any("/api/v1/shop-book/**", OWNER),
                    post("/api/v1/learning/adopt", OWNER),
                    post("/api/v1/learning/adoptions/*/undo", OWNER),
                    get("/api/v1/learning/factors", ESTIMATOR, OWNER),
                    get("/api/v1/learning/adoptions", ESTIMATOR, OWNER),
                    get("/api/v1/learning/drift", ESTIMATOR, OWNER),
                    get("/api/v1/learning/accuracy", ESTIMATOR, OWNER),
                    post("/api/v1/learning/test-strips/*/adopt", OWNER),
                    any("/api/v1/learning/test-strips/**", ESTIMATOR, OWNER),
                    any("/api/v1/customers/**", ESTIMATOR, OFFICE, OWNER),
                    any("/api/v1/quotes/effect", OWNER),
                    get("/api/v1/quotes/**", ESTIMATOR, OFFICE, OWNER),
                    post("/api/v1/quotes/*/issue", ESTIMATOR, OFFICE, OWNER),
                    post("/api/v1/quotes/*/accept", ESTIMATOR, OFFICE, OWNER),
                    post("/api/v1/quotes/*/decline", ESTIMATOR, OFFICE, OWNER),
                    post("/api/v1/quotes/*/withdraw", ESTIMATOR, OFFICE, OWNER),
                    post("/api/v1/quotes/*/take-back", ESTIMATOR, OFFICE, OWNER),
                    post("/api/v1/quotes/*/notes", ESTIMATOR, OFFICE, OWNER),
                    post("/api/v1/quotes/*/delivery-note", ESTIMATOR, OFFICE, OWNER),
                    any("/api/v1/jobs/*/materials/**", ESTIMATOR, OFFICE, OWNER),
                    any("/api/v1/jobs/*/costs/**", ESTIMATOR, OFFICE, OWNER),
                    any("/api/v1/jobs/*/comparison", ESTIMATOR, OFFICE, OWNER),
                    get("/api/v1/comparison", ESTIMATOR, OFFICE, OWNER),
                    get("/api/v1/jobs/**", EVERYBODY),
                    post("/api/v1/bookings/import", OFFICE, OWNER),
                    any("/api/v1/bookings/words/**", OFFICE, OWNER),
                    any("/api/v1/bookings/**", EVERYBODY),
                    any("/api/v1/presence/**", EVERYBODY),
                    post("/api/v1/jobs/*/bookings", EVERYBODY),
                    post("/api/v1/jobs/*/start", EVERYBODY),
                    post("/api/v1/jobs/*/finish", EVERYBODY),
                    any("/api/v1/jobs/**", ESTIMATOR, OFFICE, OWNER),
                    any("/api/v1/quotes/*/attachments/**", ESTIMATOR, OFFICE, OWNER),
                    get("/api/v1/letterhead/**", ESTIMATOR, OFFICE, OWNER),
                    any("/api/v1/letterhead/**", OWNER),
                    any("/api/v1/quotes/**", ESTIMATOR, OWNER));

    static final List<Rules> OF_THE_PAGES =
            List.of(
                    any("/", EVERYBODY),
                    any("/me/**", EVERYBODY),
                    any("/take-off/**", ESTIMATOR, OWNER),
                    any("/shop-book/draft/**", OWNER),
                    get("/export/metal-prices.*", ESTIMATOR, OWNER),
                    get("/export/time-standards.*", ESTIMATOR, OWNER),
                    any("/import/metal-prices/**", OWNER),
                    any("/import/time-standards/**", OWNER),
                    get("/export/time-sheets.*", OFFICE, OWNER),
                    any("/import/time-sheets/**", OFFICE, OWNER),
                    get("/export/customers.*", ESTIMATOR, OFFICE, OWNER),
                    any("/import/customers/**", ESTIMATOR, OFFICE, OWNER),
                    get("/shop-book/**", ESTIMATOR, OWNER),
                    any("/shop-book/**", OWNER),
                    get("/learning", ESTIMATOR, OWNER),
                    get("/learning/drift", ESTIMATOR, OWNER),
                    get("/learning/accuracy", ESTIMATOR, OWNER),
                    post("/learning/adopt", OWNER),
                    post("/learning/adoptions/*/undo", OWNER),
                    post("/learning/test-strips/*/adopt", OWNER),
                    any("/learning/test-strips/**", ESTIMATOR, OWNER),
                    any("/jobs/new", ESTIMATOR, OFFICE, OWNER),
                    any("/jobs/*/costs/**", ESTIMATOR, OFFICE, OWNER),
                    any("/jobs/*/change-orders", ESTIMATOR, OFFICE, OWNER),
                    any("/jobs/*/comparison", ESTIMATOR, OFFICE, OWNER),
                    get("/comparison", ESTIMATOR, OFFICE, OWNER),
                    get("/comparison/*", ESTIMATOR, OFFICE, OWNER),
                    get("/jobs/**", EVERYBODY),
                    any("/book/**", EVERYBODY),
                    post("/jobs/*/start", EVERYBODY),
                    post("/jobs/*/finish", EVERYBODY),
                    any("/jobs/**", ESTIMATOR, OFFICE, OWNER),
                    any("/customers/**", ESTIMATOR, OFFICE, OWNER),
                    any("/quotes/effect", OWNER),
                    get("/quotes/**", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/issue", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/delivery-note", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/accept", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/decline", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/withdraw", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/take-back", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/notes", ESTIMATOR, OFFICE, OWNER),
                    post("/quotes/*/attachments/**", ESTIMATOR, OFFICE, OWNER),
                    any("/letterhead/**", OWNER),
                    any("/quotes/**", ESTIMATOR, OWNER));

    private static Rules get(String path, Role... roles) {
        return new Rules(HttpMethod.GET, path, roles);
    }

    private static Rules post(String path, Role... roles) {
        return new Rules(HttpMethod.POST, path, roles);
    }

    private static Rules any(String path, Role... roles) {
        return new Rules(null, path, roles);
    }

    static void apply(
            List<Rules> rules,
            AuthorizeHttpRequestsConfigurer<HttpSecurity>.AuthorizationManagerRequestMatcherRegistry
                    requests) {
        for (Rules rule : rules) {
            (rule.method == null
                            ? requests.requestMatchers(rule.path)
                            : requests.requestMatchers(rule.method, rule.path))
                    .hasAnyRole(Arrays.stream(rule.roles).map(Role::name).toArray(String[]::new));
        }
        requests.anyRequest().hasRole(OWNER.name());
    }
}
