package strokewright.exchange;

import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.util.UriComponentsBuilder;
import strokewright.office.Csv;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import strokewright.web.Problem;

/** Files of every {@link FileTable}: taken out, sent in, looked through, imported. */
@Controller
class ExchangePages {

    private final Exchange exchange;
    private final Uploads uploads;
    private final KeptFiles kept;
    private final TableDownload download;

    ExchangePages(Exchange exchange, Uploads uploads, KeptFiles kept, TableDownload download) {
        this.exchange = exchange;
        this.uploads = uploads;
        this.kept = kept;
        this.download = download;
    }

    /**
     * @param begun taken from what is being changed
     */
    @GetMapping("/export/{key}.csv")
    ResponseEntity<byte[]> csv(
            @PathVariable String key,
            @RequestParam(required = false) @Nullable String begun,
            Locale locale) {
        return download.csv(
                exchange.table(key),
                begun != null,
                Csv.Manner.forPeople(Numbers.of(locale).decimalMark()));
    }

    @GetMapping("/export/{key}.xlsx")
    ResponseEntity<byte[]> xlsx(
            @PathVariable String key, @RequestParam(required = false) @Nullable String begun) {
        return download.xlsx(exchange.table(key), begun != null);
    }

    /** What was imported, as the address of the page after it has it. */
    record Done(int added, int changed, int removed) {}

    @GetMapping("/import/{key}")
    String begin(
            @PathVariable String key,
            @RequestParam(required = false) @Nullable Integer added,
            @RequestParam(defaultValue = "0") int changed,
            @RequestParam(defaultValue = "0") int removed,
            Model model) {
        FileTable table = exchange.table(key);
        model.addAttribute("table", table);
        model.addAttribute("shown", table.columnsToWrite(true));
        model.addAttribute("done", added == null ? null : new Done(added, changed, removed));
        return "exchange/import";
    }

    /** Keeps the file if it can be read at all, and goes on to what it would change. */
    @PostMapping("/import/{key}")
    Object send(
            @PathVariable String key,
            @RequestParam(required = false) @Nullable MultipartFile file) {
        FileTable table = exchange.table(key);
        if (file == null || file.isEmpty()) {
            return refused(table, "", "Choose a file first.");
        }
        try {
            UUID id =
                    uploads.part(
                            file,
                            sent -> {
                                exchange.preview(table, sent, Choices.NONE);
                                return kept.keep(key, sent);
                            });
            return "redirect:/import/" + key + "/" + id;
        } catch (InvalidInput e) {
            return refused(
                    table,
                    String.valueOf(file.getOriginalFilename()),
                    "The file " + e.faults().get(0).message() + ".");
        }
    }

    private static ModelAndView refused(FileTable table, String name, String reason) {
        ModelAndView page = new ModelAndView("exchange/import", HttpStatus.BAD_REQUEST);
        page.addObject("table", table);
        page.addObject("shown", table.columnsToWrite(true));
        page.addObject("name", name);
        page.addObject("reason", reason);
        return page;
    }

    @GetMapping("/import/{key}/{id}")
    String look(
            @PathVariable String key,
            @PathVariable UUID id,
            @RequestParam(required = false) @Nullable String decimal,
            @RequestParam(defaultValue = "false") boolean remove,
            @RequestParam(defaultValue = "false") boolean others,
            @RequestParam(required = false) @Nullable String meanwhile,
            Model model) {
        FileTable table = exchange.table(key);
        Choices choices = new Choices(decimal, remove, others);
        uploads.oneOfFew(
                () -> {
                    SentFile file = kept.get(key, id);
                    model.addAttribute("name", file.name());
                    model.addAttribute("preview", exchange.preview(table, file, choices));
                    return true;
                });
        model.addAttribute("table", table);
        model.addAttribute("id", id);
        model.addAttribute("choices", choices);
        model.addAttribute("meanwhile", meanwhile != null);
        return "exchange/preview";
    }

    /**
     * Remembers what words of the file mean, and looks again.
     *
     * @param kind of each word
     * @param word each
     * @param meaning of each; empty where nothing was chosen, "forget" to forget it
     */
    @PostMapping("/import/{key}/{id}/words")
    String choose(
            @PathVariable String key,
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") List<String> kind,
            @RequestParam(defaultValue = "") List<String> word,
            @RequestParam(defaultValue = "") List<String> meaning,
            @RequestParam(required = false) @Nullable String decimal,
            @RequestParam(defaultValue = "false") boolean others) {
        FileTable table = exchange.table(key);
        if (kind.size() != word.size() || word.size() != meaning.size()) {
            throw new InvalidInput("/meaning", "must be there for each word");
        }
        for (int i = 0; i < word.size(); i++) {
            if (!meaning.get(i).isEmpty()) {
                table.choose(
                        kind.get(i),
                        word.get(i),
                        meaning.get(i).equals("forget") ? null : meaning.get(i));
            }
        }
        return "redirect:" + preview(key, id, new Choices(decimal, false, others));
    }

    /**
     * Imports what was looked through.
     *
     * @param tag of the preview
     */
    @PostMapping("/import/{key}/{id}")
    String carryOut(
            @PathVariable String key,
            @PathVariable UUID id,
            @RequestParam(name = "do", defaultValue = "import") String action,
            @RequestParam(required = false) @Nullable String decimal,
            @RequestParam(defaultValue = "false") boolean remove,
            @RequestParam(defaultValue = "false") boolean others,
            @RequestParam(defaultValue = "") String tag) {
        FileTable table = exchange.table(key);
        if (action.equals("drop")) {
            kept.forget(id);
            return "redirect:/import/" + key;
        }
        Choices choices = new Choices(decimal, remove, others);
        Preview done;
        try {
            done =
                    uploads.oneOfFew(
                            () ->
                                    exchange.carryOut(
                                            table, kept.get(key, id), choices, "\"" + tag + "\""));
        } catch (InvalidInput e) {
            return "redirect:" + preview(key, id, choices);
        } catch (Problem e) {
            if (!e.isChangedMeanwhile()) {
                throw e;
            }
            return "redirect:" + preview(key, id, choices) + "&meanwhile";
        }
        kept.forget(id);
        return "redirect:/import/"
                + key
                + "?added="
                + done.added()
                + "&changed="
                + done.changed()
                + "&removed="
                + done.removed();
    }

    private static String preview(String key, UUID id, Choices choices) {
        return UriComponentsBuilder.fromPath("/import/{key}/{id}")
                .queryParam("remove", choices.remove())
                .queryParam("others", choices.others())
                .queryParam("decimal", choices.decimal() == null ? "" : choices.decimal())
                .build(key, id)
                .toString();
    }
}
