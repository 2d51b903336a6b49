package strokewright.job;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import java.net.URI;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.web.Api;
import strokewright.web.Once;
import strokewright.web.Paging;

/** Jobs over HTTP. */
@Api("/api/v1/jobs")
class JobsApi {

    private final Jobs jobs;
    private final RouteCards routeCards;
    private final Once once;

    JobsApi(Jobs jobs, RouteCards routeCards, Once once) {
        this.jobs = jobs;
        this.routeCards = routeCards;
        this.once = once;
    }

    @GetMapping
    ResponseEntity<Paging.Listed<Jobs.Entry>> list(Paging paging) {
        JobNumber before =
                paging.after() == null
                        ? null
                        : JobNumber.read(paging.after()).orElseThrow(Paging::unknownMark);
        return paging.answer(jobs.list(before, paging.limit()), Jobs.Entry::number);
    }

    @PostMapping
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = JobDocument.class)))
    ResponseEntity<byte[]> release(
            @RequestBody NewJob wanted,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return once.answer(
                key,
                "POST /api/v1/jobs",
                wanted,
                () -> {
                    Jobs.Tagged made = jobs.release(wanted);
                    return ResponseEntity.created(
                                    URI.create("/api/v1/jobs/" + made.document().number()))
                            .eTag(made.version().toString())
                            .body(made.document());
                });
    }

    @GetMapping("/{number}")
    ResponseEntity<JobDocument> get(@PathVariable String number) {
        return tagged(jobs.get(number));
    }

    /**
     * @param changeOrder its number; without it the job as it was released
     */
    @GetMapping(path = "/{number}/route-card", produces = MediaType.APPLICATION_PDF_VALUE)
    ResponseEntity<byte[]> routeCard(
            @PathVariable String number, @RequestParam Optional<Integer> changeOrder) {
        return routeCards.of(number, changeOrder.orElse(0));
    }

    @PostMapping("/{number}/change-orders")
    ResponseEntity<ChangeOrder> change(
            @PathVariable String number, @RequestBody NewChangeOrder wanted) {
        return ResponseEntity.status(HttpStatus.CREATED).body(jobs.change(number, wanted));
    }

    @PostMapping("/{number}/start")
    ResponseEntity<JobDocument> start(@PathVariable String number) {
        return tagged(jobs.start(number));
    }

    @PostMapping("/{number}/finish")
    ResponseEntity<JobDocument> finish(
            @PathVariable String number, @RequestBody(required = false) @Nullable Made made) {
        return tagged(jobs.finish(number, made));
    }

    @PostMapping("/{number}/close")
    ResponseEntity<JobDocument> close(@PathVariable String number) {
        return tagged(jobs.close(number));
    }

    @PostMapping("/{number}/reopen")
    ResponseEntity<JobDocument> reopen(@PathVariable String number) {
        return tagged(jobs.reopen(number));
    }

    private static ResponseEntity<JobDocument> tagged(Jobs.Tagged job) {
        return ResponseEntity.ok().eTag(job.version().toString()).body(job.document());
    }
}
