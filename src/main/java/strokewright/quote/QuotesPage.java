package strokewright.quote;

import java.util.Locale;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Role;
import strokewright.quantity.InvalidInput;
import strokewright.web.Place;

/** Each quote as it stands. */
@Controller
class QuotesPage {

    private final Quotes quotes;
    private final QuoteDesk desk;
    private final QuoteFiles files;

    QuotesPage(Quotes quotes, QuoteDesk desk, QuoteFiles files) {
        this.quotes = quotes;
        this.desk = desk;
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

    @GetMapping("/quotes/{number}")
    String show(@PathVariable String number, Locale locale, Model model) {
        return desk.latest(number, locale, model);
    }

    /** One revision as it was; only to be read. */
    @GetMapping("/quotes/{number}/revisions/{n}")
    String revision(@PathVariable String number, @PathVariable int n, Locale locale, Model model) {
        return desk.revision(number, n, locale, model);
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
        try {
            quotes.issue(number, version);
        } catch (InvalidInput e) {
            return "redirect:/quotes/" + number + "?not-issued"; // where it stands says why
        }
        return "redirect:/quotes/" + number + "?issued";
    }
}
