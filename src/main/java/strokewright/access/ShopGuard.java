package strokewright.access;

import jakarta.persistence.EntityManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Map;
import java.util.UUID;
import javax.sql.DataSource;
import org.hibernate.Session;
import org.hibernate.cfg.MappingSettings;
import org.hibernate.cfg.MultiTenancySettings;
import org.hibernate.context.spi.CurrentTenantIdentifierResolver;
import org.hibernate.type.format.jackson.Jackson3JsonFormatMapper;
import org.springframework.boot.hibernate.autoconfigure.HibernatePropertiesCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.orm.jpa.vendor.HibernateJpaDialect;
import org.springframework.orm.jpa.vendor.HibernateJpaVendorAdapter;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionOperations;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Keeps every transaction inside the shop of whoever is signed in, twice: Hibernate filters by
 * {@code @TenantId}, and the database by row-level security on the setting {@code app.shop}. {@code
 * app.user} goes with it for the trail.
 */
@Configuration(proxyBeanMethods = false)
class ShopGuard {

    /** Owns no row: what nobody does touches no shop. */
    static final UUID NO_SHOP = new UUID(0, 0);

    static final UUID NOBODY = new UUID(0, 0);

    @Bean
    HibernatePropertiesCustomizer shopAndDocuments(Documents documents) {
        return (Map<String, Object> properties) -> {
            properties.put(
                    MultiTenancySettings.MULTI_TENANT_IDENTIFIER_RESOLVER, new ShopOfWhoIsHere());
            properties.put(
                    MappingSettings.JSON_FORMAT_MAPPER,
                    new Jackson3JsonFormatMapper(documents.mapper()));
        };
    }

    @Bean
    HibernateJpaVendorAdapter jpaVendorAdapter() {
        HibernateJpaDialect dialect = new ShopSettingDialect();
        return new HibernateJpaVendorAdapter() {
            @Override
            public HibernateJpaDialect getJpaDialect() {
                return dialect;
            }
        };
    }

    /**
     * Sessions are read to learn who is here, so their transactions cannot ask for the shop of who
     * is here: they go around JPA, and touch global tables only. Given to nobody else, since they
     * set no shop.
     */
    @Bean(defaultCandidate = false)
    TransactionOperations springSessionTransactionOperations(DataSource dataSource) {
        TransactionTemplate own = new TransactionTemplate(new JdbcTransactionManager(dataSource));
        own.setPropagationBehavior(TransactionDefinition.PROPAGATION_REQUIRES_NEW);
        return own;
    }

    /** Is asked outside of requests too, so it must never throw. */
    private static class ShopOfWhoIsHere implements CurrentTenantIdentifierResolver<UUID> {

        @Override
        public UUID resolveCurrentTenantIdentifier() {
            return SignedIn.ifAny().map(SignedIn::shopId).orElse(NO_SHOP);
        }

        @Override
        public boolean validateExistingCurrentSessions() {
            return false;
        }
    }

    /**
     * Sets the shop where the transaction begins. In a listener of the transaction it would look
     * tidier, but a failure there never gives the connection back to the pool.
     */
    private static class ShopSettingDialect extends HibernateJpaDialect {

        @Override
        public Object beginTransaction(EntityManager em, TransactionDefinition definition)
                throws SQLException {
            Object transaction = super.beginTransaction(em, definition);
            UUID shop = SignedIn.ifAny().map(SignedIn::shopId).orElse(NO_SHOP);
            UUID user = SignedIn.ifAny().map(SignedIn::userId).orElse(NOBODY);
            em.unwrap(Session.class)
                    .doWork(
                            connection -> {
                                try (PreparedStatement set =
                                        connection.prepareStatement(
                                                "select set_config('app.shop', ?, true),"
                                                        + " set_config('app.user', ?, true)")) {
                                    set.setString(1, shop.toString());
                                    set.setString(2, user.toString());
                                    set.execute();
                                }
                            });
            return transaction;
        }
    }
}
