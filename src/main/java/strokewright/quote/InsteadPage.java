package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.takeoff.InsteadDesk;
import strokewright.takeoff.TakeOffDesk;

/** Answers the take-off page's panel of what else the item could be, on a request of its own. */
@Controller
@RequestMapping({"/take-off/instead", "/quotes/{number}/items/{position:[0-9]{1,4}}/instead"})
class InsteadPage {

    private final InsteadDesk desk;
    private final Quotes quotes;

    InsteadPage(InsteadDesk desk, Quotes quotes) {
        this.desk = desk;
        this.quotes = quotes;
    }

    @PostMapping
    String answer(
            @PathVariable(required = false) @Nullable String number,
            @PathVariable(required = false) @Nullable Integer position,
            @RequestParam(name = "do", defaultValue = "") String action,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TakeOffDesk.Sheet sheet =
                number == null || position == null
                        ? TakeOffPage.NEW
                        : QuoteItemPage.sheet(quotes, number, position);
        model.addAttribute("instead", desk.answer(sheet, action, request, locale));
        model.addAttribute("asked", !action.isEmpty());
        return "takeoff/take-off-instead :: answer";
    }
}
