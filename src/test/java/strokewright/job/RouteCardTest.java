package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.Situations.booksOfMetal;
import static strokewright.takeoff.Situations.bow;
import static strokewright.takeoff.Situations.bowl;
import static strokewright.takeoff.Situations.foldedTray;
import static strokewright.takeoff.Situations.galvanisedCover;
import static strokewright.takeoff.Situations.hurriedBracket;
import static strokewright.takeoff.Situations.roundFrame;
import static strokewright.takeoff.Situations.surchargeBook;
import static strokewright.takeoff.Situations.takeOff;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.Result;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.multi.qrcode.QRCodeMultiReader;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.OpenedPdf;
import strokewright.estimate.Caution;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.job.JobPlan.Planned;
import strokewright.quantity.Money;
import strokewright.quote.Letterhead;
import strokewright.quote.PricedItem;
import strokewright.takeoff.Cautions;
import strokewright.takeoff.Situations;
import strokewright.web.Numbers;
import tools.jackson.databind.node.ObjectNode;

class RouteCardTest {

    private static final String SHOP = "Quillmoor Sheet & Form";
    private static final String LINK = "https://shop.example";
    private static final String JOB = LINK + "/book/J-2026-0012";
    private static final float POINTS_A_MM = 72 / 25.4f;

    // What stands on it ---------------------------------------------------------------------------

    @Test
    void showsTheDataFieldsOfItsTitleBlock() {
        assertThat(text(surchargeBook(), 3, roundFrame()))
                .contains(
                        "Route card",
                        "Shop\nQuillmoor Sheet & Form",
                        "Identification number\nJ-2026-0012",
                        "Shop book edition\n3",
                        "Date\n2 Mar 2026",
                        "Title\nRound sign frame",
                        "For\nHarbour Theatre Workshop",
                        "Due\n1 Apr 2026",
                        "Released by\nEvie Stimator",
                        "Checked by");
    }

    @ParameterizedTest
    @EnumSource(Letterhead.Paper.class)
    void everyPageHasItsSizeItsNumberAndEmbeddedFonts(Letterhead.Paper paper) {
        try (OpenedPdf opened =
                new OpenedPdf(card(paper, LINK, surchargeBook(), 3, roundFrame(), bow()))) {
            assertThat(opened.sizes())
                    .containsOnly(paper == Letterhead.Paper.A4 ? "210 x 297" : "216 x 279");
            assertThat(opened.pages()).isGreaterThan(2);
            for (int page = 1; page <= opened.pages(); page++) {
                assertThat(opened.text(page))
                        .contains("Page " + page + " of " + opened.pages())
                        .contains("J-2026-0012 · edition 3 · 2 Mar 2026");
            }
            assertThat(opened.fonts())
                    .isNotEmpty()
                    .allMatch(OpenedPdf.Font::embedded)
                    .allMatch(OpenedPdf.Font::subset);
            assertThat(opened.isTagged()).isTrue();
            assertThat(opened.title()).isEqualTo("Route card J-2026-0012: Round sign frame");
            assertThat(opened.hasActions()).isFalse();
        }
    }

    @ParameterizedTest
    @MethodSource("jobs")
    void everyStepIsPlannedAndHasItsRowWithMinutesAndAddress(ShopBook book, List<TakeOff> made) {
        JobPlan plan = plan(book, 3, made);
        String text = flat(text(book, 3, made.toArray(TakeOff[]::new)));
        assertThat(plan.steps()).isNotEmpty();
        for (Step step : plan.steps()) {
            String row =
                    step.n()
                            + " "
                            + RouteCard.words(step.work())
                            + " "
                            + step.work().workCentre()
                            + " "
                            + JOB
                            + "/"
                            + step.n()
                            + " "
                            + minutes(step.work().setupMinutes())
                            + " "
                            + minutes(step.work().runMinutes());
            assertThat(unbroken(text)).contains(unbroken(row));
        }
        for (Step step : plan.steps()) {
            assertThat(order(book, made, 3))
                    .anyMatch(row -> row.step().equals(String.valueOf(step.n())));
        }
    }

    @Test
    void blanksAreTheDevelopedOnesWithSparesAndHowManyToCut() {
        ShopBook book = starter();
        String tray = text(book, 4, trayToFold());
        Estimate estimate = Estimating.estimate(trayToFold(), book);
        Estimate.Folded folded = estimate.folds().get(0);
        assertThat(flat(tray))
                .contains(
                        "Tray Low-carbon steel, cold-rolled, DC04 1.5 300 × "
                                + mm(folded.developedMm())
                                + " 8 0 8 developed")
                .contains("Along the bends 300 mm, blank across them " + mm(folded.developedMm()))
                .contains("first leg 40 mm outside");
        for (Estimate.Bent bent : folded.bends()) {
            assertThat(flat(tray))
                    .contains(
                            mm(bent.lineMm())
                                    + " "
                                    + mm(bent.openingDeg())
                                    + "° "
                                    + shown(bent.bendToDeg(), 1)
                                    + "°");
        }

        String thin = text(book, 5, thinBowl());
        Estimate.Line dish =
                Estimating.estimate(thinBowl(), book).operations().stream()
                        .filter(l -> l.crown() != null)
                        .findFirst()
                        .orElseThrow();
        assertThat(flat(thin))
                .contains("420 × 420, disc Ø " + mm(dish.blankDiameterMm()) + " 5 1 6");
    }

    @Test
    void theNestIsDrawnForTheQuantityThatIsMade() {
        ShopBook book = booksOfMetal().get(1);
        Estimate.ForQuantity made = Estimating.reckon(roundFrame(), book).forQuantity(37);
        Estimate.MetalUsed metal =
                made.metal().stream().filter(m -> m.sheets() != null).findFirst().orElseThrow();
        String text = flat(text(book, 37, roundFrame()));
        assertThat(text)
                .contains("2 mm: " + metal.sheets() + " sheets of 2 000 × 1 000 mm")
                .contains(
                        metal.patterns().get(0).times()
                                + " sheets, each with "
                                + metal.patterns().get(0).blocks().get(0).pieces()
                                + " × Rim");
        assertThat(metal.patterns()).hasSizeLessThanOrEqualTo(12);
        try (OpenedPdf opened =
                new OpenedPdf(card(Letterhead.Paper.A4, "", book, 37, roundFrame()))) {
            assertThat(opened.described())
                    .filteredOn(d -> d.startsWith("A sheet of 2 000 × 1 000 mm with "))
                    .hasSameSizeAs(metal.patterns());
        }
    }

    @Test
    void toolsComeInTheOrderOfThePlanWithMachineAndTheSlowerStrokeRate() {
        ShopBook book = surchargeBook();
        Estimate estimate = Estimating.estimate(roundFrame(), book);
        List<String> expected = new ArrayList<>();
        for (Estimate.Visit visit : estimate.plan().visits()) {
            if (visit.change()) {
                double rate =
                        Math.min(
                                book.tool(visit.tool()).orElseThrow().strokesPerMinute(),
                                book.machine(visit.machine()).orElseThrow().strokesPerMinute());
                expected.add(
                        "Put in %s · %s · %.0f strokes/min"
                                .formatted(visit.tool(), visit.machine(), rate));
            }
            expected.add(visit.part() + ": ");
        }
        assertThat(expected).hasSizeGreaterThan(4);
        String text = flat(text(book, 3, roundFrame()));
        assertThat(text.substring(text.indexOf("Order of work"), text.indexOf("Booking Step")))
                .containsSubsequence(expected);
    }

    @Test
    void workOfAPartKeepsItsOrderAroundItsForming() {
        TakeOff drilled =
                takeOff(
                        """
                        {"title":"Arm","quantities":[2],"parts":[{"name":"Arm","grade":"STEEL-DC","thicknessMm":1.5,
                          "blank":{"lengthMm":500,"widthMm":60},
                          "operations":[{"type":"standard","standard":"Guillotine cut","amount":4},
                           {"type":"curve-edge","sense":"stretch","lengthMm":480,"radiusMm":400,"heightMm":20},
                           {"type":"standard","standard":"Bend","amount":1},
                           {"type":"smooth","areaMm2":20000},
                           {"type":"standard","standard":"Galvanise","amount":0.2}]}]}
                        """);
        assertThat(order(surchargeBook(), List.of(drilled), 2))
                .extracting(RouteCardOrder.Row::what)
                .filteredOn(what -> what.startsWith("Arm"))
                .containsExactly(
                        "Arm: Guillotine cut",
                        "Arm: Curve an edge",
                        "Arm: Bend",
                        "Arm: Smooth",
                        "Arm: Galvanise");
    }

    /** The checks that are named are as many as were reckoned, each at its pass. */
    @Test
    void checksAreNamedAsOftenAsTheyWereReckoned() {
        ShopBook book = surchargeBook();
        Estimate.Line rim = line(book, roundFrame(), "Rim", "curve-edge");
        int passes = rim.passes().get(rim.passes().size() - 1);
        int every = book.times().checkEveryPasses();
        List<Integer> at =
                IntStream.rangeClosed(1, passes)
                        .filter(p -> p % every == 0 || p == passes)
                        .boxed()
                        .toList();
        assertThat(at).hasSize((int) (rim.checks() - rim.correctionPasses()));
        assertThat(flat(text(book, 1, roundFrame())))
                .contains("At the edge: " + passes + " passes")
                .contains("then " + rim.correctionPasses() + " correction passes at the edge")
                .contains(
                        "Check after passes "
                                + at.stream().map(String::valueOf).collect(Collectors.joining(", "))
                                + "; and after each correction pass")
                .contains("R 300 mm at the heel, 1 885 mm long")
                .contains("Check at 7 stations, 269.3 mm apart");
    }

    @Test
    void annealsFallBetweenTheVisitsThatTheyPart() {
        ShopBook book = starter();
        TakeOff deep = deepBowl();
        Estimate.Line dish = line(book, deep, "Bowl", "dish");
        int anneals = dish.anneals() + dish.crown().anneals();
        assertThat(anneals).isPositive();
        List<RouteCardOrder.Row> rows = order(book, List.of(deep), 2);
        assertThat(rows).filteredOn(r -> r.kind() == RouteCardOrder.Kind.ANNEAL).hasSize(anneals);
        Step anneal =
                plan(book, 2, List.of(deep)).steps().stream()
                        .filter(s -> s.work().kind().equals("Anneal"))
                        .findFirst()
                        .orElseThrow();
        for (int i = 0; i < rows.size(); i++) {
            if (rows.get(i).kind() == RouteCardOrder.Kind.ANNEAL) {
                assertThat(rows.get(i).step()).isEqualTo(String.valueOf(anneal.n()));
                assertThat(rows.get(i - 1).what()).isEqualTo("Bowl: Dish a disc");
                assertThat(rows.get(i + 1).what()).isEqualTo("Bowl: Dish a disc");
                assertThat(rows.get(i).aside()).contains(visit(rows.get(i + 1).aside()));
            }
        }
        assertThat(passes(rows, "At the rim"))
                .isEqualTo((int) dish.passes().get(dish.passes().size() - 1));
        assertThat(passes(rows, "All over")).isEqualTo(dish.crown().passes());
    }

    private static String visit(String aside) {
        return aside.substring(aside.indexOf("visit"));
    }

    /** Of all visits together, whatever they are told by. */
    private static int passes(List<RouteCardOrder.Row> rows, String where) {
        int passes = 0;
        for (RouteCardOrder.Row row : rows) {
            for (String told : row.passes()) {
                if (told.startsWith(where + ": ")) {
                    var range = Pattern.compile("passes (\\d+) to (\\d+) of").matcher(told);
                    var single = Pattern.compile("pass (\\d+) of").matcher(told);
                    var plain = Pattern.compile(": (\\d+) pass").matcher(told);
                    if (range.find()) {
                        passes +=
                                Integer.parseInt(range.group(2))
                                        - Integer.parseInt(range.group(1))
                                        + 1;
                    } else if (single.find()) {
                        passes += 1;
                    } else if (plain.find()) {
                        passes += Integer.parseInt(plain.group(1));
                    }
                }
            }
        }
        return passes;
    }

    @Test
    void everyStretchOfAnOutlineHasItsOwnRow() {
        ShopBook book = surchargeBook();
        Estimate.Line line = line(book, bow(), "Bow", "follow-outline");
        String text = flat(text(book, 2, bow()));
        assertThat(line.outline().stretches()).hasSizeGreaterThan(1);
        line.outline()
                .stretches()
                .forEach(
                        s ->
                                assertThat(text)
                                        .contains("Stretch " + s.number() + ", ")
                                        .contains("R " + mm(s.tightestRadiusMm()) + " mm at its")
                                        .contains(mm(s.lengthMm()) + " mm long"));
        assertThat(text).contains("On each of 2:");
    }

    @Test
    void theFinalCheckSaysWhatIsInspectedAndWhenTheLotIsRefused() {
        ShopBook book = surchargeBook();
        int quantity = 120;
        List<Estimate.Sample> samples =
                Estimating.reckon(galvanisedCover(), book).forQuantity(quantity).samples();
        Estimate.Sample sample = samples.get(0);
        assertThat(sample.accept()).isNotNull();
        assertThat(flat(text(book, quantity, galvanisedCover())))
                .contains(
                        "Cover 120 %d accept up to %d failed, reject from %d ISO 2768-c"
                                .formatted(sample.inspected(), sample.accept(), sample.reject()));
        assertThat(flat(text(book, 3, galvanisedCover())))
                .contains("Cover 3 every piece each by itself ISO 2768-c");
    }

    // Cautions ------------------------------------------------------------------------------------

    @ParameterizedTest
    @MethodSource("jobs")
    void everyCautionThatTheWorkCallsUpStandsOnItWithItsTrigger(ShopBook book, List<TakeOff> made) {
        String text = flat(text(book, 3, made.toArray(TakeOff[]::new)));
        Set<Caution> all = new HashSet<>();
        for (TakeOff takeOff : made) {
            all.addAll(Cautions.of(takeOff, Estimating.estimate(takeOff, book), book).keySet());
        }
        assertThat(all).isNotEmpty();
        for (Caution caution : Caution.values()) {
            if (all.contains(caution)) {
                assertThat(text).contains(caution.title(), caution.text());
            } else {
                assertThat(text).doesNotContain(caution.text());
            }
        }
        assertThat(text.split("Because of ", -1)).hasSize(all.size() + 1);
        assertThat(text)
                .contains("The machine's manual, local codes and licensed practice decide.");
    }

    @Test
    void aCautionNamesTheStepsAndPartsThatCallItUp() {
        ShopBook book = starter();
        JobPlan plan = plan(book, 2, List.of(deepBowl()));
        Step dish =
                plan.steps().stream()
                        .filter(s -> s.work().kind().equals("dish"))
                        .findFirst()
                        .orElseThrow();
        double strokes =
                Cautions.strokeMinutes(
                        deepBowl().withMainQuantity(2), Estimating.estimate(deepBowl(), book));
        assertThat(flat(text(book, 2, deepBowl())))
                .contains("Because of step " + dish.n() + " Bowl: Dish a disc")
                .contains("Planned here: " + shown(strokes, 0) + " stroke minutes");
    }

    @Test
    void aCrownThatIsAnnealedAloneCallsForTheCautionToo() {
        TakeOff crowned =
                takeOff(
                        """
                        {"title":"Lid","quantities":[1],
                         "parts":[{"name":"Lid","grade":"AL99.5-O","thicknessMm":2.0,
                           "blank":{"lengthMm":460,"widthMm":460},
                           "operations":[{"type":"dish","diameterMm":400,"depthMm":130,"rimShare":0}]}]}
                        """);
        Estimate.Line dish = line(starter(), crowned, "Lid", "dish");
        assertThat(dish.anneals()).isZero();
        assertThat(dish.crown().anneals()).isPositive();
        assertThat(flat(text(starter(), 1, crowned))).contains(Caution.ANNEALING.title());
    }

    @Test
    void marksThatAreDressedOutAreAStepOfTheirOwnWithTheirDust() {
        ShopBook book = withMarksDressed();
        TakeOff marked =
                takeOff(
                        """
                        {"title":"Strip","quantities":[1],
                         "parts":[{"name":"Strip","grade":"AL99.5-O","thicknessMm":2.0,"surface":"visible",
                           "blank":{"lengthMm":460,"widthMm":60},
                           "operations":[{"type":"curve-edge","sense":"shrink","lengthMm":450,"radiusMm":400,
                             "heightMm":20,"tool":"Shrink, steel-faced"}]}]}
                        """);
        assertThat(order(book, List.of(marked), 1))
                .extracting(RouteCardOrder.Row::what)
                .containsSubsequence(
                        "Put in Shrink, steel-faced",
                        "Strip: Curve an edge",
                        "Strip: Dress out marks");
        assertThat(flat(text(book, 1, marked))).contains(Caution.ALUMINIUM_DUST.title());
    }

    // No money ------------------------------------------------------------------------------------

    @ParameterizedTest
    @MethodSource("jobs")
    void nothingOnItIsAPriceOrARate(ShopBook book, List<TakeOff> made) {
        String text = text(book, 3, made.toArray(TakeOff[]::new));
        assertThat(text).doesNotContain("EUR", "€", "$");
        assertThat(text.toLowerCase(Locale.ROOT))
                .doesNotContainPattern(
                        "\\b(prices?|costs?|rates?|profit|margin|discount|surcharge|tax"
                                + "|wages?|per hour|an hour)\\b");
        Set<String> amounts =
                Pattern.compile("\\b\\d+[.,]\\d\\d\\b")
                        .matcher(flat(text).replaceAll("(?<=\\d) (?=\\d{3}\\b)", ""))
                        .results()
                        .map(r -> r.group())
                        .collect(Collectors.toSet());
        for (TakeOff takeOff : made) {
            for (Money money : monies(book, takeOff)) {
                assertThat(amounts).doesNotContain(money.amount().toPlainString());
            }
        }
    }

    private static List<Money> monies(ShopBook book, TakeOff takeOff) {
        Estimate.ForQuantity q = Estimating.reckon(takeOff, book).forQuantity(3);
        List<Money> monies =
                new ArrayList<>(
                        List.of(
                                q.priceEach(),
                                q.price().offer(),
                                q.price().withTax(),
                                q.cost().total(),
                                q.cost().material(),
                                q.cost().labour()));
        q.workCentres()
                .forEach(
                        c -> {
                            monies.add(c.labourRate());
                            monies.add(c.machineRate());
                        });
        takeOff.extras().forEach(e -> monies.add(e.cost()));
        q.metal().forEach(m -> monies.add(m.cost()));
        return monies;
    }

    // Codes ---------------------------------------------------------------------------------------

    @ParameterizedTest
    @EnumSource(Letterhead.Paper.class)
    void theCodesOpenTheBookingOfEachStepAndOfTheJob(Letterhead.Paper paper) throws Exception {
        ShopBook book = surchargeBook();
        JobPlan plan = plan(book, 3, List.of(roundFrame(), bowl()));
        Set<String> expected = new HashSet<>(Set.of(JOB));
        plan.steps().forEach(s -> expected.add(JOB + "/" + s.n()));
        assertThat(decoded(card(paper, LINK + "/", book, 3, roundFrame(), bowl())))
                .containsExactlyInAnyOrderElementsOf(expected);
    }

    @Test
    void withoutAnAddressThereAreNoCodesAndTheBoxesStay() throws Exception {
        byte[] card = card(Letterhead.Paper.A4, "", surchargeBook(), 3, roundFrame());
        assertThat(decoded(card)).isEmpty();
        try (OpenedPdf opened = new OpenedPdf(card)) {
            assertThat(flat(opened.text()))
                    .contains("1 Tool changes Forming")
                    .doesNotContain("/book/", "Code");
        }
    }

    private static List<String> decoded(byte[] card) throws IOException {
        List<String> found = new ArrayList<>();
        try (PDDocument document = Loader.loadPDF(card)) {
            PDFRenderer renderer = new PDFRenderer(document);
            for (int page = 0; page < document.getNumberOfPages(); page++) {
                BufferedImage seen = renderer.renderImageWithDPI(page, 200);
                int w = seen.getWidth();
                int h = seen.getHeight();
                BinaryBitmap bitmap =
                        new BinaryBitmap(
                                new HybridBinarizer(
                                        new RGBLuminanceSource(
                                                w, h, seen.getRGB(0, 0, w, h, null, 0, w))));
                try {
                    for (Result result :
                            new QRCodeMultiReader()
                                    .decodeMultiple(
                                            bitmap, Map.of(DecodeHintType.TRY_HARDER, true))) {
                        found.add(result.getText());
                    }
                } catch (NotFoundException none) {
                    // a page without codes
                }
            }
        }
        return found;
    }

    // Pages ---------------------------------------------------------------------------------------

    @Test
    void twelveOperationsKeepTheirRowsWholeUnderTheHeadOfTheTable() {
        rowsAreWhole(starter(), 5, twelveOperations());
    }

    @Test
    void fiftyPartsKeepTheirRowsWholeUnderTheHeadOfTheTable() {
        rowsAreWhole(surchargeBook(), 2, fiftyParts());
    }

    private static void rowsAreWhole(ShopBook book, int quantity, TakeOff takeOff) {
        JobPlan plan = plan(book, quantity, List.of(takeOff));
        try (OpenedPdf opened =
                new OpenedPdf(card(Letterhead.Paper.LETTER, LINK, book, quantity, takeOff))) {
            Map<Integer, Integer> pageOf = new TreeMap<>();
            for (int page = 1; page <= opened.pages(); page++) {
                String text = unbroken(flat(opened.text(page)));
                for (Step step : plan.steps()) {
                    String row =
                            unbroken(
                                    RouteCard.words(step.work())
                                            + step.work().workCentre()
                                            + JOB
                                            + "/"
                                            + step.n()
                                            + minutes(step.work().setupMinutes())
                                            + minutes(step.work().runMinutes()));
                    if (text.contains(row)) {
                        pageOf.put(step.n(), page);
                        assertThat(text).contains("StepCodeWork");
                    }
                }
            }
            assertThat(pageOf).hasSize(plan.steps().size());
            assertThat(new HashSet<>(pageOf.values())).hasSizeGreaterThan(1);
        }
    }

    /** Between the number of a row and that of the next. */
    @ParameterizedTest
    @EnumSource(Letterhead.Paper.class)
    void everyBoxIsHighEnoughForAPencil(Letterhead.Paper paper) {
        for (String link : List.of(LINK, "")) {
            assertThat(
                            new StepNumbers(
                                            card(
                                                    paper,
                                                    link,
                                                    surchargeBook(),
                                                    3,
                                                    roundFrame(),
                                                    bow()))
                                    .distancesMm())
                    .hasSizeGreaterThan(10)
                    .allMatch(mm -> mm >= 7);
        }
    }

    /** Where step numbers stand: the bold figures in the first column. */
    private static final class StepNumbers extends PDFTextStripper {
        private final List<Double> distances = new ArrayList<>();
        private float before;

        StepNumbers(byte[] card) {
            try (PDDocument document = Loader.loadPDF(card)) {
                getText(document);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        @Override
        protected void startPage(PDPage page) {
            before = Float.NaN;
        }

        @Override
        protected void writeString(String text, List<TextPosition> at) {
            TextPosition first = at.get(0);
            boolean number =
                    text.matches("\\d+")
                            && first.getXDirAdj() < 22 * POINTS_A_MM
                            && first.getFontSizeInPt() >= 10;
            if (number && first.getYDirAdj() > before) {
                distances.add((first.getYDirAdj() - before) / (double) POINTS_A_MM);
            }
            before = number ? first.getYDirAdj() : before;
        }

        List<Double> distancesMm() {
            return distances;
        }
    }

    @Test
    void assemblyWorkAloneMakesACardToo() {
        TakeOff assembly =
                takeOff(
                        """
                        {"title":"Fit up","quantities":[1],"parts":[],
                         "assembly":[{"type":"standard","standard":"TIG weld","amount":1.9},
                          {"type":"standard","standard":"Order preparation","amount":1}]}
                        """);
        String text = flat(text(surchargeBook(), 4, assembly));
        assertThat(text)
                .contains("Whole item: TIG weld 1.9 m each · Welding")
                .contains("Whole item: Order preparation 1 order in all · Bench")
                .doesNotContain("Blanks", "Sheets AL", "Put in");
    }

    @Test
    void itemsAreNumberedAndEachBeginsAPage() {
        try (OpenedPdf opened =
                new OpenedPdf(
                        card(
                                Letterhead.Paper.A4,
                                LINK,
                                surchargeBook(),
                                3,
                                roundFrame(),
                                bowl(),
                                foldedTray()))) {
            List<String> heads = new ArrayList<>();
            for (int page = 1; page <= opened.pages(); page++) {
                String text = flat(opened.text(page));
                for (int item = 1; item <= 3; item++) {
                    if (text.contains("Item " + item + " ")) {
                        heads.add(page + ":" + item);
                    }
                }
            }
            assertThat(heads).hasSize(3);
            assertThat(heads.stream().map(h -> h.split(":")[0]).distinct()).hasSize(3);
        }
    }

    @Test
    void longNamesAreShownInFull() {
        String name = "A very long name of a part, ".repeat(7).strip();
        TakeOff named =
                takeOff(
                        """
                        {"title":"%s","quantities":[1],"parts":[{"name":"%s","grade":"STEEL-DC","thicknessMm":1.0,
                          "blank":{"lengthMm":500,"widthMm":300},
                          "operations":[{"type":"standard","standard":"Bend","amount":4}]}]}
                        """
                                .formatted(name, name));
        assertThat(unbroken(text(surchargeBook(), 2, named))).contains(unbroken(name + ": Bend"));
    }

    @Test
    void figuresFollowTheLocaleOfTheLetterhead() {
        Letterhead german =
                new Letterhead(
                        "Quillmoor Blech",
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        "de-DE",
                        null,
                        null,
                        null,
                        null,
                        null,
                        null);
        JobPlan plan = plan(surchargeBook(), 3, List.of(roundFrame()));
        try (OpenedPdf opened =
                new OpenedPdf(
                        RouteCard.of(
                                heading("Round sign frame"),
                                plan,
                                surchargeBook(),
                                german,
                                SHOP,
                                LINK))) {
            assertThat(flat(opened.text()))
                    .contains("Quillmoor Blech", "02.03.2026", "269,3 mm apart");
        }
    }

    // Jobs ----------------------------------------------------------------------------------------

    static Stream<Arguments> jobs() {
        return Stream.of(
                Arguments.of(
                        surchargeBook(),
                        List.of(roundFrame(), bowl(), galvanisedCover(), hurriedBracket())),
                Arguments.of(booksOfMetal().get(1), List.of(foldedTray(), bow())),
                Arguments.of(starter(), List.of(deepBowl(), trayToFold())),
                Arguments.of(starter(), List.of(twelveOperations())));
    }

    private static ShopBook starter() {
        try (var in = ShopBook.class.getResourceAsStream("/shop-book/starter.json")) {
            return Situations.JSON.readValue(in, ShopBook.class).withEdition(3);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static ShopBook withMarksDressed() {
        ObjectNode book = Situations.JSON.valueToTree(starter());
        ((ObjectNode) book.get("times")).put("dressMarksStandard", "Dress out marks");
        return Situations.JSON.treeToValue(book, ShopBook.class);
    }

    private static TakeOff trayToFold() {
        return takeOff(
                """
                {"title":"Tray","quantities":[4],
                 "parts":[{"name":"Tray","perAssembly":2,"grade":"DC04","thicknessMm":1.5,
                   "fold":{"lengthMm":300,"legsMm":[40,120,40],
                     "bends":[{"openingDeg":90,"radiusMm":2},{"openingDeg":120,"radiusMm":3,"way":"down"}]},
                   "operations":[]}]}
                """);
    }

    private static TakeOff thinBowl() {
        return takeOff(
                """
                {"title":"Thin bowl","quantities":[5],
                 "parts":[{"name":"Bowl","grade":"AL99.5-O","thicknessMm":0.7,
                   "blank":{"lengthMm":420,"widthMm":420},
                   "operations":[{"type":"dish","diameterMm":380,"depthMm":40}]}]}
                """);
    }

    private static TakeOff deepBowl() {
        return takeOff(
                """
                {"title":"Deep bowl","quantities":[2],
                 "parts":[{"name":"Bowl","grade":"AL99.5-O","thicknessMm":2.0,
                   "blank":{"lengthMm":560,"widthMm":560},
                   "operations":[{"type":"dish","diameterMm":400,"depthMm":200}]}]}
                """);
    }

    /** Every kind of forming, and what goes around it. */
    private static TakeOff twelveOperations() {
        return takeOff(
                """
                {"title":"Fairing","quantities":[5],"information":"old-part",
                 "parts":[{"name":"Shell","grade":"AL99.5-O","thicknessMm":1.5,"surface":"visible",
                   "blank":{"lengthMm":900,"widthMm":700},
                   "operations":[
                    {"type":"standard","standard":"Guillotine cut","amount":4},
                    {"type":"standard","standard":"Deburr","amount":3.2},
                    {"type":"dish","diameterMm":500,"depthMm":110},
                    {"type":"curve-edge","sense":"shrink","lengthMm":800,"radiusMm":260,"heightMm":40},
                    {"type":"turn-flange","sense":"shrink","radiusMm":250,"heightMm":12},
                    {"type":"smooth","areaMm2":190000,"timesOver":3},
                    {"type":"take-out-dents","spots":4},
                    {"type":"flatten","areaMm2":40000},
                    {"type":"standard","standard":"Drill hole","amount":6},
                    {"type":"standard","standard":"TIG weld","amount":0.4},
                    {"type":"standard","standard":"Dress weld","amount":0.4},
                    {"type":"standard","standard":"Sand for paint","amount":19}]}]}
                """);
    }

    private static TakeOff fiftyParts() {
        String parts =
                IntStream.rangeClosed(1, 50)
                        .mapToObj(
                                i ->
                                        """
                                        {"name":"Part %d","grade":"STEEL-DC","thicknessMm":1.5,
                                         "blank":{"lengthMm":%d,"widthMm":80},
                                         "operations":[{"type":"standard","standard":"Bend","amount":2},
                                          {"type":"curve-edge","sense":"stretch","lengthMm":280,"radiusMm":400,"heightMm":15}]}
                                        """
                                                .formatted(i, 300 + i))
                        .collect(Collectors.joining(","));
        return takeOff("{\"title\":\"Fifty\",\"quantities\":[2],\"parts\":[" + parts + "]}");
    }

    // Making and reading --------------------------------------------------------------------------

    private static RouteCard.Heading heading(String title) {
        return new RouteCard.Heading(
                "J-2026-0012",
                title,
                "Harbour Theatre Workshop",
                LocalDate.of(2026, 4, 1),
                LocalDate.of(2026, 3, 2),
                "Evie Stimator");
    }

    private static byte[] card(
            Letterhead.Paper paper, String link, ShopBook book, int quantity, TakeOff... made) {
        Letterhead letterhead =
                new Letterhead(
                        null, null, null, null, null, null, null, paper, null, null, null, null,
                        null, null, null);
        return RouteCard.of(
                heading(String.valueOf(made[0].title())),
                plan(book, quantity, List.of(made)),
                book,
                letterhead,
                SHOP,
                link);
    }

    private static JobPlan plan(ShopBook book, int quantity, List<TakeOff> takeOffs) {
        List<Planned> items = new ArrayList<>();
        for (TakeOff takeOff : takeOffs) {
            items.add(
                    new Planned(
                            new PricedItem(
                                    items.size() + 1,
                                    String.valueOf(takeOff.title()),
                                    false,
                                    takeOff,
                                    Estimating.estimate(takeOff, book),
                                    List.of()),
                            quantity));
        }
        return new JobPlan(items, Step.of(items, book, 0));
    }

    private static List<RouteCardOrder.Row> order(ShopBook book, List<TakeOff> made, int quantity) {
        JobPlan plan = plan(book, quantity, made);
        List<RouteCardOrder.Row> rows = new ArrayList<>();
        for (Planned planned : plan.items()) {
            rows.addAll(
                    RouteCardOrder.of(
                            planned.item().estimate(),
                            planned.item().takeOff(),
                            Estimating.reckon(planned.item().takeOff(), book).forQuantity(quantity),
                            book,
                            plan.steps().stream()
                                    .filter(s -> s.item() == planned.item().position())
                                    .toList(),
                            Numbers.of(Locale.ENGLISH)));
        }
        return rows;
    }

    private static Estimate.Line line(ShopBook book, TakeOff takeOff, String part, String type) {
        return Estimating.estimate(takeOff, book).operations().stream()
                .filter(l -> part.equals(l.part()) && type.equals(l.type()))
                .findFirst()
                .orElseThrow();
    }

    private static String text(ShopBook book, int quantity, TakeOff... made) {
        try (OpenedPdf opened =
                new OpenedPdf(card(Letterhead.Paper.A4, LINK, book, quantity, made))) {
            return opened.text();
        }
    }

    private static String flat(String text) {
        return text.replaceAll("\\s+", " ");
    }

    /** Whatever was broken over lines. */
    private static String unbroken(String text) {
        return text.replaceAll("[\\s\u00a0\u202f]", "");
    }

    private static String minutes(double minutes) {
        return minutes == 0
                ? "–"
                : Numbers.of(Locale.ENGLISH)
                        .show(minutes, minutes < 100 ? 1 : 0)
                        .replace('\u202f', ' ');
    }

    private static String shown(double value, int decimals) {
        return Numbers.of(Locale.ENGLISH).show(value, decimals).replace('\u202f', ' ');
    }

    private static String mm(double value) {
        return Numbers.of(Locale.ENGLISH)
                .show(Math.round(value * 10) / 10.0)
                .replace('\u202f', ' ');
    }
}
