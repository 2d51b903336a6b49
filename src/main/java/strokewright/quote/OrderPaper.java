package strokewright.quote;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Caution;
import strokewright.estimate.Estimate.ForQuantity;
import strokewright.estimate.Folding;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.office.Paper;
import strokewright.office.Pdf;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/** What goes to the customer once a quote is ordered: order confirmation and delivery notes. */
final class OrderPaper {

    private static final Set<Caution> LIFTING =
            EnumSet.of(Caution.LIFTING_HELP, Caution.LIFTING_TWO);

    private final QuoteDocument quote;
    private final Outcome outcome;
    private final Order order;
    private final Stationery stationery;
    private final ShopBook book;
    private final PaperTerms terms;

    private OrderPaper(QuoteDocument quote, Stationery stationery, ShopBook edition) {
        this.quote = quote;
        this.outcome = ordered(quote);
        this.order = orderOf(quote);
        this.stationery = stationery;
        this.book = quote.pricedWith(edition);
        this.terms = new PaperTerms(quote, stationery, book);
    }

    /**
     * @throws Problem 409 when it is not ordered
     */
    static Order orderOf(QuoteDocument quote) {
        return Objects.requireNonNull(ordered(quote).order());
    }

    private static Outcome ordered(QuoteDocument quote) {
        if (quote.outcome() == null || quote.outcome().order() == null) {
            throw Problem.wrongState(
                    "Quote " + quote.number() + " is not ordered: write the order down first.");
        }
        return quote.outcome();
    }

    record Confirmation(
            String currency,
            String opening,
            List<Line> items,
            QuotePaper.Sums sums,
            List<Paper.Field> terms,
            List<String> assumptions,
            List<String> exclusions,
            List<String> remarks,
            List<String> conditions) {}

    record Line(int position, String title, String quantity, String each, String all) {}

    /**
     * @param edition of the shop book that the revision was priced with
     * @throws Problem 409 when it is not ordered
     */
    static byte[] confirmation(QuoteDocument quote, Stationery stationery, ShopBook edition) {
        OrderPaper made = new OrderPaper(quote, stationery, edition);
        return Pdf.of("confirmation", made.confirmationPaper(), made.confirmation());
    }

    private Paper confirmationPaper() {
        return paper(
                "Order confirmation",
                quote.number(),
                outcome.date(),
                quote.customer().address(),
                quote.createdBy(),
                Objects.requireNonNullElse(quote.decidedBy(), ""));
    }

    private Confirmation confirmation() {
        String theirs = order.number() == null ? "your order" : "your order " + order.number();
        return new Confirmation(
                quote.total().net().currency().getCurrencyCode(),
                "Thank you for %s of %s. We take it on as follows."
                        .formatted(theirs, stationery.date(outcome.date())),
                order.items().stream().map(this::line).toList(),
                QuotePaper.Sums.of(order.total(), terms.taxLabel(), stationery),
                terms.common(),
                quote.terms().assumptions(),
                quote.terms().exclusions(),
                Stationery.lines(quote.terms().remarks()),
                Stationery.lines(stationery.letterhead().conditions()));
    }

    private Line line(Order.Line ordered) {
        PricedItem item = item(ordered.position());
        ForQuantity priced = item.at(ordered.quantity()).orElseThrow();
        return new Line(
                item.position(),
                item.title(),
                stationery.whole(ordered.quantity()),
                stationery.amount(priced.priceEach()),
                stationery.amount(priced.price().offer()));
    }

    record DeliveryNote(
            List<Delivered> items, @Nullable String mass, boolean complete, List<String> lifting) {}

    /**
     * @param massEach in kg; empty where a part's is not known
     */
    record Delivered(
            int position,
            String title,
            String ordered,
            String delivered,
            String massEach,
            String mass) {}

    /**
     * Without any price.
     *
     * @param by who makes it out
     * @param today for a delivery that names no day
     * @throws InvalidInput with every fault
     * @throws Problem 409 when it is not ordered
     */
    static byte[] deliveryNote(
            QuoteDocument quote,
            Delivering delivering,
            LocalDate today,
            String by,
            Stationery stationery,
            ShopBook edition) {
        OrderPaper made = new OrderPaper(quote, stationery, edition);
        List<Order.Line> lines = delivering.lines(made.order);
        return Pdf.of(
                "delivery-note",
                made.deliveryPaper(
                        delivering, delivering.date() == null ? today : delivering.date(), by),
                made.deliveryNote(lines));
    }

    private Paper deliveryPaper(Delivering delivering, LocalDate date, String by) {
        String place = terms.deliveryPlace();
        return paper(
                "Delivery note",
                delivering.number(quote.number()),
                date,
                place == null ? quote.customer().address() : place,
                by,
                "");
    }

    private DeliveryNote deliveryNote(List<Order.Line> lines) {
        List<Delivered> rows = new ArrayList<>();
        double sum = 0;
        boolean known = true;
        Set<Caution> lifting = EnumSet.noneOf(Caution.class);
        for (Order.Line line : lines) {
            PricedItem item = item(line.position());
            Double each = massKg(item.takeOff());
            known &= each != null;
            double kg = each == null ? 0 : each;
            for (TakeOff.Part part : item.takeOff().parts()) {
                lifting.addAll(Caution.of(part, each));
            }
            sum += kg * line.quantity();
            rows.add(
                    new Delivered(
                            item.position(),
                            item.title(),
                            stationery.whole(order.quantity(item.position()).orElse(0)),
                            stationery.whole(line.quantity()),
                            each == null ? "" : stationery.mass(kg),
                            each == null ? "" : stationery.mass(kg * line.quantity())));
        }
        lifting.retainAll(LIFTING);
        return new DeliveryNote(
                rows,
                known ? stationery.mass(sum) : null,
                lines.equals(order.items()),
                lifting.stream().map(Caution::text).toList());
    }

    /** Of one finished item, from its parts as cut; null where one of them is not known. */
    private @Nullable Double massKg(TakeOff takeOff) {
        double sum = 0;
        for (TakeOff.Part part : takeOff.parts()) {
            Double kg = Folding.massKg(part, book);
            if (kg == null) {
                return null;
            }
            sum += kg * part.perAssembly();
        }
        return sum > 0 ? sum : null;
    }

    private PricedItem item(int position) {
        return quote.items().stream()
                .filter(item -> item.position() == position)
                .findFirst()
                .orElseThrow();
    }

    private Paper paper(
            String type,
            String number,
            LocalDate date,
            @Nullable String address,
            String createdBy,
            String approvedBy) {
        List<Paper.Field> fields = new ArrayList<>();
        fields.add(
                new Paper.Field(
                        "Your order",
                        (order.number() == null ? "" : order.number() + ", ")
                                + stationery.date(outcome.date())));
        if (quote.terms().customerReference() != null) {
            fields.add(new Paper.Field("Your reference", quote.terms().customerReference()));
        }
        return new Paper(
                stationery.size(),
                type,
                number,
                String.valueOf(quote.revision()),
                stationery.date(date),
                quote.title(),
                createdBy,
                approvedBy,
                stationery.sender(),
                QuotePaper.addressee(quote, address),
                fields,
                null);
    }
}
