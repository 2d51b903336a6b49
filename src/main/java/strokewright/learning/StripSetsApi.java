package strokewright.learning;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import java.net.URI;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import strokewright.web.Api;
import strokewright.web.Once;
import strokewright.web.Paging;

/** Test strips over HTTP. */
@Api("/api/v1/learning/test-strips")
class StripSetsApi {

    private static final String PATH = "/api/v1/learning/test-strips";

    private final StripSets sets;
    private final Once once;

    StripSetsApi(StripSets sets, Once once) {
        this.sets = sets;
        this.once = once;
    }

    /** Newest first. */
    @GetMapping
    ResponseEntity<Paging.Listed<StripSetDocument.Entry>> list(Paging paging) {
        return paging.answer(
                sets.list(paging.after() == null ? null : mark(paging.after()), paging.limit()),
                entry -> entry.enteredAt() + " " + entry.id());
    }

    /**
     * Fits bite, stroke work and feed efficiency and keeps them with the notes; a refusal among the
     * findings says why nothing could be fitted.
     */
    @PostMapping
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = StripSetDocument.class)))
    ResponseEntity<byte[]> enter(
            @RequestBody TestStrips notes,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return once.answer(
                key,
                "POST " + PATH,
                notes,
                () -> {
                    StripSetDocument entered = sets.enter(notes);
                    return ResponseEntity.created(URI.create(PATH + "/" + entered.id()))
                            .body(entered);
                });
    }

    @GetMapping("/{id}")
    StripSetDocument get(@PathVariable UUID id) {
        return sets.get(id);
    }

    /** Makes a new edition of the shop book with the fitted figures; a repeat does nothing. */
    @PostMapping("/{id}/adopt")
    StripSetDocument adopt(@PathVariable UUID id) {
        return sets.adopt(id);
    }

    private static StripSets.Mark mark(String text) {
        try {
            int space = text.indexOf(' ');
            return new StripSets.Mark(
                    Instant.parse(text.substring(0, space)),
                    UUID.fromString(text.substring(space + 1)));
        } catch (DateTimeException | IllegalArgumentException | IndexOutOfBoundsException e) {
            throw Paging.unknownMark();
        }
    }
}
