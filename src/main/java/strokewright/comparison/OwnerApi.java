package strokewright.comparison;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Set;
import org.springframework.web.bind.annotation.GetMapping;
import strokewright.web.Api;

/** What the owner looks at, over HTTP; the owner's alone. */
@Api("/api/v1/owner")
class OwnerApi {

    private final Owner owner;

    OwnerApi(Owner owner) {
        this.owner = owner;
    }

    @GetMapping
    OwnerReport report(HttpServletRequest asked) {
        PeriodAsked period = PeriodAsked.of(asked.getParameterMap(), Set.of());
        period.faults().throwIfAny();
        return owner.report(period.from(), period.to());
    }
}
