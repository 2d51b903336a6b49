package strokewright.access;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.web.filter.OncePerRequestFilter;
import strokewright.web.Problem;

/**
 * Sessions, tokens and passwords are read from the database before any controller runs. While it is
 * away that is nobody's wrong password and no fault of the service: 503, come again.
 */
class DatabaseAwayFilter extends OncePerRequestFilter {

    private static final Logger log = LoggerFactory.getLogger(DatabaseAwayFilter.class);

    /** By itself on purpose: a style sheet would be asked for with the session's cookie. */
    private static final String PAGE =
            """
            <!DOCTYPE html>
            <html lang="en"><head><meta charset="utf-8"><title>Not available · Strokewright</title></head>
            <body><main><h1>Not available just now</h1>
            <p>The database does not answer. Nothing was stored. Load the page again in a few seconds.</p>
            </main></body></html>
            """;

    @Override
    protected void doFilterInternal(
            HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        try {
            chain.doFilter(request, response);
        } catch (ServletException | RuntimeException e) {
            if (response.isCommitted() || !Problem.isUnavailable(e)) {
                throw e;
            }
            response.reset();
            answer(request, response, e);
        }
    }

    private static void answer(
            HttpServletRequest request, HttpServletResponse response, Exception cause)
            throws IOException {
        if (request.getServletPath().startsWith("/api/")) {
            Problem.unavailable(cause).send(request, response);
            return;
        }
        log.error("503 {} {}", request.getMethod(), request.getRequestURI(), cause);
        response.setStatus(HttpStatus.SERVICE_UNAVAILABLE.value());
        response.setHeader(HttpHeaders.RETRY_AFTER, "5");
        response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
        response.setHeader("Content-Security-Policy", "default-src 'none'");
        response.setContentType("text/html;charset=utf-8");
        response.getOutputStream().write(PAGE.getBytes(StandardCharsets.UTF_8));
    }
}
