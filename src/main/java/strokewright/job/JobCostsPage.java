package strokewright.job;

import jakarta.servlet.http.HttpServletRequest;
import java.util.ArrayList;
import java.util.Currency;
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
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;
import strokewright.web.Problem;
import strokewright.web.TypedForm;
import strokewright.web.TypedForm.Option;

/** The page on which metal and bills are written down on a job. */
@Controller
@RequestMapping("/jobs/{number}/costs")
class JobCostsPage {

    private static final List<String> METAL =
            List.of(
                    "/grade",
                    "/item",
                    "/thicknessMm",
                    "/lengthMm",
                    "/widthMm",
                    "/count",
                    "/kg",
                    "/paid",
                    "/offcutLengthMm",
                    "/offcutWidthMm",
                    "/offcutKg",
                    "/offcutValue",
                    "/note",
                    "/usedOn");

    private static final List<String> BILL =
            List.of("/name", "/extra", "/supplier", "/number", "/amount", "/note", "/billedOn");

    private final Jobs jobs;
    private final JobCosts costs;
    private final ShopBooks books;

    JobCostsPage(Jobs jobs, JobCosts costs, ShopBooks books) {
        this.jobs = jobs;
        this.costs = costs;
        this.books = books;
    }

    @GetMapping
    String list(@PathVariable String number, Model model) {
        List<Kept<BillEntry>> bills = costs.bills(number);
        List<Kept<MetalUsed>> metal = costs.metal(number);
        Money none = Money.zero(currency());
        model.addAttribute("job", jobs.get(number).document());
        model.addAttribute("metal", metal);
        model.addAttribute("bills", bills);
        model.addAttribute(
                "metalTotal",
                metal.stream()
                        .filter(Kept::counts)
                        .map(m -> m.entry().cost())
                        .reduce(none, Money::plus));
        model.addAttribute(
                "billTotal",
                bills.stream()
                        .filter(Kept::counts)
                        .map(b -> b.entry().amount())
                        .reduce(none, Money::plus));
        return "job/costs";
    }

    /**
     * @param correct the one that is wrong; a new one is written down when left out
     */
    @GetMapping("/metal")
    String metal(
            @PathVariable String number,
            @RequestParam Optional<UUID> correct,
            Locale locale,
            Model model) {
        TypedForm form = new TypedForm(Numbers.of(locale));
        METAL.forEach(path -> form.show(path, null));
        correct.ifPresent(
                id -> show(form, entry(costs.metal(number), id, m -> m.entry().id()).entry()));
        return metal(number, form, UUID.randomUUID(), correct.orElse(null), model);
    }

    private static void show(TypedForm form, MetalEntry e) {
        form.show("/grade", e.grade())
                .show("/item", e.item())
                .show("/thicknessMm", e.thicknessMm())
                .show("/lengthMm", e.lengthMm())
                .show("/widthMm", e.widthMm())
                .show("/count", e.count())
                .show("/kg", e.kg())
                .show("/paid", e.paid())
                .show("/offcutLengthMm", e.offcutLengthMm())
                .show("/offcutWidthMm", e.offcutWidthMm())
                .show("/offcutKg", e.offcutKg())
                .show("/offcutValue", e.offcutValue())
                .show("/note", e.note())
                .show("/usedOn", e.usedOn());
    }

    private static <T> T entry(
            List<Kept<T>> all, UUID id, java.util.function.Function<T, UUID> idOf) {
        return all.stream()
                .map(Kept::entry)
                .filter(e -> id.equals(idOf.apply(e)))
                .findFirst()
                .orElseThrow(() -> Problem.notFound("Row " + id));
    }

    /**
     * @param id made with the page, so that a second press of the button writes nothing more
     */
    @PostMapping("/metal")
    String take(
            @PathVariable String number,
            @RequestParam UUID id,
            @RequestParam Optional<UUID> correct,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            MetalEntry entry =
                    new MetalEntry(
                            id,
                            form.whole("/item"),
                            form.text("/grade"),
                            form.number("/thicknessMm"),
                            form.number("/lengthMm"),
                            form.number("/widthMm"),
                            form.whole("/count"),
                            form.number("/kg"),
                            form.money("/paid", currency()),
                            form.number("/offcutLengthMm"),
                            form.number("/offcutWidthMm"),
                            form.number("/offcutKg"),
                            form.money("/offcutValue", currency()),
                            form.text("/note"),
                            form.date("/usedOn"));
            form.throwIfUnread();
            correct.ifPresentOrElse(
                    wrong -> costs.correct(number, wrong, entry), () -> costs.take(number, entry));
            return "redirect:/jobs/" + number + "/costs";
        } catch (InvalidInput e) {
            return metal(number, form.refused(e), id, correct.orElse(null), model);
        }
    }

    private String metal(
            String number, TypedForm form, UUID id, @Nullable UUID correct, Model model) {
        JobDocument job = base(number, form, id, correct, model);
        List<Option> grades = new ArrayList<>();
        grades.add(new Option("", ""));
        books.current()
                .grades()
                .forEach(g -> grades.add(new Option(g.code(), g.code() + ", " + g.name())));
        List<Option> items = new ArrayList<>();
        items.add(new Option("", "the whole job"));
        job.items()
                .forEach(
                        i ->
                                items.add(
                                        new Option(
                                                String.valueOf(i.position()),
                                                i.position() + ". " + i.title())));
        model.addAttribute("grades", grades);
        model.addAttribute("items", items);
        return "job/metal";
    }

    private JobDocument base(
            String number, TypedForm form, UUID id, @Nullable UUID correct, Model model) {
        JobDocument job = jobs.get(number).document();
        model.addAttribute("job", job);
        model.addAttribute("form", form);
        model.addAttribute("id", id);
        model.addAttribute("correct", correct);
        model.addAttribute("currency", currency());
        return job;
    }

    /**
     * @param correct the one that is wrong; a new one is written down when left out
     */
    @GetMapping("/bill")
    String bill(
            @PathVariable String number,
            @RequestParam Optional<UUID> correct,
            Locale locale,
            Model model) {
        TypedForm form = new TypedForm(Numbers.of(locale));
        BILL.forEach(path -> form.show(path, null));
        correct.ifPresent(
                wrong -> {
                    BillEntry e = entry(costs.bills(number), wrong, BillEntry::id);
                    form.show("/name", e.name())
                            .show("/extra", e.extra())
                            .show("/supplier", e.supplier())
                            .show("/number", e.number())
                            .show("/amount", e.amount())
                            .show("/note", e.note())
                            .show("/billedOn", e.billedOn());
                });
        return bill(number, form, UUID.randomUUID(), correct.orElse(null), model);
    }

    @PostMapping("/bill")
    String pay(
            @PathVariable String number,
            @RequestParam UUID id,
            @RequestParam Optional<UUID> correct,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        try {
            BillEntry entry =
                    new BillEntry(
                            id,
                            form.text("/name"),
                            form.text("/extra"),
                            form.text("/supplier"),
                            form.text("/number"),
                            form.money("/amount", currency()),
                            form.text("/note"),
                            form.date("/billedOn"));
            form.throwIfUnread();
            correct.ifPresentOrElse(
                    wrong -> costs.correct(number, wrong, entry), () -> costs.pay(number, entry));
            return "redirect:/jobs/" + number + "/costs";
        } catch (InvalidInput e) {
            return bill(number, form.refused(e), id, correct.orElse(null), model);
        }
    }

    private String bill(
            String number, TypedForm form, UUID id, @Nullable UUID correct, Model model) {
        base(number, form, id, correct, model);
        List<Option> extras = new ArrayList<>();
        extras.add(new Option("", "nothing that was planned"));
        jobs.plannedExtras(number).forEach(name -> extras.add(new Option(name, name)));
        model.addAttribute("extras", extras);
        return "job/bill";
    }

    private Currency currency() {
        return books.current().currency();
    }
}
