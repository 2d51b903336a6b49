package strokewright.access;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Clock;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.HttpStatus;
import org.springframework.security.authentication.AuthenticationManager;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.authentication.ProviderManager;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.annotation.web.configurers.HeadersConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.AccessDeniedHandlerImpl;
import org.springframework.security.web.authentication.LoginUrlAuthenticationEntryPoint;
import org.springframework.security.web.authentication.www.BasicAuthenticationFilter;
import org.springframework.security.web.context.SecurityContextHolderFilter;
import org.springframework.security.web.header.writers.CrossOriginOpenerPolicyHeaderWriter.CrossOriginOpenerPolicy;
import org.springframework.security.web.header.writers.CrossOriginResourcePolicyHeaderWriter.CrossOriginResourcePolicy;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;
import org.springframework.security.web.savedrequest.CookieRequestCache;
import strokewright.web.Problem;

/**
 * Two ways in. Programs under {@code /api}: a token or a password with each request, no session, no
 * cookie. People everywhere else: a session, a CSRF token, and nothing that runs from foreign
 * places.
 */
@Configuration(proxyBeanMethods = false)
class SecurityChains {

    private static final String CONTENT_SECURITY_POLICY =
            "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src"
                    + " 'self' data:; connect-src 'self'; form-action 'self'; frame-ancestors"
                    + " 'none'; base-uri 'none'";

    private static final String[] OPEN = {
        "/sign-in",
        FirstStart.PATH,
        "/error",
        "/*.css",
        "/*.js",
        "/*.svg",
        "/webjars/**",
        "/actuator/health/**"
    };

    @Bean
    Passwords passwords() {
        return new Passwords();
    }

    @Bean
    AuthenticationManager authenticationManager(Logins logins, Passwords passwords, Clock clock) {
        return new ProviderManager(new SignIn(logins, passwords, new Throttle(clock)));
    }

    @Bean
    @Order(1)
    SecurityFilterChain chainForPrograms(
            HttpSecurity http, AuthenticationManager manager, Logins logins) {
        headers(http);
        return http.securityMatcher("/api/**")
                .authenticationManager(manager)
                .sessionManagement(s -> s.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .csrf(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .httpBasic(basic -> basic.authenticationEntryPoint(SecurityChains::refuseProgram))
                .addFilterBefore(new BearerFilter(logins), BasicAuthenticationFilter.class)
                .exceptionHandling(
                        refusals ->
                                refusals.authenticationEntryPoint(SecurityChains::refuseProgram)
                                        .accessDeniedHandler(
                                                (request, response, e) ->
                                                        Problem.notAllowed()
                                                                .send(request, response)))
                .authorizeHttpRequests(
                        requests -> {
                            requests.dispatcherTypeMatchers(DispatcherType.ERROR).permitAll();
                            Rules.apply(Rules.OF_THE_API, requests);
                        })
                .build();
    }

    @Bean
    @Order(2)
    SecurityFilterChain chainForPeople(
            HttpSecurity http, AuthenticationManager manager, Shops shops) {
        headers(http);
        CookieRequestCache wanted =
                new CookieRequestCache(); // a session for a stranger costs a row
        wanted.setRequestMatcher(SecurityChains::isPage);
        return http.authenticationManager(manager)
                .csrf(csrf -> csrf.spa())
                .requestCache(cache -> cache.requestCache(wanted))
                .formLogin(
                        form ->
                                form.loginPage("/sign-in")
                                        .defaultSuccessUrl("/")
                                        .failureHandler(SecurityChains::signInFailed))
                .logout(out -> out.logoutUrl("/sign-out").logoutSuccessUrl("/sign-in?out"))
                .addFilterAfter(new FirstStart.Filter(shops), SecurityContextHolderFilter.class)
                .exceptionHandling(
                        refusals ->
                                refusals.authenticationEntryPoint(SecurityChains::askToSignIn)
                                        .accessDeniedHandler(new AccessDeniedHandlerImpl()))
                .authorizeHttpRequests(
                        requests -> {
                            requests.dispatcherTypeMatchers(DispatcherType.ERROR).permitAll();
                            requests.requestMatchers(OPEN).permitAll();
                            Rules.apply(Rules.OF_THE_PAGES, requests);
                        })
                .build();
    }

    private static void headers(HttpSecurity http) {
        http.headers(
                headers ->
                        headers.contentSecurityPolicy(
                                        csp -> csp.policyDirectives(CONTENT_SECURITY_POLICY))
                                .referrerPolicy(r -> r.policy(ReferrerPolicy.SAME_ORIGIN))
                                .permissionsPolicyHeader(
                                        p ->
                                                p.policy(
                                                        "camera=(), microphone=(), geolocation=(),"
                                                                + " payment=(), usb=()"))
                                .crossOriginOpenerPolicy(
                                        c -> c.policy(CrossOriginOpenerPolicy.SAME_ORIGIN))
                                .crossOriginResourcePolicy(
                                        c -> c.policy(CrossOriginResourcePolicy.SAME_ORIGIN))
                                .frameOptions(HeadersConfigurer.FrameOptionsConfig::deny));
    }

    private static void refuseProgram(
            HttpServletRequest request, HttpServletResponse response, AuthenticationException e)
            throws IOException {
        if (e instanceof LockedException) {
            response.setHeader(
                    HttpHeaders.RETRY_AFTER, String.valueOf(Throttle.WINDOW.toSeconds()));
            Problem.tooManyAttempts().send(request, response);
            return;
        }
        response.addHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer");
        response.addHeader(HttpHeaders.WWW_AUTHENTICATE, "Basic realm=\"Strokewright\"");
        Problem.notSignedIn().send(request, response);
    }

    /** A script that asks for a piece of a page could do nothing with the sign-in page. */
    private static void askToSignIn(
            HttpServletRequest request, HttpServletResponse response, AuthenticationException e)
            throws IOException, jakarta.servlet.ServletException {
        if (isFromScript(request)) {
            response.setHeader("HX-Trigger", "signed-out");
            response.setStatus(HttpStatus.UNAUTHORIZED.value());
            return;
        }
        new LoginUrlAuthenticationEntryPoint("/sign-in").commence(request, response, e);
    }

    private static void signInFailed(
            HttpServletRequest request, HttpServletResponse response, AuthenticationException e)
            throws IOException {
        response.sendRedirect(
                request.getContextPath()
                        + (e instanceof LockedException ? "/sign-in?wait" : "/sign-in?fault"));
    }

    private static boolean isPage(HttpServletRequest request) {
        String accept = request.getHeader(HttpHeaders.ACCEPT);
        return HttpMethod.GET.matches(request.getMethod())
                && !isFromScript(request)
                && accept != null
                && accept.contains("text/html");
    }

    private static boolean isFromScript(HttpServletRequest request) {
        return request.getHeader("HX-Request") != null;
    }

    /** Before every other filter, the sessions' too: all of them ask the database. */
    @Bean
    FilterRegistrationBean<DatabaseAwayFilter> databaseAwayFilter() {
        FilterRegistrationBean<DatabaseAwayFilter> filter =
                new FilterRegistrationBean<>(new DatabaseAwayFilter());
        filter.setOrder(Ordered.HIGHEST_PRECEDENCE);
        return filter;
    }
}
