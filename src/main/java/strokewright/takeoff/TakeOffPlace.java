package strokewright.takeoff;

import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import strokewright.access.Role;
import strokewright.web.Place;

/** The take-off page's place in the navigation: where the estimator begins. */
@Configuration(proxyBeanMethods = false)
class TakeOffPlace {

    @Bean
    Place takeOff() {
        return new Place(
                "take-off",
                "Take-off",
                "/take-off",
                Set.of(Role.ESTIMATOR.name(), Role.OWNER.name()),
                10);
    }
}
