package strokewright.shopbook;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBookDoubts;
import strokewright.quantity.Finding;
import strokewright.web.Api;
import strokewright.web.Paging;
import strokewright.web.VersionTag;

/** The shop book over HTTP; its ETag is the number of the edition. */
@Api("/api/v1/shop-book")
class ShopBookApi {

    private final ShopBooks books;

    ShopBookApi(ShopBooks books) {
        this.books = books;
    }

    @GetMapping
    ResponseEntity<ShopBook> current() {
        return tagged(books.current());
    }

    /**
     * Adds the next edition. A book that equals the current one adds none: the answer has the old
     * ETag and {@code Edition-Unchanged: true}.
     *
     * @param wanted its {@code edition} is left out, or that of the current edition
     */
    @PutMapping
    ResponseEntity<ShopBook> change(
            @RequestBody ShopBook wanted,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            @RequestParam(required = false) @Nullable String note) {
        ShopBooks.Change change = books.change(wanted, ifMatch, note);
        ShopBook book = change.book();
        ResponseEntity.BodyBuilder answer =
                ResponseEntity.ok()
                        .eTag(tag(book))
                        .header(
                                HttpHeaders.CONTENT_LOCATION,
                                "/api/v1/shop-book/editions/" + book.edition());
        if (!change.added()) {
            answer.header("Edition-Unchanged", "true");
        }
        return answer.body(book);
    }

    /** What the owner should look at in the current edition; pointers lead into it. */
    @GetMapping("/findings")
    Map<String, List<Finding>> findings() {
        return Map.of("findings", ShopBookDoubts.in(books.current()));
    }

    /** Newest first. */
    @GetMapping("/editions")
    ResponseEntity<Paging.Listed<EditionEntry>> editions(Paging paging) {
        return paging.answer(
                books.list(before(paging.after()), paging.limit()),
                entry -> Integer.toString(entry.edition()));
    }

    @GetMapping("/editions/{n}")
    ResponseEntity<ShopBook> edition(@PathVariable int n) {
        return tagged(books.edition(n));
    }

    private static int before(@Nullable String mark) {
        try {
            return mark == null ? Integer.MAX_VALUE : Integer.parseInt(mark);
        } catch (NumberFormatException e) {
            throw Paging.unknownMark();
        }
    }

    private static ResponseEntity<ShopBook> tagged(ShopBook book) {
        return ResponseEntity.ok().eTag(tag(book)).body(book);
    }

    private static String tag(ShopBook book) {
        return new VersionTag(book.edition()).toString();
    }
}
