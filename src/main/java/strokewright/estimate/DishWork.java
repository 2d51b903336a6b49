package strokewright.estimate;

import static strokewright.forming.FormingFormula.STRETCHED_AREA_THICKNESS;
import static strokewright.quantity.Why.Input.computed;

import java.util.List;
import java.util.Map;
import strokewright.estimate.ShopBook.Tool;
import strokewright.forming.Edges;
import strokewright.forming.Effort;
import strokewright.forming.Minutes;
import strokewright.forming.PassPlan;
import strokewright.forming.Row;
import strokewright.forming.Setting;
import strokewright.quantity.Working;

/** A disc dished to a spherical cap: the rim is gathered, then the crown stretched. */
final class DishWork extends FormedWork {

    private final Operation.Dish dish;

    DishWork(Maker maker, Operation.Dish dish) {
        super(maker);
        this.dish = dish;
    }

    @Override
    void reckon(List<Tool> tools) {
        Tool rimTool = tools.get(0);
        Tool crownTool = tools.get(1);
        use(rimTool);
        if (!limits.atMostAHemisphere(dish.depthMm(), dish.diameterMm())) {
            use(crownTool);
            return;
        }
        Edges.Cap cap =
                Edges.Cap.of(
                        dish.diameterMm(), dish.depthMm(), dish.rimShare(), dish.trimMm(), working);
        rimShare = cap.rimShare();
        blankDiameterMm = cap.blankDiameterMm();
        limits.reach(cap.blankDiameterMm() / 2);
        limits.rimOf(cap.blankDiameterMm());
        List<Row> rings =
                cap.rings(rimTool.jawMm(), bench.book().times().minimumRowStrain(), working);
        double rimBand = rings.stream().mapToDouble(Row::lengthMm).sum() * rimTool.jawMm();
        PassPlan rim = rows("rim", rings, true, rimBand, 0, 0, rimTool);
        use(crownTool);
        PassPlan middle = crown(cap, crownTool);
        if (!bench.metal().annealable() && rim.anneals() + middle.anneals() > 0) {
            boolean atTheRim = rim.anneals() > 0;
            Double depth =
                    Feasible.largest(
                            h ->
                                    withoutAnneal(
                                            h,
                                            rim.firstCycleRoom(),
                                            middle.firstCycleRoom(),
                                            rimTool),
                            dish.depthMm());
            limits.notAnnealable(
                    atTheRim ? rim : middle,
                    atTheRim ? strains.get(strains.size() - 1) : crown.strain(),
                    depth == null ? null : Map.of("depthMm", depth));
        }
    }

    private boolean withoutAnneal(double depth, double rimRoom, double crownRoom, Tool rimTool) {
        Working aside = new Working();
        Edges.Cap cap = Edges.Cap.of(dish.diameterMm(), depth, dish.rimShare(), 0, aside);
        List<Row> rings = cap.rings(rimTool.jawMm(), 1, aside);
        return rings.get(rings.size() - 1).strain() <= rimRoom
                && cap.crownStrain(aside) <= crownRoom;
    }

    private PassPlan crown(Edges.Cap cap, Tool tool) {
        double strain = cap.crownStrain(working);
        double area = cap.areaMm2(working);
        Setting setting = bench.setting(tool, tool.rowMm(), false, working);
        PassPlan plan =
                PassPlan.of(
                        "crown.passes",
                        List.of(strain),
                        bench.metal(),
                        bench.areaStretchLimit(working),
                        true,
                        setting,
                        bench.thickness(),
                        working);
        limits.passes(plan);
        Minutes minutes =
                Minutes.overArea(
                        "crown",
                        computed("area", area, "mm²"),
                        plan.total(),
                        new Effort.Course(plan, bench.metal(), setting, bench.thicknessMm()),
                        bench.fewestStations(),
                        bench.areaStation(),
                        computed("pitch", setting.pitchMm(), "mm"),
                        computed("row spacing", setting.widthMm(), "mm"),
                        bench.pace(tool, working),
                        working);
        add(minutes);
        double thickness =
                working.figure(
                        "crown.thicknessMm",
                        STRETCHED_AREA_THICKNESS,
                        bench.thickness(),
                        computed("ε", strain, ""));
        limits.capacity(bench.thicknessMm(), 0, tool);
        dressMarks(tool, area);
        anneal(plan, area);
        crown =
                new Estimate.Crown(
                        strain,
                        plan.total(),
                        plan.anneals(),
                        dish.count() * Math.round(minutes.strokes()),
                        thickness);
        return plan;
    }
}
