package strokewright;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.annotation.Profile;
import org.springframework.context.event.EventListener;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/** The last line of the start. The demo shop has one of its own, which says how to sign in. */
@Component
@Profile("!demo")
class WhereToGo {

    private static final Logger log = LoggerFactory.getLogger(WhereToGo.class);

    private final Environment environment;

    WhereToGo(Environment environment) {
        this.environment = environment;
    }

    @EventListener(ApplicationReadyEvent.class)
    void say() {
        log.info(
                "Strokewright runs: open http://localhost:{}",
                environment.getProperty("local.server.port"));
    }
}
