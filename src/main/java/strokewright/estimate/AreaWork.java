package strokewright.estimate;

import java.util.List;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Minutes;
import strokewright.quantity.Why.Input;

/** An area smoothed or flattened a number of times over; no strain is put in. */
final class AreaWork extends FormedWork {

    private final double areaMm2;
    private final int timesOver;

    AreaWork(Maker maker, double areaMm2, int timesOver) {
        super(maker);
        this.areaMm2 = areaMm2;
        this.timesOver = timesOver;
    }

    @Override
    void reckon(List<Tool> tools) {
        Tool tool = tools.get(0);
        use(tool);
        limits.reachOverBlank();
        passes = List.of(timesOver);
        add(
                Minutes.overArea(
                        "area",
                        Input.drawing("area", areaMm2, "mm²"),
                        timesOver,
                        null,
                        bench.fewestStations(),
                        bench.areaStation(),
                        bench.ofTool(tool, "pitch", tool.pitchMm(), "mm"),
                        bench.ofTool(tool, "row spacing", tool.rowMm(), "mm"),
                        bench.pace(tool, working),
                        working));
        dressMarks(tool, areaMm2);
        limits.capacity(bench.thicknessMm(), 0, tool);
    }
}
