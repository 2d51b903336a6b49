package strokewright.comparison;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import strokewright.web.Api;

/** What people cost, over HTTP; the owner's alone. */
@Api("/api/v1/people")
class CostRatesApi {

    private final CostRates rates;

    CostRatesApi(CostRates rates) {
        this.rates = rates;
    }

    record Listed(List<CostRates.Person> items) {}

    @GetMapping
    Listed people() {
        return new Listed(rates.people());
    }

    /**
     * @param person id or user name
     */
    @GetMapping("/{person}/cost-rate")
    ResponseEntity<CostRates.Person> of(@PathVariable String person) {
        return tagged(rates.person(person));
    }

    /** From a day on; sent again for the same day the later one counts. */
    @PutMapping("/{person}/cost-rate")
    ResponseEntity<CostRates.Person> say(
            @PathVariable String person,
            @RequestBody CostRate rate,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return tagged(rates.say(person, rate, ifMatch));
    }

    private static ResponseEntity<CostRates.Person> tagged(CostRates.Person person) {
        return ResponseEntity.ok().eTag(person.version().toString()).body(person);
    }
}
