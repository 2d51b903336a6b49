package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.PassLimit;

/** What a fit puts into the shop book, above all where it only bounds a figure. */
class AdoptionTest {

    private static final TestStrips NOTES = new TestStrips("shrinker", "press", "steel", List.of());
    private static final LocalDate DAY = LocalDate.of(2026, 3, 4);

    @Test
    void fittedFiguresReplaceTheLineOfToolAndFamilyInItsPlace() {
        ShopBook before =
                StripShop.book()
                        .withPassLimits(
                                List.of(
                                        limit("shrinker", "aluminium", 0.011, null),
                                        limit("shrinker", "steel", 0.02, 2.0),
                                        limit("edger", "steel", 0.03, null)));
        Adoption adoption = adoption(Fitted.within(0.013, 0.1), Fitted.within(1.1, 0.1), before);
        List<PassLimit> lines = adoption.in(before).passLimits();

        assertThat(lines).hasSize(3);
        assertThat(lines.get(0)).isEqualTo(before.passLimits().get(0));
        assertThat(lines.get(1))
                .isEqualTo(
                        new PassLimit(
                                "shrinker",
                                "steel",
                                0.013,
                                1.1,
                                0.5,
                                "measured, test strips of 2026-03-04"));
        assertThat(lines.get(2)).isEqualTo(before.passLimits().get(2));
        assertThat(adoption.biteInUse()).isEqualTo(0.02);
        assertThat(adoption.workInUse()).isEqualTo(2.0);
    }

    @Test
    void boundUnderWhatIsInUseLeavesThatAsItIs() {
        // 5 mm for 400 MPa: 1.25 J by the rating
        Adoption adoption =
                adoption(Fitted.within(0.013, 0.1), Fitted.atLeast(0.9), StripShop.book());

        assertThat(adoption.line().strokeWorkJ()).isNull();
        assertThat(adoption.workThen()).isEqualTo(1.25);
    }

    @Test
    void boundOverWhatIsInUseIsTakenOver() {
        Adoption byRating =
                adoption(Fitted.within(0.013, 0.1), Fitted.atLeast(1.6), StripShop.book());
        Adoption byLine =
                adoption(
                        Fitted.atLeast(0.03),
                        Fitted.within(1.1, 0.1),
                        StripShop.book()
                                .withPassLimits(List.of(limit("shrinker", "steel", 0.02, null))));

        assertThat(byRating.line().strokeWorkJ()).isEqualTo(1.6);
        assertThat(byLine.line().biteStrain()).isEqualTo(0.03);
    }

    private static Adoption adoption(Fitted bite, Fitted work, ShopBook book) {
        StripFit fit =
                new StripFit(bite, work, Fitted.within(0.5, 0.1), 1.0, 4, List.of(), List.of());
        return Adoption.of(NOTES, fit, book, DAY);
    }

    private static PassLimit limit(
            String tool, String family, @Nullable Double bite, @Nullable Double work) {
        return new PassLimit(tool, family, bite, work, null, "set");
    }
}
