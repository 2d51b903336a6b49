package strokewright.quote;

import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import strokewright.web.Api;
import strokewright.web.Problem;

/** The letterhead over HTTP. */
@Api("/api/v1/letterhead")
class LetterheadApi {

    private final Letterheads letterheads;

    LetterheadApi(Letterheads letterheads) {
        this.letterheads = letterheads;
    }

    @GetMapping
    ResponseEntity<Letterhead> get() {
        return tagged(letterheads.get());
    }

    @PutMapping
    ResponseEntity<Letterhead> change(
            @RequestBody Letterhead letterhead,
            @RequestHeader(name = HttpHeaders.IF_MATCH, required = false)
                    @Nullable String ifMatch) {
        return tagged(letterheads.change(letterhead, ifMatch));
    }

    @GetMapping("/logo")
    ResponseEntity<byte[]> logo() {
        Letterheads.Logo logo = letterheads.logo().orElseThrow(() -> Problem.notFound("The logo"));
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType(logo.type()))
                .body(logo.picture());
    }

    @PutMapping(
            path = "/logo",
            consumes = {MediaType.IMAGE_PNG_VALUE, MediaType.IMAGE_JPEG_VALUE})
    ResponseEntity<Void> logo(@RequestBody byte[] picture) {
        letterheads.change(Letterheads.Logo.of(picture));
        return ResponseEntity.noContent().build();
    }

    @DeleteMapping("/logo")
    ResponseEntity<Void> noLogo() {
        letterheads.change((Letterheads.Logo) null);
        return ResponseEntity.noContent().build();
    }

    private static ResponseEntity<Letterhead> tagged(Letterheads.Tagged found) {
        return ResponseEntity.ok().eTag(found.version().toString()).body(found.letterhead());
    }
}
