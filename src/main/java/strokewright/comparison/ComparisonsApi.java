package strokewright.comparison;

import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import strokewright.web.Api;

/** Quoted against actual over HTTP. */
@Api("/api/v1")
class ComparisonsApi {

    private final Comparisons comparisons;

    ComparisonsApi(Comparisons comparisons) {
        this.comparisons = comparisons;
    }

    @GetMapping(path = "/jobs/{number}/comparison", produces = MediaType.APPLICATION_JSON_VALUE)
    JobComparison ofJob(@PathVariable String number) {
        return comparisons.of(number);
    }
}
