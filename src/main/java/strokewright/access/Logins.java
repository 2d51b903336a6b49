package strokewright.access;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Component;

/** The rows of {@code login}, a global table: every statement names its shop or its user. */
@Component
class Logins {

    private static final String SELECT =
            "select l.shop_id, s.name as shop_name, l.id, l.user_name, l.display_name, l.role,"
                    + " l.password_hash, l.active from login l join shop s on s.id = l.shop_id ";

    private final JdbcClient sql;
    private final PasswordEncoder passwords;
    private final Clock clock;

    Logins(JdbcClient sql, PasswordEncoder passwords, Clock clock) {
        this.sql = sql;
        this.passwords = passwords;
        this.clock = clock;
    }

    Optional<Login> named(String userName) {
        return sql.sql(SELECT + "where l.user_name = ?")
                .param(NewUser.plain(userName))
                .query(Logins::login)
                .optional();
    }

    Optional<Login> withToken(byte[] hash) {
        return sql.sql(
                        SELECT
                                + "join api_token t on t.shop_id = l.shop_id and t.login_id = l.id"
                                + " where t.token_hash = ? and l.active")
                .param(hash)
                .query(Logins::login)
                .optional();
    }

    List<Login> of(UUID shopId) {
        return sql.sql(SELECT + "where l.shop_id = ? order by l.active desc, l.user_name")
                .param(shopId)
                .query(Logins::login)
                .list();
    }

    void add(SignedIn who, String password) {
        sql.sql(
                        "insert into login (id, shop_id, user_name, display_name, role,"
                                + " password_hash, created_at) values (?, ?, ?, ?, ?, ?, ?)")
                .params(
                        who.userId(),
                        who.shopId(),
                        who.userName(),
                        who.displayName(),
                        who.role().word(),
                        passwords.encode(password),
                        OffsetDateTime.now(clock))
                .update();
    }

    private static Login login(ResultSet row, int number) throws SQLException {
        return new Login(
                new SignedIn(
                        row.getObject("shop_id", UUID.class),
                        row.getString("shop_name"),
                        row.getObject("id", UUID.class),
                        row.getString("user_name"),
                        row.getString("display_name"),
                        Role.of(row.getString("role"))),
                row.getString("password_hash"),
                row.getBoolean("active"));
    }

    record Login(SignedIn who, String passwordHash, boolean active) {}
}
