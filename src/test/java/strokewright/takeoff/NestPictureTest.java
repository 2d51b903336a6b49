package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.EN;

import java.util.List;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.Estimate.PricedPer;
import strokewright.quantity.Money;
import strokewright.sheet.Nest;
import strokewright.sheet.Nesting;
import strokewright.sheet.Nesting.Blank;
import strokewright.sheet.StockSheet;

class NestPictureTest {

    private static final StockSheet SHEET = new StockSheet(2000, 1000, 2, 5, 300);

    @Test
    void saysItsSizeItsCountAndWhatIsCut() {
        MetalUsed metal =
                metal(new Blank("Rim", 1950, 120, 17, true), new Blank("Disc", 400, 400, 1, true));
        String first = picture(metal, 0);

        assertThat(first)
                .contains(">2\u202f000<", ">1\u202f000<")
                .contains(metal.patterns().get(0).times() + " sheets like this")
                .contains("× Rim, 1\u202f950 × 120");
        assertThat(metal.patterns()).hasSizeGreaterThan(1);
    }

    @Test
    void aLetterStandsForTheSameBlankOnEverySheet() {
        MetalUsed metal =
                metal(new Blank("Rim", 1950, 120, 17, true), new Blank("Disc", 400, 400, 5, true));
        for (int i = 0; i < metal.patterns().size(); i++) {
            boolean rims =
                    metal.patterns().get(i).blocks().stream()
                            .anyMatch(b -> b.blank().equals("Rim"));
            String first = metal.patterns().get(0).blocks().get(0).blank();
            String letter = first.equals("Rim") ? "A" : "B";
            assertThat(picture(metal, i).contains(">" + letter + "  ")).isEqualTo(rims);
        }
    }

    @Test
    void keptOffcutsAreDrawnWithTheirSize() {
        assertThat(picture(metal(new Blank("Rim", 1950, 120, 1, true)), 0))
                .contains("hidden-line", "2\u202f000 × 873", "offcuts of a size to keep");
        assertThat(picture(metal(new Blank("Plate", 1990, 990, 1, true)), 0))
                .doesNotContain("hidden-line", "offcuts");
    }

    /** 100,000 strips are one block; a line each would be a picture of a megabyte. */
    @Test
    void finePiecesRunTogetherAndThePictureStaysSmall() {
        MetalUsed metal = metal(new Blank("Strip", 1990, 1, 100_000, true));

        assertThat(picture(metal, 0)).hasSizeLessThan(4000).contains("330 × Strip, 1\u202f990 × 1");
    }

    @Test
    void namesAreWrittenAsTextAndNotAsMarkup() {
        assertThat(picture(metal(new Blank("<b>&", 500, 400, 1, true)), 0))
                .contains("&lt;b&gt;&amp;")
                .doesNotContain("<b>");
    }

    @Test
    void theViewSaysWhetherFewerSheetsCouldDo() {
        NestView.Row row = NestView.row(metal(new Blank("Rim", 1950, 120, 9, true)), EN);

        assertThat(row.metal()).isEqualTo("DC04, 1.5\u00a0mm");
        assertThat(row.figures())
                .extracting(TakeOffView.Figure::value)
                .contains("2 of 2\u202f000 × 1\u202f000", "5.50\u00a0EUR", "108.40\u00a0EUR");
        assertThat(row.notes()).contains("No way of cutting edge to edge takes fewer.");
    }

    private static String picture(MetalUsed metal, int pattern) {
        return new NestPicture(EN).of(metal, metal.patterns().get(pattern), "n");
    }

    private static MetalUsed metal(Blank... blanks) {
        Nest nest = Nesting.of(List.of(blanks), SHEET);
        return new MetalUsed(
                "DC04",
                1.5,
                SHEET.lengthMm(),
                SHEET.widthMm(),
                (int) nest.sheets(),
                nest.yield() * 100,
                23.55,
                Money.of("108.40", "EUR"),
                Money.of("5.50", "EUR"),
                PricedPer.KG,
                null,
                (int) nest.leastSheets(),
                nest.patterns(),
                List.of());
    }
}
