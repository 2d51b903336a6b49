package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import strokewright.estimate.AtMarketPrice;
import strokewright.estimate.AtMarketPrice.HoursLeft;
import strokewright.quantity.Money;
import strokewright.web.Numbers;

class MarketWordsTest {

    private static final MarketWords WORDS = new MarketWords(Numbers.of(Locale.ENGLISH));

    @Test
    void saysProfitAndHours() {
        assertThat(WORDS.of(at("20.00", "200.00", "20.00", 11.1, 0.9, 1.25)))
                .map(MarketWordsTest::plain)
                .containsExactly(
                        "10 at 20.00 EUR each bring 200.00 EUR.",
                        "Profit left: 20.00 EUR, 11.1 % of total cost; your price scheme asks for"
                                + " 12 %.",
                        "Hours left with 12 % of profit: 3.60 h (machine 1.80 h), 0.40 h less than"
                                + " the 4.00 h that your price is made from.",
                        "Hours left with no profit: 5.00 h (machine 2.50 h), 1.00 h more than the"
                                + " 4.00 h that your price is made from.");
    }

    @Test
    void saysALossAndThatNoHoursAreLeft() {
        assertThat(WORDS.of(at("5.00", "45.00", "-135.00", -75.0, 0, 0)))
                .map(MarketWordsTest::plain)
                .containsExactly(
                        "10 at 5.00 EUR each bring 50.00 EUR, of which 45.00 EUR are left after"
                                + " discounts and commission.",
                        "A loss of 135.00 EUR, 75.0 % of total cost: total cost is 180.00 EUR.",
                        "No hours are left: what is not hours costs more than that.");
    }

    private static AtMarketPrice at(
            String each, String left, String profit, double percent, double share, double most) {
        Money zero = Money.of("0.00", "EUR");
        return new AtMarketPrice(
                10,
                Money.of(each, "EUR"),
                Money.of(each, "EUR"),
                Money.of("20.16", "EUR"),
                Money.of(each, "EUR").times(10),
                zero,
                zero,
                zero,
                Money.of(left, "EUR"),
                Money.of("180.00", "EUR"),
                zero,
                Money.of(profit, "EUR"),
                percent,
                12,
                null,
                4,
                2,
                new HoursLeft(share, share * 4, share * 2),
                new HoursLeft(most, most * 4, most * 2),
                List.of());
    }

    /** Money is written with spaces that do not break. */
    private static String plain(String sentence) {
        return sentence.replace('\u00a0', ' ').replace('\u202f', ' ');
    }
}
