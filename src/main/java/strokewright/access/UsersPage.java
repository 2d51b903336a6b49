package strokewright.access;

import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.web.Place;

/** The owner's page of who works here. */
@Controller
@RequestMapping("/users")
class UsersPage {

    private final Shops shops;
    private final Users users;

    UsersPage(Shops shops, Users users) {
        this.shops = shops;
        this.users = users;
    }

    @Bean
    static Place usersPlace() {
        return new Place("users", "Users", "/users", Set.of(Role.OWNER.name()), 3, "owner");
    }

    record Typed(
            @Nullable String displayName,
            @Nullable String userName,
            @Nullable Role role,
            @Nullable String password) {

        NewUser user() {
            return new NewUser(userName, displayName, role, password);
        }
    }

    record NewPassword(@Nullable String password) {}

    @GetMapping
    String list(@AuthenticationPrincipal SignedIn owner, Model model) {
        return page(owner, model, new Typed("", "", Role.ESTIMATOR, ""), null, List.of());
    }

    @PostMapping
    String add(@AuthenticationPrincipal SignedIn owner, @ModelAttribute Typed typed, Model model) {
        try {
            shops.let(owner, typed.user());
        } catch (InvalidInput e) {
            return page(owner, model, typed, null, e.faults());
        }
        return "redirect:/users";
    }

    @PostMapping("/{id}/password")
    String setPassword(
            @AuthenticationPrincipal SignedIn owner,
            @PathVariable UUID id,
            @ModelAttribute NewPassword typed,
            Model model) {
        try {
            users.setPassword(owner, id, typed.password());
        } catch (InvalidInput e) {
            return page(owner, model, new Typed("", "", Role.ESTIMATOR, ""), id, e.faults());
        }
        return "redirect:/users";
    }

    @PostMapping("/{id}/shut-out")
    String shutOut(@AuthenticationPrincipal SignedIn owner, @PathVariable UUID id) {
        users.shutOut(owner, id);
        return "redirect:/users";
    }

    @PostMapping("/{id}/let-in")
    String letInAgain(@AuthenticationPrincipal SignedIn owner, @PathVariable UUID id) {
        users.letInAgain(owner, id);
        return "redirect:/users";
    }

    /**
     * @param of whose new password the faults are about; the new user's when null
     */
    private String page(
            SignedIn owner, Model model, Typed typed, @Nullable UUID of, List<Fault> faults) {
        model.addAttribute("users", users.of(owner));
        model.addAttribute("me", owner.userId());
        model.addAttribute("roles", Role.values());
        model.addAttribute("typed", typed);
        model.addAttribute("faultsOf", of);
        model.addAttribute("faults", FieldFaults.of(faults));
        return "access/users";
    }
}
