package strokewright.access;

import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/** What has to be known to let somebody sign in; nothing of it is checked yet. */
public record NewUser(
        @Nullable String userName,
        @Nullable String displayName,
        @Nullable Role role,
        @Nullable String password) {

    private static final Pattern USER_NAME = Pattern.compile("[a-z0-9][a-z0-9._@-]{0,59}");
    private static final int SHORTEST_PASSWORD = 10;
    static final int LONGEST_PASSWORD = 200;

    public NewUser {
        userName = userName == null ? null : plain(userName);
    }

    /** As stored and compared: people type capitals and spaces without meaning them. */
    static String plain(String userName) {
        return userName.strip().toLowerCase(Locale.ROOT);
    }

    Faults faults(Faults faults) {
        if (userName == null || !USER_NAME.matcher(userName).matches()) {
            faults.add(
                    "/userName",
                    "must be 1 to 60 characters: letters a to z, digits, point, hyphen, underscore"
                            + " or @");
        }
        faults.text("/displayName", displayName);
        faults.present("/role", role, "estimator, owner, office or floor");
        checkPassword("/password", password, faults);
        return faults;
    }

    /** Length is what counts; no rules about kinds of characters. */
    static void checkPassword(String pointer, @Nullable String password, Faults faults) {
        if (password == null
                || password.codePointCount(0, password.length()) < SHORTEST_PASSWORD
                || password.length() > LONGEST_PASSWORD) {
            faults.add(
                    pointer,
                    "must have " + SHORTEST_PASSWORD + " to " + LONGEST_PASSWORD + " characters");
        }
    }

    @Override
    public String toString() { // may reach a log, the password must not
        return userName + " (" + role + ")";
    }
}
