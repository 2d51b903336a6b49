package strokewright.quote;

import java.time.Instant;
import java.util.IdentityHashMap;
import java.util.Map;
import strokewright.estimate.ShopBook;
import strokewright.office.Sheet;
import strokewright.office.Workbook;

/**
 * The workbook of a quote's revision: a sheet for the customer, the workings of each item, how they
 * are made, and where every figure comes from.
 */
final class QuoteWorkbook {

    private QuoteWorkbook() {}

    /**
     * @param edition of the shop book that the revision was priced with
     * @param written when the file is made
     * @return an xlsx file
     */
    static byte[] of(
            QuoteDocument quote, Stationery stationery, ShopBook edition, Instant written) {
        ShopBook book = quote.pricedWith(edition);
        QuotePaper paper = new QuotePaper(quote, stationery, book);
        try (Workbook file =
                new Workbook(
                        quote.number() + " " + quote.title(),
                        stationery.name(),
                        written,
                        stationery.size())) {
            Sheet customer = file.sheet("Quote"); // first in the file, written last
            Map<PricedItem, Workings> workings = new IdentityHashMap<>();
            Workings before = null;
            for (PricedItem item : quote.items()) {
                before = new Workings(file, quote, item, book, before);
                workings.put(item, before);
                String name = "item_" + item.position() + "_";
                file.name(name + "quantity", before.quantity());
                file.name(name + "price_each", before.chosen("priceEach"));
                file.name(name + "offer", before.chosen("offer"));
                file.name(name + "check", before.verdict());
            }
            PassSheet.write(file.sheet("Pass plan"), quote, book);
            WhySheet.write(file.sheet("Why"), quote);
            CustomerSheet.Totals totals =
                    CustomerSheet.write(customer, quote, stationery, paper, workings);
            file.name("quote_check", totals.check());
            if (totals.net() != null) {
                file.name("quote_net", totals.net());
                file.name("quote_tax", totals.tax());
                file.name("quote_with_tax", totals.withTax());
            }
            return file.bytes();
        }
    }
}
