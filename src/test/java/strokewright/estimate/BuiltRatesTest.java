package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.costing.LabourRate;
import strokewright.costing.MachineHourRate;
import strokewright.quantity.Fault;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import tools.jackson.databind.json.JsonMapper;

/** Rates and allowances that are not stated but built, in the shop book and in an estimate. */
class BuiltRatesTest {

    private static final String STARTER = "/shop-book/starter.json";

    private static final String LABOUR =
            """
            {"wagePerHour":24,"onCostPercent":21,"paidHoursPerYear":2080,"leaveDays":30,
             "publicHolidays":11,"sickDays":8,"hoursPerDay":8,"productivePercent":85}""";

    private static final String MACHINE =
            """
            {"acquisitionValue":42000,"priceIndexThen":100,"priceIndexNow":110,"lifeYears":12,
             "interestPercent":5,"areaM2":14,"spacePerM2Month":9,"powerKw":2.2,"loadFactor":0.6,
             "energyPerKwh":0.3,"maintenancePercent":4,"totalHoursPerYear":1200,"usedPercent":75}""";

    private static final TakeOff FLANGE =
            EditedBook.JSON.readValue(
                    """
                    {"quantities":[1,5],"parts":[{"name":"Rim","grade":"DC04","thicknessMm":2,
                      "blank":{"lengthMm":860,"widthMm":70},"operations":[
                       {"type":"standard","standard":"Guillotine cut","amount":4},
                       {"type":"curve-edge","sense":"stretch","lengthMm":800,"radiusMm":240,
                        "heightMm":40}]}],
                     "extras":[
                       {"name":"Powder coat","per":"piece","kind":"bought-out","leadTimeDays":5,
                        "cost":{"amount":"12.00","currency":"EUR"}},
                       {"name":"Jig","per":"order","kind":"special-direct","leadTimeDays":9,
                        "cost":{"amount":"40.00","currency":"EUR"}}]}""",
                    TakeOff.class);

    /** Nothing changes when the rates of the starting book are left to their basis. */
    @Test
    void leftOutRatesAreThoseOfTheirBasis() {
        EditedBook built = EditedBook.read(STARTER);
        for (int i = 0; i < built.root().get("workCentres").size(); i++) {
            built.without("/workCentres/" + i + "/labourRate");
            if (built.root().at("/workCentres/" + i).has("machineBasis")) {
                built.without("/workCentres/" + i + "/machineRate");
            }
        }
        assertThat(ShopBookCheck.faults(built.book())).isEmpty();
        Estimate stated = Estimating.estimate(FLANGE, EditedBook.read(STARTER).book());
        Estimate derived = Estimating.estimate(FLANGE, built.book());

        for (int i = 0; i < 2; i++) {
            assertThat(derived.quantities().get(i).price())
                    .isEqualTo(stated.quantities().get(i).price());
            assertThat(derived.quantities().get(i).workCentres())
                    .isEqualTo(stated.quantities().get(i).workCentres());
        }
        assertThat(figures(derived, "Forming.labourRate")).containsExactly(42.10);
        assertThat(figures(derived, "Forming.labour.productiveHours")).hasSize(1);
        assertThat(figures(derived, "Forming.machine.machineRate"))
                .singleElement()
                .satisfies(rate -> assertThat(rate).isCloseTo(9.5538, within(5e-5)));
    }

    @Test
    void aStatedRateGoesBeforeItsBasis() {
        EditedBook book =
                EditedBook.read(STARTER).with("/workCentres/0/labourRate/amount", "50.00");

        assertThat(Estimating.estimate(FLANGE, book.book()).quantities().get(0).workCentres())
                .extracting(Estimate.AtCentre::labourRate)
                .contains(Money.of("50.00", "EUR"));
    }

    /** 9 + 2 + 3 + 2 + 5 = 21 % at the machine; the bench keeps its stated 15. */
    @Test
    void allowanceLeftOutIsBuilt() {
        Map<String, Object> basis =
                Map.of(
                        "standing",
                        true,
                        "liftedKg",
                        10,
                        "attention",
                        "fine",
                        "noise",
                        "intermittent-very-loud");
        EditedBook built =
                EditedBook.read(STARTER)
                        .without("/times/machineAllowancePercent")
                        .with("/times/machineAllowanceBasis", basis);
        EditedBook stated = EditedBook.read(STARTER).with("/times/machineAllowancePercent", 21);
        Estimate estimate = Estimating.estimate(FLANGE, built.book());

        assertThat(ShopBookCheck.faults(built.book())).isEmpty();
        assertThat(EditedBook.of(built.book()).book()).isEqualTo(built.book());
        assertThat(estimate.quantities().get(0).hours())
                .isEqualTo(Estimating.estimate(FLANGE, stated.book()).quantities().get(0).hours());
        assertThat(figures(estimate, "machine.allowance")).containsExactly(21.0);
    }

    /** 12.00 each with 15 % for ordering and fetching; a jig of the shop's own takes none. */
    @Test
    void boughtOutWorkIsHandledAndItsWaitIsTold() {
        ShopBook book =
                EditedBook.read(STARTER).with("/priceScheme/boughtOutHandlingPercent", 15).book();
        Estimate.ForQuantity five = Estimating.estimate(FLANGE, book).quantities().get(1);

        assertThat(five.cost().specialDirect()).isEqualTo(Money.of("109.00", "EUR"));
        assertThat(five.leadTimeDays()).isEqualTo(9);
        assertThat(five.why().stream().filter(w -> w.figure().equals("Powder coat.handling")))
                .singleElement()
                .satisfies(w -> assertThat(w.value()).isEqualTo(9.0));
    }

    @Test
    void anExtrasOwnHandlingGoesBeforeTheSchemes() {
        TakeOff own =
                edited(FLANGE, "/extras/0/handlingPercent", 0, "/extras/0/leadTimeDays", null);
        ShopBook book =
                EditedBook.read(STARTER).with("/priceScheme/boughtOutHandlingPercent", 15).book();
        Estimate.ForQuantity five = Estimating.estimate(own, book).quantities().get(1);

        assertThat(five.cost().specialDirect()).isEqualTo(Money.of("100.00", "EUR"));
    }

    /** The scheme asks for none; this order for 25 % of total cost and profit. */
    @Test
    void urgencyOfOneOrder() {
        ShopBook book = EditedBook.read(STARTER).book();
        Estimate.ForQuantity usual = Estimating.estimate(FLANGE, book).quantities().get(0);
        TakeOff hurried = edited(FLANGE, "/urgencyPercent", 25);
        Estimate.ForQuantity urgent = Estimating.estimate(hurried, book).quantities().get(0);
        BigDecimal before = usual.price().beforeDiscounts().amount();

        assertThat(urgent.cost()).isEqualTo(usual.cost());
        assertThat(urgent.price().urgency().amount())
                .isCloseTo(before.multiply(new BigDecimal("0.25")), within(new BigDecimal("0.02")));
        assertThat(urgent.why())
                .filteredOn(w -> w.figure().equals("price.urgency"))
                .singleElement()
                .satisfies(w -> assertThat(w.inputs().get(1).origin()).isEqualTo("drawing"));
    }

    static IntStream seeds() {
        return IntStream.range(0, 60);
    }

    /**
     * Whatever the market pays: what is shown adds up, and the plan's own price leaves its hours.
     */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void aMarketsPriceOnSeededTakeOffs(int seed) {
        ShopBook book = WorkedShop.book();
        TakeOff takeOff = RandomTakeOffs.withFolds(seed).next();
        Reckoning reckoning = Estimating.reckon(takeOff, book);
        int quantity = takeOff.mainQuantity();
        Estimate.ForQuantity planned = reckoning.forQuantity(quantity);
        BigDecimal own = planned.priceEach().amount();
        for (String share : List.of("1", "0.8", "0.5", "1.3")) {
            BigDecimal each =
                    own.multiply(new BigDecimal(share))
                            .setScale(2, java.math.RoundingMode.HALF_UP)
                            .max(new BigDecimal("0.01"));
            AtMarketPrice at = reckoning.atMarketPrice(quantity, each);

            assertThat(at.tradeDiscount().plus(at.settlementDiscount()).plus(at.commission()))
                    .isEqualTo(at.offer().minus(at.left()));
            assertThat(at.total().plus(at.urgency()).plus(at.profit())).isEqualTo(at.left());
            assertThat(at.total()).isEqualTo(planned.cost().total());
            assertThat(at.labourHours()).isCloseTo(planned.hours().plan(), within(1e-9));
            assertThat(at.atSchemeProfit().labourHours())
                    .isLessThanOrEqualTo(at.atNoProfit().labourHours());
            if (share.equals("1")) {
                double rounded =
                        0.5
                                * Double.parseDouble(book.priceScheme().roundEachTo())
                                * quantity
                                / planned.price().offer().amount().doubleValue();
                assertThat(at.profitPercent())
                        .isCloseTo(
                                book.priceScheme().profitPercent(), within(200 * rounded + 1e-9));
                assertThat(at.atSchemeProfit().share()).isCloseTo(1, within(20 * rounded + 1e-9));
            }
        }
    }

    /** What a basis lacks, or says twice, is named at its field. */
    @ParameterizedTest(name = "{1} without {0}")
    @CsvSource({
        "wagePerHour, labour", "onCostPercent, labour", "paidHoursPerYear, labour",
        "hoursPerDay, labour", "productivePercent, labour", "acquisitionValue, machine",
        "priceIndexThen, machine", "lifeYears, machine", "interestPercent, machine",
        "areaM2, machine", "powerKw, machine", "energyPerKwh, machine"
    })
    void namesWhatABasisLacks(String field, String which) {
        String at = "/workCentres/0/" + which + "Basis";
        EditedBook book = EditedBook.small().with(at, basis(which)).without(at + "/" + field);

        assertThat(ShopBookCheck.faults(book.book()))
                .extracting(Fault::pointer)
                .containsExactly(at + "/" + field);
    }

    @ParameterizedTest(name = "{0} = {1}")
    @CsvSource({
        "labour, absentHoursPerYear, 392,",
        "machine, replacementValue, 46200, priceIndexThen",
        "machine, spacePerM2Year, 108,",
        "machine, maintenancePerYear, 1680,",
        "machine, maintenanceOverLife, 20000, maintenancePercent",
        "machine, runningHoursPerYear, 900, totalHoursPerYear"
    })
    void refusesTheSameThingToldTwice(String which, String field, double value, String named) {
        String at = "/workCentres/0/" + which + "Basis";
        EditedBook book = EditedBook.small().with(at, basis(which)).with(at + "/" + field, value);

        assertThat(ShopBookCheck.faults(book.book()))
                .extracting(Fault::pointer)
                .contains(at + "/" + (named == null ? field : named));
    }

    @Test
    void refusesWhatLeavesNoHours() {
        String at = "/workCentres/0/";
        EditedBook book =
                EditedBook.small()
                        .with(at + "labourBasis", basis("labour"))
                        .with(at + "labourBasis/leaveDays", 260)
                        .with(at + "machineBasis", basis("machine"))
                        .with(at + "machineBasis/idleHoursPerYear", 800)
                        .with(at + "machineBasis/maintenanceHoursPerYear", 400);

        assertThat(ShopBookCheck.faults(book.book()))
                .extracting(Fault::pointer)
                .containsExactly(
                        at + "labourBasis/leaveDays", at + "machineBasis/idleHoursPerYear");
    }

    @Test
    void refusesARateThatNobodyCouldPay() {
        EditedBook book =
                EditedBook.small()
                        .with("/workCentres/0/labourBasis", basis("labour"))
                        .with("/workCentres/0/labourBasis/productivePercent", 0.001);

        assertThat(ShopBookCheck.faults(book.book()))
                .extracting(Fault::pointer)
                .containsExactly("/workCentres/0/labourBasis");
    }

    @Test
    void aRateNeedsAnAmountOrABasis() {
        assertThat(
                        ShopBookCheck.faults(
                                EditedBook.small().without("/workCentres/0/labourRate").book()))
                .extracting(Fault::pointer)
                .containsExactly("/workCentres/0/labourRate");
    }

    /** The bases that {@code docs/http.md} shows. */
    @Test
    void theBasesOfTheInterfacesPageCanBeUsed() throws java.io.IOException {
        String page = java.nio.file.Files.readString(java.nio.file.Path.of("docs", "http.md"));
        int from = page.indexOf("\"labourBasis\":{");
        var shown =
                EditedBook.JSON.readTree(
                        "{" + page.substring(from, page.indexOf("```", from)) + "}");
        EditedBook book =
                EditedBook.small()
                        .without("/workCentres/0/labourRate")
                        .with("/workCentres/0/labourBasis", shown.get("labourBasis"))
                        .without("/workCentres/0/machineRate")
                        .with("/workCentres/0/machineBasis", shown.get("machineBasis"))
                        .without("/times/machineAllowancePercent")
                        .with("/times/machineAllowanceBasis", shown.get("machineAllowanceBasis"));

        assertThat(ShopBookCheck.faults(book.book())).isEmpty();
        assertThat(book.book().times().machineAllowance()).isEqualTo(21);
    }

    private static Object basis(String which) {
        return which.equals("labour")
                ? JsonMapper.shared().readValue(LABOUR, LabourRate.class)
                : JsonMapper.shared().readValue(MACHINE, MachineHourRate.class);
    }

    private static List<Double> figures(Estimate estimate, String figure) {
        return estimate.quantities().get(0).why().stream()
                .filter(w -> w.figure().equals(figure))
                .map(Why::value)
                .toList();
    }

    private static TakeOff edited(TakeOff takeOff, Object... changes) {
        var root = EditedBook.JSON.valueToTree(takeOff);
        for (int i = 0; i < changes.length; i += 2) {
            var at = tools.jackson.core.JsonPointer.compile((String) changes[i]);
            ((tools.jackson.databind.node.ObjectNode) root.at(at.head()))
                    .set(
                            at.last().getMatchingProperty(),
                            EditedBook.JSON.valueToTree(changes[i + 1]));
        }
        return EditedBook.JSON.treeToValue(root, TakeOff.class);
    }
}
