package strokewright.comparison;

import jakarta.servlet.http.HttpServletRequest;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import strokewright.access.Role;
import strokewright.quantity.Fault;
import strokewright.web.Numbers;
import strokewright.web.Place;

/** The owner's page. */
@Controller
class OwnerPage {

    private final Owner owner;

    OwnerPage(Owner owner) {
        this.owner = owner;
    }

    @Bean
    static Place ownerPlace() {
        return new Place("owner", "Owner", "/owner", Set.of(Role.OWNER.name()), 90);
    }

    @Bean
    static Place earnsPlace() {
        return new Place("earns", "What earns", "/owner", Set.of(Role.OWNER.name()), 1, "owner");
    }

    @GetMapping("/owner")
    String show(HttpServletRequest asked, Locale locale, Model model) {
        PeriodAsked period = PeriodAsked.of(asked.getParameterMap(), Set.of());
        Map<String, String> faults = new HashMap<>();
        for (Fault fault : period.faults().all()) {
            faults.putIfAbsent(fault.pointer().substring(1), fault.message());
        }
        Map<String, String> typed = new HashMap<>();
        asked.getParameterMap().forEach((name, values) -> typed.put(name, values[0]));
        Numbers numbers = Numbers.of(locale);
        model.addAttribute("faults", faults);
        model.addAttribute("words", new OverWords(numbers));
        model.addAttribute("views", new ComparisonViews(numbers));
        if (faults.isEmpty()) {
            OwnerReport report = owner.report(period.from(), period.to());
            typed.put("from", report.from().toString());
            typed.put("to", report.to().toString());
            model.addAttribute("r", report);
            model.addAttribute("drawn", new OwnerViews(numbers, report));
        }
        model.addAttribute("typed", typed);
        return "comparison/owner";
    }
}
