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
    private static final int WHOLE_WIDTH = 75;

    private static final Look LABEL = Look.PLAIN.quietly();
    private static final Look STRONG = Look.PLAIN.inBold();
    private static final Look SUM = STRONG.ruled(Rule.ABOVE);

    private final Sheet sheet;
    private final QuoteDocument quote;
    private final Map<PricedItem, Workings> workings;
    private final Look money;
    private final String currency;
    private int row;

    private CustomerSheet(Sheet sheet, QuoteDocument quote, Map<PricedItem, Workings> workings) {
        this.sheet = sheet;
        this.quote = quote;
        this.workings = workings;
        this.money = Look.money(quote.total().net().currency());
        this.currency = quote.total().net().currency().getCurrencyCode();
    }

    /** Where its totals stand. */
    record Totals(Place net, Place tax, Place withTax, Place check) {}

    static Totals write(
            Sheet sheet, String shop, QuoteDocument quote, Map<PricedItem, Workings> workings) {
        CustomerSheet made = new CustomerSheet(sheet, quote, workings);
        made.titleBlock(shop);
        Place check = made.check();
        Totals totals = made.items(check);
        made.options();
        made.otherQuantities();
        sheet.widths(6, 46, 12, 17, 17);
        sheet.lock();
        return totals;
    }

    /** The data fields of ISO 7200 beside the customer's name and address. */
    private void titleBlock(String shop) {
        sheet.put(row, POSITION, text(shop, STRONG.sized(14)));
        sheet.put(row++, QUANTITY, text("Quote", STRONG.sized(14)));
        row++;
        int top = row;
        sheet.put(row++, POSITION, text("For", LABEL));
        lines(quote.customer().name(), LEFT_BLOCK)
                .forEach(line -> sheet.put(row++, POSITION, text(line, STRONG)));
        if (quote.customer().address() != null) {
            Stream.of(quote.customer().address().split("\\s*[,;\\n]\\s*"))
                    .flatMap(line -> lines(line, LEFT_BLOCK))
                    .forEach(line -> sheet.put(row++, POSITION, text(line)));
        }
        int left = row;
        row = top;
        field("Identification number", text(quote.number(), right(STRONG)));
        field("Revision", number(quote.revision(), right(Look.number(0))));
        field(
                quote.state() == State.DRAFT ? "Draft, not issued; of" : "Date of issue",
                day(quote.date(), right(Look.DATE)));
        field("Created by", text(quote.createdBy(), right(Look.PLAIN)));
        field("Approved by", text(quote.approvedBy(), right(Look.PLAIN)));
        row = Math.max(row, left) + 1;
        sheet.put(row++, POSITION, text("Title", LABEL));
        lines(quote.title(), WHOLE_WIDTH)
                .forEach(line -> sheet.put(row++, POSITION, text(line, STRONG.sized(12))));
        if (!quote.feasible()) {
            sheet.put(
                    row++,
                    POSITION,
                    text("No offer: something here cannot be made as described.", STRONG));
        }
    }

    /** Text of one cell runs on over empty ones beside it, but never into the next block. */
    private static Stream<String> lines(String text, int longest) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ")) {
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
        heads("Pos.", "Item", "Quantity", "Price each, " + currency, "Price, " + currency);
        List<PricedItem> firm = quote.items().stream().filter(item -> !item.option()).toList();
        firm.forEach(this::item);
        Place net = sum("Total before tax", firm, "offer", SUM);
        Place tax = sum(null, firm, "tax", Look.PLAIN);
        Place withTax = total("Total with tax", net.here() + "+" + tax.here(), SUM);
        return new Totals(net, tax, withTax, check);
    }

    private void options() {
        List<PricedItem> options = quote.items().stream().filter(PricedItem::option).toList();
        if (!options.isEmpty()) {
            row++;
            heads("Pos.", "Options, not in the total", "Quantity", "each", "before tax");
            options.forEach(this::item);
        }
    }

    private void item(PricedItem item) {
        Workings from = workings.get(item);
        line(
                number(item.position(), Look.number(0).aligned(Align.LEFT)),
                text(item.title(), Look.PROSE),
                formula(from.quantity().toString(), Look.number(0)),
                formula(from.chosen("priceEach").toString(), money),
                formula(from.chosen("offer").toString(), money));
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
        return "IF(MIN(%s)=MAX(%s),\"Tax, \"&%s&\" %%\",\"Tax\")"
                .formatted(percents, percents, workings.get(items.get(0)).taxPercent());
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
                        .filter(item -> item.estimate().quantities().size() > 1)
                        .toList();
        if (several.isEmpty()) {
            return;
        }
        row++;
        heads("Pos.", "Prices by quantity, before tax", "Quantity", "each", "in all");
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
