package strokewright.job;

import java.util.List;
import java.util.Optional;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;
import strokewright.access.Shops;
import strokewright.access.SignedIn;

/**
 * What the pages of jobs say of clocks: one's own that runs, and for whoever may tell it of others
 * the clocks that were probably forgotten.
 */
@ControllerAdvice(assignableTypes = JobsPage.class)
class ClockNotices {

    private final Bookings bookings;
    private final Shops shops;

    ClockNotices(Bookings bookings, Shops shops) {
        this.bookings = bookings;
        this.shops = shops;
    }

    @ModelAttribute
    void clocks(@AuthenticationPrincipal SignedIn who, Model model) {
        Optional<Booking> running = bookings.running();
        model.addAttribute("running", running.orElse(null));
        model.addAttribute("runsAt", running.map(BookPage::pathOf).orElse(null));
        model.addAttribute("runsOn", running.map(BookPage::words).orElse(""));
        model.addAttribute("forgotten", running.filter(bookings::isProbablyForgotten).isPresent());
        model.addAttribute(
                "toAsk",
                Bookings.mayForOthers(who)
                        ? bookings.forgotten().stream()
                                .filter(b -> !b.workerId().equals(who.userId()))
                                .toList()
                        : List.of());
        model.addAttribute("myId", who.userId());
        model.addAttribute("tellsForOthers", Bookings.mayForOthers(who));
        model.addAttribute("times", new ShopTimes(shops.current().timeZone(), bookings.today()));
    }
}
