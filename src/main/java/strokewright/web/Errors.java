package strokewright.web;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.RequestMapping;

/**
 * Where the container sends what no controller has answered: unknown addresses, wrong methods,
 * exceptions in filters and in pages. Programs get problem details, people a page.
 */
@Controller
class Errors implements ErrorController {

    @RequestMapping("/error")
    Object error(HttpServletRequest request) {
        Problem problem = problem(request);
        return underApi((String) request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI))
                ? problem.answer(request)
                : problem.page(request);
    }

    static boolean underApi(@Nullable String uri) {
        return uri != null && (uri.equals("/api") || uri.startsWith("/api/"));
    }

    private static Problem problem(HttpServletRequest request) {
        if (request.getAttribute(RequestDispatcher.ERROR_EXCEPTION) instanceof Throwable e) {
            Throwable thrown =
                    e instanceof ServletException && e.getCause() != null ? e.getCause() : e;
            return ApiProblems.problem(thrown);
        }
        int status =
                request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer code
                        ? code
                        : 404; // somebody has typed the address of this page
        return status == HttpStatus.FORBIDDEN.value()
                ? Problem.notAllowed()
                : Problem.ofStatus(HttpStatusCode.valueOf(status), null);
    }
}
