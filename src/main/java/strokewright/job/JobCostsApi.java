package strokewright.job;

import java.util.List;
import java.util.UUID;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.web.Api;

/** Metal and bills of jobs over HTTP; the id that each brings makes sending it again harmless. */
@Api("/api/v1/jobs/{number}")
class JobCostsApi {

    private final JobCosts costs;

    JobCostsApi(JobCosts costs) {
        this.costs = costs;
    }

    /**
     * @param items the latest first
     */
    record Listed<T>(List<Kept<T>> items) {}

    @GetMapping("/materials")
    Listed<MetalUsed> metal(@PathVariable String number) {
        return new Listed<>(costs.metal(number));
    }

    @PostMapping("/materials")
    ResponseEntity<Kept<MetalUsed>> take(
            @PathVariable String number, @RequestBody MetalEntry entry) {
        return created(costs.take(number, entry));
    }

    @PostMapping("/materials/{id}/correct")
    ResponseEntity<Kept<MetalUsed>> correct(
            @PathVariable String number, @PathVariable UUID id, @RequestBody MetalEntry entry) {
        return created(costs.correct(number, id, entry));
    }

    @GetMapping("/costs")
    Listed<BillEntry> bills(@PathVariable String number) {
        return new Listed<>(costs.bills(number));
    }

    @PostMapping("/costs")
    ResponseEntity<Kept<BillEntry>> pay(@PathVariable String number, @RequestBody BillEntry entry) {
        return created(costs.pay(number, entry));
    }

    @PostMapping("/costs/{id}/correct")
    ResponseEntity<Kept<BillEntry>> correct(
            @PathVariable String number, @PathVariable UUID id, @RequestBody BillEntry entry) {
        return created(costs.correct(number, id, entry));
    }

    private static <T> ResponseEntity<Kept<T>> created(Kept<T> kept) {
        return ResponseEntity.status(HttpStatus.CREATED).body(kept);
    }
}
