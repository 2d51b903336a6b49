package strokewright.quote;

import java.time.Clock;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import strokewright.access.SignedIn;
import strokewright.office.Workbook;
import strokewright.shopbook.ShopBooks;

/** A quote's revision as a file to keep. */
@Component
class QuoteFiles {

    private final ShopBooks books;
    private final Clock clock;

    QuoteFiles(ShopBooks books, Clock clock) {
        this.books = books;
        this.clock = clock;
    }

    ResponseEntity<byte[]> workbook(QuoteDocument quote) {
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType(Workbook.XLSX))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename(quote.fileName() + ".xlsx")
                                .build()
                                .toString())
                .body(
                        QuoteWorkbook.of(
                                quote,
                                SignedIn.current().shopName(),
                                quote.pricedWith(books.edition(quote.shopBookEdition())),
                                clock.instant()));
    }
}
