package strokewright.quote;

import java.time.Instant;
import java.util.IdentityHashMap;
import java.util.Map;
import strokewright.estimate.ShopBook;
import strokewright.office.Sheet;
import strokewright.office.Workbook;

/** The workbook of a quote's revision: a sheet for the customer, and the workings of each item. */
final class QuoteWorkbook {

    private QuoteWorkbook() {}

    /**
     * @param shop name of the shop that quotes
     * @param book the edition that the revision was priced with
     * @param written when the file is made
     * @return an xlsx file
     */
    static byte[] of(QuoteDocument quote, String shop, ShopBook book, Instant written) {
        try (Workbook file = new Workbook(quote.number() + " " + quote.title(), shop, written)) {
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
            CustomerSheet.Totals totals = CustomerSheet.write(customer, shop, quote, workings);
            file.name("quote_net", totals.net());
            file.name("quote_tax", totals.tax());
            file.name("quote_with_tax", totals.withTax());
            file.name("quote_check", totals.check());
            return file.bytes();
        }
    }
}
