package strokewright.access;

import org.jspecify.annotations.Nullable;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Primary;
import strokewright.TestShop;

/**
 * Hashing a password is slow on purpose, and every shop of a test has four users with the same one:
 * that one is hashed once a run, and once known stays known for as long as the service keeps it.
 * All other passwords are hashed as ever.
 */
@TestConfiguration(proxyBeanMethods = false)
public class HashedOnce {

    @Bean
    @Primary
    Passwords hashedOnce() {
        return new Passwords() {

            private final String hash = super.encode(TestShop.PASSWORD);

            @Override
            public String encode(@Nullable CharSequence password) {
                return TestShop.PASSWORD.equals(password) ? hash : super.encode(password);
            }
        };
    }
}
