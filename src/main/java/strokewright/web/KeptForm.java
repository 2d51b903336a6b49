package strokewright.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Map;
import java.util.UUID;
import java.util.function.Supplier;
import org.springframework.http.ResponseEntity;
import org.springframework.security.access.AccessDeniedException;

/**
 * A form that a page's script keeps until there is a connection, and then sends for whoever filled
 * it in. It is answered in JSON: where to go on, or the reason why it was refused.
 */
public final class KeptForm {

    /** Names the user who filled the form in. */
    public static final String HEADER = "X-Kept-For";

    private KeptForm() {}

    public static boolean is(HttpServletRequest request) {
        return request.getHeader(HEADER) != null;
    }

    /**
     * Does what a form asks for. Where a browser sent it by itself this ends in a redirect, and
     * refusals are thrown on.
     *
     * @param who is signed in; a form that somebody else filled in is not taken (412)
     * @param work answers where to go on
     */
    public static Object answer(HttpServletRequest request, UUID who, Supplier<String> work) {
        if (!is(request)) {
            return "redirect:" + work.get();
        }
        try {
            if (!request.getHeader(HEADER).equals(who.toString())) {
                throw Problem.keptForSomebodyElse();
            }
            String then = work.get();
            return ResponseEntity.ok(Map.of("then", then, "at", System.currentTimeMillis()));
        } catch (AccessDeniedException e) {
            throw e;
        } catch (RuntimeException e) {
            return ApiProblems.problem(e).answer(request);
        }
    }
}
