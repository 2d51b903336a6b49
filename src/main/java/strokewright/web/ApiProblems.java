package strokewright.web;

import jakarta.persistence.OptimisticLockException;
import jakarta.servlet.http.HttpServletRequest;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.apache.tomcat.util.http.InvalidParameterException;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.TypeMismatchException;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.dao.OptimisticLockingFailureException;
import org.springframework.dao.PessimisticLockingFailureException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.web.firewall.RequestRejectedException;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.web.bind.MissingRequestHeaderException;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.bind.ServletRequestBindingException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.ServletWebRequest;
import org.springframework.web.context.request.WebRequest;
import org.springframework.web.method.annotation.HandlerMethodValidationException;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;
import org.springframework.web.servlet.mvc.method.annotation.ResponseEntityExceptionHandler;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;

/** Turns whatever goes wrong in an {@link Api} controller into problem details. */
@Order(Ordered.HIGHEST_PRECEDENCE)
@RestControllerAdvice(annotations = Api.class)
class ApiProblems extends ResponseEntityExceptionHandler {

    @ExceptionHandler(Exception.class)
    ResponseEntity<Object> anything(Exception e, HttpServletRequest request) throws Exception {
        if (e instanceof AccessDeniedException || e instanceof AuthenticationException) {
            throw e; // the security chain answers these
        }
        return problem(e).answer(request);
    }

    /** What an exception means to whoever sent the request. */
    static Problem problem(Throwable e) {
        if (e instanceof Problem problem) {
            return problem;
        }
        if (e instanceof InvalidInput invalid) {
            return Problem.invalidFields(invalid.faults());
        }
        if (e instanceof InvalidParameterException parameter
                && parameter.getErrorCode() == HttpStatus.CONTENT_TOO_LARGE.value()) {
            return Problem.tooLarge("A form, with the files in it,", 10);
        }
        if (e instanceof RequestRejectedException || e instanceof InvalidParameterException) {
            // thrown wherever a parameter is first read
            return Problem.invalidFields(
                    List.of(new Fault("", "has a parameter with characters that are not allowed")));
        }
        if (anyCause(e, ApiProblems::changedMeanwhile)) {
            return Problem.changedMeanwhile();
        }
        return anyCause(e, ApiProblems::unavailable) ? Problem.unavailable(e) : Problem.failed(e);
    }

    private static boolean anyCause(
            @Nullable Throwable e, java.util.function.Predicate<Throwable> test) {
        for (int depth = 0; e != null && depth < 20; e = e.getCause(), depth++) {
            if (test.test(e)) {
                return true;
            }
        }
        return false;
    }

    /** Flushing by hand throws the raw kind, a repository Spring's. */
    private static boolean changedMeanwhile(Throwable e) {
        return e instanceof OptimisticLockingFailureException
                || e instanceof OptimisticLockException;
    }

    /**
     * No connection, a killed one, a full disk, a deadlock. The pool's own closed connection comes
     * as Hibernate's "Unable to rollback" with no SQL state.
     */
    private static boolean unavailable(Throwable e) {
        return e instanceof DataAccessResourceFailureException
                || e instanceof CannotCreateTransactionException
                || e instanceof PessimisticLockingFailureException
                || e instanceof org.hibernate.TransactionException
                || e instanceof SQLException sql && unavailable(sql.getSQLState());
    }

    /** SQL states by class: connection, resources, system, operator intervention, rollback. */
    private static boolean unavailable(@Nullable String state) {
        return state != null
                && (state.startsWith("08")
                        || state.startsWith("53")
                        || state.startsWith("58")
                        || state.startsWith("57P0")
                        || state.equals("40001")
                        || state.equals("40P01"));
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleHttpMessageNotReadable(
            HttpMessageNotReadableException e,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        return Problem.invalidFields(List.of(new Fault("", "is missing: a JSON document")))
                .answer(servlet(request));
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleTypeMismatch(
            TypeMismatchException e,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        String name =
                e instanceof MethodArgumentTypeMismatchException argument
                        ? argument.getName()
                        : e.getPropertyName();
        return parameter(name, "does not fit" + wanted(e.getRequiredType()))
                .answer(servlet(request));
    }

    private static String wanted(@Nullable Class<?> type) {
        if (type == null) {
            return "";
        }
        return Number.class.isAssignableFrom(type) || type == int.class || type == long.class
                ? ": a whole number"
                : type == java.time.LocalDate.class ? ": a date such as 2026-03-31" : "";
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleMissingServletRequestParameter(
            MissingServletRequestParameterException e,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        return parameter(e.getParameterName(), "is missing").answer(servlet(request));
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleServletRequestBindingException(
            ServletRequestBindingException e,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        return (e instanceof MissingRequestHeaderException header
                        ? parameter(header.getHeaderName(), "is a header that is missing")
                        : Problem.invalidFields(List.of(new Fault("", "cannot be used"))))
                .answer(servlet(request));
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleHandlerMethodValidationException(
            HandlerMethodValidationException e,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        List<Fault> faults = new ArrayList<>();
        e.getParameterValidationResults()
                .forEach(
                        result ->
                                result.getResolvableErrors()
                                        .forEach(
                                                error ->
                                                        faults.add(
                                                                new Fault(
                                                                        "?"
                                                                                + result.getMethodParameter()
                                                                                        .getParameterName(),
                                                                        error
                                                                                .getDefaultMessage()))));
        return Problem.invalidFields(faults).answer(servlet(request));
    }

    /** A parameter of the address has no JSON pointer: it is written as {@code ?name}. */
    private static Problem parameter(@Nullable String name, String message) {
        return Problem.invalidFields(List.of(new Fault("?" + name, message)));
    }

    /** All else that the framework refuses: 404, 405, 406, 415 and their headers. */
    @Override
    protected @Nullable ResponseEntity<Object> handleExceptionInternal(
            Exception e,
            @Nullable Object body,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        Problem problem =
                status.is5xxServerError() ? problem(e) : Problem.ofStatus(status, detail(e));
        ResponseEntity<Object> answer = problem.answer(servlet(request));
        HttpHeaders all = new HttpHeaders(headers);
        all.putAll(answer.getHeaders());
        return new ResponseEntity<>(answer.getBody(), all, answer.getStatusCode());
    }

    private static @Nullable String detail(Exception e) {
        return e instanceof org.springframework.web.ErrorResponse response
                ? response.getBody().getDetail()
                : null;
    }

    private static HttpServletRequest servlet(WebRequest request) {
        return ((ServletWebRequest) request).getRequest();
    }
}
