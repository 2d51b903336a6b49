package strokewright.job;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.access.SignedIn;
import strokewright.web.Api;
import strokewright.web.Problem;

/** Bookings over HTTP; the id that each brings makes sending it again harmless. */
@Api("/api/v1")
class BookingsApi {

    private final Bookings bookings;

    BookingsApi(Bookings bookings) {
        this.bookings = bookings;
    }

    /**
     * @param items the latest first
     */
    record OfJob(List<Booking> items) {}

    @GetMapping("/jobs/{number}/bookings")
    OfJob list(@PathVariable String number) {
        return new OfJob(bookings.of(number));
    }

    @PostMapping("/jobs/{number}/bookings")
    ResponseEntity<Booking> book(@PathVariable String number, @RequestBody BookingEntry entry) {
        return ResponseEntity.status(HttpStatus.CREATED).body(bookings.book(number, entry));
    }

    /** Hours on no job. */
    @PostMapping("/bookings")
    ResponseEntity<Booking> book(@RequestBody BookingEntry entry) {
        return ResponseEntity.status(HttpStatus.CREATED).body(bookings.book(null, entry));
    }

    @GetMapping("/bookings/running")
    Booking running() {
        return bookings.running().orElseThrow(() -> Problem.notFound("A clock that runs"));
    }

    @PostMapping("/bookings/{id}/stop")
    Booking stop(
            @PathVariable UUID id, @RequestBody(required = false) @Nullable BookingEntry counts) {
        return bookings.stop(id, counts == null ? BookingEntry.UNSAID : counts);
    }

    /** Leaves off; with a new clock on the same step one goes on. */
    @PostMapping("/bookings/{id}/pause")
    Booking pause(
            @PathVariable UUID id, @RequestBody(required = false) @Nullable BookingEntry entry) {
        return bookings.pause(id, entry == null ? BookingEntry.UNSAID : entry);
    }

    /** What whoever asks left off and has not finished. */
    @GetMapping("/bookings/left-off")
    OfJob leftOff() {
        return new OfJob(bookings.leftOff());
    }

    /** Clocks that somebody has to be asked about; for the office and the owner. */
    @GetMapping("/bookings/forgotten")
    OfJob forgotten() {
        if (!Bookings.mayForOthers(SignedIn.current())) {
            throw Problem.notAllowed();
        }
        return new OfJob(bookings.forgotten());
    }

    @PostMapping("/bookings/{id}/correct")
    ResponseEntity<Booking> correct(@PathVariable UUID id, @RequestBody BookingEntry entry) {
        return ResponseEntity.status(HttpStatus.CREATED).body(bookings.correct(id, entry));
    }
}
