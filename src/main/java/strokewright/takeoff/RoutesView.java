package strokewright.takeoff;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the page of routes side by side shows.
 *
 * @param own path of the take-off that the others are other routes of
 * @param frozen whether it is only to be read
 * @param trouble what keeps the routes from being compared, or was typed wrong; empty for nothing
 * @param chart null while there is nothing to compare
 */
public record RoutesView(
        String own,
        String path,
        boolean frozen,
        String currency,
        List<Column> columns,
        List<Group> quantities,
        @Nullable String chart,
        List<String> breakEvens,
        List<String> cheapest,
        List<String> trouble,
        String upTo,
        List<PartChoice> segmentParts,
        List<PartChoice> heatParts,
        List<PartChoice> pressParts,
        List<StandardChoice> jointStandards,
        List<StandardChoice> heatStandards,
        List<StandardChoice> pressStandards,
        String trimMm) {

    /** What the take-off's own way is called beside the others. */
    public static final String OWN = "As taken off";

    /**
     * One route.
     *
     * @param key null for the take-off's own
     * @param letter in the chart
     * @param lacks what is still missing in it; empty when it is complete
     * @param feasible null while it is not complete
     */
    record Column(
            @Nullable String key,
            String path,
            String letter,
            String name,
            String lacks,
            @Nullable Boolean feasible,
            List<FindingWords.Told> findings,
            String leadTime) {}

    record Group(int quantity, boolean main, List<Cell> cells) {}

    /** Figures of one route; empty texts where it is not complete. */
    record Cell(String hours, String cost, String priceEach, boolean cheapest) {}

    record PartChoice(int index, String name) {}

    record StandardChoice(String name, boolean chosen) {}
}
