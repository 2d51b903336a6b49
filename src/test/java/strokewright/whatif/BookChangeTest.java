package strokewright.whatif;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.costing.Percentage;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Learned;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.PriceBreak;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.ShopBookCheck;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.takeoff.Situations;
import strokewright.whatif.BookChange.SheetPrice.Per;

/** What a shop would believe otherwise, on a shop book alone. */
class BookChangeTest {

    private final ShopBook book = Situations.surchargeBook();

    @Test
    void aRateIsStatedRaisedOrRaisedByAShare() {
        assertThat(labour("{\"workCentre\":\"Forming\",\"to\":" + eur("45.50") + "}"))
                .isEqualTo(Money.of("45.50", "EUR"));
        assertThat(labour("{\"workCentre\":\"Forming\",\"by\":" + eur("-2.00") + "}"))
                .isEqualTo(Money.of("40.00", "EUR"));
        assertThat(labour("{\"workCentre\":\"Forming\",\"byPercent\":7.5}"))
                .isEqualTo(Money.of("45.15", "EUR"));
    }

    private Money labour(String change) {
        ShopBook changed = changed(book, change.replaceFirst("\\{", "{\"type\":\"labour-rate\","));
        assertThat(changed.workCentres().subList(1, 4)).isEqualTo(book.workCentres().subList(1, 4));
        assertThat(changed.withWorkCentres(book.workCentres())).isEqualTo(book);
        return changed.workCentre("Forming").orElseThrow().labourRate();
    }

    /** Else the build-up would say another rate than the one that is tried. */
    @Test
    void aRateThatWasBuiltBecomesStated() {
        WorkCentre built =
                new WorkCentre(
                        "Forming",
                        null,
                        null,
                        new strokewright.costing.LabourRate(24.0, 21.0, 2080.0, 392.0, 85.0),
                        null,
                        null);
        List<WorkCentre> centres = new ArrayList<>(book.workCentres());
        centres.set(0, built);
        ShopBook changed =
                changed(
                        book.withWorkCentres(centres),
                        "{\"type\":\"labour-rate\",\"workCentre\":\"Forming\",\"byPercent\":10}");
        WorkCentre made = changed.workCentre("Forming").orElseThrow();
        // 24 × 1.21 × 2080 / ((2080 − 392) × 0.85) = 42.10, and a tenth more
        assertThat(made.labourRate()).isEqualTo(Money.of("46.31", "EUR"));
        assertThat(made.labourBasis()).isNull();
        assertThat(ShopBookCheck.faults(changed)).isEmpty();
    }

    @Test
    void aMachineWithoutARateGetsOneByAnAmountOnly() {
        assertThat(
                        changed(
                                        book,
                                        "{\"type\":\"machine-rate\",\"workCentre\":\"Bench\",\"to\":"
                                                + eur("3.00")
                                                + "}")
                                .workCentre("Bench")
                                .orElseThrow()
                                .machineRate())
                .isEqualTo(Money.of("3.00", "EUR"));
        assertThat(
                        faults(
                                book,
                                "{\"type\":\"machine-rate\",\"workCentre\":\"Bench\",\"byPercent\":5}"))
                .containsExactly("/changes/0/byPercent");
    }

    @Test
    void sheetOfOneGradeChangesWithItsBreaks() {
        ShopBook stock = book.withSheets(sheets());
        ShopBook byShare =
                changed(
                        stock,
                        "{\"type\":\"sheet-price\",\"grade\":\"STEEL-DC\",\"byPercent\":10}");
        assertThat(byShare.sheets().get(0)).isEqualTo(stock.sheets().get(0));
        assertThat(prices(byShare.sheets().get(1))).containsExactly("1.573", "1.43", "1.287");
        assertThat(prices(byShare.sheets().get(2))).containsExactly("44.00", "38.50");

        ShopBook stated =
                changed(
                        stock,
                        "{\"type\":\"sheet-price\",\"grade\":\"STEEL-DC\",\"per\":\"sheet\",\"to\":"
                                + eur("50.00")
                                + "}");
        assertThat(stated.sheets().get(1)).isEqualTo(stock.sheets().get(1));
        assertThat(prices(stated.sheets().get(2))).containsExactly("50.00", "43.75");

        ShopBook less =
                changed(
                        stock,
                        "{\"type\":\"sheet-price\",\"grade\":\"STEEL-DC\",\"per\":\"kg\",\"thicknessMm\":1.5,\"by\":"
                                + eur("-0.10")
                                + "}");
        assertThat(prices(less.sheets().get(1))).containsExactly("1.33", "1.20", "1.07");
    }

    @Test
    void allMetalAtOnceAndBackAgainIsWhatItWas() {
        ShopBook stock = book.withSheets(sheets());
        ShopBook doubled = changed(stock, "{\"type\":\"metal-prices\",\"byPercent\":100}");
        assertThat(prices(doubled.sheets().get(0))).containsExactly("10.74");
        ShopBook back = changed(doubled, "{\"type\":\"metal-prices\",\"byPercent\":-50}");
        assertThat(back).isEqualTo(stock);
    }

    private static List<Sheet> sheets() {
        Money kg = Money.of("1.43", "EUR");
        return List.of(
                new Sheet("AL99.5-O", 2.0, null, null, Money.of("5.37", "EUR"), null, null, "x"),
                new Sheet(
                        "STEEL-DC",
                        1.5,
                        null,
                        null,
                        kg,
                        null,
                        List.of(
                                new PriceBreak(100.0, Money.of("1.30", "EUR")),
                                new PriceBreak(500.0, Money.of("1.17", "EUR"))),
                        "x"),
                new Sheet(
                        "STEEL-DC",
                        2.0,
                        2000.0,
                        1000.0,
                        null,
                        Money.of("40.00", "EUR"),
                        List.of(new PriceBreak(5.0, Money.of("35.00", "EUR"))),
                        "x"));
    }

    private static List<String> prices(Sheet sheet) {
        List<Money> prices = new ArrayList<>();
        prices.add(sheet.pricePerKg() == null ? sheet.pricePerSheet() : sheet.pricePerKg());
        sheet.breaks().forEach(b -> prices.add(b.price()));
        return prices.stream().map(m -> m.amount().toPlainString()).toList();
    }

    @Test
    void aLearnedFactorStandsInsteadOfTheOneOfTheSameKindAndFamilyAndKeepsHowSureItIs() {
        List<Learned> known =
                List.of(
                        new Learned("curve-edge", null, 1.1, 1.2, 0.3, 9, "jobs"),
                        new Learned("curve-edge", "aluminium-soft", 0.9, null, 0.2, 4, "jobs"));
        ShopBook taught = book.withLearned(known);
        ShopBook changed =
                changed(
                        taught,
                        "{\"type\":\"learned-factor\",\"kind\":\"curve-edge\",\"planFactor\":1.4}");
        assertThat(changed.learned())
                .containsExactly(
                        new Learned("curve-edge", null, 1.4, null, 0.3, 9, "jobs"), known.get(1));
        ShopBook added =
                changed(
                        taught,
                        "{\"type\":\"learned-factor\",\"kind\":\"set-up\",\"planFactor\":1.25,\"meanFactor\":1.3}");
        assertThat(added.learned()).hasSize(3).startsWith(known.get(0), known.get(1));
        assertThat(added.learned("set-up", null).orElseThrow().meanFactor()).isEqualTo(1.3);
    }

    @Test
    void onePercentageChangesAndNoOther() {
        PriceScheme scheme = book.priceScheme();
        for (Percentage share : Percentage.values()) {
            PriceScheme changed = share.in(scheme, 3.25);
            for (Percentage other : Percentage.values()) {
                assertThat(other.of(changed))
                        .as(share + " changed, " + other)
                        .isEqualTo(other == share ? 3.25 : other.of(scheme));
            }
            assertThat(share.in(changed, share.of(scheme))).isEqualTo(scheme);
        }
        assertThat(
                        changed(book, "{\"type\":\"percentage\",\"of\":\"profit\",\"by\":-2}")
                                .priceScheme()
                                .profitPercent())
                .isEqualTo(10);
    }

    /** What follows is made on what went before. */
    @Test
    void severalChangesAreMadeInTheirOrder() {
        String more = "{\"type\":\"labour-rate\",\"workCentre\":\"Forming\",\"byPercent\":10}";
        String stated =
                "{\"type\":\"labour-rate\",\"workCentre\":\"Forming\",\"to\":" + eur("50.00") + "}";
        assertThat(rate(changed(book, stated, more))).isEqualTo(Money.of("55.00", "EUR"));
        assertThat(rate(changed(book, more, stated))).isEqualTo(Money.of("50.00", "EUR"));
    }

    private static Money rate(ShopBook book) {
        return book.workCentre("Forming").orElseThrow().labourRate();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{'type':'labour-rate','workCentre':'Forming'}|/changes/0/byPercent",
                "{'type':'labour-rate','workCentre':'Nowhere','byPercent':5}|/changes/0/workCentre",
                "{'type':'labour-rate','byPercent':5}|/changes/0/workCentre",
                "{'type':'labour-rate','workCentre':'Forming','byPercent':-100}|/changes/0/byPercent",
                "{'type':'labour-rate','workCentre':'Forming','byPercent':1001}|/changes/0/byPercent",
                "{'type':'labour-rate','workCentre':'Forming','byPercent':5,'to':{'amount':'45','currency':'EUR'}}|/changes/0/byPercent",
                "{'type':'labour-rate','workCentre':'Forming','to':{'amount':'45','currency':'USD'}}|/changes/0/to/currency",
                "{'type':'labour-rate','workCentre':'Forming','to':{'amount':'-1','currency':'EUR'}}|/changes/0/to/amount",
                "{'type':'labour-rate','workCentre':'Forming','to':{'amount':'1.0000001','currency':'EUR'}}|/changes/0/to/amount",
                "{'type':'labour-rate','workCentre':'Forming','by':{'amount':'-42.01','currency':'EUR'}}|/changes/0/by/amount",
                "{'type':'sheet-price','grade':'TI2','byPercent':5}|/changes/0/grade",
                "{'type':'sheet-price','grade':'STEEL-DC','thicknessMm':9,'byPercent':5}|/changes/0/thicknessMm",
                "{'type':'sheet-price','grade':'STEEL-DC','per':'sheet','byPercent':5}|/changes/0/per",
                "{'type':'sheet-price','grade':'STEEL-DC','to':{'amount':'2','currency':'EUR'}}|/changes/0/per",
                "{'type':'sheet-price','grade':'STEEL-DC','per':'kg','by':{'amount':'-2','currency':'EUR'}}|/changes/0",
                "{'type':'metal-prices'}|/changes/0/byPercent",
                "{'type':'learned-factor','kind':'whittle','planFactor':1}|/changes/0/kind",
                "{'type':'learned-factor','kind':'dish','family':'cheese','planFactor':1}|/changes/0/family",
                "{'type':'learned-factor','kind':'dish'}|/changes/0/planFactor",
                "{'type':'learned-factor','kind':'dish','planFactor':0.09}|/changes/0/planFactor",
                "{'type':'learned-factor','kind':'dish','planFactor':1,'meanFactor':10.1}|/changes/0/meanFactor",
                "{'type':'percentage','of':'luck','to':1}|/changes/0/of",
                "{'type':'percentage','of':'tax','to':1}|/changes/0/of",
                "{'type':'percentage','of':'profit'}|/changes/0/to",
                "{'type':'percentage','of':'profit','to':-1}|/changes/0/to",
                "{'type':'percentage','of':'profit','by':-13}|/changes/0/by",
                "{'type':'percentage','of':'profit','to':501}|/changes/0/to",
                "null|/changes/0"
            })
    void tellsWhatIsWrongAtItsPlace(String change, String pointer) {
        assertThat(faults(book, change.replace('\'', '"'))).contains(pointer);
    }

    @Test
    void theSimpleSchemeHasNoOverheadOnLabour() {
        ShopBook simple = Situations.simpleBook();
        String change = "{\"type\":\"percentage\",\"of\":\"production-overhead\",\"to\":70}";
        assertThat(faults(simple, change)).containsExactly("/changes/0/of");
        assertThat(changed(book, change).priceScheme().productionOverheadPercent()).isEqualTo(70);
    }

    @Test
    void eachFaultyChangeIsToldBesideTheOthers() {
        assertThat(
                        faults(
                                book,
                                "{\"type\":\"metal-prices\",\"byPercent\":5}",
                                "{\"type\":\"metal-prices\",\"byPercent\":-200}",
                                "{\"type\":\"percentage\",\"of\":\"x\",\"to\":5}"))
                .containsExactly("/changes/1/byPercent", "/changes/2/of");
    }

    @Test
    void oneOfTheTwoWaysIsAskedForAndNotTooMuchOfIt() {
        List<BookChange> one = List.of(new BookChange.MetalPrices(5.0));
        assertThat(pointers(new EffectAsked(null, null, null, null))).containsExactly("/changes");
        assertThat(pointers(new EffectAsked(true, one, null, null))).containsExactly("/changes");
        assertThat(pointers(new EffectAsked(false, List.of(), null, null)))
                .containsExactly("/changes");
        assertThat(
                        pointers(
                                new EffectAsked(
                                        null,
                                        Collections.nCopies(
                                                EffectAsked.MOST_CHANGES + 1, one.get(0)),
                                        "Quote 7",
                                        EffectAsked.MOST_DRAFTS + 1)))
                .containsExactly("/changes", "/most", "/before");
        new EffectAsked(true, null, "Q-2026-0001", 1).requireUsable();
        new EffectAsked(null, one, null, EffectAsked.MOST_DRAFTS).requireUsable();
    }

    private static List<String> pointers(EffectAsked asked) {
        return catchThrowableOfType(InvalidInput.class, asked::requireUsable).faults().stream()
                .map(Fault::pointer)
                .toList();
    }

    /** Whatever passes the check leaves a usable book, which prices like one that is stored. */
    @ParameterizedTest
    @ValueSource(longs = {20260301, 7, 42})
    void whatPassesLeavesAUsableBook(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 300; i++) {
            ShopBook stock = book.withSheets(sheets());
            try {
                assertThat(
                                ShopBookCheck.faults(
                                        new EffectAsked(
                                                        null,
                                                        List.of(any(random), any(random)),
                                                        null,
                                                        null)
                                                .changed(stock)))
                        .isEmpty();
            } catch (InvalidInput told) {
                assertThat(told.faults()).isNotEmpty();
            }
        }
    }

    private static BookChange any(Random random) {
        double share = Math.round(random.nextDouble(-99, 300) * 100) / 100.0;
        Money money = Money.rounded(random.nextDouble(-3, 60), Money.of("1", "EUR").currency());
        String centre = List.of("Forming", "Cutting", "Welding", "Bench").get(random.nextInt(4));
        return switch (random.nextInt(7)) {
            case 0 -> new BookChange.LabourRate(centre, null, money, null);
            case 1 -> new BookChange.MachineRate(centre, null, null, share);
            case 2 -> new BookChange.SheetPrice("STEEL-DC", null, Per.KG, null, money, null);
            case 3 -> new BookChange.SheetPrice("STEEL-DC", null, Per.SHEET, money, null, null);
            case 4 -> new BookChange.MetalPrices(share);
            case 5 -> new BookChange.LearnedFactor("dish", null, random.nextDouble(0, 11), null);
            default -> new BookChange.Share("profit", null, share);
        };
    }

    private static String eur(String amount) {
        return "{\"amount\":\"" + amount + "\",\"currency\":\"EUR\"}";
    }

    private static ShopBook changed(ShopBook book, String... changes) {
        return asked(changes).changed(book);
    }

    private static EffectAsked asked(String... changes) {
        return Situations.JSON.readValue(
                "{\"changes\":[" + String.join(",", changes) + "]}", EffectAsked.class);
    }

    private static List<String> faults(ShopBook book, String... changes) {
        EffectAsked asked = asked(changes);
        return catchThrowableOfType(InvalidInput.class, () -> asked.changed(book)).faults().stream()
                .map(Fault::pointer)
                .toList();
    }
}
