package strokewright.job;

import java.time.LocalDate;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.quote.Customers;
import strokewright.quote.Letterhead;
import strokewright.quote.Letterheads;
import strokewright.shopbook.ShopBooks;

/** A job's route card as a file to print. */
@Component
class RouteCards {

    private final Jobs jobs;
    private final Customers customers;
    private final Letterheads letterheads;
    private final ShopBooks books;
    private final Shops shops;

    RouteCards(
            Jobs jobs, Customers customers, Letterheads letterheads, ShopBooks books, Shops shops) {
        this.jobs = jobs;
        this.customers = customers;
        this.letterheads = letterheads;
        this.books = books;
        this.shops = shops;
    }

    /** Its codes lead to the letterhead's link, or else to where the card was asked at. */
    @Transactional(readOnly = true)
    ResponseEntity<byte[]> of(String number) {
        Job job = jobs.job(number);
        Letterhead letterhead = letterheads.get().letterhead();
        String link =
                letterhead.link() == null
                        ? ServletUriComponentsBuilder.fromCurrentContextPath().build().toUriString()
                        : letterhead.link();
        byte[] card =
                RouteCard.of(
                        new RouteCard.Heading(
                                number,
                                job.title(),
                                customers.get(job.customerId()).card().name(),
                                job.dueOn(),
                                LocalDate.ofInstant(job.releasedAt(), shops.current().timeZone()),
                                shops.nameOf(job.releasedBy())),
                        job.plan(),
                        books.edition(job.edition()),
                        letterhead,
                        SignedIn.current().shopName(),
                        link);
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.inline()
                                .filename(number + "-route-card.pdf")
                                .build()
                                .toString())
                .body(card);
    }
}
