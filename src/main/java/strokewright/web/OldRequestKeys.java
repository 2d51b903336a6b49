package strokewright.web;

import java.time.Clock;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import org.springframework.context.annotation.Configuration;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.scheduling.annotation.EnableScheduling;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Forgets what was answered to requests ({@link Once}) after 72 hours, whether or not their shop is
 * still at work: the answers hold names and prices. Each instance does so; rows that another one is
 * at are left to it.
 */
@Configuration(proxyBeanMethods = false)
@EnableScheduling
class OldRequestKeys {

    private static final Duration KEPT = Duration.ofHours(72);
    private static final int AT_A_TIME = 1000;

    private final JdbcClient sql;
    private final TransactionTemplate transaction;
    private final Clock clock;

    OldRequestKeys(JdbcClient sql, PlatformTransactionManager transactions, Clock clock) {
        this.sql = sql;
        this.transaction = new TransactionTemplate(transactions);
        this.clock = clock;
    }

    @Scheduled(initialDelay = 10, fixedDelay = 60, timeUnit = TimeUnit.MINUTES)
    void forget() {
        OffsetDateTime before = OffsetDateTime.now(clock).minus(KEPT);
        for (UUID shop : sql.sql("select id from shop").query(UUID.class).list()) {
            int forgotten;
            do {
                forgotten = transaction.execute(status -> forget(shop, before));
            } while (forgotten == AT_A_TIME);
        }
    }

    /** Nobody is signed in here: the transaction is put into the shop by hand. */
    private int forget(UUID shop, OffsetDateTime before) {
        sql.sql("select set_config('app.shop', ?, true)")
                .param(shop.toString())
                .query(String.class)
                .single();
        return sql.sql(
                        """
                        delete from request_key
                        where shop_id = ? and key in (
                          select key from request_key
                          where shop_id = ? and created_at < ?
                          limit ? for update skip locked)
                        """)
                .params(shop, shop, before, AT_A_TIME)
                .update();
    }
}
