package strokewright.shopbook;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/** What the draft changes, looked through and adopted. */
@Controller
@RequestMapping(AdoptPage.PATH)
class AdoptPage {

    static final String PATH = DraftViews.PATH + "/adopt";

    private static final int LONGEST_NOTE = 200;

    private final Drafts drafts;
    private final ShopBooks books;
    private final Shops shops;
    private final Documents documents;
    private final List<NextEdition.Page> pages;

    AdoptPage(
            Drafts drafts,
            ShopBooks books,
            Shops shops,
            Documents documents,
            List<NextEdition.Page> pages) {
        this.pages = pages;
        this.drafts = drafts;
        this.books = books;
        this.shops = shops;
        this.documents = documents;
    }

    @GetMapping
    String look(Locale locale, Model model) {
        return page("", null, false, locale, model);
    }

    private String page(
            String note, @Nullable String noteFault, boolean changed, Locale locale, Model model) {
        Optional<Drafts.Facts> facts = drafts.facts();
        if (facts.isEmpty()) {
            return "redirect:" + DraftViews.PATH;
        }
        Draft draft = drafts.now();
        Kind.With with = draft.with(Numbers.of(locale));
        DraftReading reading = DraftReading.of(draft, with, documents);
        DraftViews views = new DraftViews(reading, with, List.of());
        ShopBook base = books.edition(draft.base());
        int newest = books.current().edition();
        model.addAttribute("pages", pages);
        model.addAttribute("base", draft.base());
        model.addAttribute("newest", newest);
        model.addAttribute("version", facts.get().version());
        model.addAttribute("changedBy", facts.get().changedBy());
        model.addAttribute("changed", changed);
        model.addAttribute("note", note);
        model.addAttribute("noteFault", noteFault);
        model.addAttribute("faults", reading.faults().stream().map(views::fault).toList());
        model.addAttribute(
                "parts", Differences.between(BookTree.of(base, documents), reading.tree(), with));
        model.addAttribute(
                "doubts",
                reading.faults().isEmpty()
                        ? new ShopBookWords(reading.book(), shops.current().timeZone())
                                .doubts(with.numbers())
                        : List.of());
        return "shopbook/adopt";
    }

    /**
     * @param version of the draft that was looked through
     */
    @PostMapping
    String adopt(
            @RequestParam long version,
            @RequestParam(defaultValue = "") String note,
            Locale locale,
            Model model) {
        String why = note.strip();
        if (why.isEmpty() || why.codePointCount(0, why.length()) > LONGEST_NOTE) {
            String fault =
                    why.isEmpty()
                            ? "is missing: why, in a few words"
                            : "is too long: at most " + LONGEST_NOTE + " characters";
            return page(note, fault, false, locale, model);
        }
        Optional<ShopBooks.Change> change =
                drafts.adopt(
                        version,
                        draft -> DraftReading.of(draft, draft.with(Numbers.of(locale)), documents),
                        why);
        return change.map(c -> "redirect:/shop-book?adopted=" + c.book().edition())
                .orElseGet(() -> page(note, null, true, locale, model));
    }

    /** Takes over what an edition that was added meanwhile has changed. */
    @PostMapping(params = "do=catch-up")
    String catchUp(Locale locale, Model model) {
        ShopBook current = books.current();
        List<String> told = new ArrayList<>();
        drafts.replace(
                draft -> {
                    CatchUp caught =
                            CatchUp.of(
                                    draft,
                                    books.edition(draft.base()),
                                    current,
                                    draft.with(Numbers.of(locale)),
                                    documents);
                    told.addAll(caught.told());
                    return caught.draft();
                });
        model.addAttribute("caughtUp", told);
        return page("", null, false, locale, model);
    }

    @ExceptionHandler(Drafts.Over.class)
    String over() {
        return "redirect:" + DraftViews.PATH;
    }
}
