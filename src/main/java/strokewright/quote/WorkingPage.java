package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import strokewright.estimate.Estimate;
import strokewright.estimate.FormingHours;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.ItemWorking;
import strokewright.takeoff.Reckoned;
import strokewright.takeoff.TakeOffDesk;
import strokewright.takeoff.TakeOffViews;
import strokewright.web.Numbers;
import strokewright.web.Problem;

/** The working of one item on a page of its own, to read and to print: typed, or of a quote. */
@Controller
class WorkingPage {

    private final Quotes quotes;
    private final ShopBooks books;

    WorkingPage(Quotes quotes, ShopBooks books) {
        this.quotes = quotes;
        this.books = books;
    }

    /** Of what is typed, saved or not. */
    @PostMapping({
        "/take-off/working",
        "/take-off/routes/{key:r[0-9]{1,6}}/working",
        "/quotes/{number}/items/{position:[0-9]{1,4}}/working",
        "/quotes/{number}/items/{position:[0-9]{1,4}}/routes/{key:r[0-9]{1,6}}/working",
    })
    String typed(HttpServletRequest request, Locale locale, Model model) {
        ShopBook book = books.current();
        Numbers numbers = Numbers.of(locale);
        Reckoned reckoned = Reckoned.of(TakeOffDesk.typed(request), book, numbers);
        TakeOff takeOff = reckoned.read().takeOff();
        TakeOffViews views = new TakeOffViews(reckoned, book, numbers);
        model.addAttribute("leftOut", views.result(null).leftOut());
        model.addAttribute("place", "take-off");
        model.addAttribute(
                "heading", "Working of " + Objects.requireNonNullElse(takeOff.title(), "take-off"));
        return page(takeOff, reckoned.estimate(), book, numbers, model);
    }

    /** Of one revision as it was stored. */
    @GetMapping("/quotes/{number}/revisions/{n}/items/{position}/working")
    String stored(
            @PathVariable String number,
            @PathVariable int n,
            @PathVariable int position,
            Locale locale,
            Model model) {
        QuoteDocument quote = quotes.revision(number, n);
        PricedItem item =
                quote.items().stream()
                        .filter(i -> i.position() == position)
                        .findFirst()
                        .orElseThrow(() -> Problem.notFound("Item " + position + " of " + number));
        model.addAttribute("quote", quote);
        model.addAttribute("place", "quotes");
        model.addAttribute(
                "heading", "Working of " + number + ", item " + position + ": " + item.title());
        ShopBook book = quote.pricedWith(books.edition(quote.shopBookEdition()));
        return page(item.takeOff(), item.estimate(), book, Numbers.of(locale), model);
    }

    private static String page(
            TakeOff takeOff,
            @Nullable Estimate estimate,
            ShopBook book,
            Numbers numbers,
            Model model) {
        model.addAttribute("edition", book.edition());
        if (estimate != null) {
            model.addAttribute("working", ItemWorking.of(estimate, numbers));
            model.addAttribute("assumed", FormingHours.doubt(takeOff, estimate, book));
        }
        return "quote/working";
    }
}
