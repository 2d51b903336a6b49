package strokewright.job;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.Api;

/** When people were there, over HTTP. */
@Api("/api/v1/presence")
class PresenceApi {

    private static final int MOST_DAYS = 366;

    private final Presences presences;

    PresenceApi(Presences presences) {
        this.presences = presences;
    }

    /**
     * @param items what counts of everybody for the office and the owner, else one's own
     */
    record Days(List<Presence> items) {}

    @GetMapping
    Days list(
            @RequestParam(required = false) @Nullable LocalDate from,
            @RequestParam(required = false) @Nullable LocalDate to) {
        LocalDate last = to == null ? presences.today() : to;
        LocalDate first = from == null ? last.minusDays(30) : from;
        if (first.isAfter(last) || first.isBefore(last.minusDays(MOST_DAYS))) {
            throw new InvalidInput(
                    "?from", "must be at most " + MOST_DAYS + " days before to, and not after it");
        }
        SignedIn me = SignedIn.current();
        return new Days(
                Bookings.mayForOthers(me)
                        ? presences.between(first, last)
                        : presences.of(me.userId(), first, last).stream()
                                .filter(Presence::counts)
                                .toList());
    }

    @PostMapping
    ResponseEntity<Presence> enter(@RequestBody PresenceEntry entry) {
        return ResponseEntity.status(HttpStatus.CREATED).body(presences.enter(entry));
    }
}
