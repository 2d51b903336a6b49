package strokewright.whatif;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.estimate.ShopBook;
import strokewright.quote.QuoteNumber;
import strokewright.shopbook.NextEdition;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;

/** The owner tries another shop book on the open drafts. */
@Controller
@RequestMapping(EffectPage.PATH)
class EffectPage {

    static final String PATH = "/quotes/effect";

    private final Effects effects;
    private final ShopBooks books;

    EffectPage(Effects effects, ShopBooks books) {
        this.effects = effects;
        this.books = books;
    }

    @Bean
    static NextEdition.Page effectOfTheNextEdition() {
        return new NextEdition.Page("Effect on open drafts", PATH + "?draft");
    }

    @GetMapping
    String choose(Locale locale, Model model) {
        return page(typing(Map.of(), locale), List.of(), null, null, locale, model);
    }

    @GetMapping(params = "draft")
    String ofTheDraft(@RequestParam Optional<String> before, Locale locale, Model model) {
        EffectTyping nothing = typing(Map.of(), locale);
        Effects.NextBook draft = effects.nextBook();
        if (draft.book() == null) {
            return page(nothing, List.of(), draft.trouble(), null, locale, model);
        }
        Effect effect = effects.of(new EffectAsked(true, null, known(before), null));
        model.addAttribute("draft", true);
        return page(nothing, List.of(), null, effect, locale, model);
    }

    /**
     * @param typed texts by the names of their fields
     */
    @PostMapping
    String ofWhatIsTyped(
            @RequestParam Map<String, String> typed,
            @RequestParam Optional<String> before,
            Locale locale,
            Model model) {
        EffectTyping typing = typing(typed, locale);
        if (typing.isEmpty()) {
            return page(
                    typing,
                    List.of(),
                    "Type what is to be tried: a rate, a metal price, a factor or a percentage.",
                    null,
                    locale,
                    model);
        }
        if (!typing.faults().isEmpty()) {
            String trouble = "Not tried yet: what cannot be read is told beside its field.";
            return page(typing, List.of(), trouble, null, locale, model);
        }
        Effect effect = effects.of(new EffectAsked(null, typing.changes(), known(before), null));
        return page(typing, typing.said(), null, effect, locale, model);
    }

    private static @Nullable String known(Optional<String> before) {
        return before.filter(b -> QuoteNumber.read(b).isPresent()).orElse(null);
    }

    private EffectTyping typing(Map<String, String> typed, Locale locale) {
        return new EffectTyping(books.current(), Numbers.of(locale), typed);
    }

    private String page(
            EffectTyping typing,
            List<String> tried,
            @Nullable String trouble,
            @Nullable Effect effect,
            Locale locale,
            Model model) {
        ShopBook book = books.current();
        model.addAttribute(
                "view",
                new EffectViews(book, Numbers.of(locale)).view(typing, tried, trouble, effect));
        return "whatif/effect";
    }
}
