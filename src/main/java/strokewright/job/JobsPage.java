package strokewright.job;

import jakarta.servlet.http.HttpServletRequest;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.quote.Outcomes;
import strokewright.web.Numbers;
import strokewright.web.Place;
import strokewright.web.TypedForm;

/** The jobs of the shop, and each as it stands. */
@Controller
class JobsPage {

    private static final int SHOWN = 50;
    private static final int BOOKINGS_SHOWN = 200;

    private final Jobs jobs;
    private final Bookings bookings;
    private final Outcomes outcomes;
    private final RouteCards routeCards;

    JobsPage(Jobs jobs, Bookings bookings, Outcomes outcomes, RouteCards routeCards) {
        this.jobs = jobs;
        this.bookings = bookings;
        this.outcomes = outcomes;
        this.routeCards = routeCards;
    }

    @Bean
    static Place jobsPlace() {
        return new Place("jobs", "Jobs", "/jobs", Set.of(), 30);
    }

    /**
     * @param before the number below which this page of the list begins
     * @param find part of a title, a customer's name or a number
     */
    @GetMapping("/jobs")
    String list(
            @RequestParam Optional<String> before,
            @RequestParam(name = "state") Optional<String> asked,
            @RequestParam(defaultValue = "") String find,
            @AuthenticationPrincipal SignedIn who,
            Model model) {
        Optional<JobState> state =
                Arrays.stream(JobState.values())
                        .filter(s -> asked.filter(s.word()::equals).isPresent())
                        .findFirst();
        List<Jobs.Entry> found =
                jobs.list(
                        before.flatMap(JobNumber::read).orElse(null),
                        state.orElse(null),
                        find.strip(),
                        SHOWN + 1);
        List<Jobs.Entry> shown = found.subList(0, Math.min(SHOWN, found.size()));
        boolean releases = who.role() != Role.FLOOR;
        model.addAttribute("jobs", shown);
        model.addAttribute("first", before.isEmpty());
        model.addAttribute("state", state.orElse(null));
        model.addAttribute("states", JobState.values());
        model.addAttribute("find", find);
        model.addAttribute("today", bookings.today());
        model.addAttribute("older", found.size() > SHOWN ? shown.get(SHOWN - 1).number() : null);
        model.addAttribute("releases", releases);
        model.addAttribute("waiting", releases ? outcomes.waiting(SHOWN) : List.of());
        model.addAttribute("running", bookings.running().orElse(null));
        return "job/jobs";
    }

    @PostMapping("/jobs")
    String release(
            @RequestParam String quote,
            @RequestParam @DateTimeFormat(iso = DateTimeFormat.ISO.DATE)
                    Optional<LocalDate> dueOn) {
        return "redirect:/jobs/" + jobs.release(quote, dueOn.orElse(null)).document().number();
    }

    @GetMapping("/jobs/{number}")
    String show(
            @PathVariable String number,
            @RequestParam Optional<String> all,
            @AuthenticationPrincipal SignedIn who,
            Model model) {
        JobDocument job = jobs.get(number).document();
        model.addAttribute("job", job);
        int count = bookings.count(number);
        model.addAttribute("count", count);
        model.addAttribute(
                "bookings", bookings.latestOf(number, all.isPresent() ? count : BOOKINGS_SHOWN));
        Map<Integer, Double> byStep = bookings.minutesByStep(number);
        model.addAttribute("booked", byStep);
        model.addAttribute("together", Together.of(job, byStep));
        model.addAttribute("closes", who.role() != Role.FLOOR);
        model.addAttribute("names", StepWords.byNumber(job.steps()));
        return "job/job";
    }

    /** What the steps of a job come to, in minutes of people. */
    record Together(double setup, double run, double booked) {

        static Together of(JobDocument job, Map<Integer, Double> booked) {
            return new Together(
                    job.steps().stream().mapToDouble(s -> s.work().setupMinutes()).sum(),
                    job.steps().stream().mapToDouble(s -> s.work().runMinutes()).sum(),
                    booked.values().stream().mapToDouble(Double::doubleValue).sum());
        }
    }

    @GetMapping("/jobs/{number}/route-card")
    ResponseEntity<byte[]> routeCard(
            @PathVariable String number, @RequestParam Optional<Integer> changeOrder) {
        return routeCards.of(number, changeOrder.orElse(0));
    }

    /** Asks how many became of it. */
    @GetMapping("/jobs/{number}/finish")
    String finishing(@PathVariable String number, Locale locale, Model model) {
        JobDocument job = jobs.get(number).document();
        TypedForm form = new TypedForm(Numbers.of(locale));
        for (int i = 0; i < job.items().size(); i++) {
            JobDocument.Item item = job.items().get(i);
            form.show(
                    "/made/" + i + "/quantity",
                    item.made() == null ? item.quantity() : item.made());
        }
        return finishing(job, form, model);
    }

    private static String finishing(JobDocument job, TypedForm form, Model model) {
        model.addAttribute("job", job);
        model.addAttribute("form", form);
        return "job/finish";
    }

    @PostMapping("/jobs/{number}/finish")
    String finish(
            @PathVariable String number, HttpServletRequest request, Locale locale, Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        JobDocument job = jobs.get(number).document();
        try {
            List<Made.Item> made = new ArrayList<>();
            for (int i = 0; i < job.items().size(); i++) {
                made.add(
                        new Made.Item(
                                job.items().get(i).position(),
                                form.whole("/made/" + i + "/quantity")));
            }
            form.throwIfUnread();
            jobs.finish(number, new Made(made));
            return "redirect:/jobs/" + number;
        } catch (InvalidInput e) {
            return finishing(job, form.refused(e), model);
        }
    }

    @PostMapping("/jobs/{number}/{step:start|close|reopen}")
    String step(@PathVariable String number, @PathVariable String step) {
        switch (step) {
            case "start" -> jobs.start(number);
            case "close" -> jobs.close(number);
            default -> jobs.reopen(number);
        }
        return "redirect:/jobs/" + number;
    }
}
