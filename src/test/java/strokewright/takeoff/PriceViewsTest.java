package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.Situations.JSON;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.withScheme;
import static strokewright.takeoff.SmallShop.EN;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.takeoff.PriceView.DriversView;
import strokewright.takeoff.PriceView.FigureRow;
import strokewright.takeoff.PriceView.ListRow;
import tools.jackson.databind.node.ObjectNode;

/** Estimates here get a spread by hand, so that what is drawn can be told from the figures. */
class PriceViewsTest {

    private static final ShopBook BOOK = SpreadByHand.BOOK;

    @Test
    void listHasEveryQuantityAndMarksTheMainOne() {
        PriceView view = view(SpreadByHand.plain(roundFrame()));
        assertThat(view.list()).extracting(ListRow::key).containsExactly(1, 2, 5, 12);
        assertThat(view.list())
                .filteredOn(ListRow::main)
                .extracting(ListRow::key)
                .containsExactly(2);
        assertThat(view.isWithLoss()).isFalse();
    }

    @Test
    void estimatesMadeBeforeSpreadWasReckonedHaveNone() {
        PriceView view = view(SpreadByHand.plain(roundFrame()));
        assertThat(view.spread()).isNull();
        assertThat(view.drivers()).isNull();
        assertThat(view.full().get(0).rows())
                .extracting(FigureRow::name)
                .contains("Set-up", "Run", "Plan", "Cost each", "Price each", "In all")
                .doesNotContain("Mean", "Chance of loss", "Risk reserve", "Spare blanks");
    }

    @Test
    void quantitiesStandInTablesThatFitAPhoneAndNoneIsLost() {
        TakeOff many =
                JSON.treeToValue(
                        ((ObjectNode) JSON.valueToTree(roundFrame()))
                                .set(
                                        "quantities",
                                        JSON.valueToTree(IntStream.rangeClosed(1, 25).toArray())),
                        TakeOff.class);
        PriceView view = view(SpreadByHand.plain(many), many);
        assertThat(view.full()).hasSize(7);
        assertThat(view.full().stream().mapToInt(t -> t.heads().size()).sum()).isEqualTo(25);
        assertThat(view.full())
                .allSatisfy(
                        t ->
                                assertThat(t.rows())
                                        .allSatisfy(
                                                r ->
                                                        assertThat(r.values())
                                                                .hasSameSizeAs(t.heads())));
    }

    @Test
    void spreadIsToldAsAnEstimatorWouldSayIt() {
        PriceView view = view(SpreadByHand.spread(0.07));
        assertThat(view.spread().words().get(0))
                .isEqualTo(
                        "Four times in five the work takes from 4.00 to 9.00 h; one time in ten it"
                                + " takes more.");
        assertThat(view.spread().words().get(1))
                .contains("Half the time 5.50 h are enough, four times in five 7.50 h;")
                .endsWith("on average it takes 6.00 h.");
        assertThat(view.spread().words().get(2))
                .contains("the offer less discounts and commission")
                .endsWith("costs more than it brings about 7 times in 100.");
        assertThat(view.spread().words().get(3))
                .startsWith("Behind it: a drawing.")
                .contains("27 % under", "38 % over");
        assertThat(view.list()).extracting(ListRow::loss).containsOnly("7 %");
    }

    @Test
    void chanceOfLossIsNeverRoundedToNone() {
        assertThat(view(SpreadByHand.spread(0.001)).list())
                .extracting(ListRow::loss)
                .containsOnly("< 1 %");
        assertThat(view(SpreadByHand.spread(0.0)).list())
                .extracting(ListRow::loss)
                .containsOnly("0 %");
        assertThat(Words.timesInHundred(0.001)).isEqualTo("less than once in 200 times");
        assertThat(Words.timesInHundred(0.01)).isEqualTo("about once in 100 times");
        assertThat(Words.timesInHundred(0.999)).isEqualTo("nearly every time");
    }

    @Test
    void everyPercentileOfEveryQuantityStandsInTheTable() {
        PriceView view = view(SpreadByHand.spread(0.07));
        assertThat(view.spread().percentiles()).hasSize(4 * 3);
        assertThat(view.spread().percentiles().get(0))
                .satisfies(
                        row -> {
                            assertThat(row.p10()).isEqualTo("4.00");
                            assertThat(row.p65()).isEqualTo("6.50");
                            assertThat(row.p90()).isEqualTo("9.00");
                        });
    }

    @Test
    void lossIsHatchedOnlyWhereTheNetPriceIsInsideTheBand() {
        Spreading inside = Spreading.of(main(SpreadByHand.spread(0.07)));
        double net = inside.net().amount().doubleValue();
        String hatched = picture(inside, net * 0.8, net * 1.2);
        String safe = picture(inside, net * 0.5, net * 0.9);
        assertThat(hatchings(hatched)).isEqualTo(1 + hatchings(safe));
        assertThat(x(hatched, "accent")).isBetween(72.0, 348.0);
        assertThat(x(safe, "accent")).isEqualTo(348.0);
    }

    @Test
    void theFinalCheckIsSaidInWords() {
        assertThat(checks(1, false)).containsExactly("Check the one piece.");
        assertThat(checks(8, false))
                .containsExactly("Check all 8; put right or replace each faulty one.");
        assertThat(checks(12, false))
                .containsExactly("Check 5 of 12; accept with none faulty, reject with 1.");
        assertThat(checks(60, false))
                .containsExactly("Check 20 of 60; accept with 1 faulty, reject with 2.");
    }

    @Test
    void lotsThatAreCheckedAlikeShareASentenceAndTheAssemblyHasItsOwn() {
        assertThat(checks(60, true))
                .containsExactly(
                        "Gusset, Plate: check 20 of 60; accept with 1 faulty, reject with 2.");
    }

    /** Nothing is said of a check that nobody does. */
    @Test
    void withoutACheckNothingIsSaid() {
        assertThat(view(SpreadByHand.plain(roundFrame())).checks()).isEmpty();
    }

    private static List<String> checks(int pieces, boolean two) {
        String part =
                """
                {"name":"%s","grade":"DC04","thicknessMm":2,"blank":{"lengthMm":120,"widthMm":80},
                 "operations":[{"type":"standard","standard":"Final check, size","amount":4}]}
                """;
        TakeOff takeOff =
                JSON.readValue(
                        "{\"title\":\"Gusset\",\"quantities\":[%d],\"parts\":[%s]}"
                                .formatted(
                                        pieces,
                                        part.formatted("Gusset")
                                                + (two ? "," + part.formatted("Plate") : "")),
                        TakeOff.class);
        ShopBook book = Guard.BOOK;
        Estimate estimate = Estimating.estimate(takeOff, book);
        return PriceViews.of(estimate, estimate.quantities().get(0), takeOff, book, EN, "p")
                .checks();
    }

    /** What the line in the picture stands at is what the chance of a loss is told against. */
    @ParameterizedTest(name = "minimum order of {0}")
    @ValueSource(strings = {"0", "5000"})
    void theNetPriceIsThatOfTheOfferReallyMade(String minimum) {
        ShopBook book =
                withScheme(BOOK, "minimumOrder", Map.of("amount", minimum, "currency", "EUR"));
        ForQuantity lifted = main(Estimating.estimate(roundFrame(), book));
        Spreading today = Spreading.of(lifted);
        ObjectNode stored = JSON.valueToTree(lifted);
        ((ObjectNode) stored.get("price")).remove("net");
        Spreading earlier = Spreading.of(JSON.treeToValue(stored, ForQuantity.class));

        assertThat(lifted.price().offer().amount()).isGreaterThanOrEqualTo(new BigDecimal(minimum));
        assertThat(today.net()).isEqualTo(lifted.price().net());
        assertThat(earlier.net().minus(today.net()).amount().abs())
                .isLessThanOrEqualTo(new BigDecimal("0.05"));
    }

    @Test
    void picturesAreTheSameInWords() {
        assertThat(view(SpreadByHand.spread(0.07)).spread().picture())
                .contains(
                        "role=\"img\"",
                        "P10 4.00",
                        "P50 5.50",
                        "mean 6.00",
                        "P80 7.50",
                        "P90 9.00");
    }

    @Test
    void eightWidestDriversAreShownAndTheOthersFolded() {
        DriversView drivers =
                view(SpreadByHand.driven(11, "bite of Soft shrinker in soft aluminium")).drivers();
        assertThat(drivers.first()).hasSize(8);
        assertThat(drivers.rest()).hasSize(3);
        assertThat(drivers.first().get(0).name())
                .isEqualTo("Bite of Soft shrinker in soft aluminium");
        assertThat(drivers.byStrip()).isTrue();
        assertThat(drivers.advice()).contains("One test strip of this tool and metal");
    }

    @Test
    void adviceNamesWhatToFindOut() {
        assertThat(view(SpreadByHand.driven(1, "price of AL99.5-O")).drivers())
                .satisfies(d -> assertThat(d.byStrip()).isFalse())
                .satisfies(d -> assertThat(d.advice()).contains("today's price"));
        assertThat(view(SpreadByHand.driven(1, "TIG weld")).drivers().advice()).contains("Time it");
    }

    @Test
    void roundTicksLieInsideTheScale() {
        for (double low = 0.3; low < 5000; low *= 3.7) {
            for (double factor : new double[] {1.02, 1.4, 3, 40}) {
                double high = low * factor;
                double from = low;
                assertThat(SpreadPicture.ticks(low, high))
                        .as("%s to %s", low, high)
                        .hasSizeBetween(2, 6)
                        .allSatisfy(t -> assertThat(t).isBetween(from - 1e-6, high + 1e-6));
            }
        }
    }

    private static PriceView view(Estimate estimate) {
        return view(estimate, roundFrame());
    }

    private static PriceView view(Estimate estimate, TakeOff takeOff) {
        return PriceViews.of(estimate, main(estimate), takeOff, BOOK, EN, "p");
    }

    private static ForQuantity main(Estimate estimate) {
        return estimate.quantities().stream()
                .filter(q -> q.quantity() == 2)
                .findFirst()
                .orElseThrow();
    }

    // Reading pictures ----------------------------------------------------------------------------

    private static String picture(Spreading spread, double p10, double p90) {
        Spreading.Band cost =
                new Spreading.Band(p10, (p10 + p90) / 2, (p10 + p90) / 2, p90, p90, p90);
        return SpreadPicture.of(
                new Spreading(
                        spread.quantity(), spread.hours(), cost, spread.price(), spread.net()),
                EN,
                "EUR",
                "x");
    }

    /** Boxes with lines in them. */
    private static int hatchings(String svg) {
        List<String> found = new ArrayList<>();
        Matcher m = Pattern.compile("<rect class=\"open\"").matcher(svg);
        while (m.find()) {
            found.add(m.group());
        }
        return found.size();
    }

    private static double x(String svg, String look) {
        Matcher m = Pattern.compile("class=\"" + look + "\" d=\"M([0-9.]+) ").matcher(svg);
        assertThat(m.find()).isTrue();
        return Double.parseDouble(m.group(1));
    }
}
