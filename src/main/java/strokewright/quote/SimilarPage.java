package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import strokewright.estimate.ShopBook;
import strokewright.shopbook.ShopBooks;
import strokewright.takeoff.Reckoned;
import strokewright.takeoff.TakeOffDesk;
import strokewright.web.Numbers;

/** Shows beside a take-off what was quoted before and is like it, on a request of its own. */
@Controller
class SimilarPage {

    private final SimilarQuotes similar;
    private final ShopBooks books;

    SimilarPage(SimilarQuotes similar, ShopBooks books) {
        this.similar = similar;
        this.books = books;
    }

    /** One of them, in numbers as the reader writes them. */
    record Row(
            String number,
            int position,
            String title,
            String customer,
            String date,
            String state,
            String quantity,
            String each,
            String planned,
            String took,
            String likeness) {

        static Row of(SimilarQuotes.Earlier earlier, Numbers numbers) {
            return new Row(
                    earlier.number(),
                    earlier.position(),
                    earlier.title(),
                    earlier.customer(),
                    earlier.date().toString(),
                    earlier.state().word(),
                    numbers.show(earlier.quantity()),
                    earlier.priceEach() == null ? "–" : numbers.show(earlier.priceEach()),
                    "planned " + hoursFor(earlier.plannedHours(), earlier.quantity(), numbers),
                    took(earlier, numbers),
                    numbers.show(earlier.likenessPercent()));
        }

        private static String took(SimilarQuotes.Earlier earlier, Numbers numbers) {
            Integer made = earlier.made();
            Double hours = earlier.actualHours();
            return made == null || hours == null ? "" : "took " + hoursFor(hours, made, numbers);
        }

        private static String hoursFor(double hours, int pieces, Numbers numbers) {
            return numbers.show(hours, 1) + "\u00a0h for\u00a0" + numbers.show(pieces);
        }
    }

    /** An empty answer as long as there is too little to compare with, or nothing like it. */
    @PostMapping({
        "/take-off/similar",
        "/take-off/routes/{route}/similar",
        "/quotes/{number}/items/{position:[0-9]{1,4}}/similar",
        "/quotes/{number}/items/{position:[0-9]{1,4}}/routes/{route}/similar"
    })
    String answer(
            @PathVariable(required = false) @Nullable String number,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        Numbers numbers = Numbers.of(locale);
        ShopBook book = books.current();
        Reckoned reckoned = Reckoned.of(TakeOffDesk.typed(request), book, numbers);
        List<SimilarQuotes.Earlier> earlier =
                reckoned.estimate() == null
                        ? List.of()
                        : similar.to(
                                reckoned.read().takeOff(),
                                reckoned.estimate(),
                                book,
                                number == null ? null : QuoteNumber.read(number).orElse(null));
        model.addAttribute("similar", earlier.stream().map(e -> Row.of(e, numbers)).toList());
        model.addAttribute("ready", reckoned.estimate() != null);
        return "quote/similar :: list";
    }
}
