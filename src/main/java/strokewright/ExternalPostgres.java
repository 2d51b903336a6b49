package strokewright;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;
import org.jspecify.annotations.Nullable;

/** A PostgreSQL that somebody else runs; both roles are tried before anything is built on them. */
record ExternalPostgres(String url, Role service, Role owner) implements Database {

    private static final int OLDEST = 15;
    private static final String USER = "STROKEWRIGHT_DATABASE_USER";
    private static final String PASSWORD = "STROKEWRIGHT_DATABASE_PASSWORD";
    private static final String OWNER_USER = "STROKEWRIGHT_DATABASE_OWNER_USER";
    private static final String OWNER_PASSWORD = "STROKEWRIGHT_DATABASE_OWNER_PASSWORD";

    /**
     * @throws CannotStart if a variable is missing, nobody answers, a role is refused, or the
     *     server is too old
     */
    static ExternalPostgres reach(DatabaseSettings settings) {
        List<String> missing = new ArrayList<>();
        Role service = role(settings.user(), USER, settings.password(), PASSWORD, missing);
        Role owner =
                role(
                        settings.owner().user(),
                        OWNER_USER,
                        settings.owner().password(),
                        OWNER_PASSWORD,
                        missing);
        String url = String.valueOf(settings.url()).trim();
        if (!missing.isEmpty()) {
            throw new CannotStart(
                    "STROKEWRIGHT_DATABASE_URL is set, but these are not: "
                            + String.join(", ", missing)
                            + ".",
                    "Set them too, or leave out the URL to use the embedded database.");
        }
        if (!url.startsWith("jdbc:postgresql:")) {
            throw new CannotStart(
                    "STROKEWRIGHT_DATABASE_URL names no PostgreSQL: " + withoutQuery(url) + ".",
                    "Write it as jdbc:postgresql://host:5432/database.");
        }
        tryOut(url, owner, OWNER_USER, OWNER_PASSWORD);
        tryOut(url, service, USER, PASSWORD);
        return new ExternalPostgres(url, service, owner);
    }

    private static Role role(
            @Nullable String user,
            String userVariable,
            @Nullable String password,
            String passwordVariable,
            List<String> missing) {
        if (user == null || user.isBlank()) {
            missing.add(userVariable);
        }
        if (password == null || password.isEmpty()) {
            missing.add(passwordVariable);
        }
        return new Role(String.valueOf(user), String.valueOf(password));
    }

    private static void tryOut(
            String url, Role role, String userVariable, String passwordVariable) {
        Properties properties = new Properties();
        properties.setProperty("user", role.name());
        properties.setProperty("password", role.password());
        properties.setProperty("connectTimeout", "5");
        properties.setProperty("loginTimeout", "10");
        try (Connection connection = DriverManager.getConnection(url, properties)) {
            int version = connection.getMetaData().getDatabaseMajorVersion();
            if (version < OLDEST) {
                throw new CannotStart(
                        "The database at " + withoutQuery(url) + " is PostgreSQL " + version + ".",
                        "Use PostgreSQL " + OLDEST + " or later.");
            }
        } catch (SQLException e) {
            throw refusal(url, role, userVariable, passwordVariable, e);
        }
    }

    private static CannotStart refusal(
            String url,
            Role role,
            String userVariable,
            String passwordVariable,
            SQLException cause) {
        String where = "The database at " + withoutQuery(url);
        String state = String.valueOf(cause.getSQLState());
        CannotStart refusal =
                switch (state.length() < 2 ? state : state.substring(0, 2)) {
                    case "28" ->
                            new CannotStart(
                                    where + " refuses the user \"" + role.name() + "\".",
                                    "Check " + userVariable + " and " + passwordVariable + ".");
                    case "3D" ->
                            new CannotStart(
                                    where + " does not exist on that server.",
                                    "Create it, or correct STROKEWRIGHT_DATABASE_URL.");
                    case "08" ->
                            new CannotStart(
                                    where + " does not answer.",
                                    "Start that server, or correct STROKEWRIGHT_DATABASE_URL.");
                    default ->
                            new CannotStart(
                                    where
                                            + " cannot be used by \""
                                            + role.name()
                                            + "\": "
                                            + cause.getMessage(),
                                    "Correct that on the server, then start again.");
                };
        refusal.initCause(cause);
        return refusal;
    }

    /** What follows the question mark can hold a password. */
    private static String withoutQuery(String url) {
        return url.replaceFirst("\\?.*", "").replaceFirst("^jdbc:postgresql:(//)?", "");
    }
}
