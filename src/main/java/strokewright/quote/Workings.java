package strokewright.quote;

import static strokewright.office.Cell.formula;
import static strokewright.office.Cell.number;
import static strokewright.office.Cell.text;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import strokewright.costing.CostingFormula;
import strokewright.costing.Percentage;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.AtCentre;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.FormingHours;
import strokewright.estimate.Operation;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff.Extra;
import strokewright.estimate.TakeOff.Per;
import strokewright.office.Cell;
import strokewright.office.Look;
import strokewright.office.Look.Align;
import strokewright.office.Place;
import strokewright.office.Sheet;
import strokewright.office.Workbook;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import strokewright.takeoff.CheckWords;
import strokewright.takeoff.FindingWords;
import strokewright.takeoff.Words;
import strokewright.web.Numbers;

/**
 * The sheet that shows how the price of one item comes about: from minutes and rates, which may be
 * changed, step by step to the offer, for each estimated quantity. The steps run at full precision;
 * the price each is rounded first and the offer is its multiple.
 */
final class Workings {

    private static final Look STRONG = Look.PLAIN.inBold();
    private static final String HANDLING = "handling %";

    /** As much as a shop book allows. */
    private static final int MOST_HANDLING = 500;

    /** What a shop book rounds to. */
    private static final List<String> STEPS = List.of("0.01", "0.5", "1", "5");

    private final Sheet sheet;
    private final Grid grid;
    private final PricedItem item;
    private final ShopBook book;
    private final List<ForQuantity> quantities;
    private final Currency currency;
    private final Look money;
    private final int minorDigits;
    private final boolean surcharge;
    private final double urgencyPercent;
    private final boolean urgencyFollows;

    private final MetalRows metal;
    private final List<Centre> centres;

    /** Rows that make up the special direct cost. */
    private final List<String> specialDirect = new ArrayList<>();

    /**
     * @param before workings of the item before this one, whose rates and percentages this one
     *     follows until its own are typed over
     */
    Workings(
            Workbook file,
            QuoteDocument quote,
            PricedItem item,
            ShopBook book,
            @Nullable Workings before) {
        this.sheet = file.sheet("Item " + item.position());
        this.item = item;
        this.book = book;
        this.quantities = item.estimate().quantities();
        this.currency = quantities.get(0).priceEach().currency();
        this.money = Look.money(currency);
        this.minorDigits = Math.max(0, currency.getDefaultFractionDigits());
        this.surcharge = scheme().kind() == PriceScheme.Kind.SURCHARGE;
        Double ownUrgency = item.takeOff().urgencyPercent();
        this.urgencyPercent = ownUrgency == null ? scheme().urgencyPercent() : ownUrgency;
        this.urgencyFollows = before != null && before.urgencyPercent == urgencyPercent;
        this.grid =
                new Grid(
                        sheet,
                        quantities.stream().map(ForQuantity::quantity).toList(),
                        money,
                        minorDigits,
                        before == null ? null : before.grid);
        this.metal = new MetalRows(sheet, grid, quantities, currency);
        this.centres = centres();
        head(quote);
        rates();
        percentages();
        metal.prices();
        minutes();
        metal.rows();
        extras();
        minimumCharges();
        cost();
        price();
        stored();
        SpreadRows.write(grid, quantities, currency, money);
        operations();
        finalCheck();
        findings();
        check();
        sheet.widths(36, 36, 12, 12, 12, 12, 12, 12, 12, 12);
        sheet.freeze(4, 1);
        sheet.repeat(0, 0);
        sheet.landscape();
        sheet.lock();
    }

    /** Where the quantity to price is chosen. */
    Place quantity() {
        return grid.chosen("chosen");
    }

    /** A figure of the chosen quantity, by its name in the estimate. */
    Place chosen(String figure) {
        return grid.chosen(figure);
    }

    /** The same of one of the estimated quantities, counted from zero. */
    Place of(int quantity, String figure) {
        return grid.of(quantity, figure);
    }

    Place taxPercent() {
        return grid.input("tax %");
    }

    /** True where the sheet shows what was stored, whichever of the quantities is chosen. */
    Place asStored() {
        return grid.chosen("as stored");
    }

    /** Says in words whether the sheet shows what was stored. */
    Place verdict() {
        return grid.words("check");
    }

    // From top to bottom --------------------------------------------------------------------------

    private void head(QuoteDocument quote) {
        grid.line(
                text("Workings, item " + item.position() + ": " + item.title(), STRONG.sized(14)));
        grid.line(
                text(
                        "%s, revision %d (%s), shop book edition %d. Shows cost: stays in the shop. Tinted cells may be changed."
                                .formatted(
                                        quote.number(),
                                        quote.revision(),
                                        quote.state().word(),
                                        quote.shopBookEdition()),
                        Look.PLAIN.quietly()));
        grid.line("check");
        int row = grid.line("chosen");
        sheet.put(row, Grid.LABEL, text("Quantity to price", STRONG));
        sheet.put(row, Grid.WORDS, text("one of those that were estimated"));
        sheet.put(
                row,
                Grid.CHOSEN,
                number(item.takeOff().mainQuantity(), Look.number(0).inBold().asInput()));
        grid.across(
                text(
                        "The price follows rates, percentages, minimum order, rounding, metal"
                                + " prices and the chosen quantity, as the service reckons it."
                                + " As they were reckoned stay minutes, how metal lies on its"
                                + " sheets and which size and price break that takes, and how"
                                + " hours, cost and price may turn out: for those, change the"
                                + " shop book or the quote and take a new workbook.",
                        Look.PROSE.quietly()));
    }

    /** A work centre where something is charged for one of the quantities. */
    private record Centre(String name, Money labourRate, Money machineRate) {}

    /** Of the lines with a minimum charge too, which may take no time at all. */
    private List<Centre> centres() {
        Map<String, Centre> found = new LinkedHashMap<>();
        quantities.stream()
                .flatMap(quantity -> quantity.workCentres().stream())
                .map(at -> new Centre(at.workCentre(), at.labourRate(), at.machineRate()))
                .forEach(centre -> found.putIfAbsent(centre.name, centre));
        item.estimate().operations().stream()
                .filter(line -> minimumCharge(line).isPresent())
                .flatMap(line -> book.workCentre(line.workCentre()).stream())
                .map(c -> new Centre(c.name(), c.labourIn(currency), c.machineIn(currency)))
                .forEach(centre -> found.putIfAbsent(centre.name, centre));
        return List.copyOf(found.values());
    }

    private void rates() {
        grid.heads(Grid.CHOSEN, "Rates, " + currency + " per hour", "", "here", "as stored", "");
        for (Centre centre : centres) {
            rate(centre.name, "labour", "for each person", centre.labourRate);
            rate(centre.name, "machine", "while it is in use", centre.machineRate);
        }
    }

    private void rate(String centre, String what, String words, Money stored) {
        Place cell =
                grid.input(
                        what + " rate " + centre,
                        centre + ", " + what,
                        words,
                        stored.amount(),
                        Look.number(
                                Math.max(
                                        minorDigits,
                                        stored.amount().stripTrailingZeros().scale())));
        sheet.between(cell, 0, 100_000, "A rate is an amount per hour, zero or more.");
    }

    private void percentages() {
        grid.heads(Grid.CHOSEN, "Price scheme", "", "here", "as stored", "");
        PriceScheme scheme = scheme().effective();
        for (Percentage percentage : Percentage.values()) {
            if (surcharge || percentage.isAlsoSimple()) {
                boolean urgency = percentage == Percentage.URGENCY;
                asPercentage(
                        grid.input(
                                percentage.figure() + " %",
                                percentage.label(surcharge) + ", %",
                                percentage.base(),
                                urgency ? urgencyPercent : percentage.of(scheme),
                                Look.PLAIN,
                                !urgency || urgencyFollows),
                        percentage.most());
            }
        }
        if (item.takeOff().extras().stream().anyMatch(this::handledByScheme)) {
            asPercentage(
                    grid.input(
                            HANDLING,
                            "Handling of bought-out work, %",
                            "of its cost",
                            scheme.boughtOutHandlingPercent(),
                            Look.PLAIN),
                    MOST_HANDLING);
        }
        Money least = scheme.minimumOrder();
        sheet.between(
                grid.input(
                        "minimum",
                        "Minimum order, " + currency,
                        "before tax",
                        least == null ? 0 : least.amount(),
                        money),
                0,
                1e9,
                "An amount, zero or more.");
        double coin = Math.pow(10, -minorDigits);
        Place step =
                grid.input(
                        "step",
                        "Price each is a multiple of, " + currency,
                        "rounded half up",
                        Math.max(coin, Double.parseDouble(scheme.roundEachTo())),
                        Look.PLAIN);
        List<String> steps = minorDigits == 0 ? List.of("1", "5") : STEPS;
        sheet.onlyIf(
                step,
                steps.stream()
                        .map(each -> step.fixed() + "=" + each)
                        .collect(Collectors.joining(",", "OR(", ")")),
                "One of " + String.join(", ", steps) + ".");
        grid.line(List.of(text("Hours that the price is made from"), text(pricedFrom())));
    }

    private String pricedFrom() {
        return switch (scheme().priceFrom()) {
            case PLAN -> "the plan";
            case MEAN -> "the mean of the simulated hours";
            case P65 -> "P65 of the simulated hours";
            case P80 -> "P80 of the simulated hours";
        };
    }

    private void asPercentage(Place cell, int most) {
        sheet.between(cell, 0, most, "A percentage from 0 to %d, like 8 for 8 %%.".formatted(most));
    }

    private boolean handledByScheme(Extra extra) {
        return extra.handlingPercent() == null && extra.handlingPercentBy(scheme()) > 0;
    }

    private void minutes() {
        grid.quantityHeads(
                "Minutes that the price is made from", "whole quantity, after allowance", "");
        Look look = Look.number(2);
        for (Centre at : centres) {
            String centre = at.name;
            grid.values(
                    "labour " + centre,
                    centre + ", labour",
                    "person minutes",
                    look,
                    i -> paidHours(i, centre, "labour", AtCentre::labourHours) * 60);
            grid.values(
                    "machine " + centre,
                    centre + ", machine",
                    "machine minutes",
                    look,
                    i -> paidHours(i, centre, "machine", AtCentre::machineHours) * 60);
        }
        grid.values(
                "set-up",
                "Set-up among these",
                "person minutes, as planned",
                look,
                i -> quantities.get(i).setupMinutes());
        if (quantities.stream().anyMatch(q -> q.reserveMinutes() > 0)) {
            grid.values(
                    "reserve",
                    "Risk reserve among these",
                    "person minutes, as planned",
                    look,
                    i -> quantities.get(i).reserveMinutes());
        }
        grid.values(
                "changes",
                "Tool changes",
                "",
                Look.number(0),
                i -> quantities.get(i).toolChanges());
        sheet.choice(
                quantity(),
                grid.of(0, "quantity"),
                grid.of(quantities.size() - 1, "quantity"),
                "Only quantities that were estimated have a price here.");
    }

    private void extras() {
        List<Extra> extras = item.takeOff().extras();
        if (extras.isEmpty()) {
            return;
        }
        grid.quantityHeads("Bought out and made specially, " + currency, "", "exactly");
        for (int i = 0; i < extras.size(); i++) {
            Extra extra = extras.get(i);
            double amount = extra.cost().amount().doubleValue();
            String name = "extra " + i;
            grid.amounts(
                    name,
                    extra.name(),
                    paid(extra),
                    q -> amount * extra.times(quantities.get(q).quantity()));
            specialDirect.add(name);
            handling(name, extra);
        }
    }

    private void handling(String cost, Extra extra) {
        double percent = extra.handlingPercentBy(scheme());
        if (percent == 0) {
            return;
        }
        String name = cost + " handling";
        grid.step(
                name,
                extra.name() + ", handling",
                text("a percentage of its cost"),
                column ->
                        "%s*%s/100"
                                .formatted(
                                        grid.at(cost, column),
                                        handledByScheme(extra)
                                                ? grid.typed(HANDLING)
                                                : BigDecimal.valueOf(percent).toPlainString()));
        specialDirect.add(name);
    }

    private static String paid(Extra extra) {
        if (extra.per() == Per.PIECE) {
            return "for each piece";
        }
        return extra.lifePieces() == null
                ? "once per order"
                : "for every begun " + extra.lifePieces() + " pieces";
    }

    /** Lines that cost at least so much, however little time they take. */
    private void minimumCharges() {
        List<Estimate.Line> lines = item.estimate().operations();
        List<Integer> bound =
                IntStream.range(0, lines.size())
                        .filter(i -> minimumCharge(lines.get(i)).isPresent())
                        .boxed()
                        .toList();
        if (!bound.isEmpty()) {
            grid.quantityHeads("Minimum charges, " + currency, "what a line lacks", "exactly");
            IntStream.range(0, bound.size())
                    .forEach(nth -> minimumCharge(nth, lines.get(bound.get(nth))));
        }
    }

    private Optional<Money> minimumCharge(Estimate.Line line) {
        return book.standard(line.standard()).map(ShopBook.Standard::minimumCharge);
    }

    private void minimumCharge(int index, Estimate.Line line) {
        String minutes = "minutes of line " + index;
        String lift = "lift " + index;
        grid.values(
                minutes,
                Words.operation(line),
                "elapsed minutes of " + line.people() + " at " + line.workCentre(),
                Look.number(2),
                q -> elapsedMinutes(quantities.get(q), index));
        double least = minimumCharge(line).orElseThrow().amount().doubleValue();
        grid.step(
                lift,
                "Up to its minimum charge of",
                number(least, money.aligned(Align.LEFT)),
                column ->
                        "MAX(0,%s-%s/60*(%d*%s+%s))"
                                .formatted(
                                        grid.words(lift).fixed(),
                                        grid.at(minutes, column),
                                        line.people(),
                                        grid.typed("labour rate " + line.workCentre()),
                                        grid.typed("machine rate " + line.workCentre())));
        specialDirect.add(lift);
    }

    private void cost() {
        grid.newPage();
        grid.quantityHeads("Cost, " + currency, "how", "exactly");
        if (metal.costs().isEmpty()) {
            grid.amounts(
                    "material", "Material", "", i -> exactly(quantities.get(i), "cost.material"));
        } else {
            grid.step(
                    "material",
                    "Material",
                    text("as listed above"),
                    column ->
                            metal.costs().stream()
                                    .map(part -> grid.at(part, column))
                                    .collect(Collectors.joining("+")));
        }
        share(Percentage.MATERIAL_OVERHEAD, "material");
        grid.step(
                "labour", "Labour", text("minutes / 60 × rate"), column -> paid("labour", column));
        grid.step(
                "machine",
                "Machine",
                text("minutes / 60 × rate"),
                column -> paid("machine", column));
        share(Percentage.PRODUCTION_OVERHEAD, "labour");
        grid.step(
                "specialDirect",
                "Special direct cost",
                text(specialDirect.isEmpty() ? "none" : "as listed above"),
                column ->
                        specialDirect.isEmpty()
                                ? "0"
                                : specialDirect.stream()
                                        .map(part -> grid.at(part, column))
                                        .collect(Collectors.joining("+")));
        String[] direct = {
            "productionOverhead",
            "materialOverhead",
            "machine",
            "labour",
            "specialDirect",
            "material"
        };
        if (surcharge) {
            grid.sum("manufacturing", "Manufacturing cost", null, direct);
            share(Percentage.ADMINISTRATION, "manufacturing");
            share(Percentage.SALES, "manufacturing");
            grid.sum("total", "Total cost", "manufacturing", "administration", "sales");
        } else {
            grid.sum("total", "Total cost", null, direct);
        }
    }

    private void price() {
        grid.quantityHeads("Price, " + currency, "how", "exactly");
        share(Percentage.PROFIT, "total");
        grid.step(
                "urgency",
                "Urgency",
                percentOf(Percentage.URGENCY),
                column ->
                        "(%s+%s)*%s/100"
                                .formatted(
                                        grid.at("total", column),
                                        grid.at("profit", column),
                                        grid.typed("urgency %")));
        grid.sum("beforeDiscounts", "Before discounts", "total", "profit", "urgency");
        if (surcharge) {
            String both = grid.typed("settlementDiscount %") + "+" + grid.typed("commission %");
            shareOfPriceAfter(Percentage.SETTLEMENT_DISCOUNT, "beforeDiscounts", both);
            shareOfPriceAfter(Percentage.COMMISSION, "beforeDiscounts", both);
            grid.plainSum(
                    "beforeTrade",
                    "Before trade discount",
                    "beforeDiscounts",
                    "settlementDiscount",
                    "commission");
            shareOfPriceAfter(
                    Percentage.TRADE_DISCOUNT, "beforeTrade", grid.typed("tradeDiscount %"));
            grid.plainSum("list", "List price", "beforeTrade", "tradeDiscount");
        } else {
            grid.plainSum("list", "List price", "beforeDiscounts");
        }
        grid.step(
                "minimumOrder",
                "Up to the minimum order",
                text("where the list price is lower"),
                column ->
                        noiseless(
                                "MAX(0,%s-%s)"
                                        .formatted(
                                                grid.typed("minimum"), grid.at("list", column))));
        grid.settled(
                "priceEach",
                "Price each",
                text("rounded before it is multiplied"),
                this::priceEach);
        grid.settled(
                "offer",
                "Offer",
                text("price each × quantity"),
                column ->
                        rounded(grid.at("priceEach", column) + "*" + grid.at("quantity", column)));
        grid.difference(
                "rounding",
                "Rounding within the offer",
                "offer − list price − up to the minimum",
                "offer",
                "list",
                "minimumOrder");
        grid.settled(
                "tax",
                "Tax",
                percentOf(Percentage.TAX),
                column -> rounded(grid.at("offer", column) + "*" + grid.typed("tax %") + "/100"));
        grid.settled(
                "withTax",
                "Offer with tax",
                text(""),
                column -> rounded(grid.at("offer", column) + "+" + grid.at("tax", column)));
    }

    private void stored() {
        grid.quantityHeads("As stored, " + currency, "", "");
        grid.values(
                "stored each",
                "Price each",
                "",
                money,
                i -> quantities.get(i).priceEach().amount());
        grid.values(
                "stored offer",
                "Offer",
                "",
                money,
                i -> quantities.get(i).price().offer().amount());
        grid.values("stored tax", "Tax", "", money, i -> quantities.get(i).price().tax().amount());
        int row = grid.line("as stored");
        sheet.put(row, Grid.LABEL, text("Inputs and price are as stored"));
        sheet.put(
                row,
                Grid.CHOSEN,
                formula(
                        "AND(COUNTIF(%s,\"changed\")=0,%s,%s,%s)"
                                .formatted(
                                        grid.changes(),
                                        same("priceEach", "stored each"),
                                        same("offer", "stored offer"),
                                        same("tax", "stored tax")),
                        Look.PLAIN.aligned(Align.RIGHT)));
    }

    private void operations() {
        grid.heads(
                Grid.CHOSEN,
                "Operations, one piece",
                "tools, machine or work centre",
                "passes",
                "correction, tipping",
                "anneals",
                "strokes",
                "checks",
                "elapsed min",
                "person min",
                "set-up min");
        for (Estimate.Line line : item.estimate().operations()) {
            grid.line(operation(line));
            if (line.override() != null) {
                grid.line(own(line, line.override()));
            }
        }
        grid.line(
                text(
                        "Normal minutes, before allowance and practice. Passes of one edge, from"
                                + " its inmost row to its outmost; strokes and minutes of all"
                                + " repeats.",
                        Look.PLAIN.quietly()));
        String assumed = FormingHours.doubt(item.takeOff(), item.estimate(), book);
        if (assumed != null) {
            grid.line(text(assumed, Look.PLAIN.quietly()));
        }
    }

    private void finalCheck() {
        Numbers numbers = Numbers.of(Locale.ENGLISH);
        boolean begun = false;
        for (ForQuantity quantity : quantities) {
            for (String words : CheckWords.of(item.estimate(), quantity, book, numbers)) {
                if (!begun) {
                    grid.heads(Grid.CHOSEN, "Final check");
                    begun = true;
                }
                grid.line(List.of(text("Quantity " + quantity.quantity()), text(words)));
            }
        }
    }

    private void findings() {
        List<Finding> findings = item.estimate().findings();
        if (findings.isEmpty()) {
            return;
        }
        grid.heads(Grid.CHOSEN, "Findings");
        FindingWords words = new FindingWords(Numbers.of(Locale.ENGLISH));
        for (Finding finding : findings) {
            FindingWords.Told told = words.tell(finding);
            String change = told.change() == null ? "" : " " + told.change();
            grid.line(
                    List.of(
                            text(Words.where(finding.pointer(), item.takeOff())),
                            text(told.word() + ": " + told.text() + change)));
        }
    }

    private static List<Cell> operation(Estimate.Line line) {
        Look figures = Look.PROSE.aligned(Align.RIGHT);
        Look minutes = Look.number(2);
        return List.of(
                text(Words.operation(line), Look.PROSE),
                text(Words.tools(line), Look.PROSE),
                text(Words.passes(line), figures),
                text(Words.furtherPasses(line), figures),
                number(line.anneals(), Look.number(0)),
                number(line.strokes(), Look.number(0)),
                number(line.checks(), Look.number(0)),
                number(line.machineMinutes(), minutes),
                number(line.personMinutes(), minutes),
                number(line.setupMinutes(), minutes));
    }

    /** Below the computed minutes, in their columns. */
    private static List<Cell> own(Estimate.Line line, Operation.Override own) {
        Look minutes = Look.number(2);
        return List.of(
                text("Own minutes, which count instead", Look.PROSE),
                text(own.reason(), Look.PROSE),
                text(null, Look.PLAIN),
                text(null, Look.PLAIN),
                text(null, Look.PLAIN),
                text(null, Look.PLAIN),
                text(null, Look.PLAIN),
                number(own.minutes(), minutes),
                number(own.minutes() * line.people(), minutes));
    }

    /** Stands at the top, and is written last, because it speaks of what stands below. */
    private void check() {
        int row = grid.chosen("check").row();
        int main = item.takeOff().mainQuantity();
        sheet.put(row, Grid.LABEL, text("Check", STRONG));
        sheet.put(
                row,
                Grid.WORDS,
                formula(
                        ("IF(ISNA(%s),\"No price: this quantity was not estimated.\","
                                        + "IF(NOT(%s),\"No longer the stored revision, which offers \"&FIXED(%s,%d)&\" %s for this quantity.\","
                                        + "IF(%s=%d,\"Matches the stored revision.\","
                                        + "\"Matches the stored revision, at another quantity than its main one, %d.\")))")
                                .formatted(
                                        grid.which().fixed(),
                                        asStored().fixed(),
                                        grid.chosen("stored offer").fixed(),
                                        minorDigits,
                                        currency,
                                        quantity().fixed(),
                                        main,
                                        main),
                        STRONG));
    }

    // Formulas ------------------------------------------------------------------------------------

    /** A percentage of an earlier step; nothing where the scheme does not know it. */
    private void share(Percentage percentage, String base) {
        if (surcharge || percentage.isAlsoSimple()) {
            grid.step(
                    percentage.figure(),
                    percentage.label(surcharge),
                    percentOf(percentage),
                    column ->
                            "%s*%s/100"
                                    .formatted(
                                            grid.at(base, column),
                                            grid.typed(percentage.figure() + " %")));
        }
    }

    /** No price, rather than a wrong one, where all shares together leave nothing of it. */
    private void shareOfPriceAfter(Percentage percentage, String base, String all) {
        grid.step(
                percentage.figure(),
                percentage.label(true),
                percentOf(percentage),
                column ->
                        "IF(%s<100,%s/(1-(%s)/100)*%s/100,NA())"
                                .formatted(
                                        all,
                                        grid.at(base, column),
                                        all,
                                        grid.typed(percentage.figure() + " %")));
    }

    private Cell percentOf(Percentage percentage) {
        return formula(
                grid.typed(percentage.figure() + " %") + "&\" % " + percentage.base() + "\"",
                Look.PLAIN);
    }

    private String paid(String what, int column) {
        return centres.stream()
                .map(Centre::name)
                .map(
                        centre ->
                                "%s/60*%s"
                                        .formatted(
                                                grid.at(what + " " + centre, column),
                                                grid.typed(what + " rate " + centre)))
                .collect(
                        Collectors.collectingAndThen(
                                Collectors.joining("+"), sum -> sum.isEmpty() ? "0" : sum));
    }

    /** Half up to a multiple of the step; the minimum order is shared out upwards. */
    private String priceEach(int column) {
        String step = grid.typed("step");
        String pieces = grid.at("quantity", column);
        return "IF(%s>0,ROUNDUP(%s,0),ROUND(%s,0))*%s"
                .formatted(
                        grid.at("minimumOrder", column),
                        noiseless("%s/%s/%s".formatted(grid.typed("minimum"), pieces, step)),
                        noiseless("%s/%s/%s".formatted(grid.at("list", column), pieces, step)),
                        step);
    }

    private String rounded(String formula) {
        return "ROUND(%s,%d)".formatted(noiseless(formula), minorDigits);
    }

    /**
     * What is half a cent in decimals may be a little less in a spreadsheet's binary numbers, and
     * would be rounded down.
     */
    private static String noiseless(String formula) {
        return "ROUND(%s,8)".formatted(formula);
    }

    private String same(String live, String stored) {
        return "ABS(%s-%s)<0.00001".formatted(grid.chosen(live).here(), grid.chosen(stored).here());
    }

    // Figures of the estimate
    // -----------------------------------------------------------------------

    private PriceScheme scheme() {
        return Objects.requireNonNull(book.priceScheme(), "a shop book without price scheme");
    }

    /** As they went into the cost; what no rate was paid for, in the same share of the plan. */
    private double paidHours(
            int quantity, String centre, String what, ToDoubleFunction<AtCentre> planned) {
        ForQuantity of = quantities.get(quantity);
        return of.why().stream()
                .filter(why -> why.figure().equals(centre + ".cost." + what))
                .flatMap(why -> why.inputs().stream())
                .filter(input -> input.name().equals("hours"))
                .mapToDouble(Why.Input::value)
                .findFirst()
                .orElseGet(
                        () ->
                                of.workCentres().stream()
                                                .filter(at -> at.workCentre().equals(centre))
                                                .mapToDouble(planned)
                                                .sum()
                                        * pricedShare(of));
    }

    private static double pricedShare(ForQuantity quantity) {
        return quantity.why().stream()
                .filter(why -> why.formula().equals(CostingFormula.PRICED_SHARE.code()))
                .mapToDouble(Why::value)
                .findFirst()
                .orElse(1);
    }

    /** A figure with all its digits, which the amounts in whole cents have lost. */
    private static double exactly(ForQuantity quantity, String figure) {
        return quantity.why().stream()
                .filter(why -> why.figure().equals(figure))
                .reduce((other, last) -> last) // a part's may be so called, and stands before
                .orElseThrow(() -> new IllegalStateException("no reason for " + figure))
                .value();
    }

    /**
     * Set-up and run of a line with a minimum charge, by its place among such lines: each has one
     * reason that says what its minutes cost.
     */
    private static double elapsedMinutes(ForQuantity quantity, int bound) {
        return quantity.why().stream()
                .filter(why -> why.formula().equals(CostingFormula.LINE_COST.code()))
                .skip(bound)
                .findFirst()
                .orElseThrow(
                        () -> new IllegalStateException("no reason for the cost of a bound line"))
                .inputs()
                .get(0)
                .value();
    }
}
