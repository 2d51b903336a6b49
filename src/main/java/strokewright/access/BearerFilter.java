package strokewright.access;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Optional;
import org.springframework.http.HttpHeaders;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.filter.OncePerRequestFilter;
import strokewright.web.Problem;

/** Signs a program in by the token that it sends (RFC 6750). */
class BearerFilter extends OncePerRequestFilter {

    private static final String SCHEME = "Bearer ";

    private final Logins logins;

    BearerFilter(Logins logins) {
        this.logins = logins;
    }

    @Override
    protected void doFilterInternal(
            HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        String header = request.getHeader(HttpHeaders.AUTHORIZATION);
        if (header == null || !header.regionMatches(true, 0, SCHEME, 0, SCHEME.length())) {
            chain.doFilter(request, response);
            return;
        }
        String token = header.substring(SCHEME.length()).strip();
        Optional<Logins.Login> login = logins.withToken(Tokens.hash(token));
        if (login.isEmpty()) {
            response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer error=\"invalid_token\"");
            Problem.notSignedIn().send(request, response);
            return;
        }
        SecurityContext context = SecurityContextHolder.createEmptyContext();
        context.setAuthentication(login.get().who().authentication());
        SecurityContextHolder.setContext(context);
        chain.doFilter(request, response);
    }
}
