package strokewright.comparison;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import strokewright.access.Role;
import strokewright.access.Shops;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.web.Numbers;
import strokewright.web.Place;
import strokewright.web.TypedForm;

/** The owner's page of what people cost. */
@Controller
class CostRatesPage {

    private final CostRates rates;
    private final Shops shops;
    private final Clock clock;

    CostRatesPage(CostRates rates, Shops shops, Clock clock) {
        this.rates = rates;
        this.shops = shops;
        this.clock = clock;
    }

    @Bean
    static Place ratesPlace() {
        return new Place(
                "rates",
                "What people cost",
                "/people/rates",
                Set.of(Role.OWNER.name()),
                2,
                "owner");
    }

    @GetMapping("/people/rates")
    String list(Locale locale, Model model) {
        return page(new TypedForm(Numbers.of(locale)).show("/validFrom", today()), model);
    }

    @PostMapping("/people/rates")
    String say(HttpServletRequest sent, Locale locale, Model model) {
        TypedForm form = TypedForm.of(sent.getParameterMap(), Numbers.of(locale));
        LocalDate from = form.date("/validFrom");
        Money perHour = form.money("/perHour", rates.currency());
        try {
            form.throwIfUnread();
            rates.say(form.at("/person"), new CostRate(from, perHour), "*");
        } catch (InvalidInput e) {
            return page(form.refused(e), model);
        }
        return "redirect:/people/rates?saved";
    }

    private LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
    }

    private String page(TypedForm form, Model model) {
        List<CostRates.Person> people = rates.people();
        model.addAttribute("people", people);
        model.addAttribute(
                "choices",
                people.stream()
                        .map(p -> new TypedForm.Option(p.id().toString(), p.name()))
                        .toList());
        model.addAttribute("form", form);
        model.addAttribute("currency", rates.currency().getCurrencyCode());
        return "comparison/rates";
    }
}
