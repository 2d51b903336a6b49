package strokewright.access;

import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.LockedException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;
import org.springframework.security.web.authentication.WebAuthenticationDetails;

/**
 * Checks a name and a password. A database that is away shows as what it is: the filter around all
 * filters answers it, never a refused password.
 */
class SignIn implements AuthenticationProvider {

    private static final Logger log = LoggerFactory.getLogger(SignIn.class);

    private final Logins logins;
    private final Passwords passwords;
    private final Throttle throttle;

    SignIn(Logins logins, Passwords passwords, Throttle throttle) {
        this.logins = logins;
        this.passwords = passwords;
        this.throttle = throttle;
    }

    @Override
    public boolean supports(Class<?> kind) {
        return UsernamePasswordAuthenticationToken.class.isAssignableFrom(kind);
    }

    @Override
    public Authentication authenticate(Authentication asked) {
        String name = NewUser.plain(asked.getName());
        String password = String.valueOf(asked.getCredentials());
        String address = address(asked);
        if (throttle.isShut(name, address)) {
            throw new LockedException("too many attempts");
        }
        Optional<Logins.Login> login = find(name);
        if (!matches(password, login)) {
            throttle.failed(name, address);
            log.info("refused a sign-in from {}", address);
            throw new BadCredentialsException("wrong name or password");
        }
        throttle.succeeded(name, address);
        return login.orElseThrow().who().authentication();
    }

    /** The database would choke on a NUL. */
    private Optional<Logins.Login> find(String name) {
        return name.indexOf(0) < 0 ? logins.named(name) : Optional.empty();
    }

    private boolean matches(String password, Optional<Logins.Login> login) {
        if (login.isEmpty() || password.length() > NewUser.LONGEST_PASSWORD) {
            passwords.matchNobody("");
            return false;
        }
        return passwords.matches(password, login.get().passwordHash()) && login.get().active();
    }

    private static String address(Authentication asked) {
        return asked.getDetails() instanceof WebAuthenticationDetails details
                ? details.getRemoteAddress()
                : "";
    }
}
