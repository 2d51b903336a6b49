package strokewright.estimate;

import java.util.List;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Minutes;
import strokewright.forming.Setting;

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
        // no strain is put in: such a tool needs no bite
        Setting field = new Setting(0, 0, tool.pitchMm(), tool.rowMm());
        add(
                Minutes.overArea(
                        "area",
                        areaMm2,
                        timesOver,
                        bench.book().times().areaStationsAtLeast(),
                        bench.book().times().areaStationMm(),
                        field,
                        bench.pace(tool, working),
                        working));
        dressMarks(tool, areaMm2);
        limits.capacity(bench.thicknessMm(), 0, tool);
    }
}
