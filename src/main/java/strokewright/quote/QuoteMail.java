package strokewright.quote;

import org.jspecify.annotations.Nullable;
import strokewright.office.Mail;
import strokewright.office.Pdf;
import strokewright.web.Problem;

/** The mail that a paper goes to the customer with. */
final class QuoteMail {

    private final QuoteDocument quote;
    private final Stationery stationery;
    private final String by;

    /**
     * @param by who signs it
     */
    QuoteMail(QuoteDocument quote, Stationery stationery, String by) {
        this.quote = quote;
        this.stationery = stationery;
        this.by = by;
    }

    /**
     * @throws Problem 409 when the revision is not the one that is offered
     */
    static void mayGo(QuoteDocument quote) {
        boolean offered = quote.state() == State.ISSUED || quote.state() == State.ACCEPTED;
        if (!offered || quote.replacedBy() != null) {
            throw Problem.wrongState(
                    quote.state() == State.DRAFT
                            ? "Quote " + quote.number() + " is a draft: issue it, then send it."
                            : "Revision %d of quote %s is not offered any more."
                                    .formatted(quote.revision(), quote.number()));
        }
    }

    /**
     * @param to where mail to the contact or the customer goes
     */
    Mail withQuote(@Nullable String to, byte[] pdf) {
        String until =
                quote.terms().validUntil() == null
                        ? ""
                        : " It is valid until %s."
                                .formatted(stationery.date(quote.terms().validUntil()));
        return mail(
                to,
                "Quote %s: %s".formatted(quote.number(), quote.title()),
                "here is our quote %s for: %s.%s".formatted(named(), quote.title(), until),
                quote.fileName() + ".pdf",
                pdf);
    }

    Mail withConfirmation(@Nullable String to, byte[] pdf) {
        Order order = OrderPaper.orderOf(quote);
        String theirs = order.number() == null ? "your order" : "your order " + order.number();
        return mail(
                to,
                "Order confirmation %s: %s".formatted(quote.number(), quote.title()),
                "thank you for %s. Here is our confirmation, %s, for: %s."
                        .formatted(theirs, quote.number(), quote.title()),
                quote.number() + "-order.pdf",
                pdf);
    }

    private String named() {
        return quote.revision() == 1
                ? quote.number()
                : quote.number() + ", revision " + quote.revision() + ",";
    }

    private Mail mail(@Nullable String to, String subject, String said, String file, byte[] pdf) {
        String contact = quote.contact();
        String own = stationery.letterhead().email();
        return new Mail(
                own == null ? null : new Mail.Address(own, stationery.name()),
                to == null
                        ? null
                        : new Mail.Address(to, contact == null ? quote.customer().name() : contact),
                subject,
                "%s,\n\n%s\n\nKind regards\n%s\n%s\n"
                        .formatted(
                                contact == null ? "Good day" : "Dear " + contact,
                                said,
                                by,
                                stationery.name()),
                new Mail.Attachment(file, Pdf.TYPE, pdf));
    }
}
