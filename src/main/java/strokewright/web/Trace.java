package strokewright.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.UUID;

/** The id by which a person who reports a problem leads us to its line in the log. */
final class Trace {

    private static final String ATTRIBUTE = Trace.class.getName();

    private Trace() {}

    /** One id for the whole request, however often it is asked for. */
    static String of(HttpServletRequest request) {
        if (request.getAttribute(ATTRIBUTE) instanceof String id) {
            return id;
        }
        String id = UUID.randomUUID().toString().replace("-", "").substring(0, 16);
        request.setAttribute(ATTRIBUTE, id);
        return id;
    }
}
