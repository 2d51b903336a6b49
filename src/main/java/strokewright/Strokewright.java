package strokewright;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** The service. Everything else is wired by the packages themselves. */
@SpringBootApplication
public class Strokewright {

    public static void main(String[] args) {
        SpringApplication.run(Strokewright.class, args);
    }
}
