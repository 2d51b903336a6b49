package strokewright.quote;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Which quotes are looked for, by their latest revision; a null or empty filter lets every quote
 * through, and a quote has to pass all of them.
 *
 * @param number or its beginning
 * @param customer part of the name on the quote or of the customer's name today
 * @param customerId in place of the name
 * @param words each of which has to stand somewhere in number, titles, customer, contact,
 *     reference, order number or notes
 * @param item what one of its items has to be
 * @param states any of which fits; lapsed and issued are told apart by the date
 * @param from first day of the date, which is that of issue, or of the last change of a draft
 * @param validFrom first day of the last day that it is valid on
 * @param netFrom of the total before tax, in the quote's own currency
 * @param estimator part of the name of whoever began the quote
 * @param estimatorId in place of the name
 */
record QuoteSearch(
        @Nullable NumberPart number,
        @Nullable String customer,
        @Nullable UUID customerId,
        List<String> words,
        Item item,
        List<State> states,
        @Nullable LocalDate from,
        @Nullable LocalDate to,
        @Nullable LocalDate validFrom,
        @Nullable LocalDate validTo,
        @Nullable BigDecimal netFrom,
        @Nullable BigDecimal netTo,
        @Nullable String estimator,
        @Nullable UUID estimatorId) {

    static final QuoteSearch ALL =
            new QuoteSearch(
                    null, null, null, List.of(), Item.ANY, List.of(), null, null, null, null, null,
                    null, null, null);

    QuoteSearch {
        words = List.copyOf(words);
        states = List.copyOf(states);
    }

    /**
     * What an item of the quote has to be, all of it at once; an option counts too.
     *
     * @param metal code of a grade, or a family of the shop book
     * @param sizeFromMm of the size that it is known by: a diameter, an extent or a length
     * @param thicknessMm of its thickest part
     */
    record Item(
            @Nullable String metal,
            @Nullable Double sizeFromMm,
            @Nullable Double sizeToMm,
            @Nullable Double thicknessMm) {

        static final Item ANY = new Item(null, null, null, null);

        /** Sheet is told to the hundredth; this is what two such figures of one sheet differ by. */
        static final double SAME_THICKNESS_MM = 0.005;

        boolean isAny() {
            return equals(ANY);
        }
    }

    boolean isAll() {
        return equals(ALL);
    }

    Optional<NumberPart> numberPart() {
        return Optional.ofNullable(number);
    }
}
