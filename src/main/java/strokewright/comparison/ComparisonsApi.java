package strokewright.comparison;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Set;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import strokewright.office.Csv;
import strokewright.office.Xlsx;
import strokewright.web.Api;

/** Quoted against actual over HTTP. */
@Api("/api/v1")
class ComparisonsApi {

    private final Comparisons comparisons;

    ComparisonsApi(Comparisons comparisons) {
        this.comparisons = comparisons;
    }

    @GetMapping(path = "/comparison", produces = MediaType.APPLICATION_JSON_VALUE)
    PeriodComparison ofPeriod(HttpServletRequest asked) {
        return period(asked);
    }

    @GetMapping(path = "/comparison", produces = Xlsx.MEDIA_TYPE)
    ResponseEntity<byte[]> workbook(HttpServletRequest asked) {
        return new PeriodTable(period(asked), comparisons.currency()).xlsx();
    }

    @GetMapping(path = "/comparison", produces = Csv.MEDIA_TYPE)
    ResponseEntity<byte[]> separated(HttpServletRequest asked) {
        return new PeriodTable(period(asked), comparisons.currency()).csv(Csv.Manner.PLAIN);
    }

    private PeriodComparison period(HttpServletRequest asked) {
        PeriodAsked period = PeriodAsked.of(asked.getParameterMap(), Set.of());
        period.faults().throwIfAny();
        return comparisons.of(period.from(), period.to(), period.by());
    }

    @GetMapping(path = "/jobs/{number}/comparison", produces = MediaType.APPLICATION_JSON_VALUE)
    JobComparison ofJob(@PathVariable String number) {
        return comparisons.of(number);
    }
}
