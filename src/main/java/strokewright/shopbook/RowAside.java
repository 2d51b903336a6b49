package strokewright.shopbook;

import java.util.List;
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
     */
    List<Said> of(ShopBook book, int index, Numbers numbers);

    record Said(String title, List<RateSteps.Step> steps) {}
}
