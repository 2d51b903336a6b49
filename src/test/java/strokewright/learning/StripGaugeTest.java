package strokewright.learning;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/** The thickness of a test strip in gauge goes by the grade of the strip. */
class StripGaugeTest {

    private static final ShopBook BOOK = StripShop.book();
    private static final String FIELD = "/strips/0/thicknessMm";

    @ParameterizedTest
    @CsvSource({
        "steel,16 ga,1.51892",
        "steel,16 ga galv,1.6129",
        "304,#16,1.5875",
        "al,gauge 14,1.62814",
        "zinc,20 oz copper,0.6858",
        "al,1/16 in,1.5875"
    })
    void isReadByTheGradeOfTheStrip(String grade, String typed, double mm) {
        StripsReading.Read read = read(grade, typed);
        assertThat(read.faults()).doesNotContainKey(FIELD);
        assertThat(read.notes().strips().get(0).thicknessMm()).isEqualTo(mm);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "zinc | 16 ga | gauge 16 of which metal?",
                "steel | 31 ga | gauge 31 is not in the table for steel",
                "al | 16 oz | only copper goes by its weight per square foot",
                "al | 1.234,5 ga | must be a thickness in mm or inch, or a whole gauge"
            })
    void isToldAtItsFieldWhereItIsNone(String grade, String typed, String told) {
        StripsReading.Read read = read(grade, typed);
        assertThat(read.faults().get(FIELD)).startsWith(told);
        assertThat(read.notes().strips().get(0).thicknessMm()).isNull();
    }

    private static StripsReading.Read read(String grade, String thickness) {
        Map<String, String[]> form = new HashMap<>();
        form.put("/tool", new String[] {"shrinker"});
        form.put("/machine", new String[] {"press"});
        form.put("/strips/0/grade", new String[] {grade});
        form.put(FIELD, new String[] {thickness});
        return StripsReading.read(TypedStrips.of(form), BOOK, Numbers.of(Locale.UK));
    }
}
