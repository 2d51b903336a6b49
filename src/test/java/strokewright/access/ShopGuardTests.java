package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.SQLException;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Supplier;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.ServiceTest;
import strokewright.TestShop;

/** The database itself keeps shops apart, whatever a statement forgets. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ShopGuardTests extends ServiceTest {

    /** The whole list of tables that belong to no single shop. */
    private static final Set<String> GLOBAL =
            Set.of(
                    "shop",
                    "login",
                    "api_token",
                    "spring_session",
                    "spring_session_attributes",
                    "flyway_schema_history");

    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop mine;
    private TestShop theirs;

    @BeforeAll
    void twoShopsWithAnEditionEach() {
        mine = openShop();
        theirs = openShop();
    }

    @Test
    void aStatementWithoutAnyFilterSeesTheRowsOfItsOwnShopAlone() {
        List<UUID> shops =
                asMine(
                        () ->
                                sql.sql("select distinct shop_id from shop_book_edition")
                                        .query(UUID.class)
                                        .list());
        assertThat(shops).containsExactly(mine.id());
    }

    @Test
    void askingForAnotherShopByNameFindsNothing() {
        assertThat(asMine(() -> editionsOf(theirs.id()))).isZero();
        assertThat(asMine(() -> editionsOf(mine.id()))).isEqualTo(1);
    }

    @Test
    void nobodyTouchesNoShop() {
        long seen =
                new TransactionTemplate(transactions)
                        .execute(
                                status ->
                                        sql.sql("select count(*) from shop_book_edition")
                                                .query(Long.class)
                                                .single());
        assertThat(seen).isZero();
    }

    @Test
    void outsideOfATransactionAShopsTableRefusesLoudly() {
        String state =
                sqlState(
                        () ->
                                mine.user(Role.OWNER)
                                        .call(
                                                () ->
                                                        sql.sql("select n from shop_book_edition")
                                                                .query(Integer.class)
                                                                .list()));
        assertThat(state).isIn("42704", "22P02"); // a fresh connection, a used one
    }

    @Test
    void aRowForAnotherShopIsRefused() {
        assertThat(
                        sqlState(
                                () ->
                                        asMine(
                                                () ->
                                                        sql.sql(
                                                                        "insert into shop_book_edition select"
                                                                                + " ?, 2, 1, jsonb_set(book,"
                                                                                + " '{edition}', '2'), ?,"
                                                                                + " now(), '' from"
                                                                                + " shop_book_edition")
                                                                .params(
                                                                        theirs.id(),
                                                                        theirs.user(Role.OWNER)
                                                                                .userId())
                                                                .update())))
                .isEqualTo("42501");
    }

    @Test
    void theServiceCannotLiftTheGuard() {
        assertThat(
                        sqlState(
                                () ->
                                        asMine(
                                                () ->
                                                        sql.sql(
                                                                        "alter table shop_book_edition"
                                                                                + " disable row level"
                                                                                + " security")
                                                                .update())))
                .isEqualTo("42501");
        assertThat(
                        sqlState(
                                () ->
                                        asMine(
                                                () -> {
                                                    sql.sql("set local row_security = off")
                                                            .update();
                                                    return editionsOf(theirs.id());
                                                })))
                .isEqualTo("42501");
    }

    @Test
    void whatIsFrozenCannotBeChangedOrRemoved() {
        for (String statement :
                List.of(
                        "update shop_book_edition set note = 'changed'",
                        "delete from shop_book_edition",
                        "truncate shop_book_edition",
                        "delete from login",
                        "delete from shop",
                        "select count(*) from flyway_schema_history")) {
            assertThat(sqlState(() -> asMine(() -> runs(statement))))
                    .as(statement)
                    .isEqualTo("42501");
        }
    }

    @Test
    void theTransactionKnowsTheUserForTheTrail() {
        String user =
                asMine(
                        () ->
                                sql.sql("select current_setting('app.user')")
                                        .query(String.class)
                                        .single());
        assertThat(user).isEqualTo(mine.user(Role.OWNER).userId().toString());
    }

    @Test
    void aTransactionCannotChangeItsShopHalfWay() {
        assertThatThrownBy(
                        () ->
                                asMine(
                                        () ->
                                                theirs.user(Role.OWNER)
                                                        .call(() -> editionsOf(theirs.id()))))
                .isInstanceOf(IllegalStateException.class);
    }

    @Test
    void everyTableIsGlobalByNameOrGuardedByItsShop() {
        List<String> tables =
                sql.sql(
                                "select relname from pg_class where relkind in ('r', 'p') and"
                                        + " relnamespace = 'public'::regnamespace order by 1")
                        .query(String.class)
                        .list();
        Set<String> guarded = new TreeSet<>(tables);
        guarded.removeAll(GLOBAL);
        assertThat(guarded).contains("shop_book_edition");
        assertThat(tables).containsAll(GLOBAL);
        for (String table : guarded) {
            assertThat(
                            one(
                                    "select relrowsecurity and relforcerowsecurity from pg_class where oid = ?::regclass",
                                    table))
                    .as("forced row-level security on " + table)
                    .isEqualTo("true");
            assertThat(
                            one(
                                    "select string_agg(pg_get_expr(polqual, polrelid), ';') from pg_policy where"
                                            + " polrelid = ?::regclass",
                                    table))
                    .as("policy of " + table)
                    .isEqualTo("(shop_id = (current_setting('app.shop'::text))::uuid)");
            assertThat(
                            one(
                                    "select attname from pg_index i join pg_attribute a on a.attrelid = i.indrelid and"
                                            + " a.attnum = i.indkey[0] where i.indisprimary and i.indrelid = ?::regclass",
                                    table))
                    .as("first column of the primary key of " + table)
                    .isEqualTo("shop_id");
        }
    }

    @Test
    void aReferenceFromOneShopsRowToAnothersIsImpossible() {
        List<String> loose =
                sql.sql(
                                """
                                select c.conrelid::regclass || ': ' || pg_get_constraintdef(c.oid)
                                from pg_constraint c
                                where c.contype = 'f' and c.connamespace = 'public'::regnamespace
                                  and exists (select from pg_attribute a where a.attrelid = c.confrelid
                                              and a.attname = 'shop_id')
                                  and not exists (
                                    select from unnest(c.conkey, c.confkey) as k (mine, theirs)
                                    join pg_attribute m on m.attrelid = c.conrelid and m.attnum = k.mine
                                    join pg_attribute t on t.attrelid = c.confrelid and t.attnum = k.theirs
                                    where m.attname = 'shop_id' and t.attname = 'shop_id')
                                """)
                        .query(String.class)
                        .list();
        assertThat(loose).isEmpty();
    }

    private String one(String query, String table) {
        return String.valueOf(sql.sql(query).param(table).query().singleValue());
    }

    private int runs(String statement) {
        sql.sql(statement).query().listOfRows();
        return 0;
    }

    private long editionsOf(UUID shop) {
        return sql.sql("select count(*) from shop_book_edition where shop_id = ?")
                .param(shop)
                .query(Long.class)
                .single();
    }

    private <T> T asMine(Supplier<T> work) {
        return mine.user(Role.OWNER)
                .call(() -> new TransactionTemplate(transactions).execute(status -> work.get()));
    }

    private static String sqlState(Supplier<?> work) {
        try {
            Object answer = work.get();
            return "no error, but " + answer;
        } catch (RuntimeException e) {
            for (Throwable cause = e; cause != null; cause = cause.getCause()) {
                if (cause instanceof SQLException refusal) {
                    return refusal.getSQLState();
                }
            }
            throw e;
        }
    }
}
