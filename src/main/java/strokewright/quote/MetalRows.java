package strokewright.quote;

import static strokewright.office.Cell.text;

import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Estimate.Spare;
import strokewright.office.Look;
import strokewright.office.Sheet;

/** The part of a workings sheet that says what metal is paid for, and at which price. */
final class MetalRows {

    private final Sheet sheet;
    private final Grid grid;
    private final List<ForQuantity> quantities;
    private final Currency currency;
    private final Map<String, List<MetalPaid>> lines;
    private final List<String> costs = new ArrayList<>();

    MetalRows(Sheet sheet, Grid grid, List<ForQuantity> quantities, Currency currency) {
        this.sheet = sheet;
        this.grid = grid;
        this.quantities = quantities;
        this.currency = currency;
        this.lines = MetalPaid.of(quantities).orElse(Map.of());
    }

    /** Names of the rows that make up the material; empty where it is known as a whole alone. */
    List<String> costs() {
        return costs;
    }

    /** Prices without breaks may be changed. */
    void prices() {
        Map<String, List<MetalPaid>> priced = new LinkedHashMap<>(lines);
        priced.values().removeIf(paid -> !isOnePrice(paid));
        if (!priced.isEmpty()) {
            grid.heads(Grid.CHOSEN, "Metal prices, " + currency, "", "here", "as stored", "");
            priced.forEach(this::price);
        }
    }

    /** Amounts as they were nested. */
    void rows() {
        if (lines.isEmpty()) {
            return;
        }
        grid.quantityHeads("Metal, " + currency, "", "exactly");
        lines.forEach(this::row);
        if (quantities.stream().anyMatch(q -> !q.spares().isEmpty())) {
            grid.values(
                    "spares",
                    "Spare blanks among these",
                    "beyond the pieces",
                    Look.number(0),
                    i -> quantities.get(i).spares().stream().mapToInt(Spare::blanks).sum());
        }
    }

    private static boolean isOnePrice(List<MetalPaid> paid) {
        return paid.stream().map(p -> p.unit() + p.price()).distinct().count() == 1;
    }

    private void price(String name, List<MetalPaid> paid) {
        sheet.between(
                grid.input(
                        "metal price " + name,
                        "Metal of " + name + ", price",
                        paid.get(0).unit().equals("kg") ? "per kg" : "of a sheet",
                        paid.get(0).price(),
                        Look.number(4),
                        false),
                0,
                1e6,
                "An amount, zero or more.");
    }

    private void row(String name, List<MetalPaid> paid) {
        String unit =
                paid.stream()
                        .map(MetalPaid::unit)
                        .filter(u -> !u.isEmpty())
                        .distinct()
                        .collect(Collectors.joining(" or "));
        String amount = "metal amount " + name;
        String price = "metal price " + name;
        String share = "metal share " + name;
        boolean kept = paid.stream().anyMatch(p -> p.share() > 0);
        grid.values(amount, name + ", metal", unit, Look.number(3), i -> paid.get(i).amount());
        if (!isOnePrice(paid)) {
            grid.values(
                    price,
                    name + ", price",
                    "at the break that is reached",
                    Look.number(4),
                    i -> paid.get(i).price());
        }
        if (kept) {
            grid.values(
                    share,
                    name + ", share kept",
                    "goes back to stock",
                    Look.number(4),
                    i -> paid.get(i).share());
        }
        String cost = "metal cost " + name;
        grid.step(
                cost,
                name + ", cost",
                text(kept ? "metal × price × (1 − share kept)" : "metal × price"),
                column ->
                        grid.at(amount, column)
                                + "*"
                                + (isOnePrice(paid) ? grid.typed(price) : grid.at(price, column))
                                + (kept ? "*(1-" + grid.at(share, column) + ")" : ""));
        costs.add(cost);
    }
}
