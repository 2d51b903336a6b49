package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.Estimate.Driver;
import strokewright.quantity.Money;

class DriverWordsTest {

    /** A time standard may be called anything. */
    @ParameterizedTest
    @CsvSource({
        "bite of Soft in copper, test strip, true",
        "stroke work of Soft in copper, test strip, true",
        "feed on Machine, test strip, true",
        "checks with the template, Time a few template checks, false",
        "price of DC04, today's price, false",
        "work by hand, drawing with a template, false",
        "minutes of Final check, Time it on the next job, false",
        "minutes of Print price labels, Time it on the next job, false"
    })
    void saysWhatNarrowsTheDoubt(String parameter, String remedy, boolean byStrip) {
        Money none = Money.of("1.00", "EUR");
        DriverWords.Advice advice = DriverWords.advice(new Driver(parameter, 1, 2, none, none));

        assertThat(advice.text()).contains(parameter).contains(remedy);
        assertThat(advice.byStrip()).isEqualTo(byStrip);
    }
}
