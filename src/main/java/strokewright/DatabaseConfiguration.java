package strokewright;

import java.util.Map;
import javax.sql.DataSource;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.flyway.autoconfigure.FlywayConfigurationCustomizer;
import org.springframework.boot.flyway.autoconfigure.FlywayConnectionDetails;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Two roles, two ways in: the pool as the service, the migrations as the owner. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(DatabaseSettings.class)
class DatabaseConfiguration {

    @Bean
    Database database(DatabaseSettings settings) {
        return settings.embedded()
                ? EmbeddedPostgres.start(settings.folder())
                : ExternalPostgres.reach(settings);
    }

    @Bean
    JdbcConnectionDetails serviceConnection(Database database) {
        return new ServiceConnection(
                database.service().name(), database.service().password(), database.url());
    }

    @Bean
    FlywayConnectionDetails ownerConnection(Database database) {
        return new OwnerConnection(
                database.owner().name(), database.owner().password(), database.url());
    }

    /** Migrations grant to {@code "${service}"}, whatever that role is called here. */
    @Bean
    FlywayConfigurationCustomizer serviceRoleInMigrations(Database database) {
        return flyway -> flyway.placeholders(Map.of("service", database.service().name()));
    }

    @Bean
    StartUpGate startUpGate(DataSource dataSource) {
        return new StartUpGate(dataSource);
    }

    private record ServiceConnection(String getUsername, String getPassword, String getJdbcUrl)
            implements JdbcConnectionDetails {}

    private record OwnerConnection(String getUsername, String getPassword, String getJdbcUrl)
            implements FlywayConnectionDetails {}
}
