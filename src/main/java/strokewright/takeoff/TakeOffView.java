package strokewright.takeoff;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/**
 * What the take-off page shows: the fields with what was typed into them, and the result.
 *
 * @param base path of the page
 * @param item fields about the item
 * @param proposed lines on the item as a whole that the shop book proposes
 * @param marketPrice what the market pays, typed beside the result
 */
public record TakeOffView(
        String base,
        List<FieldView> item,
        List<RowView> parts,
        List<RowView> assembly,
        ProposedView proposed,
        List<RowView> extras,
        FieldView marketPrice,
        ResultView result) {

    /**
     * One field.
     *
     * @param path its name in the form
     * @param id of the element, made from the path
     * @param kind text, number or choice: how it is typed
     * @param value as typed
     * @param shown what counts while it is empty
     * @param options null where text is typed
     * @param fault null when there is none
     */
    record FieldView(
            String path,
            String id,
            String label,
            String kind,
            String unit,
            String value,
            String shown,
            String hint,
            @Nullable List<OptionView> options,
            @Nullable String fault) {

        public boolean isOfManyLines() { // public for the templates
            return kind.equals("lines");
        }

        /** Names need room. */
        public boolean isWide() { // public for the templates
            return kind.equals("text") && !path.equals("/quantities")
                    || path.equals("/information")
                    || path.endsWith("/grade")
                    || path.endsWith("/standard");
        }
    }

    /**
     * @param unit behind an amount of it; null where it has none
     */
    record OptionView(String value, String label, boolean chosen, ShopBook.@Nullable Unit unit) {}

    /**
     * One row: a part, a line of work, or an extra.
     *
     * @param what the row is, to be read out
     * @param kinds of work to choose from; null where there is no choice
     * @param more fields asked on demand
     * @param own minutes in place of the computed ones; empty where nothing is formed
     * @param lines of work of a part, segments of an outline; empty for others
     * @param proposed beside the lines of a part; null for others
     * @param fold of a part; null for others
     */
    record RowView(
            String path,
            String id,
            String what,
            @Nullable FieldView kinds,
            List<FieldView> fields,
            List<FieldView> more,
            List<FieldView> own,
            List<RowView> lines,
            SlotView slot,
            @Nullable FoldView fold,
            @Nullable ProposedView proposed) {

        RowView(
                String path,
                String id,
                String what,
                @Nullable FieldView kinds,
                List<FieldView> fields,
                List<FieldView> more,
                List<FieldView> own,
                List<RowView> lines,
                SlotView slot) {
            this(path, id, what, kinds, fields, more, own, lines, slot, null, null);
        }

        /** Whether its outline may be typed in segments. */
        public boolean isOutline() { // public for the templates
            return kinds != null && kinds.value().equals(Work.FOLLOW_OUTLINE.kind());
        }

        /** Whether somebody stated own minutes, or half of them. */
        public boolean isOverridden() { // public for the templates
            return own.stream().anyMatch(f -> !f.value().isBlank());
        }
    }

    /**
     * What is folded of a part.
     *
     * @param isTyped whether anything is said about it
     * @param bends each with the leg behind it
     */
    record FoldView(boolean isTyped, List<FieldView> fields, List<RowView> bends) {}

    /**
     * Lines that the shop book proposes.
     *
     * @param kept what was taken out, to be sent along
     * @param lines in the order of the rules
     * @param cautions that the lines call for and nothing before them did
     */
    record ProposedView(
            String id,
            List<HiddenField> kept,
            List<ProposedLine> lines,
            List<CautionView> cautions) {}

    record HiddenField(String path, String value) {}

    /**
     * One of them.
     *
     * @param id of its button
     * @param action of its button
     * @param field hidden one that takes it out
     * @param minutes each and once, in words
     */
    record ProposedLine(
            String id,
            String action,
            String field,
            String code,
            String standard,
            String amount,
            String unit,
            String minutes,
            boolean out) {}

    /**
     * What is told beside a row.
     *
     * @param waits nothing was typed into it yet, so it does not count
     * @param incomplete it was left out of the figures
     */
    record SlotView(
            String id,
            boolean waits,
            boolean incomplete,
            List<Figure> figures,
            List<FindingWords.Told> findings,
            List<CautionView> cautions,
            List<String> pictures,
            WorkingView working) {

        static SlotView empty(String id) {
            return new SlotView(
                    id, true, false, List.of(), List.of(), List.of(), List.of(), WorkingView.EMPTY);
        }
    }

    record Figure(String name, String value, String unit) {}

    public record CautionView(String title, String text) {}

    /**
     * Why some figures are what they are.
     *
     * @param origins where inputs come from, each once, by the mark that they carry
     */
    record WorkingView(List<WhyView> lines, Map<String, String> origins) {

        static final WorkingView EMPTY = new WorkingView(List.of(), Map.of());
    }

    /**
     * One figure with its formula and what went into it.
     *
     * @param fold inputs that are too many to be read in a line; null without
     */
    record WhyView(
            String figure,
            String value,
            String formula,
            String source,
            List<InputView> inputs,
            @Nullable RestView fold) {}

    /**
     * A long list of inputs.
     *
     * @param mark of their origin; empty for what is computed above
     */
    record RestView(String summary, String mark, List<String> inputs) {}

    /**
     * @param mark of the origin; empty for what is computed above
     */
    record InputView(String name, String value, String unit, String mark) {}

    /**
     * A field that keeps the take-off from being complete.
     *
     * @param wanted still empty, rather than wrong
     */
    record FaultView(String fieldId, String where, String message, boolean wanted) {}

    /**
     * The figures.
     *
     * @param main null while nothing can be estimated
     * @param price of all quantities; null while there is none
     * @param plan tools and order; null without forming
     * @param assumed what is in doubt about the hours; null when they rest on test strips
     * @param market null while no market's price is typed
     * @param saved when this was kept, as a time of day; null when it was not
     */
    public record ResultView(
            @Nullable MainView main,
            @Nullable PriceView price,
            @Nullable PlanView plan,
            boolean feasible,
            List<FaultView> faults,
            List<String> leftOut,
            List<FindingWords.Told> findings,
            List<CautionView> cautions,
            List<WorkedOut> workedOut,
            boolean complete,
            @Nullable Integer edition,
            @Nullable String assumed,
            @Nullable MarketView market,
            @Nullable String saved) {}

    /**
     * What a market's price leaves.
     *
     * @param loss whether it leaves less than the cost
     * @param fault what is wrong with the typed price; null where nothing is
     */
    record MarketView(List<String> words, boolean loss, @Nullable String fault) {

        static MarketView unread(String fault) {
            return new MarketView(List.of(), false, fault);
        }
    }

    /**
     * Tools and order of one item.
     *
     * @param isLong too long to be shown unasked
     */
    public record PlanView(String picture, List<String> words, boolean isLong) {

        private static final int LONG = 10;

        public static @Nullable PlanView of(Estimate estimate, String id, Numbers numbers) {
            Estimate.Plan plan = estimate.plan();
            if (plan == null) {
                return null;
            }
            ToolPlanPicture strip = new ToolPlanPicture(numbers);
            return new PlanView(
                    strip.of(estimate, plan, id), strip.words(plan), plan.visits().size() > LONG);
        }
    }

    /** A field that was left empty because others say what belongs into it. */
    record WorkedOut(String fieldId, String text) {}

    /**
     * The main quantity.
     *
     * @param nest null where nothing is bought of sheet
     */
    record MainView(
            int quantity,
            String priceEach,
            String offer,
            String hours,
            String currency,
            @Nullable NestView nest,
            WorkingView working) {}
}
