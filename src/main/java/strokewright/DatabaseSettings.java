package strokewright;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Where the data is. With a {@code url} that PostgreSQL; without one an embedded server over {@code
 * folder}.
 *
 * @param url {@code jdbc:postgresql://host:port/database}
 * @param user the service's role: no superuser, owns nothing
 * @param owner the role that owns the tables: migrations and backup
 * @param folder of the embedded server
 */
@ConfigurationProperties("strokewright.database")
record DatabaseSettings(
        @Nullable String url,
        @Nullable String user,
        @Nullable String password,
        @DefaultValue Owner owner,
        @DefaultValue(".strokewright") Path folder) {

    record Owner(@Nullable String user, @Nullable String password) {}

    boolean embedded() {
        return url == null || url.isBlank();
    }
}
