package strokewright.quote;

import static strokewright.office.Cell.day;
import static strokewright.office.Cell.formula;
import static strokewright.office.Cell.number;
import static strokewright.office.Cell.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.office.Cell;
import strokewright.office.Look;
import strokewright.office.Look.Align;
import strokewright.office.Look.Rule;
import strokewright.office.Paper;
import strokewright.office.Place;
import strokewright.office.Sheet;

/**
 * What the customer gets: title block, items with their prices, tax and total, options apart. All
 * figures come from the workings sheets; nothing of the cost stands here.
 */
final class CustomerSheet {

    private static final int POSITION = 0;
    private static final int ITEM = 1;
    private static final int QUANTITY = 2;
    private static final int EACH = 3;
    private static final int TOTAL = 4;

    private static final int LEFT_BLOCK = 50;

    /** A long text stands in rows of at most so many characters, which no page cuts off. */
    private static final int LONGEST_ROW = 900;

    private static final Look LABEL = Look.PLAIN.quietly();
    private static final Look STRONG = Look.PLAIN.inBold();
    private static final Look SUM = STRONG.ruled(Rule.ABOVE);
    private static final Look FINE = Look.PROSE.quietly().sized(8);

    private final Sheet sheet;
    private final QuoteDocument quote;
    private final Stationery stationery;
    private final Map<PricedItem, Workings> workings;
    private final Paper paper;
    private final QuotePaper.View view;
    private final boolean hasTotal;
    private final Look money;
    private final String currency;
    private int row;

    private CustomerSheet(
            Sheet sheet,
            QuoteDocument quote,
            Stationery stationery,
            QuotePaper paper,
            Map<PricedItem, Workings> workings) {
        this.sheet = sheet;
        this.quote = quote;
        this.stationery = stationery;
        this.workings = workings;
        this.paper = paper.paper();
        this.view = paper.view();
        this.hasTotal = paper.hasTotal();
        this.money = Look.money(quote.total().net().currency());
        this.currency = view.currency();
    }

    /** Where its totals stand; all but the check null where there are none. */
    record Totals(@Nullable Place net, @Nullable Place tax, @Nullable Place withTax, Place check) {}

    /**
     * @param paper the same on paper, whose sentences stand here too
     */
    static Totals write(
            Sheet sheet,
            QuoteDocument quote,
            Stationery stationery,
            QuotePaper paper,
            Map<PricedItem, Workings> workings) {
        CustomerSheet made = new CustomerSheet(sheet, quote, stationery, paper, workings);
        made.titleBlock();
        Place check = made.check();
        Totals totals = made.items(check);
        made.options();
        made.otherQuantities();
        made.terms();
        sheet.widths(6, 46, 12, 17, 17);
        sheet.freeze(1, 0);
        sheet.repeat(0, 0);
        sheet.foot(quote.number() + ", revision " + quote.revision());
        sheet.lock();
        return totals;
    }

    /** The data fields of ISO 7200 beside the customer's name and address. */
    private void titleBlock() {
        sheet.across(row, POSITION, ITEM, text(stationery.name(), STRONG.sized(14)));
        sheet.put(row, QUANTITY, text("Quote", STRONG.sized(14)));
        sheet.put(row++, TOTAL, text(paper.stamp(), right(STRONG)));
        Paper.Sender sender = paper.sender();
        List<String> from = new ArrayList<>(sender.address());
        from.addAll(sender.contact());
        if (!from.isEmpty()) {
            wide(String.join(" · ", from), FINE);
        }
        row++;
        int top = row;
        sheet.put(row++, POSITION, text("For", LABEL));
        lines(paper.addressee().get(0), LEFT_BLOCK)
                .forEach(line -> sheet.put(row++, POSITION, text(line, STRONG)));
        paper.addressee().stream()
                .skip(1)
                .flatMap(line -> lines(line, LEFT_BLOCK))
                .forEach(line -> sheet.put(row++, POSITION, text(line)));
        int left = row;
        row = top;
        field("Identification number", text(quote.number(), right(STRONG)));
        field("Revision", number(quote.revision(), right(Look.number(0))));
        field(
                quote.state() == State.DRAFT ? "Draft, not issued; of" : "Date of issue",
                day(quote.date(), right(Look.PLAIN.formatted(stationery.dateFormat()))));
        field("Created by", text(quote.createdBy(), right(Look.PROSE)));
        field("Approved by", text(quote.approvedBy(), right(Look.PROSE)));
        paper.fields().forEach(f -> field(f.name(), text(f.value(), right(Look.PROSE))));
        row = Math.max(row, left) + 1;
        sheet.put(row++, POSITION, text("Title", LABEL));
        wide(quote.title(), STRONG.sized(12).wrapped());
        if (view.refusal() != null) {
            wide(view.refusal(), STRONG.wrapped());
        }
    }

    /** Over the whole width. */
    private void wide(String text, Look look) {
        lines(text, LONGEST_ROW)
                .forEach(part -> sheet.across(row++, POSITION, TOTAL, text(part, look)));
    }

    /** Broken between words. */
    private static Stream<String> lines(String text, int longest) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split("\\s+")) {
            if (line.length() > 0 && line.length() + 1 + word.length() > longest) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines.stream();
    }

    private void field(String label, Cell value) {
        sheet.put(row, QUANTITY, text(label, LABEL));
        sheet.put(row++, TOTAL, value);
    }

    /** Empty as long as the sheet shows what was stored. */
    private Place check() {
        String stored = all(Workings::asStored);
        String main =
                quote.items().stream()
                        .map(
                                item ->
                                        workings.get(item).quantity()
                                                + "="
                                                + item.takeOff().mainQuantity())
                        .collect(Collectors.joining(",", "AND(", ")"));
        return sheet.put(
                row++,
                POSITION,
                formula(
                        ("IF(ISERROR(%s),\"A quantity was chosen that has no price.\","
                                        + "IF(NOT(%s),\"Changed: not the prices of the stored"
                                        + " revision.\","
                                        + "IF(%s,\"\",\"Prices of the stored revision, for other"
                                        + " quantities than it was made for.\")))")
                                .formatted(stored, stored, main),
                        STRONG));
    }

    private String all(Function<Workings, Place> cell) {
        return quote.items().stream()
                .map(item -> cell.apply(workings.get(item)).toString())
                .collect(Collectors.joining(",", "AND(", ")"));
    }

    private Totals items(Place check) {
        List<PricedItem> firm = quote.items().stream().filter(item -> !item.option()).toList();
        if (!firm.isEmpty()) {
            heads("Pos.", "Item", "Quantity", "Price each, " + currency, "Price, " + currency);
            firm.forEach(this::item);
        }
        if (!hasTotal) {
            return new Totals(null, null, null, check);
        }
        Place net = sum("Total before tax", firm, "offer", SUM);
        Place tax = sum(null, firm, "tax", Look.PLAIN);
        Place withTax = total("Total with tax", net.here() + "+" + tax.here(), SUM);
        return new Totals(net, tax, withTax, check);
    }

    private void options() {
        List<PricedItem> options = quote.items().stream().filter(PricedItem::option).toList();
        if (!options.isEmpty()) {
            row++;
            heads(
                    "Pos.",
                    "Options, not in the total, before tax",
                    "Quantity",
                    "Price each, " + currency,
                    "Price, " + currency);
            options.forEach(this::item);
        }
    }

    private void item(PricedItem item) {
        Workings from = workings.get(item);
        boolean priced = item.estimate().feasible();
        line(
                number(item.position(), Look.number(0).aligned(Align.LEFT)),
                text(item.title(), Look.PROSE),
                formula(from.quantity().toString(), Look.number(0)),
                priced
                        ? formula(from.chosen("priceEach").toString(), money)
                        : text(QuotePaper.NO_PRICE, right(Look.PLAIN)),
                priced
                        ? formula(from.chosen("offer").toString(), money)
                        : text(QuotePaper.NO_PRICE, right(Look.PLAIN)));
    }

    /** Sums a figure over items; without a label it is the tax, which says how many per cent. */
    private Place sum(@Nullable String label, List<PricedItem> items, String figure, Look look) {
        String sum =
                items.isEmpty()
                        ? "0"
                        : items.stream()
                                .map(item -> workings.get(item).chosen(figure).toString())
                                .collect(Collectors.joining("+"));
        Place place = total(label == null ? "" : label, sum, look);
        if (label == null && !items.isEmpty()) {
            sheet.put(place.row(), ITEM, formula(taxLabel(items), Look.PLAIN));
        }
        return place;
    }

    private String taxLabel(List<PricedItem> items) {
        String percents =
                items.stream()
                        .map(item -> workings.get(item).taxPercent().toString())
                        .collect(Collectors.joining(","));
        return "IF(AND(MIN(%s)=MAX(%s),MAX(%s)>0),\"Tax, \"&%s&\" %%\",\"Tax\")"
                .formatted(percents, percents, percents, workings.get(items.get(0)).taxPercent());
    }

    private Place total(String label, String formula, Look look) {
        line(
                text("", look),
                text(label, look),
                text("", look),
                text("", look),
                formula(formula, look.formatted(money.format())));
        return sheet.place(row - 1, TOTAL);
    }

    private void otherQuantities() {
        List<PricedItem> several =
                quote.items().stream()
                        .filter(item -> item.estimate().feasible())
                        .filter(item -> item.estimate().quantities().size() > 1)
                        .toList();
        if (several.isEmpty()) {
            return;
        }
        row++;
        heads(
                "Pos.",
                "Prices by quantity, before tax",
                "Quantity",
                "Each, " + currency,
                "In all, " + currency);
        for (PricedItem item : several) {
            List<ForQuantity> quantities = item.estimate().quantities();
            for (int i = 0; i < quantities.size(); i++) {
                Workings from = workings.get(item);
                line(
                        i > 0
                                ? text(null)
                                : number(item.position(), Look.number(0).aligned(Align.LEFT)),
                        text(i > 0 ? null : item.title(), Look.PROSE),
                        number(quantities.get(i).quantity(), Look.number(0)),
                        formula(from.of(i, "priceEach").toString(), money),
                        formula(from.of(i, "offer").toString(), money));
            }
        }
    }

    /** What is agreed beside quantities and prices, as on the paper. */
    private void terms() {
        head("Terms", view.terms().isEmpty());
        view.terms().forEach(term -> wide(term.name() + ": " + term.value(), Look.PROSE));
        sentences("The prices rest on", view.assumptions());
        head("Included", view.included().isEmpty());
        for (QuotePaper.Included included : view.included()) {
            wide(included.position() + ". " + included.title(), STRONG.wrapped());
            included.lines().forEach(this::inset);
        }
        sentences("Not included", view.exclusions());
        prose("Remarks", view.remarks());
        row++;
        wide(view.limits(), FINE);
        prose("Conditions", view.conditions());
        if (!paper.sender().foot().isEmpty()) {
            row++;
            wide(String.join(" · ", paper.sender().foot()), FINE);
        }
    }

    private void sentences(String heading, List<String> sentences) {
        head(heading, sentences.isEmpty());
        for (String sentence : sentences) {
            sheet.put(row, POSITION, text("•", right(Look.PLAIN)));
            inset(sentence);
        }
    }

    private void prose(String heading, List<String> lines) {
        head(heading, lines.isEmpty());
        lines.forEach(line -> wide(line, Look.PROSE));
    }

    private void head(String heading, boolean nothingBelow) {
        if (!nothingBelow) {
            row++;
            sheet.across(row++, POSITION, TOTAL, text(heading, Look.HEAD));
        }
    }

    private void inset(String text) {
        lines(text, LONGEST_ROW)
                .forEach(part -> sheet.across(row++, ITEM, TOTAL, text(part, Look.PROSE)));
    }

    private void heads(String... heads) {
        List<Cell> cells = new ArrayList<>();
        Stream.of(heads)
                .forEach(
                        head ->
                                cells.add(
                                        text(
                                                head,
                                                cells.size() < QUANTITY
                                                        ? Look.HEAD
                                                        : right(Look.HEAD))));
        line(cells.toArray(Cell[]::new));
    }

    private void line(Cell... cells) {
        sheet.put(row++, POSITION, List.of(cells));
    }

    private static Look right(Look look) {
        return look.aligned(Align.RIGHT);
    }
}
