package strokewright.job;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.KeptForm;
import strokewright.web.Numbers;
import strokewright.web.TypedForm;

/** When somebody was there: came, left, or a day entered afterwards. */
@Controller
class PresencePage {

    private static final int DAYS_SHOWN = 31;

    private final Presences presences;
    private final Shops shops;
    private final Clock clock;

    PresencePage(Presences presences, Shops shops, Clock clock) {
        this.presences = presences;
        this.shops = shops;
        this.clock = clock;
    }

    /**
     * @param user sign-in name of whose days are shown; one's own when left out
     */
    /** Before anything is read: a page may lack what is booked from then on. */
    @ModelAttribute("now")
    long now() {
        return clock.millis();
    }

    @GetMapping("/book/presence")
    String show(
            @RequestParam(required = false) @Nullable String user,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        return page(user, who, new TypedForm(Numbers.of(locale)), model);
    }

    /**
     * @param id made with the page, so that a second press of the button enters nothing more
     * @param action came, left, or enter a day
     */
    @PostMapping("/book/presence")
    Object enter(
            @RequestParam UUID id,
            @RequestParam("do") String action,
            @RequestParam(required = false) @Nullable String user,
            @AuthenticationPrincipal SignedIn who,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            return KeptForm.answer(
                    request,
                    who.userId(),
                    () -> {
                        switch (action) {
                            case "came" -> presences.come(id, moment(form));
                            case "left" -> {
                                Double pause = form.number("/breakMinutes");
                                form.throwIfUnread();
                                presences.leave(id, moment(form), pause);
                            }
                            default -> presences.enter(entry(form, id, user));
                        }
                        return "/book/presence?booked"
                                + (user == null || user.isBlank() ? "" : "&user=" + user);
                    });
        } catch (InvalidInput e) {
            return page(user, who, form.refused(e), model);
        }
    }

    private static PresenceEntry entry(TypedForm form, UUID id, @Nullable String user) {
        PresenceEntry entry =
                new PresenceEntry(
                        id,
                        user == null || user.isBlank() ? null : user,
                        form.date("/day"),
                        time(form, "/came"),
                        time(form, "/went"),
                        form.number("/breakMinutes"),
                        form.number("/minutes"),
                        form.text("/note"));
        form.throwIfUnread();
        return entry;
    }

    private static @Nullable LocalTime time(TypedForm form, String path) {
        String text = form.text(path);
        try {
            return text == null ? null : LocalTime.parse(text.length() == 4 ? "0" + text : text);
        } catch (DateTimeParseException e) {
            throw new InvalidInput(path, "is no time of day: one such as 07:30");
        }
    }

    private static @Nullable Instant moment(TypedForm form) {
        String text = form.text("/at");
        try {
            return text == null ? null : Instant.parse(text);
        } catch (DateTimeParseException e) {
            throw new InvalidInput("/at", "is no moment: one such as 2026-03-31T10:42:00Z");
        }
    }

    private String page(@Nullable String user, SignedIn who, TypedForm form, Model model) {
        boolean forOthers = Bookings.mayForOthers(who);
        List<Presences.Person> people = forOthers ? presences.people() : List.of();
        Presences.Person of =
                people.stream()
                        .filter(p -> p.userName().equals(user))
                        .findFirst()
                        .orElse(new Presences.Person(who.userId(), "", who.displayName()));
        LocalDate today = presences.today();
        List<Presence> days = presences.of(of.id(), today.minusDays(DAYS_SHOWN), today);
        boolean own = of.id().equals(who.userId());
        model.addAttribute("form", form);
        model.addAttribute("id", UUID.randomUUID());
        model.addAttribute("secondId", UUID.randomUUID());
        model.addAttribute("me", who);
        model.addAttribute("times", new ShopTimes(shops.current().timeZone(), today));
        model.addAttribute("of", of);
        model.addAttribute("own", own);
        model.addAttribute("people", options(people));
        model.addAttribute("days", days);
        model.addAttribute(
                "open",
                days.stream()
                        .filter(
                                p ->
                                        own
                                                && p.counts()
                                                && p.isOpen()
                                                && !p.day().isBefore(today.minusDays(1)))
                        .findFirst()
                        .orElse(null));
        return "job/presence";
    }

    private static List<TypedForm.Option> options(List<Presences.Person> people) {
        List<TypedForm.Option> options = new ArrayList<>();
        people.forEach(p -> options.add(new TypedForm.Option(p.userName(), p.name())));
        return options;
    }
}
