package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NumberPartTest {

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12})
    void theBeginningOfANumberFitsJustThoseThatBeginSo(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 20_000; i++) {
            QuoteNumber number = any(random);
            QuoteNumber other = random.nextBoolean() ? number : any(random);
            String shown = other.toString();
            String part = shown.substring(0, 2 + random.nextInt(shown.length() - 1));
            assertThat(NumberPart.read(part).orElseThrow().fits(number))
                    .as(part + " of " + number)
                    .isEqualTo(number.toString().startsWith(part));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {13, 14})
    void digitsAloneAreTheBeginningOfTheCount(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 20_000; i++) {
            QuoteNumber number = any(random);
            String shown = "%04d".formatted(any(random).n());
            String digits = shown.substring(0, 1 + random.nextInt(shown.length()));
            assertThat(NumberPart.read(digits).orElseThrow().fits(number))
                    .as(digits + " of " + number)
                    .isEqualTo(
                            String.valueOf(number.n()).startsWith(digits)
                                    || "%04d".formatted(number.n()).startsWith(digits));
        }
    }

    private static QuoteNumber any(Random random) {
        int most = (int) Math.pow(10, 1 + random.nextInt(6));
        return new QuoteNumber(2000 + random.nextInt(130), 1 + random.nextInt(most));
    }

    @Test
    void isTakenInAnyCaseAndWithoutItsLetter() {
        assertThat(NumberPart.read(" q-2026-0012 ")).isEqualTo(NumberPart.read("2026-0012"));
        assertThat(NumberPart.read("Q-2026-")).isEqualTo(NumberPart.read("Q-2026"));
    }

    @Test
    void whatIsNoNumberIsNone() {
        for (String text :
                new String[] {"", "X-1", "Q-20-1", "2026-", "12a", "1234567890", "Q-20-"}) {
            assertThat(NumberPart.read(text)).as(text).isEmpty();
        }
    }
}
