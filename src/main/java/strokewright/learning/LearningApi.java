package strokewright.learning;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.quantity.InvalidInput;
import strokewright.web.Api;
import strokewright.web.Once;

/** What finished jobs teach, over HTTP. */
@Api("/api/v1/learning")
class LearningApi {

    private final Learning learning;
    private final Once once;

    LearningApi(Learning learning, Once once) {
        this.learning = learning;
        this.once = once;
    }

    /**
     * @param with {@code current} or {@code draft}: the shop book that the jobs are reckoned with
     */
    @GetMapping("/factors")
    Factors factors(@RequestParam(defaultValue = "current") String with) {
        return learning.factors(
                switch (with) {
                    case "current" -> Learning.Basis.CURRENT;
                    case "draft" -> Learning.Basis.DRAFT;
                    default -> throw new InvalidInput("?with", "must be current or draft");
                });
    }

    /** Makes a new edition of the shop book; a repeat without new jobs changes nothing. */
    @PostMapping("/adopt")
    @ApiResponse(
            responseCode = "200",
            content = @Content(schema = @Schema(implementation = AdoptionEntry.class)))
    ResponseEntity<byte[]> adopt(
            @RequestBody(required = false) @Nullable Adopting wanted,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        Adopting lines = wanted == null ? Adopting.ALL : wanted;
        return once.answer(
                key,
                "POST /api/v1/learning/adopt",
                lines,
                () -> ResponseEntity.ok(learning.adopt(lines)));
    }

    /** The newest first. */
    @GetMapping("/adoptions")
    List<AdoptionEntry> adoptions() {
        return learning.adoptions();
    }

    /** A new edition with what stood there before; a repeat does nothing. */
    @PostMapping("/adoptions/{edition}/undo")
    AdoptionEntry undo(@PathVariable int edition) {
        return learning.undo(edition);
    }

    @GetMapping("/drift")
    Drifts drift() {
        return Drifts.of(learning.lessons());
    }

    @GetMapping("/accuracy")
    Replay accuracy() {
        return learning.replay();
    }
}
