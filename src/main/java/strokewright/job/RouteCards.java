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
import strokewright.web.Problem;

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

    /**
     * Its codes lead to the letterhead's link, or else to where the card was asked at.
     *
     * @param changeOrder 0 for the job as it was released
     * @throws Problem 404 when there is no such job or change order
     */
    @Transactional(readOnly = true)
    ResponseEntity<byte[]> of(String number, int changeOrder) {
        Job job = jobs.job(number);
        ChangeOrder change = changeOrder == 0 ? null : changeOrder(job, changeOrder);
        Letterhead letterhead = letterheads.get().letterhead();
        String link =
                letterhead.link() == null
                        ? ServletUriComponentsBuilder.fromCurrentContextPath().build().toUriString()
                        : letterhead.link();
        byte[] card =
                RouteCard.of(
                        new RouteCard.Heading(
                                number,
                                change == null
                                        ? job.title()
                                        : "%s, change order %d: %s"
                                                .formatted(job.title(), change.n(), change.title()),
                                customers.get(job.customerId()).card().name(),
                                job.dueOn(),
                                LocalDate.ofInstant(job.releasedAt(), shops.current().timeZone()),
                                shops.nameOf(job.releasedBy())),
                        change == null ? job.plan() : change.plan(),
                        books.edition(change == null ? job.edition() : change.shopBookEdition()),
                        letterhead,
                        SignedIn.current().shopName(),
                        link);
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.inline()
                                .filename(
                                        number
                                                + (change == null ? "" : "-change-" + change.n())
                                                + "-route-card.pdf")
                                .build()
                                .toString())
                .body(card);
    }

    private ChangeOrder changeOrder(Job job, int n) {
        return jobs.changeOrders(job).stream()
                .filter(c -> c.n() == n)
                .findFirst()
                .orElseThrow(
                        () -> Problem.notFound("Change order " + n + " of job " + job.number()));
    }
}
