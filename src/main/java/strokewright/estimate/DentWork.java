package strokewright.estimate;

import java.util.List;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Minutes;

/** Dents taken out, spot by spot. */
final class DentWork extends FormedWork {

    private final Operation.TakeOutDents dents;

    DentWork(Maker maker, Operation.TakeOutDents dents) {
        super(maker);
        this.dents = dents;
    }

    @Override
    void reckon(List<Tool> tools) {
        Tool tool = tools.get(0);
        use(tool);
        limits.reachOverBlank();
        add(
                Minutes.atSpots(
                        "dents",
                        dents.spots(),
                        dents.strokesPerSpot(),
                        bench.ofTimes("find and feel", bench.book().times().dentFindSeconds(), "s"),
                        bench.pace(tool, working),
                        working));
        double station = bench.book().times().areaStationMm();
        dressMarks(tool, dents.spots() * station * station);
        limits.capacity(bench.thicknessMm(), 0, tool);
    }
}
