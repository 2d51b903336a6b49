package strokewright.learning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.Place;

/** What finished jobs teach: looked at, taken over, undone. */
@Controller
@RequestMapping(LearningPage.PATH)
class LearningPage {

    static final String PATH = "/learning";

    private static final Set<String> READERS = Set.of(Role.ESTIMATOR.name(), Role.OWNER.name());

    private final Learning learning;
    private final Shops shops;

    LearningPage(Learning learning, Shops shops) {
        this.learning = learning;
        this.shops = shops;
    }

    @Bean
    static Place learningPlace() {
        return new Place("learning", "Learning", PATH, READERS, 84);
    }

    @Bean
    static Place factorsPlace() {
        return new Place("factors", "Factors", PATH, READERS, 1, "learning");
    }

    @Bean
    static Place driftPlace() {
        return new Place("drift", "Drift", PATH + "/drift", READERS, 2, "learning");
    }

    @Bean
    static Place accuracyPlace() {
        return new Place("accuracy", "Accuracy", PATH + "/accuracy", READERS, 3, "learning");
    }

    /**
     * @param stale the lines that were ticked are no longer proposed so
     */
    @GetMapping
    String factors(
            @RequestParam(defaultValue = "false") boolean stale,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        Factors factors = learning.factors(Learning.Basis.CURRENT);
        model.addAttribute("factors", factors);
        model.addAttribute("view", new FactorViews(Numbers.of(locale)).view(factors));
        model.addAttribute("adoptions", learning.adoptions().stream().map(this::entry).toList());
        model.addAttribute("owner", who.role() == Role.OWNER);
        model.addAttribute("stale", stale);
        return "learning/factors";
    }

    /** An adoption in the list. */
    record Entry(
            int edition,
            LocalDate on,
            String by,
            int lines,
            boolean jobEffect,
            Optional<Integer> undone) {}

    private Entry entry(AdoptionEntry of) {
        return new Entry(
                of.shopBookEdition(),
                LocalDate.ofInstant(of.adoptedAt(), shops.current().timeZone()),
                of.adoptedBy(),
                of.adopted().lines().size(),
                of.adopted().jobEffect() != null,
                Optional.ofNullable(of.undoneEdition()));
    }

    /**
     * @param line family, a bar, kind
     */
    @PostMapping("/adopt")
    String adopt(@RequestParam(required = false) List<String> line) {
        List<Adopting.Line> lines = new ArrayList<>();
        for (String ticked : line == null ? List.<String>of() : line) {
            int bar = ticked.indexOf('|');
            String family = bar < 1 ? null : ticked.substring(0, bar);
            lines.add(new Adopting.Line(ticked.substring(bar + 1), family));
        }
        try {
            learning.adopt(new Adopting(lines));
            return "redirect:" + PATH;
        } catch (InvalidInput e) {
            return "redirect:" + PATH + "?stale=true";
        }
    }

    @PostMapping("/adoptions/{edition}/undo")
    String undo(@PathVariable int edition) {
        learning.undo(edition);
        return "redirect:" + PATH;
    }

    @GetMapping("/drift")
    String drift(Locale locale, Model model) {
        Lessons lessons = learning.lessons();
        DriftViews views = new DriftViews(Numbers.of(locale));
        model.addAttribute("kinds", views.charts("kind", lessons.kinds()));
        model.addAttribute("families", views.charts("family", lessons.families()));
        model.addAttribute("few", views.few(lessons));
        model.addAttribute("fewest", Drift.FEWEST + 1);
        return "learning/drift";
    }

    @GetMapping("/accuracy")
    String accuracy(Locale locale, Model model) {
        Replay replay = learning.replay();
        model.addAttribute("replay", replay);
        model.addAttribute("view", new AccuracyViews(Numbers.of(locale)).view(replay));
        return "learning/accuracy";
    }
}
