package strokewright.learning;

import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.format.DateTimeFormatter;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.springframework.context.annotation.Bean;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.Caution;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ToolChoice;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;
import strokewright.web.Once;
import strokewright.web.Place;

/** Test strips: typed in, fitted, looked at, adopted. */
@Controller
@RequestMapping(StripPage.PATH)
class StripPage {

    static final String PATH = "/learning/test-strips";

    private static final int SHOWN = 10;
    private static final DateTimeFormatter MINUTE = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm");

    private final StripSets sets;
    private final ShopBooks books;
    private final Shops shops;
    private final Once once;

    StripPage(StripSets sets, ShopBooks books, Shops shops, Once once) {
        this.sets = sets;
        this.books = books;
        this.shops = shops;
        this.once = once;
    }

    @Bean
    static Place testStripsPlace() {
        return new Place(
                "test-strips",
                "Test strips",
                PATH,
                Set.of(Role.ESTIMATOR.name(), Role.OWNER.name()),
                4,
                "learning");
    }

    /**
     * @param from a set whose notes are to be mended and entered again
     */
    @GetMapping
    String open(@RequestParam Optional<UUID> from, Locale locale, Model model) {
        ShopBook book = books.current();
        TypedStrips typed =
                from.map(id -> TypedStrips.of(sets.get(id).notes(), Numbers.of(locale)))
                        .orElseGet(() -> TypedStrips.begun(book));
        return form(typed, Map.of(), "", UUID.randomUUID().toString(), book, locale, model);
    }

    @PostMapping
    Object act(
            @RequestParam(name = "do", defaultValue = "fit") String action,
            @RequestParam(defaultValue = "") String key,
            @RequestHeader(name = "HX-Request", required = false) Optional<String> script,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        ShopBook book = books.current();
        TypedStrips typed = TypedStrips.of(request.getParameterMap());
        String[] words = action.split(" ");
        int at = words.length > 1 && words[1].matches("\\d{1,3}") ? Integer.parseInt(words[1]) : -1;
        return switch (words[0]) {
            case "add" -> {
                TypedStrips more = typed.withStrip();
                String last = "/strips/" + (more.strips().size() - 1) + "/thicknessMm";
                yield form(more, Map.of(), last, key, book, locale, model);
            }
            case "remove" -> form(typed.withoutStrip(at), Map.of(), "", key, book, locale, model);
            case "rows" -> form(typed.withMoreRows(at), Map.of(), "", key, book, locale, model);
            default -> fit(typed, key, script.isPresent(), book, locale, model);
        };
    }

    private Object fit(
            TypedStrips typed,
            String key,
            boolean byScript,
            ShopBook book,
            Locale locale,
            Model model) {
        StripsReading.Read read = StripsReading.read(typed, book, Numbers.of(locale));
        if (!read.faults().isEmpty()) {
            return form(typed, read.faults(), read.firstFault(), key, book, locale, model);
        }
        String to = entered(read.notes(), key);
        return byScript
                ? ResponseEntity.noContent().header("HX-Redirect", to).build()
                : "redirect:" + to;
    }

    /** A second press of the button, or a resent form, leads to the same set. */
    private String entered(TestStrips notes, String key) {
        byte[] said = (key + notes).getBytes(StandardCharsets.UTF_8);
        return once.answer(
                        "page-" + UUID.nameUUIDFromBytes(said),
                        "POST " + PATH,
                        notes,
                        () ->
                                ResponseEntity.created(
                                                URI.create(PATH + "/" + sets.enter(notes).id()))
                                        .build())
                .getHeaders()
                .getFirst(HttpHeaders.LOCATION);
    }

    @GetMapping("/{id}")
    String show(
            @PathVariable UUID id,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        StripSetDocument set = sets.get(id);
        Optional<Adoption> proposed =
                set.adoptedEdition() == null ? sets.proposed(id) : Optional.empty();
        model.addAttribute("set", set);
        model.addAttribute("entered", when(set));
        model.addAttribute("owner", who.role() == Role.OWNER);
        model.addAttribute(
                "view",
                new StripViews(Numbers.of(locale))
                        .view(set, books.edition(set.shopBookEdition()), proposed));
        return "learning/strip-set";
    }

    @PostMapping("/{id}/adopt")
    String adopt(@PathVariable UUID id) {
        sets.adopt(id);
        return "redirect:" + PATH + "/" + id;
    }

    private String form(
            TypedStrips typed,
            Map<String, String> faults,
            String focus,
            String key,
            ShopBook book,
            Locale locale,
            Model model) {
        StripViews views = new StripViews(Numbers.of(locale));
        model.addAttribute("typed", typed);
        model.addAttribute("faults", faults);
        model.addAttribute("focus", focus);
        model.addAttribute("key", key);
        model.addAttribute(
                "tools",
                book.tools().stream()
                        .filter(t -> ToolChoice.EDGE.contains(t.kind()))
                        .map(ShopBook.Tool::name)
                        .toList());
        model.addAttribute(
                "machines", book.machines().stream().map(ShopBook.Machine::name).toList());
        model.addAttribute(
                "grades", book.grades().stream().filter(g -> g.strainPerPass() == null).toList());
        model.addAttribute(
                "sets", sets.list(null, SHOWN).stream().map(e -> row(e, views)).toList());
        model.addAttribute("cautions", EnumSet.of(Caution.FORMING, Caution.SHARP_EDGES));
        return "learning/test-strips";
    }

    /** One line of the list, in words. */
    record Row(
            UUID id,
            String when,
            String tool,
            String family,
            String bite,
            String work,
            String feed,
            boolean refused,
            String adopted) {}

    private Row row(StripSetDocument.Entry entry, StripViews views) {
        return new Row(
                entry.id(),
                MINUTE.format(entry.enteredAt().atZone(shops.current().timeZone())),
                entry.tool(),
                entry.family(),
                views.bite(entry.biteStrain()),
                views.work(entry.strokeWorkJ()),
                views.feed(entry.feedEfficiency()),
                entry.refused(),
                entry.adoptedEdition() == null ? "" : "edition " + entry.adoptedEdition());
    }

    private String when(StripSetDocument set) {
        return MINUTE.format(set.enteredAt().atZone(shops.current().timeZone()));
    }
}
