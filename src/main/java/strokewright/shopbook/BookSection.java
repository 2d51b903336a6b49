package strokewright.shopbook;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A list of alike rows of the shop book, or a single set of fields.
 *
 * @param key in addresses and in the draft's table
 * @param at JSON pointer to it in the book
 * @param noun of one row
 * @param shape how it stands in JSON and on its page
 * @param ordered whether the order of its rows means something
 * @param keys paths of the fields that tell its rows apart; empty where their place does
 */
record BookSection(
        String key,
        String at,
        String title,
        String noun,
        Shape shape,
        boolean ordered,
        List<String> keys,
        List<BookField> fields) {

    enum Shape {
        /** One object. */
        ONE,
        /** A list that can be long: a table, from which single rows are opened. */
        TABLE,
        /** A short list of short rows, all open. */
        OPEN,
        /** An object of members: two fields, the first is the member's name. */
        MEMBERS
    }

    public boolean isOne() {
        return shape == Shape.ONE;
    }

    public boolean isTable() {
        return shape == Shape.TABLE;
    }

    Optional<BookField> field(String path) {
        return fields.stream().filter(f -> f.path().equals(path)).findFirst();
    }

    /** The field whose value stands at that path of a row, or lies around it. */
    Optional<BookField> around(String path) {
        return fields.stream()
                .filter(f -> path.equals(f.path()) || path.startsWith(f.path() + "/"))
                .max(java.util.Comparator.comparingInt(f -> f.path().length()));
    }

    BookField nameField() {
        return fields.get(0);
    }

    Stream<BookField> inTable() {
        return fields.stream().filter(BookField::inTable);
    }
}
