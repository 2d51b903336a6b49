package strokewright.quote;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Caution;
import strokewright.estimate.Estimate;
import strokewright.estimate.FormingHours;
import strokewright.estimate.Operation;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.quote.QuoteView.Drawn;
import strokewright.quote.QuoteView.EntryRow;
import strokewright.quote.QuoteView.Found;
import strokewright.quote.QuoteView.ItemView;
import strokewright.quote.QuoteView.LineRow;
import strokewright.quote.QuoteView.QuantityRow;
import strokewright.takeoff.Cautions;
import strokewright.takeoff.FindingWords;
import strokewright.takeoff.NestView;
import strokewright.takeoff.PassPictures;
import strokewright.takeoff.Pictures;
import strokewright.takeoff.PriceViews;
import strokewright.takeoff.TakeOffReading;
import strokewright.takeoff.TakeOffView.CautionView;
import strokewright.takeoff.TakeOffView.PlanView;
import strokewright.takeoff.Words;
import strokewright.web.Numbers;

/** Makes the view of a quote, and of the list of them. */
final class QuoteViews {

    private final Numbers numbers;
    private final FindingWords words;
    private final Pictures pictures;
    private final PassPictures passPictures;

    QuoteViews(Numbers numbers) {
        this.numbers = numbers;
        this.words = new FindingWords(numbers);
        this.pictures = new Pictures(numbers);
        this.passPictures = new PassPictures(numbers);
    }

    /**
     * @param book the edition that the quote was priced with
     */
    QuoteView view(QuoteDocument quote, ShopBook book) {
        QuoteDocument.Total total = quote.total();
        return new QuoteView(
                quote,
                quote.customer().oneLine(),
                amount(total.tax()),
                amount(total.net()),
                amount(total.withTax()),
                total.net().currency().getCurrencyCode(),
                quote.items().get(quote.items().size() - 1).position() + 1,
                quote.items().stream().map(item -> item(item, book)).toList());
    }

    EntryRow row(FoundQuotes.Entry entry) {
        return new EntryRow(
                entry.number(),
                entry.date().toString(),
                entry.customer(),
                entry.title(),
                entry.information().replace('-', ' '),
                entry.state().word(),
                entry.feasible(),
                numbers.show(entry.mainQuantity()),
                entry.feasible() ? numbers.show(entry.net()) : "–");
    }

    private ItemView item(PricedItem item, ShopBook book) {
        Estimate.ForQuantity main = item.main();
        return new ItemView(
                item.position(),
                item.title(),
                item.option(),
                item.estimate().feasible(),
                TakeOffReading.kebab(item.takeOff().information()).replace('-', ' '),
                item.estimate().findings().stream().map(f -> found(f, item.takeOff())).toList(),
                new QuantityRow(
                        numbers.show(main.quantity()),
                        amount(main.priceEach()),
                        amount(main.price().offer())),
                main.quantity(),
                item.takeOff().quantities(),
                PriceViews.of(
                        item.estimate(),
                        main,
                        item.takeOff(),
                        book,
                        numbers,
                        "price-" + item.position()),
                lines(item),
                PlanView.of(item.estimate(), "plan-" + item.position(), numbers),
                NestView.of(main, "nest-" + item.position(), numbers),
                drawn(item, book),
                FormingHours.doubt(item.takeOff(), item.estimate(), book),
                cautions(item, book),
                item.alternatives().size());
    }

    private List<Drawn> drawn(PricedItem item, ShopBook book) {
        List<Drawn> drawn = new ArrayList<>();
        List<Estimate.Line> typed = item.estimate().typed();
        int next = 0;
        for (TakeOff.Part part : item.takeOff().parts()) {
            for (Operation operation : part.operations()) {
                Estimate.Line line = typed.get(next);
                String id = "outline-" + item.position() + "-" + ++next;
                String picture = pictures.outline(operation, line, book, id);
                if (picture != null) {
                    drawn.add(new Drawn(Words.operation(line), List.of(picture)));
                }
            }
        }
        return drawn;
    }

    private Found found(Finding finding, TakeOff takeOff) {
        return new Found(Words.where(finding.pointer(), takeOff), words.tell(finding));
    }

    private List<LineRow> lines(PricedItem item) {
        List<LineRow> rows = new ArrayList<>();
        for (Estimate.Line line : item.estimate().operations()) {
            rows.add(line(line, "line-" + item.position() + "-" + (rows.size() + 1)));
        }
        return rows;
    }

    private LineRow line(Estimate.Line line, String id) {
        Operation.Override own = line.override();
        return new LineRow(
                Words.operation(line),
                Words.own(line, numbers),
                Words.tools(line),
                Objects.requireNonNullElse(Words.allPasses(line), ""),
                line.strokes() == null ? "" : numbers.show(line.strokes()),
                minutes(own == null ? line.machineMinutes() : own.minutes()),
                minutes(own == null ? line.personMinutes() : own.minutes() * line.people()),
                minutes(line.setupMinutes()),
                passPictures.of(line, id));
    }

    private String minutes(@Nullable Double minutes) {
        return minutes == null || minutes == 0 ? "" : numbers.show(minutes, 1);
    }

    /** Each caution that the planned work calls up, with what calls it. */
    private List<CautionView> cautions(PricedItem item, ShopBook book) {
        List<CautionView> views = new ArrayList<>();
        Cautions.of(item.takeOff(), item.estimate(), book)
                .forEach(
                        (caution, places) ->
                                views.add(
                                        new CautionView(
                                                caution.title(),
                                                caution.text()
                                                        + (caution == Caution.VIBRATION
                                                                ? strokeMinutes(item)
                                                                : "")
                                                        + (places.isEmpty()
                                                                ? ""
                                                                : " Here: "
                                                                        + String.join(", ", places)
                                                                        + "."))));
        return views;
    }

    private String strokeMinutes(PricedItem item) {
        int quantity = item.main().quantity();
        return " Planned: "
                + numbers.show(Cautions.strokeMinutes(item.takeOff(), item.estimate()), 0)
                + " stroke minutes for "
                + (quantity == 1 ? "one piece." : numbers.show(quantity) + " pieces.");
    }

    private String amount(Money money) {
        return numbers.show(money.amount(), money.amount().scale());
    }
}
