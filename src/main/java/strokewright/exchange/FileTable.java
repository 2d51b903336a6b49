package strokewright.exchange;

import java.util.Iterator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.office.Value;

/**
 * A table that goes out as a file and comes in again. Each feature that has one makes a bean of it;
 * who may do what stands with the addresses {@code /export/<key>.*} and {@code /import/<key>}.
 */
public interface FileTable {

    /** In addresses. */
    String key();

    /** Over pages, and name of the workbook's sheet. */
    String title();

    /** One thing in it, such as "price". */
    String noun();

    /** In what an import ends: where the link at its end leads. */
    String place();

    /** Key of the place in the navigation. */
    String navigation();

    /** What an import does, in a sentence. */
    String effect();

    /** Whether an import can take out what the file does not have. */
    default boolean removes() {
        return true;
    }

    /** All that a file may have. */
    List<FileColumn> columns();

    /** Those that are written. */
    default List<FileColumn> columnsToWrite(boolean begun) {
        return columns();
    }

    /**
     * What there is, in the columns that are written.
     *
     * @param begun whether it is taken from what is being changed, where that is kept apart
     */
    Iterator<List<Value>> rows(boolean begun);

    /** Changes whenever what is there changes. */
    String version();

    /** What an import of the file would do; changes nothing. */
    Plan plan(FileReading file, boolean remove);

    /**
     * Does it, within the transaction that is open. Waits for whoever else is at it, then plans
     * anew.
     *
     * @return what was done; where it has faults, nothing was
     */
    Plan carryOut(FileReading file, boolean remove);

    /**
     * Remembers what a word of files means; null forgets it.
     *
     * @throws strokewright.quantity.InvalidInput when it cannot mean that
     */
    default void choose(String kind, String word, @Nullable String meaning) {
        throw new UnsupportedOperationException("words of " + key() + " are taken as they stand");
    }
}
