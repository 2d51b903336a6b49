package strokewright.shopbook;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import strokewright.access.Documents;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;
import strokewright.web.Place;

/** The shop book to read and to print. */
@Controller
class ShopBookPage {

    private static final int EDITIONS_SHOWN = 20;

    private final ShopBooks books;
    private final Shops shops;
    private final Documents documents;

    ShopBookPage(ShopBooks books, Shops shops, Documents documents) {
        this.documents = documents;
        this.books = books;
        this.shops = shops;
    }

    @Bean
    static Place shopBookPlace() {
        return new Place(
                "shop-book",
                "Shop book",
                "/shop-book",
                Set.of(Role.ESTIMATOR.name(), Role.OWNER.name()),
                80);
    }

    @GetMapping("/shop-book")
    String current(Locale locale, Model model) {
        return page(books.current(), locale, model);
    }

    @GetMapping("/shop-book/editions/{n}")
    String edition(@PathVariable int n, Locale locale, Model model) {
        return page(books.edition(n), locale, model);
    }

    private String page(ShopBook book, Locale locale, Model model) {
        List<EditionEntry> editions = books.list(Integer.MAX_VALUE, EDITIONS_SHOWN);
        model.addAttribute("book", book);
        model.addAttribute("owner", SignedIn.current().role() == Role.OWNER);
        model.addAttribute("words", new ShopBookWords(book, shops.current().timeZone()));
        model.addAttribute(
                "more",
                ReadParts.of(
                        BookTree.of(book, documents),
                        new Kind.With(Numbers.of(locale), book.currency(), Kind.Names.NONE)));
        model.addAttribute("editions", editions);
        model.addAttribute("newest", editions.get(0).edition());
        return "shopbook/shop-book";
    }
}
