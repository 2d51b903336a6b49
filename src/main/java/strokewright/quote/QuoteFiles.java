package strokewright.quote;

import java.time.Clock;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.office.Mail;
import strokewright.office.Pdf;
import strokewright.office.Workbook;
import strokewright.quantity.InvalidInput;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;

/** A quote's revision as a file to keep. */
@Component
class QuoteFiles {

    private final ShopBooks books;
    private final Letterheads letterheads;
    private final Customers customers;
    private final Shops shops;
    private final Clock clock;

    QuoteFiles(
            ShopBooks books,
            Letterheads letterheads,
            Customers customers,
            Shops shops,
            Clock clock) {
        this.customers = customers;
        this.shops = shops;
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
                        stationery(),
                        books.edition(quote.shopBookEdition()),
                        clock.instant()));
    }

    /** The customer's copy. */
    ResponseEntity<byte[]> pdf(QuoteDocument quote) {
        return file(
                quote.fileName() + ".pdf",
                Pdf.TYPE,
                QuotePaper.of(quote, stationery(), books.edition(quote.shopBookEdition())));
    }

    /**
     * @throws Problem 409 when it is not ordered
     */
    ResponseEntity<byte[]> confirmation(QuoteDocument quote) {
        return file(
                quote.number() + "-order.pdf",
                Pdf.TYPE,
                OrderPaper.confirmation(
                        quote, stationery(), books.edition(quote.shopBookEdition())));
    }

    /**
     * @throws InvalidInput with every fault
     * @throws Problem 409 when it is not ordered
     */
    ResponseEntity<byte[]> deliveryNote(QuoteDocument quote, Delivering delivering) {
        return file(
                delivering.number(quote.number()) + ".pdf",
                Pdf.TYPE,
                OrderPaper.deliveryNote(
                        quote,
                        delivering,
                        today(),
                        SignedIn.current().displayName(),
                        stationery(),
                        books.edition(quote.shopBookEdition())));
    }

    /**
     * A mail to the contact with the quote, to be opened and sent.
     *
     * @throws Problem 409 when the revision is not offered
     */
    ResponseEntity<byte[]> mail(QuoteDocument quote) {
        QuoteMail.mayGo(quote);
        byte[] pdf = QuotePaper.of(quote, stationery(), books.edition(quote.shopBookEdition()));
        return mail(quote.fileName(), written(quote).withQuote(emailOf(quote), pdf));
    }

    /**
     * @throws Problem 409 when it is not ordered
     */
    ResponseEntity<byte[]> confirmationMail(QuoteDocument quote) {
        byte[] pdf =
                OrderPaper.confirmation(
                        quote, stationery(), books.edition(quote.shopBookEdition()));
        return mail(
                quote.number() + "-order", written(quote).withConfirmation(emailOf(quote), pdf));
    }

    private ResponseEntity<byte[]> mail(String name, Mail mail) {
        return file(name + ".eml", Mail.TYPE, mail.file(clock.instant()));
    }

    private QuoteMail written(QuoteDocument quote) {
        return new QuoteMail(quote, stationery(), SignedIn.current().displayName());
    }

    private @Nullable String emailOf(QuoteDocument quote) {
        return customers.get(quote.customer().id()).card().emailOf(quote.contact());
    }

    LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
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
