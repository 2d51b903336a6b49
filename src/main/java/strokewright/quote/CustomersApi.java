package strokewright.quote;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import java.net.URI;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import strokewright.web.Api;
import strokewright.web.Once;
import strokewright.web.Paging;

/** Customers over HTTP. */
@Api("/api/v1/customers")
class CustomersApi {

    private final Customers customers;
    private final Once once;

    CustomersApi(Customers customers, Once once) {
        this.customers = customers;
        this.once = once;
    }

    @GetMapping
    ResponseEntity<Paging.Listed<CustomerCard>> list(Paging paging) {
        CustomerCard after = paging.after() == null ? null : after(paging.after());
        return paging.answer(
                customers.list(
                        after == null ? null : after.name(),
                        after == null ? null : after.id(),
                        paging.limit()),
                customer -> customer.id() + " " + customer.name());
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
