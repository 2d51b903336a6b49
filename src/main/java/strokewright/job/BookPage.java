package strokewright.job;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.job.Booking.Sort;
import strokewright.job.OpenJobs.OpenJob;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.web.KeptForm;
import strokewright.web.Numbers;
import strokewright.web.Place;
import strokewright.web.Problem;
import strokewright.web.TypedForm;

/**
 * Booking from a phone. Each form is also kept by the page's script while there is no connection,
 * and sent when there is one again.
 */
@Controller
class BookPage {

    private static final String NUMBER = "{number:J-[0-9]{1,4}-[0-9]{1,9}}";
    private static final String STEP = "/book/" + NUMBER + "/{step:[0-9]{1,4}}";
    private static final int SHOWN = 40;

    private final Jobs jobs;
    private final OpenJobs openJobs;
    private final Bookings bookings;
    private final Shops shops;
    private final Clock clock;

    BookPage(Jobs jobs, OpenJobs openJobs, Bookings bookings, Shops shops, Clock clock) {
        this.jobs = jobs;
        this.openJobs = openJobs;
        this.bookings = bookings;
        this.shops = shops;
        this.clock = clock;
    }

    /** Before anything is read: a page may lack what is booked from then on. */
    @ModelAttribute("now")
    long now() {
        return clock.millis();
    }

    @Bean
    static Place bookPlace() {
        return new Place(
                "book", "Book time", "/book", Set.of("FLOOR", "OFFICE", "ESTIMATOR", "OWNER"), 35);
    }

    // Pages --------------------------------------------------------------------------------------

    @GetMapping("/book")
    String begin(@AuthenticationPrincipal SignedIn who, Locale locale, Model model) {
        List<OpenJob> open = openJobs.first(SHOWN);
        model.addAttribute("jobs", open);
        model.addAttribute("titles", titles(open));
        List<Booking> mine = bookings.latest(SHOWN).stream().filter(b -> !b.runs()).toList();
        model.addAttribute("mine", mine);
        List<Booking> leftOff = bookings.leftOff();
        model.addAttribute("leftOff", leftOff);
        model.addAttribute("ids", ids(leftOff.size()));
        frame(who, new TypedForm(Numbers.of(locale)), model);
        return "job/book";
    }

    private static Map<String, String> titles(List<OpenJob> open) {
        return open.stream().collect(Collectors.toMap(OpenJob::number, OpenJob::title));
    }

    private static List<UUID> ids(int many) {
        List<UUID> ids = new ArrayList<>();
        for (int i = 0; i < many; i++) {
            ids.add(UUID.randomUUID());
        }
        return ids;
    }

    @GetMapping("/book/" + NUMBER)
    String job(
            @PathVariable String number,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        return jobPage(number, who, new TypedForm(Numbers.of(locale)), model);
    }

    @GetMapping(STEP)
    String step(
            @PathVariable String number,
            @PathVariable int step,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        return stepPage(number, step, who, new TypedForm(Numbers.of(locale)), model);
    }

    @GetMapping("/book/no-job")
    String noJob(@AuthenticationPrincipal SignedIn who, Locale locale, Model model) {
        return noJobPage(who, new TypedForm(Numbers.of(locale)), model);
    }

    @GetMapping("/book/correct/{id}")
    String wrong(
            @PathVariable UUID id,
            @AuthenticationPrincipal SignedIn who,
            Locale locale,
            Model model) {
        Booking wrong = bookings.get(id);
        return correctPage(
                wrong, who, BookTyping.show(new TypedForm(Numbers.of(locale)), wrong), model);
    }

    // Forms --------------------------------------------------------------------------------------

    /**
     * @param id made with the page, so that a second press of the button books nothing more
     * @param action start, or enter
     */
    @PostMapping(STEP)
    Object book(
            @PathVariable String number,
            @PathVariable int step,
            @RequestParam UUID id,
            @RequestParam("do") String action,
            @AuthenticationPrincipal SignedIn who,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        return answer(
                request,
                who,
                () -> {
                    BookingEntry entry = BookTyping.onStep(form, id, step);
                    requireMeant(entry, action);
                    bookings.book(number, entry);
                    return "/book/"
                            + number
                            + "/"
                            + step
                            + (action.equals("start") && entry.endedAt() == null ? "" : "?booked");
                },
                e -> stepPage(number, step, who, form.refused(e), model));
    }

    private static void requireMeant(BookingEntry entry, String action) {
        if (action.equals("enter") && entry.minutes() == null) {
            throw new InvalidInput("/minutes", "is missing: how long it took");
        }
        if (action.equals("start") && entry.minutes() != null && entry.endedAt() == null) {
            throw new InvalidInput(
                    "/minutes", "would start no clock: book the minutes, or empty the field");
        }
    }

    /**
     * The quick way of people who book per job.
     *
     * @param action start a clock, or enter minutes
     */
    @PostMapping("/book/" + NUMBER)
    Object quick(
            @PathVariable String number,
            @RequestParam UUID id,
            @RequestParam(name = "do", defaultValue = "enter") String action,
            @AuthenticationPrincipal SignedIn who,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        return answer(
                request,
                who,
                () -> {
                    if (action.equals("start")) {
                        BookingEntry entry = BookTyping.onWholeJob(form, id);
                        requireMeant(entry, action);
                        bookings.book(number, entry);
                        return "/book/" + number + (entry.endedAt() == null ? "" : "?booked");
                    }
                    bookings.bookAll(number, BookTyping.quick(form, id));
                    return "/book/" + number + "?booked";
                },
                e -> jobPage(number, who, form.refused(e), model));
    }

    @PostMapping("/book/no-job")
    Object onNoJob(
            @RequestParam UUID id,
            @RequestParam("do") String action,
            @AuthenticationPrincipal SignedIn who,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        return answer(
                request,
                who,
                () -> {
                    BookingEntry entry = BookTyping.onNoJob(form, id);
                    requireMeant(entry, action);
                    bookings.book(null, entry);
                    return "/book/no-job"
                            + (action.equals("start") && entry.endedAt() == null ? "" : "?booked");
                },
                e -> noJobPage(who, form.refused(e), model));
    }

    @PostMapping("/book/{end:stop|pause}/{id}")
    Object end(
            @PathVariable String end,
            @PathVariable UUID id,
            @AuthenticationPrincipal SignedIn who,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        return answer(
                request,
                who,
                () -> {
                    BookingEntry counts = BookTyping.counts(form, id);
                    Booking ended =
                            end.equals("pause")
                                    ? bookings.pause(id, counts)
                                    : bookings.stop(id, counts);
                    if (!ended.workerId().equals(who.userId())) {
                        return "/jobs?booked";
                    }
                    return (end.equals("pause") ? "/book" : pathOf(ended)) + "?booked";
                },
                e -> whereItRuns(bookings.get(id), who, form.refused(e), model));
    }

    private String whereItRuns(Booking clock, SignedIn who, TypedForm form, Model model) {
        if (!clock.workerId().equals(who.userId())) {
            return correctPage(clock, who, form, model);
        }
        if (clock.job() == null) {
            return noJobPage(who, form, model);
        }
        return clock.step() == null
                ? jobPage(clock.job(), who, form, model)
                : stepPage(clock.job(), clock.step(), who, form, model);
    }

    @PostMapping("/book/correct/{id}")
    Object correct(
            @PathVariable("id") UUID wrongId,
            @RequestParam("id") UUID id,
            @AuthenticationPrincipal SignedIn who,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        Booking wrong = bookings.get(wrongId);
        return answer(
                request,
                who,
                () -> {
                    bookings.correct(wrongId, BookTyping.correction(form, id, wrong));
                    return wrong.workerId().equals(who.userId()) || wrong.job() == null
                            ? "/book?booked"
                            : "/jobs/" + wrong.job() + "#bookings";
                },
                e -> correctPage(wrong, who, form.refused(e), model));
    }

    private interface Again {
        String page(InvalidInput e);
    }

    private static Object answer(
            HttpServletRequest request, SignedIn who, Supplier<String> work, Again again) {
        try {
            return KeptForm.answer(request, who.userId(), work);
        } catch (InvalidInput e) {
            return again.page(e);
        }
    }

    // Models -------------------------------------------------------------------------------------

    private String stepPage(String number, int n, SignedIn who, TypedForm form, Model model) {
        JobDocument job = jobs.get(number).document();
        Step step =
                job.steps().stream()
                        .filter(s -> s.n() == n)
                        .findFirst()
                        .orElseThrow(() -> Problem.notFound("Step " + n + " of job " + number));
        model.addAttribute("job", job);
        model.addAttribute("step", step);
        model.addAttribute("what", RouteCard.words(step.work()));
        model.addAttribute("minutes", bookings.minutesOn(number, n));
        model.addAttribute("kinds", BookTyping.KINDS);
        model.addAttribute("next", n < job.steps().size() ? n + 1 : null);
        here(frame(who, form, model), b -> number.equals(b.job()) && n == stepOf(b), model);
        model.addAttribute(
                "leftOff",
                bookings.leftOff().stream()
                        .filter(b -> number.equals(b.job()) && n == stepOf(b))
                        .findFirst()
                        .orElse(null));
        return "job/book-step";
    }

    private static int stepOf(Booking booking) {
        return booking.step() == null ? 0 : booking.step();
    }

    private String jobPage(String number, SignedIn who, TypedForm form, Model model) {
        OpenJob job =
                JobNumber.read(number)
                        .flatMap(openJobs::find)
                        .orElseThrow(() -> Problem.notFound("Job " + number));
        model.addAttribute("job", job);
        model.addAttribute("sorts", sorts());
        here(frame(who, form, model), b -> number.equals(b.job()) && b.step() == null, model);
        return "job/book-job";
    }

    private String noJobPage(SignedIn who, TypedForm form, Model model) {
        model.addAttribute("reasons", BookTyping.REASONS);
        here(frame(who, form, model), b -> b.job() == null, model);
        return "job/book-no-job";
    }

    private String correctPage(Booking wrong, SignedIn who, TypedForm form, Model model) {
        model.addAttribute("wrong", wrong);
        model.addAttribute("kinds", BookTyping.KINDS);
        model.addAttribute("sorts", sorts());
        model.addAttribute(
                "steps",
                wrong.job() == null
                        ? List.of()
                        : JobNumber.read(wrong.job())
                                .flatMap(openJobs::find)
                                .map(
                                        j ->
                                                j.steps().stream()
                                                        .map(
                                                                s ->
                                                                        new TypedForm.Option(
                                                                                "" + s.n(),
                                                                                s.n()
                                                                                        + ". "
                                                                                        + s
                                                                                                .words()))
                                                        .toList())
                                .orElse(List.of()));
        frame(who, form, model);
        return "job/book-correct";
    }

    private static List<TypedForm.Option> sorts() {
        List<TypedForm.Option> sorts = new ArrayList<>();
        for (Sort sort : Sort.values()) {
            sorts.add(new TypedForm.Option(BookTyping.word(sort), sort.words()));
        }
        return sorts;
    }

    /** What every booking page shows besides: whose it is, and the clock that runs. */
    private @Nullable Booking frame(SignedIn who, TypedForm form, Model model) {
        Optional<Booking> running = bookings.running();
        model.addAttribute("form", form);
        model.addAttribute("id", UUID.randomUUID());
        model.addAttribute("me", who);
        model.addAttribute("times", new ShopTimes(shops.current().timeZone(), bookings.today()));
        model.addAttribute("running", running.orElse(null));
        model.addAttribute("runsAt", running.map(BookPage::pathOf).orElse(null));
        model.addAttribute("runsOn", running.map(BookPage::words).orElse(""));
        model.addAttribute("forgotten", running.filter(bookings::isProbablyForgotten).isPresent());
        return running.orElse(null);
    }

    private interface Belongs {
        boolean here(Booking clock);
    }

    private static void here(@Nullable Booking running, Belongs belongs, Model model) {
        model.addAttribute("here", running != null && belongs.here(running));
    }

    /** What somebody works on. */
    static String words(Booking booking) {
        if (booking.job() == null) {
            return "No job" + (booking.reason() == null ? "" : ": " + booking.reason());
        }
        return booking.job()
                + (booking.work() == null
                        ? ", whole job"
                        : ", " + booking.step() + ". " + booking.work());
    }

    static String pathOf(Booking booking) {
        if (booking.job() == null) {
            return "/book/no-job";
        }
        return "/book/" + booking.job() + (booking.step() == null ? "" : "/" + booking.step());
    }

    /** Faults of one of several entries of a form, at its field. */
    static InvalidInput at(BookingEntry entry, InvalidInput e) {
        return new InvalidInput(
                e.faults().stream()
                        .map(f -> new Fault(BookTyping.quickPath(entry, f.pointer()), f.message()))
                        .toList());
    }
}
