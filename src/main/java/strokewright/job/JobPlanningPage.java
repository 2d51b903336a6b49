package strokewright.job;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Arrays;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.quantity.InvalidInput;
import strokewright.quote.CustomerChoice;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;
import strokewright.web.TypedForm;
import strokewright.web.TypedForm.Option;

/** The pages on which a job without a quote, or more on a running job, is planned. */
@Controller
class JobPlanningPage {

    private final Jobs jobs;
    private final PlanTyping plans;
    private final ShopBooks books;

    JobPlanningPage(Jobs jobs, PlanTyping plans, ShopBooks books) {
        this.jobs = jobs;
        this.plans = plans;
        this.books = books;
    }

    @GetMapping("/jobs/new")
    String begin(Locale locale, Model model) {
        return job(blank(locale).show("/kind", JobKind.VERBAL), model);
    }

    private static TypedForm blank(Locale locale) {
        TypedForm form = new TypedForm(Numbers.of(locale));
        List.of(
                        "/kind",
                        "/customer",
                        "/title",
                        "/reason",
                        "/net",
                        "/dueOn",
                        "/planQuote",
                        "/quantity")
                .forEach(path -> form.show(path, null));
        return form;
    }

    @PostMapping("/jobs/new")
    String release(HttpServletRequest request, Locale locale, Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            NewJob wanted =
                    new NewJob(
                            null,
                            form.choice("/kind", JobKind.class),
                            CustomerChoice.named(form.text("/customer")),
                            form.text("/title"),
                            form.text("/reason"),
                            form.money("/net", currency()),
                            plans.items(form, form.text("/title")),
                            form.date("/dueOn"));
            form.throwIfUnread();
            return "redirect:/jobs/" + jobs.release(wanted).document().number();
        } catch (InvalidInput e) {
            return job(form.refused(PlanTyping.placed(e)), model);
        }
    }

    private String job(TypedForm form, Model model) {
        planning(form.holds("/customer"), model);
        model.addAttribute(
                "kinds",
                Arrays.stream(JobKind.values())
                        .filter(k -> k != JobKind.QUOTE)
                        .map(k -> new Option(TypedForm.kebab(k), k.words()))
                        .toList());
        return "job/new";
    }

    @GetMapping("/jobs/{number}/change-orders")
    String more(@PathVariable String number, Locale locale, Model model) {
        return change(number, blank(locale), UUID.randomUUID(), model);
    }

    /**
     * @param id made with the page, so that a second press of the button adds nothing more
     */
    @PostMapping("/jobs/{number}/change-orders")
    String change(
            @PathVariable String number,
            @RequestParam UUID id,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            NewChangeOrder wanted =
                    new NewChangeOrder(
                            id,
                            form.text("/title"),
                            form.text("/reason"),
                            form.money("/net", currency()),
                            plans.items(form, form.text("/title")));
            form.throwIfUnread();
            jobs.change(number, wanted);
            return "redirect:/jobs/" + number;
        } catch (InvalidInput e) {
            return change(number, form.refused(PlanTyping.placed(e)), id, model);
        }
    }

    private String change(String number, TypedForm form, UUID id, Model model) {
        planning(form, model);
        model.addAttribute("job", jobs.get(number).document());
        model.addAttribute("id", id);
        return "job/change-order";
    }

    private void planning(TypedForm form, Model model) {
        PlanTyping.filled(form);
        model.addAttribute("form", form);
        model.addAttribute("rows", form.rows("/lines"));
        model.addAttribute("standards", plans.standards());
        model.addAttribute("currency", currency());
    }

    private Currency currency() {
        return books.current().currency();
    }
}
