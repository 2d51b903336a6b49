package strokewright.access;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/** The people of one shop after they were let in: new passwords, and who may no longer sign in. */
@Component
class Users {

    private final JdbcClient sql;
    private final Logins logins;
    private final PasswordEncoder passwords;

    Users(JdbcClient sql, Logins logins, PasswordEncoder passwords) {
        this.sql = sql;
        this.logins = logins;
        this.passwords = passwords;
    }

    List<Logins.Login> of(SignedIn owner) {
        return logins.of(owner.shopId());
    }

    /** Whoever is signed in with the old one has to sign in again. */
    @Transactional
    public void setPassword(SignedIn owner, UUID userId, @Nullable String password) {
        check("/password", password);
        Logins.Login login = oneOf(owner, userId);
        store(login, password);
        endSessions(login, "");
    }

    /**
     * @param session the one in which this happens, which goes on
     */
    @Transactional
    public void changeOwnPassword(
            SignedIn who, String session, @Nullable String old, @Nullable String password) {
        check("/password", password);
        Logins.Login login = oneOf(who, who.userId());
        if (!passwords.matches(String.valueOf(old), login.passwordHash())) {
            throw new InvalidInput("/old", "is not your password");
        }
        store(login, password);
        endSessions(login, session);
    }

    /** Out at once: sessions and tokens end. The row stays, for the trail names it. */
    @Transactional
    public void shutOut(SignedIn owner, UUID userId) {
        if (owner.userId().equals(userId)) {
            throw Problem.wrongState("Nobody can shut out oneself.");
        }
        Logins.Login login = oneOf(owner, userId);
        setActive(login, false);
        endSessions(login, "");
        sql.sql("delete from api_token where shop_id = ? and login_id = ?")
                .params(owner.shopId(), userId)
                .update();
    }

    @Transactional
    public void letInAgain(SignedIn owner, UUID userId) {
        setActive(oneOf(owner, userId), true);
    }

    private Logins.Login oneOf(SignedIn owner, UUID userId) {
        return of(owner).stream()
                .filter(login -> login.who().userId().equals(userId))
                .findFirst()
                .orElseThrow(() -> Problem.notFound("This user"));
    }

    private static void check(String pointer, @Nullable String password) {
        Faults faults = new Faults();
        NewUser.checkPassword(pointer, password, faults);
        faults.throwIfAny();
    }

    private void store(Logins.Login login, @Nullable String password) {
        sql.sql("update login set password_hash = ? where shop_id = ? and id = ?")
                .params(passwords.encode(password), login.who().shopId(), login.who().userId())
                .update();
    }

    private void setActive(Logins.Login login, boolean active) {
        sql.sql("update login set active = ? where shop_id = ? and id = ?")
                .params(active, login.who().shopId(), login.who().userId())
                .update();
    }

    private void endSessions(Logins.Login login, String except) {
        sql.sql("delete from spring_session where principal_name = ? and session_id <> ?")
                .params(login.who().userName(), except)
                .update();
    }
}
