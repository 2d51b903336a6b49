package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import strokewright.estimate.ShopBook.Unit;

/** Units behind an amount, as people say them. */
class UnitTest {

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource({
        "1, CUT, cut",
        "4, CUT, cuts",
        "0, CUT, cuts",
        "0.5, CUT, cuts",
        "1.5, PIECE, pieces",
        "1, PIECE, piece",
        "2, JOINT, joints",
        "12, DIMENSION, dimensions",
        "1, DIMENSION, dimension",
        "1, METRE, m",
        "4.14, METRE, m",
        "3, KG, kg",
        "1, DM2, dm²",
        "7, DM2, dm²",
    })
    void standsInThePluralWhereThereIsNotJustOne(double amount, Unit unit, String said) {
        assertThat(unit.of(amount)).isEqualTo(said);
    }

    @ParameterizedTest
    @EnumSource
    void symbolsStayAsTheyAreAndWordsTakeAnS(Unit unit) {
        boolean symbol = unit == Unit.METRE || unit == Unit.KG || unit == Unit.DM2;

        assertThat(unit.of(2)).isEqualTo(symbol ? unit.of(1) : unit.of(1) + "s");
    }
}
