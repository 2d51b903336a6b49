package strokewright.access;

import java.net.URI;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.quantity.Faults;
import strokewright.web.Api;
import strokewright.web.Problem;

/**
 * One's own tokens. A repeat with the same {@code Idempotency-Key} makes a second token: to answer
 * the first again, its secret would have to be kept.
 */
@Api("/api/v1/tokens")
class TokensApi {

    private final Tokens tokens;

    TokensApi(Tokens tokens) {
        this.tokens = tokens;
    }

    record NamedToken(@Nullable String name) {}

    @PostMapping
    ResponseEntity<Tokens.NewToken> create(
            @AuthenticationPrincipal SignedIn who, @RequestBody NamedToken wanted) {
        Faults faults = new Faults();
        faults.text("/name", wanted.name());
        faults.throwIfAny();
        Tokens.NewToken made = tokens.create(who, wanted.name());
        return ResponseEntity.created(URI.create("/api/v1/tokens/" + made.id())).body(made);
    }

    @GetMapping
    Map<String, List<Tokens.Token>> list(@AuthenticationPrincipal SignedIn who) {
        return Map.of("tokens", tokens.of(who));
    }

    @DeleteMapping("/{id}")
    ResponseEntity<Void> delete(@AuthenticationPrincipal SignedIn who, @PathVariable UUID id) {
        if (!tokens.delete(who, id)) {
            throw Problem.notFound("This token");
        }
        return ResponseEntity.noContent().build();
    }
}
