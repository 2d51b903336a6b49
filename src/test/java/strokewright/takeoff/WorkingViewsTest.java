package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.DE;
import static strokewright.takeoff.SmallShop.EN;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Why;
import strokewright.quantity.Why.Input;
import strokewright.takeoff.TakeOffView.WhyView;
import strokewright.takeoff.TakeOffView.WorkingView;
import strokewright.web.Numbers;

class WorkingViewsTest {

    private final WorkingViews workings = new WorkingViews(EN);

    @Test
    void everyReasonOfALineAndOfAQuantityIsShown() {
        Estimate estimate = Guard.estimate();
        for (Estimate.Line line : estimate.operations()) {
            complete(line.why());
        }
        for (Estimate.ForQuantity quantity : estimate.quantities()) {
            complete(quantity.why());
        }
    }

    @Test
    void lineWithoutPassesSpeaksOfNone() {
        TakeOff dents =
                Situations.takeOff(
                        """
                        {"title":"Panel","parts":[{"name":"Panel","grade":"DC04","thicknessMm":1,
                         "blank":{"lengthMm":800,"widthMm":500},
                         "operations":[{"type":"take-out-dents","spots":3}]}]}
                        """);
        ItemWorking working =
                ItemWorking.of(Estimating.estimate(dents, Guard.BOOK), Numbers.of(Locale.ENGLISH));

        assertThat(working.lines().get(0).figures())
                .isNotEmpty()
                .noneMatch(f -> f.value().isEmpty())
                .noneMatch(f -> f.name().equals("passes"));
    }

    private void complete(List<Why> whys) {
        WorkingView view = workings.of(whys);
        assertThat(view.lines()).hasSameSizeAs(whys);
        for (int i = 0; i < whys.size(); i++) {
            WhyView shown = view.lines().get(i);
            assertThat(shown.formula()).isNotEqualTo(whys.get(i).formula());
            assertThat(shown.source()).isNotEmpty();
            assertThat(shown.fold() != null)
                    .isEqualTo(shown.inputs().size() < whys.get(i).inputs().size());
        }
        whys.stream()
                .flatMap(w -> w.inputs().stream())
                .map(Input::origin)
                .filter(o -> !o.equals("computed"))
                .forEach(o -> assertThat(view.origins()).containsValue(o));
    }

    @Test
    void theBendsOfAnOutlineAreFoldedAsPairsOfLengthAndCurvature() {
        List<Input> inputs = new ArrayList<>();
        inputs.add(Input.drawing("y", 30, "mm"));
        inputs.add(Input.computed("share of cycle", 1, ""));
        for (int i = 0; i < 40; i++) {
            inputs.add(Input.drawing("length", 10 + i, "mm"));
            inputs.add(Input.drawing("κ", 0.0025, "1/mm"));
        }

        WhyView shown = view("passLengthMm", inputs);

        assertThat(shown.inputs()).hasSize(2);
        assertThat(shown.fold().summary()).isEqualTo("40 × length and κ");
        assertThat(shown.fold().mark()).isEqualTo("a");
        assertThat(shown.fold().inputs())
                .hasSize(40)
                .startsWith("length 10 mm, κ 0.0025 1/mm")
                .endsWith("length 49 mm, κ 0.0025 1/mm");
    }

    @Test
    void aLongSumOfAlikeInputsIsFoldedAsAWhole() {
        WhyView shown =
                view(
                        "strokes",
                        java.util.Collections.nCopies(
                                15, Input.computed("strokes of a row", 377, "")));

        assertThat(shown.inputs()).isEmpty();
        assertThat(shown.fold().summary()).isEqualTo("15 × strokes of a row");
    }

    @Test
    void aLongSumOfDifferentInputsShowsTheFirst() {
        List<Input> inputs = new ArrayList<>();
        for (int i = 1; i <= 20; i++) {
            inputs.add(Input.computed("Rim/" + i, i, "min"));
        }

        WhyView shown = view("runMinutes", inputs);

        assertThat(shown.inputs()).hasSize(14);
        assertThat(shown.fold().summary()).isEqualTo("6 more");
        assertThat(shown.fold().inputs()).startsWith("Rim/15 15 min").endsWith("Rim/20 20 min");
    }

    @Test
    void fourteenInputsStandInTheLine() {
        List<Input> inputs =
                java.util.Collections.nCopies(14, Input.computed("strokes of a row", 377, ""));

        assertThat(view("strokes", inputs).inputs()).hasSize(14);
        assertThat(view("strokes", inputs).fold()).isNull();
    }

    @Test
    void figuresAreCalledByWordsAndNamesStayAsTheyWereGiven() {
        assertThat(WorkingViews.named("edgeThicknessMm")).isEqualTo("edge thickness, mm");
        assertThat(WorkingViews.named("crown.areaMm2")).isEqualTo("crown: area, mm²");
        assertThat(WorkingViews.named("workPerAreaNmm")).isEqualTo("work per area, N/mm");
        assertThat(WorkingViews.named("strokeWorkJ")).isEqualTo("stroke work, J");
        assertThat(WorkingViews.named("TopRim/1.runMinutes")).isEqualTo("TopRim 1: run minutes");
        assertThat(WorkingViews.named("stretch 2.checks")).isEqualTo("stretch 2: checks");
    }

    @Test
    void numbersAreWrittenAsTheReaderWritesThem() {
        WorkingView german =
                new WorkingViews(DE)
                        .of(
                                List.of(
                                        new Why(
                                                "x",
                                                "sum",
                                                List.of(Input.computed("a", 0.5, "")),
                                                0.5)));

        assertThat(german.lines().get(0).value()).isEqualTo("0,5");
    }

    private WhyView view(String figure, List<Input> inputs) {
        return workings.of(List.of(new Why(figure, "sum", inputs, 1))).lines().get(0);
    }
}
