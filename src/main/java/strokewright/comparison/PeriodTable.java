package strokewright.comparison;

import java.io.ByteArrayOutputStream;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import strokewright.office.Column;
import strokewright.office.Csv;
import strokewright.office.Value;
import strokewright.office.Xlsx;
import strokewright.quantity.Money;

/** A comparison over a period as a table; without a line for all together, so that columns add. */
final class PeriodTable {

    private final PeriodComparison period;
    private final int cents;
    private final String currency;

    PeriodTable(PeriodComparison period, Currency currency) {
        this.period = period;
        this.cents = Money.zero(currency).amount().scale();
        this.currency = currency.getCurrencyCode();
    }

    ResponseEntity<byte[]> csv(Csv.Manner manner) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Csv.write(out, manner, columns(), rows().iterator());
        return file("csv", Csv.MEDIA_TYPE + ";charset=UTF-8", out);
    }

    ResponseEntity<byte[]> xlsx() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Xlsx.write(
                out,
                "Quoted against actual by "
                        + period.by().words().toLowerCase(java.util.Locale.ROOT),
                "Comparison",
                columns(),
                rows().iterator());
        return file("xlsx", Xlsx.MEDIA_TYPE, out);
    }

    private ResponseEntity<byte[]> file(String ending, String type, ByteArrayOutputStream out) {
        String name =
                "comparison-by-"
                        + period.by().word()
                        + (period.from() == null ? "" : "-from-" + period.from())
                        + (period.to() == null ? "" : "-to-" + period.to());
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType(type))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename(name + "." + ending)
                                .build()
                                .toString())
                .body(out.toByteArray());
    }

    private List<Column> columns() {
        List<Column> columns = new ArrayList<>();
        columns.add(Column.text(period.by().words(), 30));
        columns.add(Column.number("Jobs", 0, 8));
        for (String hours : List.of("quoted", "planned for made", "actual")) {
            columns.add(Column.number("Hours " + hours, 6, 14));
        }
        columns.add(Column.number("Hours over plan", 6, 14));
        columns.add(Column.text("Hours", 8));
        for (String cost : List.of("quoted", "planned for made", "actual", "over plan")) {
            columns.add(Column.money("Cost " + cost + ", " + currency, cents, 16));
        }
        columns.add(Column.text("Cost", 8));
        List<String> parts = new ArrayList<>();
        if (atCostRates()) {
            parts.add("Labour rate");
        }
        parts.addAll(
                List.of(
                        "Labour hours",
                        "Machine hours",
                        "Metal price",
                        "Metal used",
                        "Bought out",
                        "Overheads"));
        parts.forEach(p -> columns.add(Column.money(p + " over, " + currency, cents, 14)));
        if (period.by().ofWholeJobs()) {
            columns.add(Column.money("Net price ordered, " + currency, cents, 16));
            columns.add(Column.money("Net price of made, " + currency, cents, 16));
            if (atCostRates()) {
                columns.add(Column.money("Margin quoted, " + currency, cents, 16));
                columns.add(Column.money("Margin earned, " + currency, cents, 16));
                columns.add(Column.number("Margin quoted, %", 1, 12));
                columns.add(Column.number("Margin earned, %", 1, 12));
            }
        }
        return columns;
    }

    private boolean atCostRates() {
        return period.labourAt() == JobComparison.LabourAt.COST_RATES;
    }

    private List<List<Value>> rows() {
        return period.rows().stream().map(this::row).toList();
    }

    private List<Value> row(PeriodComparison.Row row) {
        List<Value> values = new ArrayList<>();
        values.add(Value.text(row.name()));
        values.add(Value.number(row.jobs()));
        values.add(Value.number(row.hours().quoted()));
        values.add(Value.number(row.hours().planned()));
        values.add(Value.number(row.hours().actual()));
        values.add(Value.number(row.hours().over()));
        values.add(Value.text(OverWords.word(row.hours().over())));
        values.add(money(row.cost().quoted()));
        values.add(money(row.cost().planned()));
        values.add(money(row.cost().actual()));
        values.add(money(row.cost().over()));
        values.add(Value.text(OverWords.word(row.cost().over().amount())));
        JobComparison.Over over = row.over();
        if (atCostRates()) {
            values.add(money(over.rate()));
        }
        for (Money part :
                List.of(
                        over.efficiency(),
                        over.machine(),
                        over.price(),
                        over.usage(),
                        over.boughtOut(),
                        over.overheads())) {
            values.add(money(part));
        }
        if (period.by().ofWholeJobs()) {
            values.add(money(row.net().ordered()));
            values.add(money(row.net().made()));
            if (atCostRates()) {
                values.add(money(row.margin().quoted().amount()));
                values.add(money(row.margin().earned().amount()));
                values.add(Value.number(row.margin().quoted().percent()));
                values.add(Value.number(row.margin().earned().percent()));
            }
        }
        return values;
    }

    private static Value money(@Nullable Money money) {
        return Value.number(money == null ? (BigDecimal) null : money.amount());
    }
}
