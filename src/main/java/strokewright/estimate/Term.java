package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import strokewright.estimate.ShopBook.WorkCentre;

/**
 * Elapsed minutes of one quantity that hang on what varies: {@code paced} times its paced minutes
 * and {@code hand} times its others.
 *
 * @param persons person-minutes for each elapsed minute
 * @param onMachine machine minutes for each elapsed minute
 */
record Term(
        Varying varying,
        double paced,
        double hand,
        double persons,
        double onMachine,
        WorkCentre centre) {

    Term times(double factor) {
        return new Term(varying, paced * factor, hand * factor, persons, onMachine, centre);
    }

    /**
     * A line that costs at least so much.
     *
     * @param elapsed minutes of the plan
     * @param terms the same as they vary
     */
    record Least(
            String name, ShopBook.Standard standard, double elapsed, int people, List<Term> terms) {

        Least {
            terms = List.copyOf(terms);
        }
    }

    /** Everything of one quantity. */
    static final class Sum {
        private final List<Term> terms = new ArrayList<>();
        private final List<Least> leasts = new ArrayList<>();

        void add(Term term) {
            terms.add(term);
        }

        /** Where the terms of a line begin. */
        int size() {
            return terms.size();
        }

        Term last() {
            return terms.get(terms.size() - 1);
        }

        List<Term> since(int size) {
            return List.copyOf(terms.subList(size, terms.size()));
        }

        void add(Least least) {
            leasts.add(least);
        }

        List<Term> terms() {
            return terms;
        }

        List<Least> leasts() {
            return leasts;
        }
    }
}
