package strokewright.web;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.servlet.ModelAndView;
import strokewright.quantity.Fault;
import tools.jackson.databind.json.JsonMapper;

/**
 * A request that is refused, with its reason. Under {@code /api} it is answered as problem details
 * (RFC 9457), elsewhere as a page. Faults of fields are {@link strokewright.quantity.InvalidInput}
 * instead.
 */
public final class Problem extends RuntimeException {

    private static final Logger log = LoggerFactory.getLogger(Problem.class);
    private static final String AGAIN_AFTER_SECONDS = "5";

    private final HttpStatusCode status;
    private final String kind;
    private final String title;
    private final List<Fault> faults;

    private Problem(
            HttpStatusCode status,
            String kind,
            String title,
            @Nullable String detail,
            List<Fault> faults,
            @Nullable Throwable cause) {
        super(detail, cause);
        this.status = status;
        this.kind = kind;
        this.title = title;
        this.faults = faults;
    }

    private static Problem of(HttpStatus status, String kind, String title, String detail) {
        return new Problem(status, kind, title, detail, List.of(), null);
    }

    static Problem invalidFields(List<Fault> faults) {
        return new Problem(
                HttpStatus.BAD_REQUEST,
                "invalid-fields",
                "What was sent cannot be used",
                null,
                faults,
                null);
    }

    public static Problem notSignedIn() {
        return of(
                HttpStatus.UNAUTHORIZED,
                "not-signed-in",
                "Sign in first",
                "Send a token or a name and password with the request.");
    }

    public static Problem notAllowed() {
        return of(
                HttpStatus.FORBIDDEN,
                "not-allowed",
                "Not allowed",
                "Whoever is signed in may not do this; who may what goes by the role, and the owner"
                        + " gives roles.");
    }

    /**
     * @param what in words, such as "Quote Q-2026-0001"
     */
    public static Problem notFound(String what) {
        return of(HttpStatus.NOT_FOUND, "not-found", "Not found", what + " does not exist.");
    }

    /** The thing is there, but this cannot be done with it now. */
    public static Problem wrongState(String detail) {
        return wrongState(detail, List.of());
    }

    /**
     * @param reasons pointers lead into the thing
     */
    public static Problem wrongState(String detail, List<Fault> reasons) {
        return new Problem(
                HttpStatus.CONFLICT, "wrong-state", "Not possible now", detail, reasons, null);
    }

    /** What was read is no longer what is stored. */
    public static Problem changedMeanwhile() {
        return of(
                HttpStatus.PRECONDITION_FAILED,
                "changed-meanwhile",
                "Changed meanwhile",
                "Somebody has changed it since it was read: read it again.");
    }

    public boolean isChangedMeanwhile() {
        return status.value() == HttpStatus.PRECONDITION_FAILED.value();
    }

    static Problem keptForSomebodyElse() {
        return of(
                HttpStatus.PRECONDITION_FAILED,
                "kept-for-somebody-else",
                "Somebody else is signed in",
                "It waits until whoever filled it in signs in again.");
    }

    /** The database is away, or too busy for now; the request can be sent again. */
    public static Problem unavailable(@Nullable Throwable cause) {
        return new Problem(
                HttpStatus.SERVICE_UNAVAILABLE,
                "unavailable",
                "Not available just now",
                "Nothing was stored. Send the request again in a few seconds.",
                List.of(),
                cause);
    }

    /** Whether an exception that reached a filter means {@link #unavailable}. */
    public static boolean isUnavailable(Throwable e) {
        return ApiProblems.problem(e).status.value() == HttpStatus.SERVICE_UNAVAILABLE.value();
    }

    /** Too many wrong passwords; the sender is told when to come again. */
    public static Problem tooManyAttempts() {
        return of(
                HttpStatus.TOO_MANY_REQUESTS,
                "too-many-attempts",
                "Too many attempts",
                "Too many wrong names or passwords came from there: wait before the next.");
    }

    static Problem ifMatchRequired() {
        return of(
                HttpStatus.PRECONDITION_REQUIRED,
                "if-match-required",
                "If-Match is missing",
                "Send the ETag of what was read as If-Match, so that nobody's change is lost.");
    }

    static Problem keyReused() {
        return of(
                HttpStatus.UNPROCESSABLE_CONTENT,
                "key-reused",
                "Idempotency-Key used before",
                "This Idempotency-Key was sent before with another request: use a new one.");
    }

    static Problem keyBusy() {
        return of(
                HttpStatus.CONFLICT,
                "key-busy",
                "Still at work",
                "A request with this Idempotency-Key is still being worked on: ask again later.");
    }

    static Problem tooLarge() {
        return tooLarge("A body", 1);
    }

    /**
     * @param what it is that is too large
     */
    public static Problem tooLarge(String what, int mostMebibytes) {
        return of(
                HttpStatus.CONTENT_TOO_LARGE,
                "too-large",
                "Too large",
                what + " may have at most " + mostMebibytes + " MB.");
    }

    /**
     * @param kinds that there are
     */
    public static Problem notAcceptable(String kinds) {
        return ofStatus(HttpStatus.NOT_ACCEPTABLE, "There are " + kinds + " here.");
    }

    static Problem failed(Throwable cause) {
        return new Problem(
                HttpStatus.INTERNAL_SERVER_ERROR,
                "failed",
                "Something went wrong here",
                "It is not the request's fault. Whoever runs the service finds the reason in the"
                        + " log under the trace id.",
                List.of(),
                cause);
    }

    /** What the framework or the container refuses by status alone. */
    static Problem ofStatus(HttpStatusCode status, @Nullable String detail) {
        HttpStatus known = HttpStatus.resolve(status.value());
        String title = known == null ? "Refused" : known.getReasonPhrase();
        return new Problem(
                status,
                title.toLowerCase(java.util.Locale.ROOT).replaceAll("[^a-z0-9]+", "-"),
                title,
                detail,
                List.of(),
                null);
    }

    /** The answer under {@code /api}; leaves a line in the log. */
    ResponseEntity<Object> answer(HttpServletRequest request) {
        HttpHeaders headers = new HttpHeaders();
        headers.setContentType(MediaType.APPLICATION_PROBLEM_JSON);
        if (status.value() == HttpStatus.SERVICE_UNAVAILABLE.value()) {
            headers.set(HttpHeaders.RETRY_AFTER, AGAIN_AFTER_SECONDS);
        }
        return new ResponseEntity<>(document(request), headers, status);
    }

    /** The answer elsewhere: a page that says the same. */
    ModelAndView page(HttpServletRequest request) {
        log(request);
        ModelAndView page = new ModelAndView("problem", status);
        page.addObject("title", title);
        page.addObject("detail", getMessage());
        page.addObject("faults", faults);
        page.addObject("traceId", Trace.of(request));
        page.addObject("inFrame", status.is4xxClientError());
        page.addObject("tooLarge", status == HttpStatus.CONTENT_TOO_LARGE);
        page.addObject("back", back(request));
        return page;
    }

    /** Path of the page that the request came from; null where it is none of ours. */
    private static @Nullable String back(HttpServletRequest request) {
        String referer = request.getHeader(HttpHeaders.REFERER);
        try {
            URI from = referer == null ? null : new URI(referer);
            return from != null
                            && request.getServerName().equalsIgnoreCase(from.getHost())
                            && from.getRawPath() != null
                            && from.getRawPath().startsWith("/")
                            && !from.getRawPath().startsWith("//")
                    ? from.getRawPath()
                    : null;
        } catch (URISyntaxException e) {
            return null;
        }
    }

    /** For filters, which have no controller around them. */
    public void send(HttpServletRequest request, HttpServletResponse response) throws IOException {
        ResponseEntity<Object> answer = answer(request);
        response.setStatus(status.value());
        answer.getHeaders()
                .forEach((name, values) -> values.forEach(v -> response.setHeader(name, v)));
        ProblemDetail document = (ProblemDetail) answer.getBody();
        Map<String, Object> fields = new LinkedHashMap<>();
        fields.put("type", document.getType());
        fields.put("title", document.getTitle());
        fields.put("status", document.getStatus());
        if (document.getDetail() != null) {
            fields.put("detail", document.getDetail());
        }
        fields.putAll(document.getProperties());
        response.getOutputStream().write(JsonMapper.shared().writeValueAsBytes(fields));
    }

    private ProblemDetail document(HttpServletRequest request) {
        ProblemDetail document = ProblemDetail.forStatus(status);
        document.setType(URI.create("/problems/" + kind));
        document.setTitle(title);
        document.setDetail(getMessage());
        if (!faults.isEmpty()) {
            document.setProperty("errors", faults);
        }
        document.setProperty("traceId", Trace.of(request));
        log(request);
        return document;
    }

    private void log(HttpServletRequest request) {
        String line = "{} {} {} {} trace {}";
        Object original = request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI);
        Object uri = original == null ? request.getRequestURI() : original;
        Object[] values = {status.value(), kind, request.getMethod(), uri, Trace.of(request)};
        if (status.is5xxServerError()) {
            log.atError().setCause(getCause()).log(line, values);
        } else {
            log.info(line, values);
        }
    }
}
