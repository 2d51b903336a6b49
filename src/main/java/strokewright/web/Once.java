package strokewright.web;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.SQLException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataAccessException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.quantity.InvalidInput;
import tools.jackson.databind.SerializationFeature;

/**
 * Does a request that creates something at most once, however often it is sent: with a header
 * {@code Idempotency-Key} the answer is stored in the transaction of its effect, and a repeat gets
 * that answer again (after draft-ietf-httpapi-idempotency-key-header-07).
 */
@Component
public class Once {

    private static final Pattern KEY = Pattern.compile("[\\x21-\\x7e]{1,255}");
    private static final String LOCK_NOT_AVAILABLE = "55P03";

    private final JdbcClient sql;
    private final TransactionTemplate transaction;
    private final Clock clock;
    private final StrictJson json = new StrictJson();

    Once(JdbcClient sql, PlatformTransactionManager transactions, Clock clock) {
        this.sql = sql;
        this.transaction = new TransactionTemplate(transactions);
        this.clock = clock;
    }

    /**
     * Call it outside of a transaction: it opens the one in which the effect happens.
     *
     * @param key the header as it came; without one the effect simply happens
     * @param request what tells this request from others: its path and its bound body
     * @param effect answers with status, body, ETag and Location; what it throws stores nothing
     * @throws Problem 422 when the key was sent with another request, 409 when that request is
     *     still being worked on
     * @throws InvalidInput when the key is none
     */
    public ResponseEntity<byte[]> answer(
            @Nullable String key, String path, Object request, Supplier<ResponseEntity<?>> effect) {
        if (key == null) {
            return transaction.execute(status -> written(effect.get()));
        }
        if (!KEY.matcher(key).matches()) {
            throw new InvalidInput(
                    "", "has a header Idempotency-Key that is not 1 to 255 printable characters");
        }
        byte[] hash = hash(path, request);
        return transaction.execute(status -> once(key, hash, effect));
    }

    private ResponseEntity<byte[]> once(
            String key, byte[] hash, Supplier<ResponseEntity<?>> effect) {
        if (!claim(key, hash)) {
            return repeated(key, hash);
        }
        ResponseEntity<byte[]> answer = written(effect.get());
        sql.sql(
                        "update request_key set status = ?, body = ?, etag = ?, location = ?"
                                + " where shop_id = current_setting('app.shop')::uuid and key = ?")
                .params(
                        answer.getStatusCode().value(),
                        answer.getBody(),
                        answer.getHeaders().getETag(),
                        answer.getHeaders().getFirst(HttpHeaders.LOCATION),
                        key)
                .update();
        return answer;
    }

    /** A second request with the key waits here until the first one has ended. */
    private boolean claim(String key, byte[] hash) {
        sql.sql("set local lock_timeout = '5s'").update();
        try {
            return sql.sql(
                                    "insert into request_key (shop_id, key, request_hash, created_at)"
                                            + " values (current_setting('app.shop')::uuid, ?, ?, ?)"
                                            + " on conflict do nothing")
                            .params(key, hash, OffsetDateTime.now(clock))
                            .update()
                    == 1;
        } catch (DataAccessException e) {
            if (e.getRootCause() instanceof SQLException cause
                    && LOCK_NOT_AVAILABLE.equals(cause.getSQLState())) {
                throw Problem.keyBusy();
            }
            throw e;
        }
    }

    private record Stored(
            byte[] hash,
            int status,
            byte[] body,
            @Nullable String etag,
            @Nullable String location) {}

    private ResponseEntity<byte[]> repeated(String key, byte[] hash) {
        Stored stored = stored(key).orElseThrow(Problem::keyBusy);
        if (!MessageDigest.isEqual(stored.hash, hash)) {
            throw Problem.keyReused();
        }
        ResponseEntity.BodyBuilder answer =
                ResponseEntity.status(stored.status)
                        .contentType(MediaType.APPLICATION_JSON)
                        .header("Idempotency-Replayed", "true");
        if (stored.etag != null) {
            answer.eTag(stored.etag);
        }
        if (stored.location != null) {
            answer.header(HttpHeaders.LOCATION, stored.location);
        }
        return answer.body(stored.body);
    }

    private Optional<Stored> stored(String key) {
        return sql.sql(
                        "select request_hash, status, body, etag, location from request_key"
                                + " where shop_id = current_setting('app.shop')::uuid and key = ?")
                .param(key)
                .query(
                        (row, number) ->
                                new Stored(
                                        row.getBytes(1),
                                        row.getInt(2),
                                        row.getBytes(3),
                                        row.getString(4),
                                        row.getString(5)))
                .optional();
    }

    private ResponseEntity<byte[]> written(ResponseEntity<?> answer) {
        byte[] body =
                answer.getBody() == null
                        ? new byte[0]
                        : json.mapper().writeValueAsBytes(answer.getBody());
        ResponseEntity.BodyBuilder same =
                ResponseEntity.status(answer.getStatusCode()).headers(answer.getHeaders());
        return (body.length == 0 ? same : same.contentType(MediaType.APPLICATION_JSON)).body(body);
    }

    /**
     * Over what was understood, so that spaces and the order of fields make no difference, and over
     * who sent it, so that nobody is answered what somebody else was allowed to do.
     */
    private byte[] hash(String path, Object request) {
        Authentication who = SecurityContextHolder.getContext().getAuthentication();
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update((who == null ? "" : who.getName()).getBytes(StandardCharsets.UTF_8));
            digest.update((byte) 0);
            digest.update(path.getBytes(StandardCharsets.UTF_8));
            digest.update((byte) 0);
            return digest.digest(
                    json.mapper()
                            .writer()
                            .with(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
                            .writeValueAsBytes(request));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
