package strokewright.quote;

import java.util.List;
import org.springframework.stereotype.Component;
import strokewright.shopbook.ShopBooks;

/** {@link Suggestions} with the shop's own book and letterhead. */
@Component
class QuoteSuggestions {

    private final ShopBooks books;
    private final Letterheads letterheads;

    QuoteSuggestions(ShopBooks books, Letterheads letterheads) {
        this.books = books;
        this.letterheads = letterheads;
    }

    List<Suggestion> of(QuoteDocument quote) {
        return Suggestions.of(
                quote,
                quote.pricedWith(books.edition(quote.shopBookEdition())),
                letterheads.get().letterhead());
    }
}
