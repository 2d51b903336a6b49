package strokewright.quote;

import static strokewright.office.Cell.number;
import static strokewright.office.Cell.text;

import java.util.List;
import strokewright.office.Look;
import strokewright.office.Look.Align;
import strokewright.office.Sheet;
import strokewright.takeoff.FigureRow;

/** Where every figure of a quote comes from: a row each, with its formula and what went into it. */
final class WhySheet {

    private WhySheet() {}

    static void write(Sheet sheet, QuoteDocument quote) {
        sheet.put(
                0, 0, text("Why: every figure as it was reckoned", Look.PLAIN.inBold().sized(14)));
        sheet.put(
                1,
                0,
                text(
                        quote.number()
                                + ", revision "
                                + quote.revision()
                                + ". Shows cost: stays in the shop. What has no origin beside it"
                                + " stands in a row above.",
                        Look.PLAIN.quietly()));
        sheet.put(
                2,
                0,
                List.of(
                        text("Item", Look.HEAD),
                        text("Of", Look.HEAD),
                        text("Figure", Look.HEAD),
                        text("Value", Look.HEAD),
                        text("Formula", Look.HEAD),
                        text("With", Look.HEAD),
                        text("Source of the formula", Look.HEAD)));
        int row = 3;
        Look top = Look.PROSE;
        for (PricedItem item : quote.items()) {
            for (FigureRow figure : FigureRow.of(item.estimate())) {
                sheet.put(
                        row++,
                        0,
                        List.of(
                                number(item.position(), Look.number(0).aligned(Align.LEFT)),
                                text(figure.of(), top),
                                text(figure.figure(), top),
                                number(figure.value(), Look.PLAIN.aligned(Align.LEFT)),
                                text(figure.formula(), top),
                                text(figure.inputs(), top),
                                text(figure.source(), top.quietly())));
            }
        }
        sheet.widths(6, 26, 28, 18, 38, 60, 26);
        sheet.freeze(3, 0);
        sheet.repeat(2, 2);
        sheet.landscape();
        sheet.lock();
    }
}
