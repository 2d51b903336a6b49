package strokewright.quote;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import java.util.UUID;
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
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import strokewright.exchange.FileImports;
import strokewright.exchange.TableDownload;
import strokewright.office.Csv;
import strokewright.office.Xlsx;
import strokewright.web.Api;
import strokewright.web.Once;
import strokewright.web.Paging;

/** Customers over HTTP. */
@Api("/api/v1/customers")
class CustomersApi {

    private final Customers customers;
    private final CustomersTable table;
    private final TableDownload download;
    private final FileImports imports;
    private final Once once;

    CustomersApi(
            Customers customers,
            CustomersTable table,
            TableDownload download,
            FileImports imports,
            Once once) {
        this.customers = customers;
        this.table = table;
        this.download = download;
        this.imports = imports;
        this.once = once;
    }

    @GetMapping(produces = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<Paging.Listed<CustomerCard>> list(Paging paging) {
        CustomerCard after = paging.after() == null ? null : after(paging.after());
        return paging.answer(
                customers.list(
                        after == null ? null : after.name(),
                        after == null ? null : after.id(),
                        paging.limit()),
                customer -> customer.id() + " " + customer.name());
    }

    /** All of them, as csv or workbook, whichever is accepted. */
    @GetMapping(produces = {Csv.MEDIA_TYPE, Xlsx.MEDIA_TYPE})
    ResponseEntity<byte[]> file(
            @RequestHeader(name = HttpHeaders.ACCEPT, required = false) @Nullable String accept) {
        return download.answer(table, false, accept);
    }

    /** With {@code preview} nothing is changed. */
    @PostMapping(
            path = "/import",
            consumes = {Csv.MEDIA_TYPE, Xlsx.MEDIA_TYPE, "application/octet-stream"})
    ResponseEntity<?> take(
            FileImports.Asked asked,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key,
            HttpServletRequest request) {
        return imports.body(table, request, asked, ifMatch, key);
    }

    @PostMapping(path = "/import", consumes = "multipart/form-data")
    ResponseEntity<?> takeForm(
            FileImports.Asked asked,
            @RequestParam MultipartFile file,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return imports.part(table, file, asked, ifMatch, key);
    }

    @PostMapping
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = CustomerCard.class)))
    ResponseEntity<byte[]> add(
            @RequestBody CustomerCard customer,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return once.answer(
                key,
                "POST /api/v1/customers",
                customer,
                () -> {
                    Customers.Tagged added = customers.add(customer);
                    return ResponseEntity.created(
                                    URI.create("/api/v1/customers/" + added.card().id()))
                            .eTag(added.version().toString())
                            .body(added.card());
                });
    }

    @GetMapping("/{id}")
    ResponseEntity<CustomerCard> get(@PathVariable UUID id) {
        return tagged(customers.get(id));
    }

    @PutMapping("/{id}")
    ResponseEntity<CustomerCard> change(
            @PathVariable UUID id,
            @RequestBody CustomerCard card,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false)
                    @Nullable String ifMatch) {
        return tagged(customers.change(id, card, ifMatch));
    }

    private static ResponseEntity<CustomerCard> tagged(Customers.Tagged found) {
        return ResponseEntity.ok().eTag(found.version().toString()).body(found.card());
    }

    private static CustomerCard after(String mark) {
        try {
            return CustomerCard.named(mark.substring(37), null)
                    .withId(UUID.fromString(mark.substring(0, 36)));
        } catch (RuntimeException e) {
            throw Paging.unknownMark();
        }
    }
}
