package strokewright.job;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import strokewright.estimate.Operation;
import strokewright.estimate.Proposal;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quote.PricedItem;
import strokewright.quote.Quotes;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Problem;
import strokewright.web.TypedForm;
import strokewright.web.TypedForm.Option;

/**
 * The plan of work that no accepted quote stands for, as it is typed: lines of time standards, or
 * the items of a quote that was drawn up with the take-off page.
 */
@Component
class PlanTyping {

    /** Rows for lines that the form always has. */
    static final int ROWS = 6;

    private static final String ASSEMBLY = "/items/0/takeOff/assembly";
    private static final String LINES = "/lines";

    private final Quotes quotes;
    private final ShopBooks books;

    PlanTyping(Quotes quotes, ShopBooks books) {
        this.quotes = quotes;
        this.books = books;
    }

    /** Puts blank fields in where there are none yet. */
    static TypedForm filled(TypedForm form) {
        int rows = Math.max(ROWS, form.rows(LINES) + 1);
        for (int i = form.rows(LINES); i < rows; i++) {
            form.show(LINES + "/" + i + "/standard", null).show(LINES + "/" + i + "/amount", null);
        }
        return form.holds("/items");
    }

    List<Option> standards() {
        List<Option> options = new ArrayList<>();
        options.add(new Option("", ""));
        books.current()
                .standards()
                .forEach(
                        s ->
                                options.add(
                                        new Option(s.name(), s.name() + ", by " + s.unit().of(1))));
        return options;
    }

    /**
     * @throws InvalidInput with every fault, when neither or both were given
     */
    List<Wanted> items(TypedForm form, @Nullable String title) {
        String quote = form.text("/planQuote");
        form.tidyRows(LINES);
        List<Operation> lines = lines(form);
        Integer quantity = form.whole("/quantity");
        if (quote != null && !lines.isEmpty()) {
            throw new InvalidInput(
                    "/planQuote", "and lines are both given: take one of them as the plan");
        }
        if (quote == null && lines.isEmpty()) {
            throw new InvalidInput(
                    LINES + "/0/standard", "is missing: a line of work, or a quote as the plan");
        }
        if (quote != null) {
            return ofQuote(quote, quantity);
        }
        return List.of(new Wanted(title, quantity, takeOff(title, lines, books.current())));
    }

    private static List<Operation> lines(TypedForm form) {
        List<Operation> lines = new ArrayList<>();
        for (int i = 0; i < form.rows(LINES); i++) {
            String at = LINES + "/" + i;
            lines.add(
                    new Operation.Standard(
                            form.text(at + "/standard"), form.number(at + "/amount")));
        }
        return lines;
    }

    /** Of what is typed and nothing else: what the shop's rules would propose is left out. */
    private static TakeOff takeOff(@Nullable String title, List<Operation> lines, ShopBook book) {
        return new TakeOff(
                title,
                TakeOff.Information.SKETCH,
                List.of(1),
                1,
                0,
                List.of(),
                lines,
                List.of(),
                null,
                List.of(),
                book.proposals().stream()
                        .filter(p -> p.ofItem(book))
                        .map(Proposal::code)
                        .distinct()
                        .toList(),
                null);
    }

    private List<Wanted> ofQuote(String number, @Nullable Integer quantity) {
        List<PricedItem> items;
        try {
            items = quotes.get(number.strip()).document().items();
        } catch (Problem e) {
            throw new InvalidInput("/planQuote", "is no quote of the shop");
        }
        List<PricedItem> meant = items.stream().filter(i -> !i.option()).toList();
        if (quantity != null && meant.size() > 1) {
            throw new InvalidInput(
                    "/quantity", "is for a single item: leave it empty, the quote has several");
        }
        return meant.stream().map(i -> new Wanted(i.title(), quantity, i.takeOff())).toList();
    }

    /** The same faults at the fields of the form. */
    static InvalidInput placed(InvalidInput e) {
        return new InvalidInput(e.faults().stream().map(PlanTyping::placed).toList());
    }

    private static Fault placed(Fault fault) {
        String at = fault.pointer();
        if (at.startsWith(ASSEMBLY)) {
            return new Fault(LINES + at.substring(ASSEMBLY.length()), fault.message());
        }
        if (at.endsWith("/quantity")) {
            return new Fault("/quantity", fault.message());
        }
        return at.equals("/items/0/title") ? new Fault("/title", fault.message()) : fault;
    }
}
