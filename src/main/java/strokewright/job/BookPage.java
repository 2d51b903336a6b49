package strokewright.job;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.Problem;
import strokewright.web.TypedForm;

/**
 * Booking from a phone: the page that the code on the route card opens. One button starts the
 * clock, one stops it, and minutes can be entered instead.
 */
@Controller
class BookPage {

    private final Jobs jobs;
    private final Bookings bookings;

    BookPage(Jobs jobs, Bookings bookings) {
        this.jobs = jobs;
        this.bookings = bookings;
    }

    @GetMapping("/book/{number}")
    String job(@PathVariable String number) {
        jobs.get(number);
        return "redirect:/jobs/" + number;
    }

    @GetMapping("/book/{number}/{step:[0-9]{1,4}}")
    String open(@PathVariable String number, @PathVariable int step, Locale locale, Model model) {
        return page(number, step, new TypedForm(Numbers.of(locale)), model);
    }

    /**
     * @param id made with the page, so that a second press of the button books nothing more
     * @param action start, or enter
     */
    @PostMapping("/book/{number}/{step:[0-9]{1,4}}")
    String book(
            @PathVariable String number,
            @PathVariable int step,
            @RequestParam UUID id,
            @RequestParam("do") String action,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            boolean entered = action.equals("enter");
            BookingEntry entry = entry(form, id, step);
            form.throwIfUnread();
            if (entered && entry.minutes() == null) {
                throw new InvalidInput("/minutes", "is missing: how long it took");
            }
            if (!entered && entry.minutes() != null) {
                throw new InvalidInput(
                        "/minutes", "would start no clock: book the minutes, or empty the field");
            }
            bookings.book(number, entry);
            return "redirect:/book/" + number + "/" + step + (entered ? "?booked" : "");
        } catch (InvalidInput e) {
            return page(number, step, form.refused(e), model);
        }
    }

    @PostMapping("/book/stop/{id}")
    String stop(@PathVariable UUID id, HttpServletRequest request, Locale locale, Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        Booking clock = bookings.running().filter(b -> b.id().equals(id)).orElse(null);
        try {
            BookingEntry counts = entry(form, id, null);
            form.throwIfUnread();
            Booking stopped = bookings.stop(id, counts);
            return "redirect:" + pathOf(stopped) + "?booked";
        } catch (InvalidInput e) {
            if (clock == null || clock.job() == null || clock.step() == null) {
                throw e;
            }
            return page(clock.job(), clock.step(), form.refused(e), model);
        }
    }

    private static String pathOf(Booking booking) {
        if (booking.job() == null) {
            return "/jobs";
        }
        return booking.step() == null
                ? "/jobs/" + booking.job()
                : "/book/" + booking.job() + "/" + booking.step();
    }

    private static BookingEntry entry(TypedForm form, UUID id, @Nullable Integer step) {
        return new BookingEntry(
                id,
                step,
                form.choice("/what", Booking.What.class),
                form.number("/minutes"),
                form.whole("/pieces"),
                form.whole("/scrapped"),
                form.whole("/passes"),
                form.whole("/checks"),
                form.text("/withHelper") != null,
                form.text("/reason"),
                form.text("/note"),
                form.date("/workedOn"),
                null,
                null,
                null);
    }

    private String page(String number, int n, TypedForm form, Model model) {
        JobDocument job = jobs.get(number).document();
        Step step =
                job.steps().stream()
                        .filter(s -> s.n() == n)
                        .findFirst()
                        .orElseThrow(() -> Problem.notFound("Step " + n + " of job " + number));
        Optional<Booking> running = bookings.running();
        model.addAttribute("job", job);
        model.addAttribute("step", step);
        model.addAttribute("form", form);
        model.addAttribute("what", RouteCard.words(step.work()));
        model.addAttribute("id", UUID.randomUUID());
        model.addAttribute("running", running.orElse(null));
        model.addAttribute(
                "here",
                running.filter(b -> number.equals(b.job()) && Integer.valueOf(n).equals(b.step()))
                        .isPresent());
        model.addAttribute("forgotten", running.filter(bookings::isProbablyForgotten).isPresent());
        model.addAttribute("booked", Booked.byStep(bookings.of(number)).getOrDefault(n, 0.0));
        model.addAttribute(
                "kinds",
                List.of(
                        new TypedForm.Option("run", "Work"),
                        new TypedForm.Option("set-up", "Set-up"),
                        new TypedForm.Option("rework", "Rework")));
        model.addAttribute("next", n < job.steps().size() ? n + 1 : null);
        return "job/book";
    }
}
