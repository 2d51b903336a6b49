package strokewright.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.quantity.Fault;

/** What is entered is believed within reason, and every fault is named at its place. */
class BookingEntryTest {

    private static final ZoneId VIENNA = ZoneId.of("Europe/Vienna");
    private static final Instant NOW = Instant.parse("2026-03-02T10:00:00Z");

    @ParameterizedTest(name = "{0} s to {1} s, minutes {2}: {3}")
    @CsvSource(
            nullValues = "-",
            value = {
                "-60, 240, -, -",
                "240, -, -, -",
                "360, -, -, /startedAt",
                "-60, 360, -, /endedAt",
                "-60, -120, -, /endedAt",
                "-60, -60, -, -",
                "-1209600, -1209000, -, -",
                "-1209601, -1209000, -, /startedAt",
                "-, -60, -, /startedAt",
                "-43260, -60, -, -",
                "-43261, -60, -, /minutes",
                "-43261, -60, 30, -",
                "-60, -, 5, /minutes",
                "-600, -60, -5, /minutes",
                "-600, -60, NaN, /minutes",
                "-600, -60, 1441, /minutes",
                "-, -, 1440, -",
                "-, -, 0, /minutes",
                "-, -, 0.004, /minutes",
                "-, -, 0.01, -",
                "-, -, Infinity, /minutes",
            })
    void theTimesOfAPhoneAreBelievedWithinReason(
            Integer from, Integer to, Double minutes, String at) {
        List<String> pointers =
                entry(
                                minutes,
                                from == null ? null : NOW.plusSeconds(from),
                                to == null ? null : NOW.plusSeconds(to))
                        .faults(true, NOW)
                        .all()
                        .stream()
                        .map(Fault::pointer)
                        .distinct()
                        .toList();

        assertThat(pointers).isEqualTo(at == null ? List.of() : List.of(at));
    }

    @Test
    void aPhoneWhoseClockIsAFewMinutesFastStartsNow() {
        assertThat(entry(null, NOW.plusSeconds(200), null).startedAt(NOW)).isEqualTo(NOW);
        assertThat(entry(null, NOW.minusSeconds(200), null).startedAt(NOW))
                .isEqualTo(NOW.minusSeconds(200));
    }

    private static BookingEntry entry(Double minutes, Instant from, Instant to) {
        return new BookingEntry(
                UUID.randomUUID(),
                1,
                null,
                minutes,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                from,
                to,
                null);
    }

    @ParameterizedTest
    @CsvSource(
            nullValues = "-",
            value = {
                "-, -, -, 480, -, -",
                "07:00, 15:45, 45, -, -, 480",
                "22:00, 06:30, -, -, -, 510",
                "07:00, -, -, -, -, -",
                "-, -, -, -1, /minutes, -",
                "-, -, -, NaN, /minutes, -",
                "-, -, -, 1441, /minutes, -",
                "-, -, -, -, /came, -",
                "-, 16:00, -, -, /came, -",
                "16:00, 16:00, -, -, /went, -",
                "16:00, -, -, 5, /minutes, -",
                "15:00, 16:00, 61, -, /breakMinutes, -",
                "15:00, 16:00, -1, -, /breakMinutes, -",
                "-, -, 1, 5, /breakMinutes, -",
            })
    void presenceThatCannotBeIsRefused(
            LocalTime came, LocalTime went, Double pause, Double minutes, String at, Double there) {
        PresenceEntry entry =
                new PresenceEntry(UUID.randomUUID(), null, null, came, went, pause, minutes, null);
        List<String> pointers =
                entry.faults(LocalDate.of(2026, 3, 2)).all().stream().map(Fault::pointer).toList();

        assertThat(pointers).isEqualTo(at == null ? List.of() : List.of(at));
        if (there != null) {
            assertThat(entry.minutesThere(LocalDate.of(2026, 3, 2), VIENNA)).isEqualTo(there);
        }
    }

    @ParameterizedTest(name = "{0}, {1} to {2}: {3} min")
    @CsvSource({
        "2026-03-28, 22:00, 06:00, 420",
        "2026-10-24, 22:00, 06:00, 540",
        "2026-03-29, 00:30, 05:00, 210",
        "2026-10-25, 00:30, 05:00, 330",
        "2026-10-26, 22:00, 06:00, 480",
    })
    void theNightInWhichTheClocksChangeIsAsLongAsItIs(
            LocalDate day, LocalTime came, LocalTime went, double there) {
        PresenceEntry entry =
                new PresenceEntry(UUID.randomUUID(), null, null, came, went, null, null, null);

        assertThat(entry.minutesThere(day, VIENNA)).isEqualTo(there);
    }

    @ParameterizedTest
    @CsvSource({"2026-03-03", "2025-03-01"})
    void aDayThatIsToComeOrLongAgoIsRefused(LocalDate day) {
        assertThat(
                        new PresenceEntry(UUID.randomUUID(), null, day, null, null, null, 5.0, null)
                                .faults(LocalDate.of(2026, 3, 2))
                                .all())
                .extracting(Fault::pointer)
                .containsExactly("/day");
    }
}
