package strokewright.quote;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import strokewright.office.Mail;
import strokewright.office.Pdf;
import strokewright.office.Workbook;
import strokewright.quantity.Faults;
import strokewright.web.Api;
import strokewright.web.Once;
import strokewright.web.Paging;

/** Quotes over HTTP; the ETag of a quote guards its draft. */
@Api("/api/v1/quotes")
class QuotesApi {

    private final Quotes quotes;
    private final Outcomes outcomes;
    private final QuoteHistory history;
    private final FoundQuotes found;
    private final QuoteSuggestions suggestions;
    private final QuoteFiles files;
    private final Once once;

    QuotesApi(
            Quotes quotes,
            Outcomes outcomes,
            QuoteHistory history,
            FoundQuotes found,
            QuoteSuggestions suggestions,
            QuoteFiles files,
            Once once) {
        this.quotes = quotes;
        this.outcomes = outcomes;
        this.history = history;
        this.found = found;
        this.suggestions = suggestions;
        this.files = files;
        this.once = once;
    }

    @Filters
    @GetMapping
    ResponseEntity<Paging.Listed<FoundQuotes.Entry>> list(HttpServletRequest asked, Paging paging) {
        QuoteSearch search =
                SearchReading.ofProgram(asked.getParameterMap(), Set.of("size", "after"));
        QuoteNumber before =
                paging.after() == null
                        ? null
                        : QuoteNumber.read(paging.after()).orElseThrow(Paging::unknownMark);
        return paging.answer(found.list(search, before, paging.limit()), FoundQuotes.Entry::number);
    }

    @PostMapping
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = QuoteDocument.class)))
    ResponseEntity<byte[]> create(
            @RequestBody QuoteRequest request,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return made(key, "POST /api/v1/quotes", request, () -> quotes.create(request));
    }

    /**
     * @param revision the latest when left out
     */
    record Copying(@Nullable Integer revision) {}

    @PostMapping("/{number}/copy")
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = QuoteDocument.class)))
    ResponseEntity<byte[]> copy(
            @PathVariable String number,
            @RequestBody(required = false) @Nullable Copying copying,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        Integer n = copying == null ? null : copying.revision;
        return made(
                key,
                "POST /api/v1/quotes/" + number + "/copy",
                new Copying(n),
                () -> quotes.copy(number, n));
    }

    /**
     * @param quantities further ones to price, at most one of an item; each becomes the main one
     */
    record Revising(List<Further> quantities) {

        record Further(@Nullable Integer position, @Nullable Integer quantity) {}

        Map<Integer, Integer> byPosition() {
            Faults faults = new Faults();
            Map<Integer, Integer> byPosition = new TreeMap<>();
            for (int i = 0; i < (quantities == null ? 0 : quantities.size()); i++) {
                Further further = quantities.get(i);
                String at = "/quantities/" + i;
                if (faults.present(at, further, "a position and a quantity")
                        && faults.present(at + "/position", further.position, "an item's")
                        && faults.within(at + "/quantity", further.quantity, 1, 100_000)
                        && byPosition.put(further.position, further.quantity) != null) {
                    faults.add(at + "/position", "stands twice: each must be different");
                }
            }
            faults.throwIfAny();
            return byPosition;
        }
    }

    @PostMapping("/{number}/revisions")
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = QuoteDocument.class)))
    ResponseEntity<byte[]> revise(
            @PathVariable String number,
            @RequestBody(required = false) @Nullable Revising revising,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        Map<Integer, Integer> further = revising == null ? Map.of() : revising.byPosition();
        return made(
                key,
                "POST /api/v1/quotes/" + number + "/revisions",
                further,
                () -> quotes.revise(number, further));
    }

    @DeleteMapping("/{number}/revisions/{n}")
    ResponseEntity<QuoteDocument> drop(
            @PathVariable String number,
            @PathVariable int n,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false)
                    @Nullable String ifMatch) {
        return tagged(quotes.drop(number, n, ifMatch));
    }

    private ResponseEntity<byte[]> made(
            @Nullable String key, String path, Object request, Supplier<Quotes.Tagged> effect) {
        return once.answer(
                key,
                path,
                request,
                () -> {
                    Quotes.Tagged made = effect.get();
                    return ResponseEntity.created(
                                    URI.create("/api/v1/quotes/" + made.document().number()))
                            .eTag(made.version().toString())
                            .body(made.document());
                });
    }

    @GetMapping("/{number}")
    ResponseEntity<QuoteDocument> get(@PathVariable String number) {
        return tagged(quotes.get(number));
    }

    @PutMapping("/{number}")
    ResponseEntity<QuoteDocument> change(
            @PathVariable String number,
            @RequestBody QuoteRequest request,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false)
                    @Nullable String ifMatch) {
        return tagged(quotes.change(number, request, ifMatch));
    }

    @PostMapping("/{number}/issue")
    ResponseEntity<QuoteDocument> issue(
            @PathVariable String number,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false)
                    @Nullable String ifMatch) {
        return tagged(quotes.issue(number, ifMatch));
    }

    @PostMapping("/{number}/accept")
    ResponseEntity<QuoteDocument> accept(
            @PathVariable String number,
            @RequestBody(required = false) @Nullable Acceptance order) {
        return tagged(outcomes.accept(number, order == null ? Acceptance.AS_OFFERED : order));
    }

    @PostMapping("/{number}/decline")
    ResponseEntity<QuoteDocument> decline(
            @PathVariable String number, @RequestBody Declining declining) {
        return tagged(outcomes.decline(number, declining));
    }

    @PostMapping("/{number}/withdraw")
    ResponseEntity<QuoteDocument> withdraw(
            @PathVariable String number,
            @RequestBody(required = false) @Nullable Declining withdrawing) {
        return tagged(
                outcomes.withdraw(number, withdrawing == null ? Declining.UNSAID : withdrawing));
    }

    @PostMapping("/{number}/take-back")
    ResponseEntity<QuoteDocument> takeBack(@PathVariable String number) {
        return tagged(outcomes.takeBack(number));
    }

    /**
     * @param items the latest event first
     */
    record History(List<QuoteEvent> items) {}

    @GetMapping("/{number}/history")
    History history(@PathVariable String number) {
        return new History(history.of(number));
    }

    /**
     * @param items assumptions first
     */
    record Suggested(List<Suggestion> items) {}

    @GetMapping("/{number}/suggestions")
    Suggested suggestions(@PathVariable String number) {
        return new Suggested(suggestions.of(quotes.get(number).document()));
    }

    @PostMapping("/{number}/notes")
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = QuoteNote.class)))
    ResponseEntity<byte[]> note(
            @PathVariable String number,
            @RequestBody QuoteNote note,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return once.answer(
                key,
                "POST /api/v1/quotes/" + number + "/notes",
                note,
                () ->
                        ResponseEntity.created(URI.create("/api/v1/quotes/" + number + "/history"))
                                .body(history.note(number, note)));
    }

    @GetMapping(path = "/{number}/revisions/{n}", produces = MediaType.APPLICATION_JSON_VALUE)
    QuoteDocument revision(@PathVariable String number, @PathVariable int n) {
        return quotes.revision(number, n);
    }

    @GetMapping(path = "/{number}/revisions/{n}", produces = Workbook.XLSX)
    ResponseEntity<byte[]> workbook(@PathVariable String number, @PathVariable int n) {
        return files.workbook(quotes.revision(number, n));
    }

    @GetMapping(path = "/{number}/revisions/{n}", produces = Pdf.TYPE)
    ResponseEntity<byte[]> pdf(@PathVariable String number, @PathVariable int n) {
        return files.pdf(quotes.revision(number, n));
    }

    @GetMapping(path = "/{number}/revisions/{n}", produces = Mail.TYPE)
    ResponseEntity<byte[]> mail(@PathVariable String number, @PathVariable int n) {
        return files.mail(quotes.revision(number, n));
    }

    @GetMapping(path = "/{number}/confirmation", produces = Mail.TYPE)
    ResponseEntity<byte[]> confirmationMail(@PathVariable String number) {
        return files.confirmationMail(quotes.get(number).document());
    }

    @GetMapping(path = "/{number}/confirmation", produces = Pdf.TYPE)
    ResponseEntity<byte[]> confirmation(@PathVariable String number) {
        return files.confirmation(quotes.get(number).document());
    }

    /** Keeps nothing, so that it may be asked for as often as one likes. */
    @PostMapping(path = "/{number}/delivery-note", produces = Pdf.TYPE)
    ResponseEntity<byte[]> deliveryNote(
            @PathVariable String number,
            @RequestBody(required = false) @Nullable Delivering delivering) {
        return files.deliveryNote(
                quotes.get(number).document(), delivering == null ? Delivering.ALL : delivering);
    }

    private static ResponseEntity<QuoteDocument> tagged(Quotes.Tagged quote) {
        return ResponseEntity.ok().eTag(quote.version().toString()).body(quote.document());
    }
}
