package strokewright.access;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.filter.OncePerRequestFilter;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;

/** The page of an empty installation: it opens the first shop, then it is gone. */
@Controller
class FirstStart {

    static final String PATH = "/first-start";

    private final Shops shops;

    FirstStart(Shops shops) {
        this.shops = shops;
    }

    record Answers(
            String name,
            String currency,
            String timeZone,
            String displayName,
            String userName,
            String password) {

        static Answers suggested() {
            return new Answers("", "EUR", ZoneId.systemDefault().getId(), "", "", "");
        }

        NewShop shop() {
            return new NewShop(name, currency, timeZone);
        }

        NewUser owner() {
            return new NewUser(userName, displayName, Role.OWNER, password);
        }
    }

    @GetMapping(PATH)
    String ask(Model model) {
        return shops.anyOpen() ? "redirect:/" : form(model, Answers.suggested(), List.of());
    }

    @PostMapping(PATH)
    String open(@ModelAttribute Answers answers, Model model) {
        try {
            shops.openFirst(answers.shop(), answers.owner());
        } catch (InvalidInput e) {
            return form(model, answers, e.faults());
        } catch (Shops.AlreadyOpen e) {
            return "redirect:/";
        }
        return "redirect:/sign-in?opened";
    }

    private static String form(Model model, Answers answers, List<Fault> faults) {
        model.addAttribute("answers", answers);
        model.addAttribute("faults", FieldFaults.of(faults));
        model.addAttribute(
                "currencies",
                Currency.getAvailableCurrencies().stream()
                        .sorted(Comparator.comparing(Currency::getCurrencyCode))
                        .toList());
        model.addAttribute("zones", ZoneId.getAvailableZoneIds().stream().sorted().toList());
        return "access/first-start";
    }

    /** While there is no shop, every page leads to the one that opens it. */
    static class Filter extends OncePerRequestFilter {

        private final Shops shops;

        Filter(Shops shops) {
            this.shops = shops;
        }

        @Override
        protected void doFilterInternal(
                HttpServletRequest request, HttpServletResponse response, FilterChain chain)
                throws ServletException, IOException {
            String accept = request.getHeader(HttpHeaders.ACCEPT);
            boolean page =
                    request.getMethod().equals("GET") && accept != null && accept.contains("html");
            if (page && !request.getServletPath().equals(PATH) && !shops.anyOpen()) {
                response.sendRedirect(request.getContextPath() + PATH);
                return;
            }
            chain.doFilter(request, response);
        }
    }
}
