package strokewright.exchange;

import jakarta.servlet.FilterChain;
import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.http.HttpMethod;
import org.springframework.web.filter.OncePerRequestFilter;
import strokewright.office.Limits;
import strokewright.web.Problem;

/**
 * Refuses a form with a file that is too large before anything looks into it: the container would
 * not read its fields, and the guard against foreign forms would miss its token and say so instead.
 */
@Configuration(proxyBeanMethods = false)
class LargeForms {

    private static final long LARGEST = Limits.IMPORT.bytes() + (64L << 10);

    @Bean
    static FilterRegistrationBean<OncePerRequestFilter> refusalOfLargeForms() {
        FilterRegistrationBean<OncePerRequestFilter> filter =
                new FilterRegistrationBean<>(new Refusal());
        filter.setOrder(Ordered.HIGHEST_PRECEDENCE + 1);
        return filter;
    }

    private static final class Refusal extends OncePerRequestFilter {

        @Override
        protected void doFilterInternal(
                HttpServletRequest request, HttpServletResponse response, FilterChain chain)
                throws ServletException, IOException {
            String type = request.getContentType();
            boolean form = type != null && type.startsWith("multipart/");
            if (!form || request.getContentLengthLong() <= LARGEST) {
                chain.doFilter(request, response);
                return;
            }
            Problem refusal = Problem.tooLarge("A file", Limits.IMPORT.bytes() >> 20);
            if (request.getRequestURI().startsWith("/api/")) {
                refusal.send(request, response);
                return;
            }
            request.setAttribute(RequestDispatcher.ERROR_EXCEPTION, refusal);
            request.setAttribute(RequestDispatcher.ERROR_REQUEST_URI, request.getRequestURI());
            request.getRequestDispatcher("/error").forward(new WithoutForm(request), response);
        }
    }

    /** The page that says so must not look into the form either. */
    private static final class WithoutForm extends HttpServletRequestWrapper {

        WithoutForm(HttpServletRequest request) {
            super(request);
        }

        @Override
        public @Nullable String getContentType() {
            return null;
        }

        @Override
        public String getMethod() {
            return HttpMethod.GET.name();
        }
    }
}
