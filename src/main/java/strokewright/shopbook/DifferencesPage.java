package strokewright.shopbook;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/** What differs between any two editions, to read and to print. */
@Controller
class DifferencesPage {

    private final ShopBooks books;
    private final Shops shops;
    private final Documents documents;

    DifferencesPage(ShopBooks books, Shops shops, Documents documents) {
        this.books = books;
        this.shops = shops;
        this.documents = documents;
    }

    /**
     * @param from the one before {@code to} when left out
     * @param to the current edition when left out
     */
    @GetMapping("/shop-book/differences")
    String show(
            @RequestParam Optional<Integer> from,
            @RequestParam Optional<Integer> to,
            Locale locale,
            Model model) {
        List<EditionEntry> editions = books.list(Integer.MAX_VALUE, Integer.MAX_VALUE);
        int newest = editions.get(0).edition();
        int after = to.orElse(newest);
        int before = from.orElse(Math.max(1, after - 1));
        ShopBook old = books.edition(before);
        ShopBook now = books.edition(after);
        Kind.With with = new Kind.With(Numbers.of(locale), now.currency(), Kind.Names.NONE);
        model.addAttribute("from", before);
        model.addAttribute("to", after);
        model.addAttribute("editions", editions);
        model.addAttribute("words", new ShopBookWords(now, shops.current().timeZone()));
        model.addAttribute("old", entry(editions, before));
        model.addAttribute("now", entry(editions, after));
        model.addAttribute(
                "parts",
                Differences.between(
                        BookTree.of(old, documents), BookTree.of(now, documents), with));
        return "shopbook/differences";
    }

    private static EditionEntry entry(List<EditionEntry> editions, int n) {
        return editions.stream().filter(e -> e.edition() == n).findFirst().orElseThrow();
    }
}
