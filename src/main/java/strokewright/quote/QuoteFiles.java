package strokewright.quote;

import java.time.Clock;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import strokewright.access.SignedIn;
import strokewright.office.Pdf;
import strokewright.office.Workbook;
import strokewright.shopbook.ShopBooks;

/** A quote's revision as a file to keep. */
@Component
class QuoteFiles {

    private final ShopBooks books;
    private final Letterheads letterheads;
    private final Clock clock;

    QuoteFiles(ShopBooks books, Letterheads letterheads, Clock clock) {
        this.books = books;
        this.letterheads = letterheads;
        this.clock = clock;
    }

    ResponseEntity<byte[]> workbook(QuoteDocument quote) {
        return file(
                quote.fileName() + ".xlsx",
                Workbook.XLSX,
                QuoteWorkbook.of(
                        quote,
                        SignedIn.current().shopName(),
                        quote.pricedWith(books.edition(quote.shopBookEdition())),
                        clock.instant()));
    }

    /** The customer's copy. */
    ResponseEntity<byte[]> pdf(QuoteDocument quote) {
        return file(
                quote.fileName() + ".pdf",
                Pdf.TYPE,
                QuotePaper.of(quote, stationery(), books.edition(quote.shopBookEdition())));
    }

    private Stationery stationery() {
        return new Stationery(
                SignedIn.current().shopName(),
                letterheads.get().letterhead(),
                letterheads.logo().orElse(null));
    }

    private static ResponseEntity<byte[]> file(String name, String type, byte[] content) {
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType(type))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment().filename(name).build().toString())
                .body(content);
    }
}
