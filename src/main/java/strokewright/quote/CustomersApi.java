package strokewright.quote;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import java.net.URI;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import strokewright.quote.QuoteDocument.Addressee;
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

    record NewCustomer(@Nullable String name, @Nullable String address) {}

    @GetMapping
    ResponseEntity<Paging.Listed<Addressee>> list(Paging paging) {
        Addressee after = paging.after() == null ? null : after(paging.after());
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
            content = @Content(schema = @Schema(implementation = Addressee.class)))
    ResponseEntity<byte[]> add(
            @RequestBody NewCustomer customer,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return once.answer(
                key,
                "POST /api/v1/customers",
                customer,
                () -> {
                    Addressee added = customers.add(customer.name(), customer.address());
                    return ResponseEntity.created(URI.create("/api/v1/customers/" + added.id()))
                            .body(added);
                });
    }

    @GetMapping("/{id}")
    Addressee get(@PathVariable UUID id) {
        return customers.get(id);
    }

    private static Addressee after(String mark) {
        try {
            return new Addressee(UUID.fromString(mark.substring(0, 36)), mark.substring(37), null);
        } catch (RuntimeException e) {
            throw Paging.unknownMark();
        }
    }
}
