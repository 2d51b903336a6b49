package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.assertj.core.groups.Tuple;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.costing.LabourRate;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;

class ShopBookDoubtsTests {

    @Test
    void hasNoneWhereKAndNFitTheStrength() {
        assertThat(ShopBookDoubts.in(EditedBook.small().book())).isEmpty();
    }

    /** Kalpakjian & Schmid, example 2.1: 690 MPa and 0.5 give 295.93 MPa. */
    @Test
    void impliesTheTensileStrengthOfTheTextbook() {
        assertThat(ShopBookDoubts.impliedTensileMpa(690, 0.5)).isCloseTo(295.93, within(0.005));
    }

    /** K, n and the strength that they imply, all as tabled from the same textbooks. */
    @ParameterizedTest
    @CsvSource({
        "180, 0.20, 107",
        "190, 0.23, 108",
        "202, 0.13, 136",
        "370, 0.30, 191",
        "430, 0.31, 219",
        "530, 0.26, 288",
        "1275, 0.45, 568",
        "315, 0.54, 132",
        "530, 0.44, 238",
        "900, 0.49, 389",
    })
    void impliesTheTabledStrengths(double k, double n, double tensileMpa) {
        // 0.8 MPa: the tabled figures are whole numbers, some cut off
        assertThat(ShopBookDoubts.impliedTensileMpa(k, n)).isCloseTo(tensileMpa, within(0.8));
    }

    @Test
    void doubtsAPairMoreThanAQuarterOffAndSaysWhichKWouldFit() {
        double implied = ShopBookDoubts.impliedTensileMpa(180, 0.20);
        assertThat(doubtsWithTensile(implied / 1.249)).isEmpty();
        assertThat(doubtsWithTensile(implied / 0.751)).isEmpty();
        assertThat(doubtsWithTensile(implied / 0.749)).hasSize(1);
        assertThat(doubtsWithTensile(implied / 1.251))
                .singleElement()
                .satisfies(
                        doubt -> {
                            assertThat(doubt.code()).isEqualTo("hardening-off-tensile-strength");
                            assertThat(doubt.severity()).isEqualTo(Severity.DOUBT);
                            assertThat(doubt.pointer()).isEqualTo("/grades/0/hardeningExponent");
                            double k = (Double) doubt.change().get("strengthCoefficientMpa");
                            assertThat(ShopBookDoubts.impliedTensileMpa(k, 0.20))
                                    .isCloseTo(implied / 1.251, within(1e-9));
                        });
    }

    @Test
    void doesNotCompareAStrengthAsDeliveredHard() {
        EditedBook hard =
                EditedBook.small()
                        .with("/grades/0/tensileMpa", 200)
                        .with("/grades/0/proofMpa", 100);
        assertThat(ShopBookDoubts.in(hard.book())).isEmpty();
        assertThat(ShopBookDoubts.in(hard.without("/grades/0/annealedProofMpa").book())).hasSize(1);
    }

    /** The basis gives 42.10 an hour, to the cent. */
    @ParameterizedTest
    @CsvSource({"42.09, false", "42.10, false", "42.11, false", "42.08, true", "42.12, true"})
    void doubtsARateMoreThanACentOffItsBasis(String stated, boolean doubted) {
        EditedBook book =
                EditedBook.small()
                        .with("/workCentres/0/labourRate/amount", stated)
                        .with(
                                "/workCentres/0/labourBasis",
                                new LabourRate(24.0, 21.0, 2080.0, 392.0, 85.0));

        assertThat(ShopBookDoubts.in(book.book()))
                .extracting(Finding::code, Finding::pointer)
                .containsExactly(
                        doubted
                                ? new Tuple[] {
                                    tuple("rate-off-its-basis", "/workCentres/0/labourRate")
                                }
                                : new Tuple[0]);
        assertThat(ShopBookDoubts.in(book.without("/workCentres/0/labourRate").book())).isEmpty();
    }

    /** Standing and 10 kg make 14 %. */
    @ParameterizedTest
    @CsvSource({"13.5, false", "14.5, false", "13.4, true", "18, true"})
    void doubtsAnAllowanceOffItsBasis(double stated, boolean doubted) {
        EditedBook book =
                EditedBook.small()
                        .with("/times/benchAllowancePercent", stated)
                        .with(
                                "/times/benchAllowanceBasis",
                                Map.of("standing", true, "liftedKg", 10));

        assertThat(ShopBookDoubts.in(book.book())).hasSize(doubted ? 1 : 0);
        assertThat(ShopBookDoubts.in(book.without("/times/benchAllowancePercent").book()))
                .isEmpty();
    }

    @Test
    void tellsThatAnnealingWouldTakeNoTime() {
        assertThat(ShopBookDoubts.in(EditedBook.small().without("/times/annealStandard").book()))
                .extracting(Finding::code, Finding::pointer)
                .containsExactly(tuple("annealing-takes-no-time", "/times/annealStandard"));
    }

    private static List<Finding> doubtsWithTensile(double tensileMpa) {
        return ShopBookDoubts.in(
                EditedBook.small().with("/grades/0/tensileMpa", tensileMpa).book());
    }
}
