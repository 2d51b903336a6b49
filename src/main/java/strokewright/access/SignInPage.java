package strokewright.access;

import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;

/** Asks who is there; the security chain takes the answer. */
@Controller
class SignInPage {

    @GetMapping("/sign-in")
    String ask() {
        return "access/sign-in";
    }
}
