package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.Estimate.PricedPer;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Grain;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Supply;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quantity.Severity;
import strokewright.quantity.Why;
import strokewright.sheet.Nest;

/** Sheets of 2000 × 1000 × 2 mm weigh 10.84 kg; 5 mm of each edge are not used. */
class MetalsTest {

    private static final Blank RIM = new Blank(1950.0, 120.0);

    @ParameterizedTest(name = "{0} rims: {1} sheets, {2}")
    @CsvSource({"1, 1, 54.20", "8, 1, 54.20", "9, 2, 108.40", "100000, 12500, 677500.00"})
    void wholeSheetsArePaidFor(int quantity, int sheets, String cost) {
        MetalUsed metal = metal(estimate(book(byKg(2000, 1000)), quantity, rim()), quantity);

        assertThat(metal.sheets()).isEqualTo(sheets);
        assertThat(metal.leastSheets()).isEqualTo(sheets);
        assertThat(metal.kg()).isCloseTo(10.84 * sheets, within(1e-6));
        assertThat(metal.cost()).isEqualTo(Money.of(cost, "EUR"));
        assertThat(metal.per()).isEqualTo(PricedPer.KG);
        assertThat(metal.keptKg()).isNull();
        assertThat(metal.yieldPercent())
                .isCloseTo(quantity * 1.95 * 0.12 / (sheets * 2) * 100, within(1e-9));
        assertThat(metal.patterns()).hasSizeLessThanOrEqualTo(2);
    }

    /** 1950 × 120 in the corner leaves 2000 × 875 above it: 87.5 % of the sheet. */
    @Test
    void keptOffcutsAreNotPaidFor() {
        EditedBook book = book(byKg(2000, 1000)).with("/cutting", Map.of("offcuts", "kept"));
        Estimate estimate = estimate(book, 1, rim());
        MetalUsed metal = metal(estimate, 1);

        assertThat(metal.cost()).isEqualTo(Money.of("6.78", "EUR")); // 6.775
        assertThat(metal.kg()).isCloseTo(10.84, within(1e-9));
        assertThat(metal.keptKg()).isCloseTo(0.875 * 10.84, within(1e-9));
        assertThat(metal.patterns().get(0).offcuts().get(0).kept()).isTrue();
    }

    /** The answer that {@code docs/http.md} shows. */
    @Test
    void theExampleOfTheInterfaceIsWhatComesOut() {
        Map<String, Object> price = Map.of("pricePerKg", eur("5.50"));
        EditedBook book =
                book(
                                with(byKg(2000, 1000), price),
                                with(byKg(2500, 1250), Map.of("pricePerKg", eur("5.90"))))
                        .with("/cutting", Map.of("offcuts", "kept"));
        MetalUsed metal = metal(estimate(book, 1, rim()), 1);

        assertThat(metal.cost()).isEqualTo(Money.of("7.45", "EUR"));
        assertThat(metal.keptKg()).isCloseTo(9.485, within(1e-9));
        assertThat(metal.others().get(0).cost()).isEqualTo(Money.of("7.81", "EUR"));
        assertThat(metal.patterns().get(0).offcuts())
                .containsExactly(
                        new Nest.Offcut(0, 125, 2000, 875, true),
                        new Nest.Offcut(1955, 0, 45, 125, false));
        assertThat(metal.patterns().get(0).blocks())
                .containsExactly(new Nest.Block("Rim", 5, 5, 1950, 120, false, 1, 1));
    }

    @ParameterizedTest(name = "kept from {0} mm: {1}")
    @CsvSource({"875, 6.78", "875.1, 54.20"})
    void anOffcutIsKeptWhenBothItsSidesReachTheLength(double from, String cost) {
        EditedBook book =
                book(byKg(2000, 1000))
                        .with("/cutting", Map.of("offcuts", "kept", "keptFromMm", from));

        assertThat(metal(estimate(book, 1, rim()), 1).cost()).isEqualTo(Money.of(cost, "EUR"));
    }

    @ParameterizedTest(name = "{0} sheets at {1}")
    @CsvSource({"1, 60.00", "9, 540.00", "10, 450.00", "49, 2205.00", "50, 2000.00"})
    void theBreakThatAllSheetsReachGivesThePrice(int sheets, String cost) {
        Map<String, Object> line =
                bySheet(2000, 1000, "60", List.of(from(10, "45"), from(50, "40")));
        MetalUsed metal = metal(estimate(book(line), sheets * 8, rim()), sheets * 8);

        assertThat(metal.cost()).isEqualTo(Money.of(cost, "EUR"));
        assertThat(metal.per()).isEqualTo(PricedPer.SHEET);
    }

    @ParameterizedTest(name = "{0} sheets: {1}")
    @CsvSource({"9, 487.80", "10, 433.60"})
    void breaksOfAPriceByMassCountKilograms(int sheets, String cost) {
        Map<String, Object> line = Map.of("breaks", List.of(from(108.4, "4.00")));
        MetalUsed metal =
                metal(estimate(book(with(byKg(2000, 1000), line)), sheets * 8, rim()), sheets * 8);

        assertThat(metal.cost()).isEqualTo(Money.of(cost, "EUR"));
    }

    @Test
    void aBreakThatMakesTheWholeCheaperIsTold() {
        Map<String, Object> line = bySheet(2000, 1000, "60", List.of(from(10, "45")));
        Estimate near = estimate(book(line), 9 * 8, rim());
        Estimate far = estimate(book(line), 7 * 8, rim());

        Finding finding = near.findings().get(0);
        assertThat(near.findings()).hasSize(1);
        assertThat(finding.code()).isEqualTo("cheaper-at-break");
        assertThat(finding.severity()).isEqualTo(Severity.NOTE);
        assertThat(finding.pointer()).isEqualTo("/quantities/0");
        assertThat(finding.values())
                .containsEntry("sheets", 9L)
                .containsEntry("sheetsAtBreak", 10L)
                .containsEntry("cost", Money.of("540.00", "EUR").amount())
                .containsEntry("costAtBreak", Money.of("450.00", "EUR").amount());
        assertThat(far.findings()).isEmpty(); // 7 × 60 = 420
    }

    /** One of 1000 × 1000 for a few, one of 2000 × 1000 for more: by the cost, not by the yield. */
    @Test
    void ofSeveralSizesTheCheapestIsTakenForEachQuantity() {
        Part panel = part("Panel", new Blank(900.0, 450.0));
        EditedBook book =
                book(bySheet(2000, 1000, "50", List.of()), bySheet(1000, 1000, "30", List.of()));
        MetalUsed few = metal(estimate(book, 2, panel), 2);
        MetalUsed more = metal(estimate(book, 4, panel), 4);

        assertThat(few.sheetLengthMm()).isEqualTo(1000);
        assertThat(few.others()).hasSize(1);
        assertThat(few.others().get(0).lengthMm()).isEqualTo(2000);
        assertThat(few.others().get(0).cost()).isEqualTo(Money.of("50.00", "EUR"));
        assertThat(more.sheetLengthMm()).isEqualTo(2000);
        assertThat(more.sheets()).isEqualTo(1);
    }

    @Test
    void partsOfOneMetalShareTheirSheets() {
        Part disc = part("Disc", new Blank(900.0, 480.0));
        Part rim = part("Rim", RIM);
        ForQuantity shared = estimate(book(byKg(2000, 1000)), 4, rim, disc).quantities().get(0);

        assertThat(shared.metal()).hasSize(1);
        assertThat(shared.metal().get(0).sheets()).isEqualTo(2);
        assertThat(shared.metal().get(0).patterns())
                .anySatisfy(
                        p -> assertThat(p.blocks()).extracting("blank").contains("Disc", "Rim"));
    }

    @Test
    void partsOfOneNameStayApartInTheNest() {
        Part small = part("Rim", new Blank(300.0, 200.0));
        MetalUsed metal = metal(estimate(book(byKg(2000, 1000)), 2, rim(), small), 2);

        assertThat(metal.patterns())
                .flatExtracting(Nest.Pattern::blocks)
                .extracting(Nest.Block::blank)
                .containsOnly("Rim", "Rim (2)");
    }

    @Test
    void otherThicknessesAreBoughtByThemselves() {
        Part thin = WorkedShop.part("al", 1.0, 1.0, RIM, null, cut());
        Part named = renamed(thin, "Thin");
        EditedBook book =
                book(byKg(2000, 1000), with(byKg(2000, 1000), Map.of("thicknessMm", 1.0)));
        List<MetalUsed> metal = estimate(book, 1, rim(), named).quantities().get(0).metal();

        assertThat(metal).extracting(MetalUsed::thicknessMm).containsExactly(2.0, 1.0);
        assertThat(metal.get(1).cost()).isEqualTo(Money.of("27.10", "EUR"));
    }

    @Test
    void grainAlongTheLengthForbidsTurning() {
        Part free = part("Post", new Blank(400.0, 990.0));
        Part grained = withGrain(free);

        assertThat(metal(estimate(book(byKg(2000, 1000)), 4, free), 4).sheets()).isEqualTo(1);
        assertThat(metal(estimate(book(byKg(1990, 410)), 2, free), 2).sheets()).isEqualTo(1);
        assertThat(estimate(book(byKg(1990, 410)), 2, grained).findings())
                .extracting(Finding::code)
                .containsExactly("blank-over-sheet");
    }

    @Test
    void customersMetalIsNotBoughtAndSpoiltMetalHasToBeAgreedOn() {
        Part part = rim();
        Part customers =
                new Part(
                        part.name(),
                        1,
                        part.grade(),
                        part.thicknessMm(),
                        null,
                        part.blank(),
                        null,
                        null,
                        null,
                        null,
                        Supply.CUSTOMER,
                        null,
                        part.operations(),
                        null,
                        null,
                        null,
                        List.of(),
                        null);
        Estimate estimate = estimate(book(byKg(2000, 1000)), 5, customers);

        assertThat(estimate.quantities().get(0).metal()).isEmpty();
        assertThat(estimate.quantities().get(0).cost().material().isZero()).isTrue();
        assertThat(estimate.findings())
                .extracting(Finding::code, Finding::pointer)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("customers-metal", "/parts/0/supply"));
    }

    /** 2.2 × 0.12 m × 2 mm × 2710 kg/m³ = 1.43088 kg. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({"by kg, 7.15", "by sheet, 7.92", "with a line by mass, 8.59"})
    void blankOverEverySheetIsPricedByItsMass(String how, String cost) {
        Map<String, Object> stock =
                how.equals("by sheet") ? bySheet(2000, 1000, "60", List.of()) : byKg(2000, 1000);
        EditedBook book = book(stock);
        if (how.equals("with a line by mass")) {
            book.with("/sheets/-", Map.of("grade", "al", "pricePerKg", eur("6"), "origin", "x"));
        }
        Estimate estimate = estimate(book, 1, part("Long", new Blank(2200.0, 120.0)));

        assertThat(estimate.findings())
                .extracting(Finding::code, Finding::severity)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("blank-over-sheet", Severity.DOUBT));
        assertThat(estimate.quantities().get(0).cost().material()).isEqualTo(Money.of(cost, "EUR"));
        assertThat(metal(estimate, 1).sheets()).isNull();
    }

    @Test
    void whatNoOneSizeHoldsIsLaidOnTwo() {
        Part post = part("Long", new Blank(2900.0, 90.0));
        Part panel = part("Panel", new Blank(1150.0, 1150.0));
        EditedBook book = book(byKg(3000, 100), byKg(1200, 1200));
        List<MetalUsed> metal = estimate(book, 3, post, panel).quantities().get(0).metal();

        assertThat(metal).extracting(MetalUsed::sheetLengthMm).containsExactly(3000.0, 1200.0);
        assertThat(metal).extracting(MetalUsed::sheets).containsExactly(3, 3);
    }

    @Test
    void aPartWithoutABlankIsPricedByItsMass() {
        Part part = WorkedShop.part("al", 2.0, 3.0, null, null, cut());
        Estimate estimate = estimate(book(byKg(2000, 1000)), 2, part);

        assertThat(estimate.findings())
                .extracting(Finding::code)
                .containsExactly("no-blank-to-nest");
        assertThat(metal(estimate, 2).cost()).isEqualTo(Money.of("30.00", "EUR"));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {31, 32, 33})
    void everyFigureIsItsTraceAndHangsOnNoOtherQuantity(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 25; i++) {
            EditedBook book =
                    book(
                                    byKg(random.nextInt(1200, 3000), random.nextInt(800, 1500)),
                                    bySheet(
                                            random.nextInt(1200, 3000),
                                            random.nextInt(800, 1500),
                                            "55.55",
                                            List.of(from(5, "49.10"))))
                            .with(
                                    "/cutting",
                                    Map.of(
                                            "offcuts",
                                            random.nextBoolean() ? "kept" : "charged",
                                            "kerfMm",
                                            random.nextInt(4)));
            List<Part> parts = new ArrayList<>();
            for (int p = random.nextInt(1, 4); p > 0; p--) {
                parts.add(
                        part(
                                "P" + p,
                                new Blank(
                                        random.nextDouble(100, 1400), random.nextDouble(50, 900))));
            }
            int few = random.nextInt(1, 10);
            int many = random.nextInt(20, 200);
            ShopBook shop = book.book();
            Estimate together = Estimating.estimate(takeOff(List.of(many, few), parts), shop);
            Estimate alone = Estimating.estimate(takeOff(List.of(few), parts), shop);

            assertThat(together.quantities().get(1)).isEqualTo(alone.quantities().get(0));
            together.quantities().forEach(MetalsTest::recomputed);
        }
    }

    private static void recomputed(ForQuantity quantity) {
        for (Why why : quantity.why()) {
            double[] inputs = why.inputs().stream().mapToDouble(Why.Input::value).toArray();
            double again = Formulas.named(why.formula()).orElseThrow().apply(inputs);
            assertThat(again)
                    .as(why.figure())
                    .isCloseTo(why.value(), within(Math.abs(why.value()) * 1e-9 + 1e-9));
        }
        Money sum = Money.zero(WorkedShop.EUR);
        for (MetalUsed metal : quantity.metal()) {
            sum = sum.plus(metal.cost());
            assertThat(metal.sheets()).isGreaterThanOrEqualTo(metal.leastSheets());
        }
        assertThat(sum.amount().doubleValue())
                .isCloseTo(quantity.cost().material().amount().doubleValue(), within(0.021));
    }

    /** A break makes 80 blanks cheaper than 72: the routes change places again and again. */
    @Test
    void breakEvensAreFoundWhereAPriceBreakLetsTheCostFall() {
        ShopBook shop =
                book(bySheet(2000, 1000, "60", List.of(from(20, "40"), from(60, "25"))))
                        .with(
                                "/sheets/-",
                                Map.of("grade", "5xxx", "pricePerKg", eur("4.08"), "origin", "x"))
                        .book();
        Part other = WorkedShop.part("5xxx", 2.0, 1.0, RIM, null, cut());
        Routes routes =
                Routes.compare(
                        List.of(
                                new Route("sheet", takeOff(List.of(1), List.of(rim()))),
                                new Route("mass", takeOff(List.of(1), List.of(other)))),
                        900,
                        shop);
        List<Integer> changes = new ArrayList<>();
        boolean first = routes.cost(0, 1) < routes.cost(1, 1);
        for (int q = 2; q <= 900; q++) {
            boolean now = routes.cost(0, q) < routes.cost(1, q);
            if (now != first) {
                changes.add(q);
            }
            first = now;
        }

        assertThat(changes).hasSizeGreaterThan(2).anyMatch(q -> q > 200);
        assertThat(routes.comparison().breakEvens())
                .extracting(RouteComparison.BreakEven::quantity)
                .containsExactlyElementsOf(changes);
    }

    @Test
    void storedEstimatesAreReadAgainWithTheirNest() {
        Estimate estimate = estimate(book(byKg(2000, 1000)), 9, rim());
        String json = EditedBook.JSON.writeValueAsString(estimate);

        assertThat(EditedBook.JSON.readValue(json, Estimate.class)).isEqualTo(estimate);
    }

    // Situations ----------------------------------------------------------------------------------

    @SafeVarargs
    private static EditedBook book(Map<String, Object>... lines) {
        return EditedBook.of(WorkedShop.book()).with("/sheets", List.of(lines));
    }

    private static Map<String, Object> byKg(double length, double width) {
        return Map.of(
                "grade",
                "al",
                "thicknessMm",
                2.0,
                "lengthMm",
                length,
                "widthMm",
                width,
                "pricePerKg",
                eur("5"),
                "origin",
                "invented");
    }

    private static Map<String, Object> bySheet(
            double length, double width, String price, List<Map<String, Object>> breaks) {
        return Map.of(
                "grade",
                "al",
                "thicknessMm",
                2.0,
                "lengthMm",
                length,
                "widthMm",
                width,
                "pricePerSheet",
                eur(price),
                "breaks",
                breaks,
                "origin",
                "invented");
    }

    private static Map<String, Object> with(Map<String, Object> line, Map<String, Object> more) {
        Map<String, Object> both = new java.util.LinkedHashMap<>(line);
        both.putAll(more);
        return both;
    }

    private static Map<String, Object> from(double from, String price) {
        return Map.of("from", from, "price", eur(price));
    }

    private static Map<String, Object> eur(String amount) {
        return Map.of("amount", amount, "currency", "EUR");
    }

    private static Part rim() {
        return part("Rim", RIM);
    }

    private static Part part(String name, Blank blank) {
        return renamed(WorkedShop.part("al", 2.0, 1.0, blank, null, cut()), name);
    }

    private static Operation cut() {
        return new Operation.Standard("Cut", 1.0);
    }

    private static Part renamed(Part p, String name) {
        return copy(p, name, Grain.FREE);
    }

    private static Part withGrain(Part p) {
        return copy(p, p.name(), Grain.ALONG_LENGTH);
    }

    private static Part copy(Part p, String name, Grain grain) {
        return new Part(
                name,
                p.perAssembly(),
                p.grade(),
                p.thicknessMm(),
                p.massKg(),
                p.blank(),
                p.surface(),
                p.edge(),
                p.templateGapMm(),
                p.tolerance(),
                p.supply(),
                p.machine(),
                p.operations(),
                null,
                grain,
                null,
                List.of(),
                null);
    }

    private static TakeOff takeOff(List<Integer> quantities, List<Part> parts) {
        return new TakeOff(
                "Item",
                null,
                quantities,
                null,
                null,
                parts,
                List.of(),
                List.of(),
                null,
                List.of(),
                List.of(),
                null);
    }

    private static Estimate estimate(EditedBook book, int quantity, Part... parts) {
        ShopBook shop = book.book();
        assertThat(ShopBookCheck.faults(shop))
                .noneMatch(f -> f.pointer().startsWith("/sheets"))
                .noneMatch(f -> f.pointer().startsWith("/cutting"));
        return Estimating.estimate(takeOff(List.of(quantity), List.of(parts)), shop);
    }

    private static MetalUsed metal(Estimate estimate, int quantity) {
        ForQuantity of = estimate.quantities().get(0);
        assertThat(of.quantity()).isEqualTo(quantity);
        assertThat(of.metal()).hasSize(1);
        return of.metal().get(0);
    }
}
