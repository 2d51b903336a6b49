package strokewright.learning;

import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook;
import strokewright.learning.TestStrips.Strip;

/**
 * Strips that a shop with the starter book could have formed: a rim in 1.5 mm deep-drawing steel.
 */
final class MeasuredShop {

    static final String TOOL = "Shrink, steel-faced";
    static final String MACHINE = "Forming machine 5 mm";
    static final String GRADE = "DC04";
    static final String FAMILY = "low-carbon-steel";
    static final double BITE = 0.0187;
    static final double STROKE_WORK_J = 0.92;
    static final double FEED = 0.47;

    private MeasuredShop() {}

    static FormedStrips formed(ShopBook book) {
        return new FormedStrips(
                book.tool(TOOL).orElseThrow(),
                book.machine(MACHINE).orElseThrow(),
                BITE,
                STROKE_WORK_J,
                FEED,
                x -> x);
    }

    static TestStrips notes(ShopBook book) {
        FormedStrips formed = formed(book);
        return formed.of(strip(book, formed, 900, 600, 450, 350, 280, 230, 190));
    }

    /** Two readings say too little. */
    static TestStrips tooFew(ShopBook book) {
        FormedStrips formed = formed(book);
        return formed.of(strip(book, formed, 600, 300));
    }

    private static Strip strip(ShopBook book, FormedStrips formed, double... radii) {
        return formed.strip(
                book.grade(GRADE).orElseThrow(), 1.5, Sense.SHRINK, 700, 32, null, radii);
    }
}
