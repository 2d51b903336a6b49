package strokewright.quote;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;
import strokewright.web.Place;

/** The list of quotes, and each quote as it stands. */
@Controller
class QuotesPage {

    private static final int SHOWN = 50;

    private final Quotes quotes;
    private final ShopBooks books;
    private final QuoteFiles files;

    QuotesPage(Quotes quotes, ShopBooks books, QuoteFiles files) {
        this.quotes = quotes;
        this.books = books;
        this.files = files;
    }

    @Bean
    static Place quotesPlace() {
        return new Place(
                "quotes",
                "Quotes",
                "/quotes",
                Set.of(Role.ESTIMATOR.name(), Role.OFFICE.name(), Role.OWNER.name()),
                20);
    }

    /**
     * @param before the number below which this page of the list begins
     */
    @GetMapping("/quotes")
    String list(
            @RequestParam Optional<String> before,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        QuoteViews views = new QuoteViews(Numbers.of(locale));
        List<Quotes.Entry> found =
                quotes.list(before.flatMap(QuoteNumber::read).orElse(null), SHOWN + 1);
        List<Quotes.Entry> shown = found.subList(0, Math.min(SHOWN, found.size()));
        model.addAttribute("quotes", shown.stream().map(views::row).toList());
        model.addAttribute("owner", who.role() == Role.OWNER);
        model.addAttribute("first", before.isEmpty());
        model.addAttribute("older", found.size() > SHOWN ? shown.get(SHOWN - 1).number() : null);
        return "quote/quotes";
    }

    @GetMapping("/quotes/{number}")
    String show(
            @PathVariable String number,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        Quotes.Tagged found = quotes.get(number);
        model.addAttribute("version", found.version().toString());
        model.addAttribute("mayChange", who.role() != Role.OFFICE);
        return page(found.document(), locale, model);
    }

    /** One revision as it was; only to be read. */
    @GetMapping("/quotes/{number}/revisions/{n}")
    String revision(@PathVariable String number, @PathVariable int n, Locale locale, Model model) {
        return page(quotes.revision(number, n), locale, model);
    }

    @GetMapping("/quotes/{number}/revisions/{n}/workbook")
    ResponseEntity<byte[]> workbook(@PathVariable String number, @PathVariable int n) {
        return files.workbook(quotes.revision(number, n));
    }

    /**
     * @param version of the draft that was on the page, so that nothing unseen is issued
     */
    @PostMapping("/quotes/{number}/issue")
    String issue(@PathVariable String number, @RequestParam String version) {
        quotes.issue(number, version);
        return "redirect:/quotes/" + number + "?issued";
    }

    private String page(QuoteDocument quote, Locale locale, Model model) {
        model.addAttribute(
                "view",
                new QuoteViews(Numbers.of(locale))
                        .view(quote, quote.pricedWith(books.edition(quote.shopBookEdition()))));
        return "quote/quote";
    }
}
