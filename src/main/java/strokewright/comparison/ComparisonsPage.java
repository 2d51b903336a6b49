package strokewright.comparison;

import jakarta.servlet.http.HttpServletRequest;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Role;
import strokewright.office.Csv;
import strokewright.quantity.Fault;
import strokewright.web.Numbers;
import strokewright.web.Place;

/** Quoted against actual, of one job and over a period. */
@Controller
class ComparisonsPage {

    private final Comparisons comparisons;

    ComparisonsPage(Comparisons comparisons) {
        this.comparisons = comparisons;
    }

    @Bean
    static Place comparisonPlace() {
        return new Place(
                "comparison",
                "Comparison",
                "/comparison",
                Set.of(Role.ESTIMATOR.name(), Role.OFFICE.name(), Role.OWNER.name()),
                40);
    }

    @GetMapping("/jobs/{number}/comparison")
    String ofJob(@PathVariable String number, Locale locale, Model model) {
        JobComparison job = comparisons.of(number);
        Numbers numbers = Numbers.of(locale);
        ComparisonViews views = new ComparisonViews(numbers);
        model.addAttribute("c", job);
        model.addAttribute("words", new OverWords(numbers));
        model.addAttribute("views", views);
        model.addAttribute("work", views.work(job));
        model.addAttribute("costBridge", views.costBridge(job));
        model.addAttribute("marginBridge", views.marginBridge(job));
        model.addAttribute("currency", job.cost().actual().currency().getCurrencyCode());
        return "comparison/job";
    }

    /**
     * @param sort order of the rows; the page's own parameter
     */
    @GetMapping("/comparison")
    String ofPeriod(
            @RequestParam Optional<String> sort,
            HttpServletRequest asked,
            Locale locale,
            Model model) {
        PeriodAsked period = PeriodAsked.of(asked.getParameterMap(), Set.of("sort"));
        Optional<Sorted> sorted = sort.filter(s -> !s.isBlank()).flatMap(Sorted::of);
        if (sorted.isEmpty() && sort.filter(s -> !s.isBlank()).isPresent()) {
            period.faults().add("?sort", "must be one of " + Sorted.all());
        }
        Numbers numbers = Numbers.of(locale);
        Map<String, String> faults = new HashMap<>();
        for (Fault fault : period.faults().all()) {
            faults.putIfAbsent(fault.pointer().substring(1), fault.message());
        }
        Map<String, String> typed = new HashMap<>();
        asked.getParameterMap().forEach((name, values) -> typed.put(name, values[0]));
        model.addAttribute("typed", typed);
        model.addAttribute("faults", faults);
        model.addAttribute("by", period.by());
        model.addAttribute("bys", By.values());
        model.addAttribute("sorted", sorted.orElse(null));
        model.addAttribute("words", new OverWords(numbers));
        model.addAttribute("currency", comparisons.currency().getCurrencyCode());
        if (faults.isEmpty()) {
            shown(period, sorted, new ComparisonViews(numbers), model);
        }
        return "comparison/period";
    }

    private void shown(
            PeriodAsked asked, Optional<Sorted> sorted, ComparisonViews views, Model model) {
        PeriodComparison period = comparisons.of(asked.from(), asked.to(), asked.by());
        double most =
                period.rows().stream()
                        .mapToDouble(
                                r ->
                                        Math.max(
                                                r.hours().planned().doubleValue(),
                                                r.hours().actual().doubleValue()))
                        .max()
                        .orElse(0);
        Map<PeriodComparison.Row, String> bars = new LinkedHashMap<>();
        List<PeriodComparison.Row> rows =
                sorted.map(s -> s.of(period.rows())).orElse(period.rows());
        for (int i = 0; i < rows.size(); i++) {
            if (!rows.get(i).hours().isNothing()) {
                bars.put(
                        rows.get(i),
                        views.hoursBar(rows.get(i).hours(), most, "bar-" + i, rows.get(i).name()));
            }
        }
        model.addAttribute("c", period);
        model.addAttribute("rows", rows);
        model.addAttribute("bars", bars);
        model.addAttribute("views", views);
    }

    /**
     * @param ending csv or xlsx
     */
    @GetMapping("/comparison/table.{ending:csv|xlsx}")
    ResponseEntity<byte[]> file(
            @PathVariable String ending, HttpServletRequest asked, Locale locale) {
        PeriodAsked period = PeriodAsked.of(asked.getParameterMap(), Set.of());
        period.faults().throwIfAny();
        PeriodTable table =
                new PeriodTable(
                        comparisons.of(period.from(), period.to(), period.by()),
                        comparisons.currency());
        return ending.equals("xlsx")
                ? table.xlsx()
                : table.csv(Csv.Manner.forPeople(Numbers.of(locale).decimalMark()));
    }
}
