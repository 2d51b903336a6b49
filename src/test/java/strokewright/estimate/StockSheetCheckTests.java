package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.quantity.Fault;

/** Stock sheets and their prices in a shop book. */
class StockSheetCheckTests {

    @ParameterizedTest(name = "{0} = {1}")
    @CsvSource({
        "/sheets/0/lengthMm, 9.9, /sheets/0/lengthMm",
        "/sheets/0/lengthMm, 20001, /sheets/0/lengthMm",
        "/sheets/0/widthMm, 10001, /sheets/0/widthMm",
        "/cutting/kerfMm, -0.1, /cutting/kerfMm",
        "/cutting/kerfMm, 50.1, /cutting/kerfMm",
        "/cutting/edgeMarginMm, -1, /cutting/edgeMarginMm",
        "/cutting/keptFromMm, 0.9, /cutting/keptFromMm",
        "/cutting/edgeMarginMm, 500, /sheets/0",
    })
    void namesWhatIsOutOfBounds(String pointer, double value, String fault) {
        assertThat(pointers(byKg().with(pointer, value))).containsExactly(fault);
    }

    @Test
    void acceptsASizeByTheKgAndBreaksThatRise() {
        assertThat(pointers(byKg())).isEmpty();
        assertThat(pointers(bySheet())).isEmpty();
    }

    @Test
    void lengthAndWidthGoTogether() {
        assertThat(pointers(byKg().without("/sheets/0/widthMm"))).containsExactly("/sheets/0");
        assertThat(pointers(byKg().without("/sheets/0/lengthMm"))).containsExactly("/sheets/0");
    }

    @Test
    void hasOnePriceAndNotTwo() {
        assertThat(pointers(bySheet().with("/sheets/0/pricePerKg", eur("5"))))
                .containsExactly("/sheets/0/pricePerKg");
        assertThat(pointers(byKg().without("/sheets/0/pricePerKg")))
                .contains("/sheets/0/pricePerKg");
    }

    @Test
    void aPriceOfASheetIsForOneSizeAndThickness() {
        assertThat(pointers(bySheet().without("/sheets/0/thicknessMm")))
                .contains("/sheets/0/thicknessMm");
        assertThat(pointers(bySheet().without("/sheets/0/lengthMm").without("/sheets/0/widthMm")))
                .containsExactly("/sheets/0/lengthMm");
    }

    @ParameterizedTest(name = "{0} = {1}")
    @CsvSource({
        "/sheets/0/breaks/1/from, 10, is not more than that of the line before",
        "/sheets/0/breaks/1/from, 9, is not more than that of the line before",
        "/sheets/0/breaks/1/from, 20.5, counts sheets: a whole number"
    })
    void breaksRise(String pointer, double from, String message) {
        assertThat(ShopBookCheck.faults(bySheet().with(pointer, from).book()))
                .containsExactly(new Fault(pointer, message));
    }

    @ParameterizedTest(name = "break {0} at {1}")
    @CsvSource({"0, 60, 1", "0, 60.01, 1", "1, 45, 1", "1, 44.99, 0"})
    void eachBreakIsCheaperThanThePriceBefore(int line, String price, int faults) {
        String at = "/sheets/0/breaks/" + line + "/price";
        List<Fault> found = ShopBookCheck.faults(bySheet().with(at, eur(price)).book());

        assertThat(found).hasSize(faults);
        assertThat(found).allMatch(f -> f.pointer().equals(at));
    }

    @Test
    void breaksOfAPriceByTheKgCountAnyMass() {
        assertThat(pointers(byKg().with("/sheets/0/breaks", List.of(from(62.5, "4.50")))))
                .isEmpty();
        assertThat(pointers(byKg().with("/sheets/0/breaks", List.of(Map.of("from", 10)))))
                .containsExactly("/sheets/0/breaks/0/price");
        assertThat(pointers(byKg().with("/sheets/0/breaks", List.of(from(0, "4.50")))))
                .contains("/sheets/0/breaks/0/from");
    }

    @Test
    void twoSizesOfOneThicknessStandSideBySide() {
        EditedBook book = byKg();
        book.with("/sheets/-", book.root().at("/sheets/0")).with("/sheets/2/lengthMm", 2500);

        assertThat(pointers(book)).isEmpty();
        assertThat(pointers(book.with("/sheets/2/lengthMm", 2000.0))).containsExactly("/sheets/2");
    }

    private static EditedBook byKg() {
        return EditedBook.small()
                .with("/sheets/0/lengthMm", 2000.0)
                .with("/sheets/0/widthMm", 1000.0)
                .with("/cutting", Map.of("kerfMm", 2));
    }

    private static EditedBook bySheet() {
        return byKg().without("/sheets/0/pricePerKg")
                .with("/sheets/0/pricePerSheet", eur("60"))
                .with("/sheets/0/breaks", List.of(from(10, "45"), from(50, "40")));
    }

    private static Map<String, Object> from(double from, String price) {
        return Map.of("from", from, "price", eur(price));
    }

    private static Map<String, Object> eur(String amount) {
        return Map.of("amount", amount, "currency", "EUR");
    }

    private static List<String> pointers(EditedBook book) {
        return ShopBookCheck.faults(book.book()).stream().map(Fault::pointer).toList();
    }
}
