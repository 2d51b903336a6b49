package strokewright.web;

import com.fasterxml.jackson.annotation.JsonCreator;
import jakarta.servlet.http.HttpServletRequest;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.ComponentScan;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.FilterType;
import org.springframework.http.ResponseEntity;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;

/** The package by itself on a real server: no database, no sign-in, controllers that echo. */
@Configuration(proxyBeanMethods = false)
@EnableAutoConfiguration(
        excludeName = {
            "org.springframework.boot.jdbc.autoconfigure.DataSourceAutoConfiguration",
            "org.springframework.boot.flyway.autoconfigure.FlywayAutoConfiguration",
            "org.springframework.boot.hibernate.autoconfigure.HibernateJpaAutoConfiguration",
            "org.springframework.boot.data.jpa.autoconfigure.DataJpaRepositoriesAutoConfiguration",
            "org.springframework.boot.session.jdbc.autoconfigure.JdbcSessionAutoConfiguration"
        })
@ComponentScan(
        basePackages = "strokewright.web",
        excludeFilters =
                @ComponentScan.Filter(
                        type = FilterType.ASSIGNABLE_TYPE,
                        classes = {Once.class, OldRequestKeys.class}))
@TestComponent // keeps it out of the scan of tests that start the whole service
class WebOnly {

    @Bean
    SecurityFilterChain open(HttpSecurity http) {
        return http.csrf(csrf -> csrf.disable())
                .authorizeHttpRequests(all -> all.anyRequest().permitAll())
                .build();
    }

    record Sample(
            @Nullable String text,
            @Nullable Integer whole,
            @Nullable Long longer,
            @Nullable Double number,
            @Nullable BigDecimal decimal,
            @Nullable Boolean truth,
            boolean flag,
            @Nullable LocalDate day,
            @Nullable Instant moment,
            @Nullable UUID id,
            @Nullable Money price,
            @Nullable List<Integer> wholes,
            @Nullable List<Sample> more,
            @Nullable Map<String, Double> named,
            @Nullable Whom whom) {}

    /** An object, or just the name. */
    record Whom(@Nullable String name, @Nullable Integer age) {

        @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
        public static Whom named(String name) {
            return new Whom(name, null);
        }
    }

    @Api("/api/test")
    static class Echo {

        @PostMapping("/take-off")
        TakeOff takeOff(@RequestBody TakeOff takeOff) {
            return takeOff;
        }

        @PostMapping("/shop-book")
        ShopBook shopBook(@RequestBody ShopBook book) {
            return book;
        }

        @PostMapping("/sample")
        Sample sample(@RequestBody Sample sample) {
            return sample;
        }

        @GetMapping("/numbers/{n}")
        Map<String, Object> number(@PathVariable int n, @RequestParam LocalDate from) {
            return Map.of("n", n, "from", from);
        }

        @GetMapping("/parameter")
        String parameter(HttpServletRequest request) {
            return String.valueOf(request.getParameter("q"));
        }

        @PutMapping("/versioned")
        ResponseEntity<String> change(
                @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
            new VersionTag(7).mustMatch(ifMatch);
            return ResponseEntity.ok().eTag(new VersionTag(8).toString()).body("changed");
        }

        @GetMapping("/versioned")
        ResponseEntity<String> versioned() {
            return ResponseEntity.ok().eTag(new VersionTag(7).toString()).body("seven");
        }

        @GetMapping("/list")
        ResponseEntity<Paging.Listed<Integer>> list(Paging paging, @RequestParam int upTo) {
            int start = paging.after() == null ? 1 : Integer.parseInt(paging.after()) + 1;
            return paging.answer(
                    IntStream.rangeClosed(start, upTo).limit(paging.limit()).boxed().toList(),
                    String::valueOf);
        }

        @GetMapping(path = "/document", produces = "application/json")
        Map<String, Object> document() {
            return Map.of("as", "json");
        }

        @GetMapping(path = "/document", produces = "text/csv")
        byte[] documentAsTable() {
            return "as;csv".getBytes(StandardCharsets.UTF_8);
        }

        @GetMapping("/bytes")
        byte[] bytes() {
            return new byte[] {1, 2, 3};
        }

        @GetMapping("/text")
        String text() {
            return "plain";
        }

        @GetMapping("/invalid")
        void invalid() {
            throw new InvalidInput("/parts/0/blank", "is missing");
        }

        @GetMapping("/broken")
        void broken() {
            throw new IllegalStateException("secret inside");
        }

        @GetMapping("/missing")
        void missing() {
            throw Problem.notFound("Quote Q-2026-0001");
        }
    }

    @Controller
    static class Pages {

        @GetMapping("/page/broken")
        String broken() {
            throw new IllegalStateException("secret inside");
        }

        @GetMapping("/page/list")
        String list(Paging paging) {
            return "problem";
        }

        @GetMapping("/page/missing")
        String missing() {
            throw Problem.notFound("Quote Q-2026-0001");
        }
    }
}
