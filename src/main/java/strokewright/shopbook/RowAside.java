package strokewright.shopbook;

import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/**
 * What a page tells below a row while it is typed, such as how a rate comes about. Declared as a
 * bean; asked only while the row is without faults.
 */
interface RowAside {

    /** Key of the section whose rows it tells about. */
    String section();

    /**
     * @param index of the row in its list; 0 for a single set of fields
     * @return null when there is nothing to tell
     */
    @Nullable Said of(ShopBook book, int index, Numbers numbers);

    record Said(String title, List<Line> lines) {}

    /**
     * @param sum whether it is the result of the lines before it
     */
    record Line(String label, String value, boolean sum) {}
}
