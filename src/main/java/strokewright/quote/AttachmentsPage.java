package strokewright.quote;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.util.Locale;
import java.util.UUID;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.TypedForm;

/** Drawings on the page of their quote. */
@Controller
@RequestMapping("/quotes/{number}/attachments")
class AttachmentsPage {

    private static final String FIELD = "/attachment";

    private final Attachments attachments;
    private final AttachmentFiles files;
    private final QuoteDesk desk;

    AttachmentsPage(Attachments attachments, AttachmentFiles files, QuoteDesk desk) {
        this.attachments = attachments;
        this.files = files;
        this.desk = desk;
    }

    @PostMapping
    String add(
            @PathVariable String number,
            @RequestParam("attachment") MultipartFile file,
            Locale locale,
            Model model)
            throws IOException {
        try (InputStream in = file.getInputStream()) {
            attachments.add(number, file.getOriginalFilename(), in);
            return "redirect:/quotes/" + number + "?attached#attachments";
        } catch (InvalidInput e) {
            TypedForm form = new TypedForm(Numbers.of(locale)).holds(FIELD);
            form.refused(new InvalidInput(FIELD, e.faults().get(0).message()));
            return desk.latest(number, form, locale, model);
        }
    }

    @GetMapping("/{id}")
    void get(@PathVariable String number, @PathVariable UUID id, HttpServletResponse response)
            throws IOException {
        files.give(number, id, response);
    }

    @PostMapping("/{id}/remove")
    String remove(@PathVariable String number, @PathVariable UUID id) {
        attachments.remove(number, id);
        return "redirect:/quotes/" + number + "#attachments";
    }
}
