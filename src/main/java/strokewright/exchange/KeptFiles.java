package strokewright.exchange;

import java.time.Clock;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.access.SignedIn;
import strokewright.web.Problem;

/**
 * Files between being shown and being imported: the last one of each person for each table, for a
 * day at most. A browser would not send it again by itself.
 */
@Component
class KeptFiles {

    private static final Duration KEPT = Duration.ofHours(24);
    private static final int LONGEST_NAME = 200;

    private final JdbcClient sql;
    private final TransactionTemplate transaction;
    private final Clock clock;

    KeptFiles(JdbcClient sql, PlatformTransactionManager transactions, Clock clock) {
        this.sql = sql;
        this.transaction = new TransactionTemplate(transactions);
        this.clock = clock;
    }

    /**
     * Keeps it in place of the one before.
     *
     * @return its id
     */
    @Transactional
    public UUID keep(String table, SentFile file) {
        SignedIn who = SignedIn.current();
        sql.sql("delete from kept_file where shop_id = ? and kept_by = ? and purpose = ?")
                .params(who.shopId(), who.userId(), table)
                .update();
        UUID id = UUID.randomUUID();
        sql.sql("insert into kept_file values (?, ?, ?, ?, ?, ?, ?)")
                .params(
                        who.shopId(),
                        id,
                        table,
                        tidy(file.name()),
                        file.content(),
                        who.userId(),
                        OffsetDateTime.now(clock))
                .update();
        return id;
    }

    /**
     * @throws Problem 404 when it is not there, or somebody else's
     */
    @Transactional(readOnly = true)
    public SentFile get(String table, UUID id) {
        SignedIn who = SignedIn.current();
        return sql.sql(
                        """
                        select content, name from kept_file
                        where shop_id = ? and id = ? and kept_by = ? and purpose = ?
                        """)
                .params(who.shopId(), id, who.userId(), table)
                .query((row, number) -> new SentFile(row.getBytes(1), row.getString(2), null))
                .optional()
                .orElseThrow(() -> Problem.notFound("The file that was sent before"));
    }

    @Transactional
    public void forget(UUID id) {
        sql.sql("delete from kept_file where shop_id = ? and id = ?")
                .params(SignedIn.current().shopId(), id)
                .update();
    }

    @Scheduled(initialDelay = 15, fixedDelay = 60, timeUnit = TimeUnit.MINUTES)
    void forgetOld() {
        OffsetDateTime before = OffsetDateTime.now(clock).minus(KEPT);
        for (UUID shop : sql.sql("select id from shop").query(UUID.class).list()) {
            transaction.executeWithoutResult(status -> forgetOld(shop, before));
        }
    }

    /** Nobody is signed in here: the transaction is put into the shop by hand. */
    private void forgetOld(UUID shop, OffsetDateTime before) {
        sql.sql("select set_config('app.shop', ?, true)")
                .param(shop.toString())
                .query(String.class)
                .single();
        sql.sql("delete from kept_file where shop_id = ? and kept_at < ?")
                .params(shop, before)
                .update();
    }

    /** Browsers send the name alone, some programs a whole path. */
    private static String tidy(@Nullable String name) {
        String plain = name == null ? "" : name.replaceAll("\\p{Cntrl}", " ");
        plain = plain.substring(Math.max(plain.lastIndexOf('/'), plain.lastIndexOf('\\')) + 1);
        return plain.length() <= LONGEST_NAME
                ? plain
                : plain.substring(plain.length() - LONGEST_NAME);
    }
}
