package strokewright.quote;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import java.net.URI;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import strokewright.office.Workbook;
import strokewright.web.Api;
import strokewright.web.Once;
import strokewright.web.Paging;

/** Quotes over HTTP; the ETag of a quote guards its draft. */
@Api("/api/v1/quotes")
class QuotesApi {

    private final Quotes quotes;
    private final QuoteFiles files;
    private final Once once;

    QuotesApi(Quotes quotes, QuoteFiles files, Once once) {
        this.quotes = quotes;
        this.files = files;
        this.once = once;
    }

    @GetMapping
    ResponseEntity<Paging.Listed<Quotes.Entry>> list(Paging paging) {
        QuoteNumber before =
                paging.after() == null
                        ? null
                        : QuoteNumber.read(paging.after()).orElseThrow(Paging::unknownMark);
        return paging.answer(quotes.list(before, paging.limit()), Quotes.Entry::number);
    }

    @PostMapping
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = QuoteDocument.class)))
    ResponseEntity<byte[]> create(
            @RequestBody QuoteRequest request,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return once.answer(
                key,
                "POST /api/v1/quotes",
                request,
                () -> {
                    Quotes.Tagged made = quotes.create(request);
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

    @GetMapping(path = "/{number}/revisions/{n}", produces = MediaType.APPLICATION_JSON_VALUE)
    QuoteDocument revision(@PathVariable String number, @PathVariable int n) {
        return quotes.revision(number, n);
    }

    @GetMapping(path = "/{number}/revisions/{n}", produces = Workbook.XLSX)
    ResponseEntity<byte[]> workbook(@PathVariable String number, @PathVariable int n) {
        return files.workbook(quotes.revision(number, n));
    }

    private static ResponseEntity<QuoteDocument> tagged(Quotes.Tagged quote) {
        return ResponseEntity.ok().eTag(quote.version().toString()).body(quote.document());
    }
}
