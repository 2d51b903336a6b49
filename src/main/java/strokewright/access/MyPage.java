package strokewright.access;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;

/** One's own password and tokens. */
@Controller
@RequestMapping("/me")
class MyPage {

    private final Users users;
    private final Tokens tokens;

    MyPage(Users users, Tokens tokens) {
        this.users = users;
        this.tokens = tokens;
    }

    record TypedPassword(@Nullable String old, @Nullable String password) {}

    record TypedToken(@Nullable String name) {}

    @GetMapping
    String show(@AuthenticationPrincipal SignedIn who, Model model) {
        return page(who, model, List.of());
    }

    @PostMapping("/password")
    String changePassword(
            @AuthenticationPrincipal SignedIn who,
            @ModelAttribute TypedPassword typed,
            HttpServletRequest request,
            Model model) {
        try {
            String session = request.getSession().getId();
            users.changeOwnPassword(who, session, typed.old(), typed.password());
        } catch (InvalidInput e) {
            return page(who, model, e.faults());
        }
        return "redirect:/me?changed";
    }

    /** Answers the page itself, not a redirect: the secret is shown this once. */
    @PostMapping("/tokens")
    String createToken(
            @AuthenticationPrincipal SignedIn who,
            @ModelAttribute TypedToken typed,
            HttpServletResponse response,
            Model model) {
        Faults faults = new Faults();
        if (faults.text("/name", typed.name())) {
            model.addAttribute("secret", tokens.create(who, typed.name()).token());
            response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
        }
        return page(who, model, faults.all());
    }

    @PostMapping("/tokens/{id}/delete")
    String deleteToken(@AuthenticationPrincipal SignedIn who, @PathVariable UUID id) {
        tokens.delete(who, id);
        return "redirect:/me";
    }

    private String page(SignedIn who, Model model, List<Fault> faults) {
        model.addAttribute("who", who);
        model.addAttribute("tokens", tokens.of(who));
        model.addAttribute("faults", FieldFaults.of(faults));
        return "access/me";
    }
}
