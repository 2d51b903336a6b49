package strokewright.shopbook;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.web.Numbers;
import strokewright.web.Problem;

/** The next edition of the shop book, typed part by part; it keeps itself. */
@Controller
@RequestMapping(DraftViews.PATH)
class DraftPage {

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm:ss");
    private static final DateTimeFormatter MINUTE = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm");

    /** Tells the page's script that what it sent is not in the draft. */
    private static final String KEPT = "Row-Kept";

    private final Drafts drafts;
    private final Shops shops;
    private final Documents documents;
    private final List<RowAside> asides;

    DraftPage(Drafts drafts, Shops shops, Documents documents, List<RowAside> asides) {
        this.drafts = drafts;
        this.shops = shops;
        this.documents = documents;
        this.asides = asides;
    }

    /** A part in the list of them. */
    record PartLine(BookPart part, int rows, int changed, int faults) {}

    @GetMapping
    String overview(Locale locale, Model model) {
        Draft draft = drafts.now();
        DraftReading reading = read(draft, locale);
        Optional<Drafts.Facts> facts = drafts.facts();
        List<PartLine> lines = new ArrayList<>();
        for (BookPart part : BookParts.ALL) {
            int rows =
                    part.sections().stream()
                            .filter(s -> !s.isOne())
                            .mapToInt(s -> draft.living(s).size())
                            .sum();
            int changed =
                    (int)
                            part.sections().stream()
                                    .flatMap(s -> draft.all(s).stream())
                                    .filter(r -> r.version() > 0)
                                    .count();
            lines.add(new PartLine(part, rows, changed, reading.at(part).size()));
        }
        model.addAttribute("lines", lines);
        model.addAttribute("base", draft.base());
        model.addAttribute("facts", facts.orElse(null));
        model.addAttribute("begun", facts.map(f -> minute(f.begunAt())).orElse(""));
        model.addAttribute("changed", facts.map(f -> minute(f.changedAt())).orElse(""));
        model.addAttribute("aside", drafts.hasAside());
        model.addAttribute("faultCount", reading.faults().size());
        return "shopbook/draft";
    }

    @GetMapping("/{part}")
    String part(
            @PathVariable String part,
            @RequestParam(defaultValue = "") Set<String> open,
            Locale locale,
            Model model) {
        Draft draft = drafts.now();
        return show(found(part), open, draft, kept(), null, locale, model);
    }

    /** One row of a table, opened or closed, for the page's script: the page stays as it is. */
    @GetMapping("/{part}/{section}/{id}")
    String row(
            @PathVariable String part,
            @PathVariable String section,
            @PathVariable int id,
            @RequestParam String page,
            @RequestParam(defaultValue = "false") boolean open,
            Locale locale,
            Model model) {
        BookPart of = found(part);
        Draft draft = drafts.now();
        String key = found(part, section).key() + "-" + id;
        Kind.With with = draft.with(Numbers.of(locale));
        DraftViews views = new DraftViews(read(draft, locale), with, asides);
        DraftView view = views.view(of, open ? Set.of(key) : Set.of(), page, null, null);
        DraftView.Section where =
                view.sections().stream()
                        .filter(s -> s.of().key().equals(section))
                        .findFirst()
                        .orElseThrow();
        model.addAttribute("view", view);
        model.addAttribute("section", where);
        model.addAttribute(
                "row",
                where.rows().stream()
                        .filter(r -> r.id() == id)
                        .findFirst()
                        .orElseThrow(() -> Problem.notFound("This row")));
        return "shopbook/draft-part :: one-row";
    }

    private String show(
            BookPart part,
            Set<String> open,
            Draft draft,
            @Nullable String kept,
            DraftView.@Nullable Conflict conflict,
            Locale locale,
            Model model) {
        Kind.With with = draft.with(Numbers.of(locale));
        DraftReading reading = DraftReading.of(draft, with, documents);
        DraftViews views = new DraftViews(reading, with, asides);
        model.addAttribute(
                "view", views.view(part, open, UUID.randomUUID().toString(), kept, conflict));
        model.addAttribute("parts", BookParts.ALL);
        return "shopbook/draft-part";
    }

    /** Adds a row to a section. */
    @PostMapping("/{part}/{section}")
    String add(
            @PathVariable String part,
            @PathVariable String section,
            @RequestParam int base,
            @RequestParam String page,
            HttpServletRequest request,
            HttpServletResponse answer,
            Model model) {
        BookSection where = found(part, section);
        try {
            int id = drafts.add(new Drafts.By(base, page), where);
            return opened(found(part), where, id);
        } catch (Drafts.Over e) {
            return over(request, answer, model);
        }
    }

    /** Keeps a row, and does to it what its buttons say. */
    @PostMapping("/{part}/{section}/{id}")
    String act(
            @PathVariable String part,
            @PathVariable String section,
            @PathVariable int id,
            @RequestParam(name = "do", defaultValue = "keep") String action,
            @RequestParam int base,
            @RequestParam String page,
            @RequestParam(defaultValue = "0") long version,
            @RequestHeader(name = "HX-Request", required = false) Optional<String> script,
            HttpServletRequest request,
            HttpServletResponse answer,
            Locale locale,
            Model model) {
        Drafts.By by = new Drafts.By(base, page);
        try {
            return act(
                    part, section, id, action, by, version, script, request, answer, locale, model);
        } catch (Drafts.Over e) {
            return over(request, answer, model);
        }
    }

    private String act(
            String part,
            String section,
            int id,
            String action,
            Drafts.By by,
            long version,
            Optional<String> script,
            HttpServletRequest request,
            HttpServletResponse answer,
            Locale locale,
            Model model) {
        BookPart of = found(part);
        BookSection where = found(part, section);
        if (action.equals("restore")) {
            drafts.putBack(by, where, id);
            return opened(of, where, id);
        }
        if (action.equals("theirs")) {
            return opened(of, where, id);
        }
        Draft.Row[] sent = new Draft.Row[1];
        TypedRow typed = TypedRow.of(request.getParameterMap());
        Numbers numbers = Numbers.of(locale);
        Kind.With with = new Kind.With(numbers, shops.current().currency(), Kind.Names.NONE);
        Drafts.Sent kept =
                drafts.keep(
                        by,
                        section,
                        id,
                        action.equals("mine") ? null : version,
                        there -> sent[0] = typed.in(where, there, with));
        if (kept.fate() != Drafts.Fate.KEPT) {
            sent[0] = typed.in(where, kept.there(), with).asKnown(version);
            answer.setHeader(KEPT, "no");
            return refused(of, where, kept, sent[0], script.isPresent(), locale, model);
        }
        if (script.isPresent()) {
            return answer(of, where, kept.draft(), kept.there(), null, locale, model);
        }
        return done(action, of, where, id, by);
    }

    private String done(String action, BookPart part, BookSection section, int id, Drafts.By by) {
        switch (action) {
            case "copy" -> {
                return opened(part, section, drafts.copy(by, section, id));
            }
            case "remove" -> {
                drafts.remove(by, section, id);
                return "redirect:" + address(part) + "#removed-" + section.key();
            }
            case "up", "down" -> drafts.move(by, section, id, action.equals("up") ? -1 : 1);
            case "close" -> {
                return "redirect:" + address(part) + "#row-" + section.key() + "-" + id;
            }
            default -> {
                // it is kept, that was all
            }
        }
        return opened(part, section, id);
    }

    /** Nothing is kept; the row is shown as it was sent, with what is there instead. */
    private String refused(
            BookPart part,
            BookSection section,
            Drafts.Sent kept,
            Draft.Row sent,
            boolean byScript,
            Locale locale,
            Model model) {
        Draft shown = with(kept.draft(), sent);
        Kind.With with = shown.with(Numbers.of(locale));
        DraftViews views = new DraftViews(read(shown, locale), with, asides);
        DraftView.Conflict conflict =
                new DraftView.Conflict(
                        DraftViews.key(sent),
                        kept.who() == null ? "Somebody" : kept.who(),
                        kept.fate() == Drafts.Fate.REMOVED_MEANWHILE,
                        views.differences(section, kept.there(), sent));
        return byScript
                ? answer(part, section, shown, sent, conflict, locale, model)
                : show(part, Set.of(DraftViews.key(sent)), shown, kept(), conflict, locale, model);
    }

    /** The draft with one row as it was sent, and there even if it was taken out. */
    private static Draft with(Draft draft, Draft.Row sent) {
        Map<String, List<Draft.Row>> rows = new LinkedHashMap<>(draft.rows());
        rows.computeIfPresent(
                sent.section(),
                (key, list) -> list.stream().map(r -> r.id() == sent.id() ? sent : r).toList());
        return new Draft(draft.base(), draft.currency(), draft.version(), rows);
    }

    private String answer(
            BookPart part,
            BookSection section,
            Draft draft,
            Draft.Row row,
            DraftView.@Nullable Conflict conflict,
            Locale locale,
            Model model) {
        Kind.With with = draft.with(Numbers.of(locale));
        DraftViews views = new DraftViews(DraftReading.of(draft, with, documents), with, asides);
        model.addAttribute("row", views.row(section, row, true, true, true));
        model.addAttribute("conflict", conflict);
        model.addAttribute("summary", views.summary(part, conflict == null ? kept() : null));
        return "shopbook/draft-part :: answer";
    }

    // Giving up and taking up -------------------------------------------------------------------

    @PostMapping(params = "do=give-up")
    String giveUp() {
        drafts.giveUp();
        return "redirect:" + DraftViews.PATH;
    }

    @PostMapping(params = "do=take-up")
    String takeUp() {
        drafts.takeUp();
        return "redirect:" + DraftViews.PATH;
    }

    /** What was typed is shown once more: it belongs to no draft that is still there. */
    private static String over(
            HttpServletRequest request, HttpServletResponse answer, Model model) {
        answer.setHeader(KEPT, "no");
        Map<String, String> typed = new LinkedHashMap<>();
        request.getParameterMap()
                .forEach(
                        (name, values) -> {
                            if (name.startsWith("/") && !values[0].isBlank()) {
                                typed.put(labelOf(request, name.substring(1)), values[0]);
                            }
                        });
        model.addAttribute("typed", typed);
        return request.getHeader("HX-Request") == null
                ? "shopbook/draft-over"
                : "shopbook/draft-over :: notice";
    }

    private static String labelOf(HttpServletRequest request, String path) {
        String[] steps = request.getRequestURI().split("/");
        return steps.length > 4
                ? BookParts.section(steps[4])
                        .filter(s -> s.around(path).isPresent())
                        .map(s -> DraftViews.label(s, path))
                        .orElse(path)
                : path;
    }

    // Words -------------------------------------------------------------------------------------

    private DraftReading read(Draft draft, Locale locale) {
        return DraftReading.of(draft, draft.with(Numbers.of(locale)), documents);
    }

    private @Nullable String kept() {
        return drafts.facts().map(f -> CLOCK.format(f.changedAt().atZone(zone()))).orElse(null);
    }

    private String minute(Instant instant) {
        return MINUTE.format(instant.atZone(zone()));
    }

    private ZoneId zone() {
        return shops.current().timeZone();
    }

    private static BookPart found(String part) {
        return BookParts.part(part).orElseThrow(() -> Problem.notFound("This part"));
    }

    private static BookSection found(String part, String section) {
        return found(part).sections().stream()
                .filter(s -> s.key().equals(section))
                .findFirst()
                .orElseThrow(() -> Problem.notFound("This section"));
    }

    private static String address(BookPart part) {
        return DraftViews.PATH + "/" + part.key();
    }

    private static String opened(BookPart part, BookSection section, int id) {
        String row = section.key() + "-" + id;
        return "redirect:"
                + address(part)
                + (section.isTable() ? "?open=" + row : "")
                + "#row-"
                + row;
    }
}
