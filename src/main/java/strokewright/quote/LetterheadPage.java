package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.annotation.Bean;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import strokewright.access.Role;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.Place;
import strokewright.web.Problem;
import strokewright.web.TypedForm;
import strokewright.web.TypedForm.Option;

/** The owner's page of how the shop writes to its customers. */
@Controller
@RequestMapping("/letterhead")
class LetterheadPage {

    private static final String LOGO = "/logo";
    private static final String ANOTHER_ROW = "rows";
    private static final long LARGEST_LOGO = 1 << 20;

    private final Letterheads letterheads;

    LetterheadPage(Letterheads letterheads) {
        this.letterheads = letterheads;
    }

    @Bean
    static Place letterheadPlace() {
        return new Place(
                "letterhead", "Letterhead", "/letterhead", Set.of(Role.OWNER.name()), 4, "owner");
    }

    @GetMapping
    String show(Locale locale, Model model) {
        return page(stored(locale), letterheads.get(), model);
    }

    private TypedForm stored(Locale locale) {
        return LetterheadTyping.show(letterheads.get().letterhead(), Numbers.of(locale));
    }

    @PostMapping
    String change(
            @RequestParam String version,
            @RequestParam("do") Optional<String> action,
            HttpServletRequest request,
            Locale locale,
            Model model) {
        TypedForm form = TypedForm.of(request.getParameterMap(), Numbers.of(locale));
        Letterheads.Tagged found = letterheads.get();
        if (action.filter(ANOTHER_ROW::equals).isPresent()) {
            TermsTyping.spareStages(form, "/payment", true);
            model.addAttribute("version", version);
            return page(form, found, model);
        }
        if (!found.version().toString().equals(version)) {
            model.addAttribute("overtaken", true);
            return page(form, found, model);
        }
        try {
            Letterhead letterhead = LetterheadTyping.letterhead(form);
            form.throwIfUnread();
            letterheads.change(letterhead, version);
            return "redirect:/letterhead?saved";
        } catch (InvalidInput e) {
            TermsTyping.spareStages(form, "/payment", false);
            return page(form.refused(e), found, model);
        }
    }

    @PostMapping("/logo")
    String logo(@RequestParam("logo") MultipartFile file, Locale locale, Model model)
            throws IOException {
        try {
            if (file.getSize() > LARGEST_LOGO) {
                throw new InvalidInput("", "is too large: a logo may have at most 1 MiB");
            }
            letterheads.change(Letterheads.Logo.of(file.getBytes()));
            return "redirect:/letterhead?saved#logo";
        } catch (InvalidInput e) {
            TypedForm form = stored(locale).holds(LOGO);
            form.refused(new InvalidInput(LOGO, e.faults().get(0).message()));
            return page(form, letterheads.get(), model);
        }
    }

    @PostMapping("/logo/remove")
    String noLogo() {
        letterheads.change((Letterheads.Logo) null);
        return "redirect:/letterhead?saved#logo";
    }

    @GetMapping("/logo")
    ResponseEntity<byte[]> logo() {
        Letterheads.Logo logo = letterheads.logo().orElseThrow(() -> Problem.notFound("The logo"));
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType(logo.type()))
                .body(logo.picture());
    }

    private String page(TypedForm form, Letterheads.Tagged found, Model model) {
        model.addAttribute("form", form);
        if (!model.containsAttribute("version")) {
            model.addAttribute("version", found.version().toString());
        }
        model.addAttribute("hasLogo", letterheads.logo().isPresent());
        model.addAttribute(
                "papers", List.of(new Option("a4", "A4"), new Option("letter", "Letter")));
        return "quote/letterhead";
    }
}
