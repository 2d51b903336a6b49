package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Locale;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import strokewright.takeoff.TakeOffDesk;

/** Adds a shape to a take-off without a reload, wherever one is worked on. */
@Controller
class ShapesPage {

    private final TakeOffDesk desk;
    private final Quotes quotes;

    ShapesPage(TakeOffDesk desk, Quotes quotes) {
        this.desk = desk;
        this.quotes = quotes;
    }

    @PostMapping("/take-off/shape")
    String toNew(
            HttpServletRequest request, HttpServletResponse answer, Locale locale, Model model) {
        return desk.shape(TakeOffPage.NEW, request, answer, locale, model);
    }

    @PostMapping("/quotes/{number}/items/{position:[0-9]{1,4}}/shape")
    String toItem(
            @PathVariable String number,
            @PathVariable int position,
            HttpServletRequest request,
            HttpServletResponse answer,
            Locale locale,
            Model model) {
        return desk.shape(
                QuoteItemPage.sheet(quotes, number, position), request, answer, locale, model);
    }
}
