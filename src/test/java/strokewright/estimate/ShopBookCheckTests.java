package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.quantity.Fault;

class ShopBookCheckTests {

    @Test
    void findsNoFaultInAUsableBook() {
        assertThat(ShopBookCheck.faults(EditedBook.small().book())).isEmpty();
    }

    @ParameterizedTest(name = "{0}: from {1} to {2}, not {3} nor {4}")
    @CsvSource({
        "/grades/0/densityKgM3, 1000, 25000, 999, 25001",
        "/grades/0/tensileMpa, 35, 3000, 9, 3001",
        "/grades/0/proofMpa, 35, 107, 0.9, 107.1",
        "/grades/0/annealedProofMpa, 1, 35, 0.9, 35.1",
        "/grades/0/strengthCoefficientMpa, 36, 5000, 9, 5001",
        "/grades/0/hardeningExponent, 0.02, 1, 0.019, 1.01",
        "/grades/0/elongationPercent, 0.1, 100, 0.09, 100.1",
        "/grades/0/minimumBendRadius, 0, 20, -0.1, 20.1",
        "/grades/0/reductionOfAreaPercent, 1, 100, 0.9, 100.1",
        "/grades/0/elasticModulusGpa, 10, 1000, 9, 1001",
        "/grades/0/shrinkLimit, 0.01, 2, 0.009, 2.1",
        "/grades/0/edgeStretchLimit, 0.01, 2, 0.009, 2.1",
        "/grades/0/areaStretchLimit, 0.01, 2, 0.009, 2.1",
        "/grades/1/strainPerPass, 0.001, 0.5, 0.0009, 0.51",
        "/sheets/0/thicknessMm, 0.05, 50, 0.04, 50.1",
        "/sheets/0/pricePerKg/amount, 0, 1000000, -0.01, 1000000.01",
        "/machines/0/ratedThicknessMm, 0.1, 50, 0.09, 50.1",
        "/machines/0/ratedStrengthMpa, 50, 3000, 49, 3001",
        "/machines/0/throatMm, 1, 10000, 0.9, 10001",
        "/machines/0/strokesPerMinute, 1, 5000, 0.9, 5001",
        "/machines/0/strokeWorkJ, 0.001, 1000, 0.0009, 1000.1",
        "/machines/0/feedEfficiency, 0.05, 1, 0.04, 1.01",
        "/tools/0/biteStrain, 0.0005, 0.2, 0.0004, 0.21",
        "/tools/0/jawMm, 1, 500, 0.9, 501",
        "/tools/1/rowMm, 0.5, 500, 0.4, 501",
        "/tools/0/pitchMm, 0.5, 200, 0.4, 201",
        "/tools/0/strokesPerMinute, 1, 5000, 0, 5001",
        "/tools/0/changeMinutes, 0, 480, -1, 481",
        "/tools/0/setMinutes, 0, 480, -1, 481",
        "/tools/0/maxThicknessMm, 0.1, 50, 0.09, 51",
        "/familyBite/soft-family, 0.01, 5, 0.009, 5.1",
        "/familyBite/other~1family, 0.01, 5, 0, 6",
        "/passLimits/0/biteStrain, 0.0005, 0.2, 0.0004, 0.21",
        "/passLimits/0/strokeWorkJ, 0.001, 1000, 0.0009, 1000.1",
        "/passLimits/0/feedEfficiency, 0.05, 1, 0.049, 1.01",
        "/times/checkEveryPasses, 1, 1000, 0, 1001",
        "/times/stationSeconds, 0, 3600, -1, 3601",
        "/times/machineAllowancePercent, 0, 200, -1, 201",
        "/times/benchAllowancePercent, 0, 200, -1, 201",
        "/times/practiceSlope, 0.5, 1, 0.49, 1.01",
        "/times/practiceReferenceUnit, 1, 50, 0, 10001",
        "/times/practiceFloorUnit, 10, 10000, 9, 10001",
        "/times/minimumRowStrain, 0.0001, 0.1, 0, 0.11",
        "/times/shearedEdgeFactor, 0.1, 1, 0.09, 1.1",
        "/times/dentFindSeconds, 0, 3600, -1, 3601",
        "/times/handling/0/upToKg, 0.01, 5, 0, -1",
        "/times/handling/0/upToAreaM2, 0.01, 0.5, 0, -1",
        "/times/handling/0/upToLengthMm, 1, 2000, 0, -1",
        "/times/handling/0/seconds, 0, 3600, -1, 3601",
        "/times/handling/0/people, 1, 10, 0, 11",
        "/times/thinSheetMm, 0.01, 10, 0, 11",
        "/times/templateGapMm, 0.01, 100, 0, 101",
        "/times/corrections/0/gapFromMm, 1.01, 1000, -1, 1001",
        "/times/corrections/0/passes, 0, 100, -1, 101",
        "/times/degreesPerTippingPass, 1, 90, 0, 91",
        "/times/arcStationMm, 10, 10000, 9, 10001",
        "/times/areaStationMm, 10, 10000, 9, 10001",
        "/times/areaStationsAtLeast, 1, 1000, 0, 1001",
        "/times/annealCoolCleanMinutes, 0, 1440, -1, 1441",
        "/standards/1/setupMinutes, 0, 10000, -1, 10001",
        "/standards/1/minutesPerUnit, 0, 10000, -1, 10001",
        "/standards/1/people, 1, 10, 0, 11",
        "/standards/1/minimumCharge/amount, 0, 1000000, -1, 1000001",
        "/workCentres/0/labourRate/amount, 0, 1000000, -1, 1000001",
        "/workCentres/0/machineRate/amount, 0, 1000000, -1, 1000001",
        "/priceScheme/materialOverheadPercent, 0, 1000, -1, 1001",
        "/priceScheme/productionOverheadPercent, 0, 1000, -1, 1001",
        "/priceScheme/administrationPercent, 0, 500, -1, 501",
        "/priceScheme/salesPercent, 0, 500, -1, 501",
        "/priceScheme/profitPercent, 0, 500, -1, 501",
        "/priceScheme/settlementDiscountPercent, 0, 90, -1, 91",
        "/priceScheme/commissionPercent, 0, 90, -1, 91",
        "/priceScheme/tradeDiscountPercent, 0, 90, -1, 91",
        "/priceScheme/taxPercent, 0, 100, -1, 101",
        "/priceScheme/urgencyPercent, 0, 500, -1, 501",
        "/priceScheme/minimumOrder/amount, 0, 1000000, -1, 1000001",
    })
    void holdsEachFigureToItsRange(
            String pointer, String low, String high, String under, String over) {
        assertThat(pointersWith(pointer, number(low))).isEmpty();
        assertThat(pointersWith(pointer, number(high))).isEmpty();
        assertThat(pointersWith(pointer, number(under))).contains(pointer);
        assertThat(pointersWith(pointer, number(over))).contains(pointer);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/currency",
                "/grades/0/code",
                "/grades/0/name",
                "/grades/0/family",
                "/grades/0/densityKgM3",
                "/grades/0/tensileMpa",
                "/grades/0/proofMpa",
                "/grades/0/strengthCoefficientMpa",
                "/grades/0/hardeningExponent",
                "/grades/0/shrinkLimit",
                "/grades/1/edgeStretchLimit",
                "/grades/1/areaStretchLimit",
                "/grades/0/origin",
                "/sheets/0/grade",
                "/sheets/0/pricePerKg",
                "/sheets/0/origin",
                "/machines/0/name",
                "/machines/0/ratedThicknessMm",
                "/machines/0/throatMm",
                "/machines/0/strokesPerMinute",
                "/tools/0/name",
                "/tools/0/kind",
                "/tools/0/surface",
                "/tools/0/biteStrain",
                "/tools/0/jawMm",
                "/tools/1/rowMm",
                "/tools/0/pitchMm",
                "/tools/0/strokesPerMinute",
                "/passLimits/0/tool",
                "/passLimits/0/family",
                "/passLimits/0/origin",
                "/times/handling/0/seconds",
                "/times/corrections/0/gapFromMm",
                "/times/corrections/0/passes",
                "/standards/1/name",
                "/standards/1/workCentre",
                "/standards/1/minutesPerUnit",
                "/standards/1/unit",
                "/standards/1/origin",
                "/workCentres/0/name",
                "/workCentres/0/labourRate",
                "/priceScheme",
            })
    void asksForWhatIsMissing(String pointer) {
        assertThat(pointers(EditedBook.small().without(pointer))).contains(pointer);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/grades/0/annealedProofMpa",
                "/grades/0/elongationPercent",
                "/grades/0/edgeStretchLimit",
                "/grades/0/areaStretchLimit",
                "/grades/0/annealable",
                "/sheets/0",
                "/machines/0/ratedStrengthMpa",
                "/machines/0/strokeWorkJ",
                "/machines/0/feedEfficiency",
                "/tools/0/changeMinutes",
                "/tools/0/maxThicknessMm",
                "/passLimits/0/biteStrain",
                "/passLimits/0/strokeWorkJ",
                "/passLimits/0",
                "/times",
                "/times/handling",
                "/times/corrections",
                "/times/annealStandard",
                "/times/formingWorkCentre",
                "/standards/1/minimumCharge",
                "/workCentres/0/machineRate",
                "/workCentres/0/origin",
                "/priceScheme/kind",
                "/priceScheme/roundEachTo",
                "/priceScheme/minimumOrder",
            })
    void letsOutWhatHasADefaultOrNeedsNone(String pointer) {
        assertThat(pointers(EditedBook.small().without(pointer))).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"/grades", "/machines", "/tools", "/workCentres"})
    void wantsAtLeastOneOfEach(String list) {
        assertThat(pointersWith(list, List.of())).contains(list);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/grades/1",
                "/sheets/1",
                "/machines/0",
                "/tools/1",
                "/passLimits/0",
                "/times/handling/1",
                "/times/corrections/1",
                "/standards/1",
                "/workCentres/0"
            })
    void namesAnEntryThatIsNull(String entry) {
        assertThat(pointersWith(entry, null)).contains(entry);
    }

    @ParameterizedTest
    @CsvSource({
        "/grades/1/code, soft",
        "/tools/1/name, Edge tool",
        "/standards/1/name, Anneal",
    })
    void refusesANameThatStandsTwice(String pointer, String name) {
        assertThat(ShopBookCheck.faults(EditedBook.small().with(pointer, name).book()))
                .contains(new Fault(pointer, "stands twice: each must be different"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"/machines", "/workCentres"})
    void refusesAMachineOrWorkCentreThatStandsTwice(String list) {
        EditedBook small = EditedBook.small();
        assertThat(pointers(small.with(list + "/-", small.root().at(list + "/0"))))
                .containsExactly(list + "/1/name");
    }

    @Test
    void refusesTwoPricesForOneThickness() {
        assertThat(pointersWith("/sheets/1/thicknessMm", 2)).containsExactly("/sheets/1");
        assertThat(pointersWith("/sheets/1/thicknessMm", 2.5)).isEmpty();
    }

    @Test
    void refusesTwoPassLimitsForOneToolAndFamily() {
        EditedBook small = EditedBook.small();
        assertThat(pointers(small.with("/passLimits/-", small.root().at("/passLimits/0"))))
                .containsExactly("/passLimits/1");
    }

    @Test
    void refusesAPassLimitThatLimitsNothing() {
        assertThat(
                        pointers(
                                EditedBook.small()
                                        .without("/passLimits/0/biteStrain")
                                        .without("/passLimits/0/strokeWorkJ")))
                .containsExactly("/passLimits/0");
    }

    @ParameterizedTest
    @CsvSource({
        "/sheets/0/grade, grade",
        "/passLimits/0/tool, tool",
        "/passLimits/0/family, grade's family",
        "/standards/1/workCentre, work centre",
        "/times/annealStandard, time standard",
        "/times/formingWorkCentre, work centre",
    })
    void refusesANameThatIsNotInTheBook(String pointer, String what) {
        assertThat(ShopBookCheck.faults(EditedBook.small().with(pointer, "nowhere").book()))
                .singleElement()
                .satisfies(
                        fault -> {
                            assertThat(fault.pointer()).isEqualTo(pointer);
                            assertThat(fault.message())
                                    .startsWith(
                                            "names no " + what + " of the shop book; there are:");
                        });
    }

    @Test
    void wantsAFamilyFactorForEveryGradeWhosePassesAreComputed() {
        assertThat(pointers(EditedBook.small().without("/familyBite/soft-family")))
                .containsExactly("/grades/0/family");
        assertThat(pointers(EditedBook.small().without("/familyBite/other~1family"))).isEmpty();
    }

    @Test
    void wantsTheAnnealStandardByArea() {
        assertThat(pointersWith("/times/annealStandard", "Cut"))
                .containsExactly("/times/annealStandard");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/sheets/0/pricePerKg",
                "/standards/1/minimumCharge",
                "/workCentres/0/labourRate",
                "/workCentres/0/machineRate",
                "/priceScheme/minimumOrder"
            })
    void keepsToOneCurrency(String pointer) {
        assertThat(pointersWith(pointer, Map.of("amount", "7.00", "currency", "CHF")))
                .containsExactly(pointer + "/currency");
    }

    @Test
    void refusesACurrencyThatNobodyPaysWith() {
        assertThat(pointersWith("/currency", "XAU")).contains("/currency");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.01", "0.5", "0.50", "1", "5"})
    void roundsToTheseSteps(String step) {
        assertThat(pointersWith("/priceScheme/roundEachTo", step)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "0.02", "-1", "10", "one", ""})
    void roundsToNoOtherStep(String step) {
        assertThat(pointersWith("/priceScheme/roundEachTo", step))
                .containsExactly("/priceScheme/roundEachTo");
    }

    @Test
    void roundsToWholeMoneyWhereThereIsNoSmallerCoin() {
        EditedBook yen = EditedBook.small().with("/currency", "JPY");
        assertThat(pointers(yen)).contains("/priceScheme/roundEachTo");
        assertThat(pointers(yen.with("/priceScheme/roundEachTo", "5")))
                .doesNotContain("/priceScheme/roundEachTo");
    }

    @Test
    void leavesSomethingAfterAllDiscounts() {
        EditedBook most =
                EditedBook.small()
                        .with("/priceScheme/settlementDiscountPercent", 40)
                        .with("/priceScheme/commissionPercent", 30);
        assertThat(pointers(most.with("/priceScheme/tradeDiscountPercent", 29.9))).isEmpty();
        assertThat(pointers(most.with("/priceScheme/tradeDiscountPercent", 30)))
                .containsExactly("/priceScheme");
    }

    @Test
    void wantsHandlingClassesThatGrowAndEndOpen() {
        assertThat(pointersWith("/times/handling/1/upToKg", 1)).isEmpty();
        assertThat(pointersWith("/times/handling/1/upToKg", 0.9))
                .containsExactly("/times/handling/1");
        assertThat(pointersWith("/times/handling/2/upToKg", 25))
                .containsExactly("/times/handling/2");
        Map<String, Object> sameAsFirst = new HashMap<>();
        sameAsFirst.put("upToKg", 1);
        sameAsFirst.put("upToAreaM2", 0.15);
        sameAsFirst.put("upToLengthMm", 1000);
        sameAsFirst.put("seconds", 9);
        assertThat(pointersWith("/times/handling/1", sameAsFirst))
                .containsExactly("/times/handling/1");
        assertThat(pointersWith("/times/handling", List.of())).containsExactly("/times/handling");
    }

    @Test
    void wantsCorrectionGapsThatFallToNothing() {
        assertThat(pointersWith("/times/corrections/1/gapFromMm", 2.99)).isEmpty();
        assertThat(pointersWith("/times/corrections/1/gapFromMm", 3))
                .containsExactly("/times/corrections/1/gapFromMm");
        assertThat(pointersWith("/times/corrections/2/gapFromMm", 0.1))
                .containsExactly("/times/corrections/2/gapFromMm");
        assertThat(pointersWith("/times/corrections", List.of()))
                .containsExactly("/times/corrections");
    }

    @Test
    void keepsTheProofStressWithinWhatTheMetalCanReach() {
        assertThat(pointersWith("/grades/0/strengthCoefficientMpa", 34))
                .containsExactly("/grades/0/proofMpa");
        assertThat(pointersWith("/grades/0/strengthCoefficientMpa", 35)).isEmpty();
    }

    @Test
    void keepsTextsReadable() {
        for (String list : List.of("/machines/0", "/tools/0", "/times")) {
            assertThat(pointersWith(list + "/origin", "measured")).isEmpty();
            assertThat(pointersWith(list + "/origin", "o".repeat(201)))
                    .containsExactly(list + "/origin");
        }
        assertThat(pointersWith("/machines/0/name", "m".repeat(200))).isEmpty();
        assertThat(pointersWith("/machines/0/name", "m".repeat(201)))
                .containsExactly("/machines/0/name");
        assertThat(pointersWith("/machines/0/name", " ")).containsExactly("/machines/0/name");
    }

    @Test
    void keepsMoneyToSixDecimals() {
        assertThat(pointersWith("/workCentres/0/labourRate/amount", "42.000001")).isEmpty();
        assertThat(pointersWith("/workCentres/0/labourRate/amount", "42.0000001"))
                .containsExactly("/workCentres/0/labourRate/amount");
    }

    @Test
    void namesAllFaultsTogether() {
        assertThat(
                        pointers(
                                EditedBook.small()
                                        .with("/times/practiceSlope", 2)
                                        .with("/tools/0/pitchMm", 0)
                                        .without("/priceScheme")))
                .containsExactly("/tools/0/pitchMm", "/times/practiceSlope", "/priceScheme");
    }

    @Test
    void endsAtAnEmptyBookWithFaultsNotWithAnException() {
        assertThat(ShopBookCheck.faults(EditedBook.JSON.readValue("{}", ShopBook.class)))
                .extracting(Fault::pointer)
                .containsExactly(
                        "/currency",
                        "/grades",
                        "/machines",
                        "/tools",
                        "/workCentres",
                        "/priceScheme");
    }

    private static Object number(String text) {
        return text.contains(".") ? (Object) Double.valueOf(text) : (Object) Long.valueOf(text);
    }

    private static List<String> pointersWith(String pointer, Object value) {
        return pointers(EditedBook.small().with(pointer, value));
    }

    private static List<String> pointers(EditedBook edited) {
        return ShopBookCheck.faults(edited.book()).stream().map(Fault::pointer).toList();
    }
}
