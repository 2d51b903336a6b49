package strokewright;

import java.util.List;
import javax.sql.DataSource;
import org.springframework.beans.factory.SmartInitializingSingleton;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Refuses to serve over a database that could lose an acknowledged write or show one shop's rows to
 * another. It asks through the service's own pool, after the migrations and before the port opens:
 * settings of a role, a database or the pool beat those of the server's command line.
 */
class StartUpGate implements SmartInitializingSingleton {

    private static final String DURABLE =
            "Set it on (look at ALTER SYSTEM, ALTER DATABASE … SET, ALTER ROLE … SET and the"
                    + " connection's options) and start again.";
    private static final String ORDINARY =
            "Let the service sign in with an ordinary role (STROKEWRIGHT_DATABASE_USER) and give the"
                    + " owner's role in STROKEWRIGHT_DATABASE_OWNER_USER.";
    private static final String GUARDED =
            "Enable and force row-level security on it in the migration that makes it.";

    /** Read before anybody knows the shop. */
    private static final String GLOBAL = "'login', 'api_token'";

    /** Each yields the values for which the database is refused; none when all is well. */
    private static final List<Check> CHECKS =
            List.of(
                    new Check(
                            "select name from pg_settings where name in ('fsync',"
                                    + " 'full_page_writes') and setting <> 'on'",
                            "The database runs with %s off: a crash of the machine would lose data.",
                            DURABLE),
                    new Check(
                            "select name from pg_settings where name = 'synchronous_commit' and"
                                    + " setting = 'off'",
                            "The database runs with %s off: a crash would lose what was already"
                                    + " confirmed.",
                            DURABLE),
                    new Check(
                            "select current_setting('server_version') where"
                                    + " current_setting('server_version_num')::int < 150000",
                            "The database is PostgreSQL %s.",
                            "Use PostgreSQL 15 or later."),
                    new Check(
                            "select rolname from pg_roles where rolname = current_user and (rolsuper"
                                    + " or rolbypassrls)",
                            "The service's database role \"%s\" is a superuser or bypasses"
                                    + " row-level security.",
                            ORDINARY),
                    new Check(
                            "select relname from pg_class where relkind in ('r', 'p') and"
                                    + " pg_has_role(current_user, relowner, 'USAGE') order by relname"
                                    + " limit 1",
                            "The service's database role owns the table \"%s\", so it could lift the"
                                    + " guards on it.",
                            ORDINARY),
                    new Check(
                            "select c.relname from pg_class c join pg_attribute a on a.attrelid ="
                                    + " c.oid and a.attname = 'shop_id' and not a.attisdropped where"
                                    + " c.relkind in ('r', 'p') and c.relnamespace ="
                                    + " 'public'::regnamespace and c.relname not in ("
                                    + GLOBAL
                                    + ") and not (c.relrowsecurity and"
                                    + " c.relforcerowsecurity) order by 1 limit 1",
                            "The table \"%s\" holds rows of shops but no forced row-level security.",
                            GUARDED));

    private final DataSource dataSource;

    StartUpGate(DataSource dataSource) {
        this.dataSource = dataSource;
    }

    @Override
    public void afterSingletonsInstantiated() {
        JdbcClient sql = JdbcClient.create(dataSource);
        for (Check check : CHECKS) {
            for (String refused : sql.sql(check.query).query(String.class).list()) {
                throw new CannotStart(check.sentence.formatted(refused), check.action);
            }
        }
    }

    private record Check(String query, String sentence, String action) {}
}
