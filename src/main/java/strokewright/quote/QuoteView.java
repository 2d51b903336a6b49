package strokewright.quote;

import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.takeoff.FindingWords;
import strokewright.takeoff.NestView;
import strokewright.takeoff.PriceView;
import strokewright.takeoff.TakeOffView;

/** What the page of a quote shows, in words and in numbers as the reader writes them. */
record QuoteView(
        QuoteDocument quote,
        String customer,
        String tax,
        String net,
        String withTax,
        String currency,
        int nextPosition,
        List<ItemView> items) {

    /**
     * One item.
     *
     * @param main what counts in the total
     * @param quantities that are priced
     * @param price of all quantities
     * @param plan tools and order; null without forming
     * @param nest sheet of the main quantity; null where nothing is bought of it
     * @param routes how many other routes are kept with it
     * @param assumed what is in doubt about the hours; null when they rest on test strips
     */
    record ItemView(
            int position,
            String title,
            boolean option,
            boolean feasible,
            String information,
            List<Found> findings,
            QuantityRow main,
            int mainQuantity,
            List<Integer> quantities,
            PriceView price,
            List<LineRow> lines,
            TakeOffView.@Nullable PlanView plan,
            @Nullable NestView nest,
            List<Drawn> drawn,
            @Nullable String assumed,
            List<TakeOffView.CautionView> cautions,
            int routes) {}

    /**
     * A finding with the place that it speaks of.
     *
     * @param where empty for the item as a whole
     */
    record Found(String where, FindingWords.Told told) {}

    /** Pictures of one line of work. */
    record Drawn(String work, List<String> pictures) {}

    record QuantityRow(String quantity, String priceEach, String offer) {}

    /**
     * One line of work; figures that it has none of are empty.
     *
     * @param pictures of its passes
     * @param own says that its minutes are somebody's own, in place of which, and why
     */
    record LineRow(
            String work,
            String own,
            String tools,
            String passes,
            String strokes,
            String elapsed,
            String person,
            String setup,
            List<String> pictures) {}

    /** One line of the list. */
    record EntryRow(
            String number,
            String date,
            String customer,
            String title,
            String information,
            String state,
            boolean feasible,
            String quantity,
            String price) {}
}
