package strokewright.access;

import java.util.Comparator;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import strokewright.web.Place;

/** Where somebody lands: at the first place of the navigation that is for them. */
@Controller
class StartPage {

    private final ObjectProvider<Place> places;

    StartPage(ObjectProvider<Place> places) {
        this.places = places;
    }

    @GetMapping("/")
    String start(@AuthenticationPrincipal SignedIn who) {
        return places.stream()
                .filter(place -> place.roles().contains(who.role().name()))
                .filter(p -> p.of() == null)
                .min(Comparator.comparingInt(Place::order))
                .map(place -> "redirect:" + place.path())
                .orElse("access/start");
    }
}
