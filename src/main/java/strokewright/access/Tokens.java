package strokewright.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Base64;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The tokens by which programs sign in. Kept is a hash; the token itself is shown once. */
@Component
class Tokens {

    /** Lets a scanner for leaked secrets, and a person, tell what it is. */
    private static final String PREFIX = "strokewright_";

    private final SecureRandom random = new SecureRandom();
    private final JdbcClient sql;
    private final Clock clock;

    Tokens(JdbcClient sql, Clock clock) {
        this.sql = sql;
        this.clock = clock;
    }

    /** Without the secret. */
    record Token(UUID id, String name, Instant createdAt) {}

    /**
     * @param token the secret, never to be seen again
     */
    record NewToken(UUID id, String name, Instant createdAt, String token) {}

    NewToken create(SignedIn who, String name) {
        byte[] secret = new byte[32];
        random.nextBytes(secret);
        NewToken made =
                new NewToken(
                        UUID.randomUUID(),
                        name,
                        clock.instant().truncatedTo(ChronoUnit.MICROS),
                        PREFIX + Base64.getUrlEncoder().withoutPadding().encodeToString(secret));
        sql.sql(
                        "insert into api_token (id, shop_id, login_id, name, token_hash, created_at)"
                                + " values (?, ?, ?, ?, ?, ?)")
                .params(
                        made.id(),
                        who.shopId(),
                        who.userId(),
                        name,
                        hash(made.token()),
                        OffsetDateTime.ofInstant(made.createdAt(), java.time.ZoneOffset.UTC))
                .update();
        return made;
    }

    List<Token> of(SignedIn who) {
        return sql.sql(
                        "select id, name, created_at from api_token where shop_id = ? and login_id ="
                                + " ? order by created_at, id")
                .params(who.shopId(), who.userId())
                .query(
                        (row, number) ->
                                new Token(
                                        row.getObject(1, UUID.class),
                                        row.getString(2),
                                        row.getObject(3, OffsetDateTime.class).toInstant()))
                .list();
    }

    /** Answers whether it was there. */
    boolean delete(SignedIn who, UUID id) {
        return sql.sql("delete from api_token where shop_id = ? and login_id = ? and id = ?")
                        .params(who.shopId(), who.userId(), id)
                        .update()
                > 0;
    }

    static byte[] hash(String token) {
        try {
            return MessageDigest.getInstance("SHA-256")
                    .digest(token.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
