package strokewright.whatif;

import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.takeoff.Field;
import strokewright.takeoff.FindingWords;

/**
 * The page of what another shop book would do to the open drafts.
 *
 * @param edition the current one
 * @param tried what the other book has otherwise, in words
 * @param trouble why nothing could be tried; null without
 * @param result null until something is tried
 */
record EffectView(
        int edition,
        List<FieldGroup> groups,
        NewFactor newFactor,
        List<String> tried,
        @Nullable String trouble,
        @Nullable Result result) {

    /**
     * @param open whether anything was typed into it, or is wrong in it
     */
    record FieldGroup(String title, String help, boolean open, List<TypedField> fields) {}

    record TypedField(
            String id,
            String name,
            String label,
            String unit,
            String now,
            String typed,
            @Nullable String fault) {}

    /** A learned factor of another kind of work than those that the book has one of. */
    record NewFactor(
            List<Field.Option> kinds,
            List<Field.Option> families,
            String kind,
            String family,
            String factor,
            @Nullable String kindFault,
            @Nullable String factorFault) {}

    /**
     * @param counted how many are dearer, cheaper, the same
     * @param unchanged numbers of drafts that nothing changes of
     * @param left older drafts that were not looked at; empty without
     * @param next to ask on with
     */
    record Result(
            String heading,
            String currency,
            String counted,
            List<SumRow> sums,
            List<Row> rows,
            List<String> unchanged,
            List<Unreckoned> unreckoned,
            String left,
            @Nullable String next) {}

    record SumRow(
            String label, String unit, String now, String then, String more, String percent) {}

    /**
     * @param kept what the draft says until it is saved again; empty where that is the same
     * @param items each with its own difference, where there are several
     */
    record Row(
            String number,
            String customer,
            String title,
            String bar,
            String netNow,
            String netThen,
            String netMore,
            String percent,
            String hoursNow,
            String hoursMore,
            String kept,
            List<String> items,
            List<FindingWords.Told> appeared,
            List<String> vanished) {

        public boolean isTelling() { // public for the templates
            return !(kept.isEmpty() && items.isEmpty() && appeared.isEmpty() && vanished.isEmpty());
        }
    }

    /** A quote that cannot be reckoned, with the reasons. */
    record Unreckoned(
            String number, String customer, String title, String kept, List<String> reasons) {}
}
