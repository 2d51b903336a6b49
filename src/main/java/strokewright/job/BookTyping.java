package strokewright.job;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.job.Booking.Sort;
import strokewright.job.Booking.What;
import strokewright.quantity.InvalidInput;
import strokewright.web.TypedForm;

/** What the forms of the booking pages mean. */
final class BookTyping {

    /** What hours on no job mostly go to. */
    static final List<TypedForm.Option> REASONS =
            List.of(
                    new TypedForm.Option("Cleaning", "Cleaning"),
                    new TypedForm.Option("Waiting", "Waiting"),
                    new TypedForm.Option("Maintenance", "Maintenance"),
                    new TypedForm.Option("Training", "Training"),
                    new TypedForm.Option("", "Other, typed below"));

    static final List<TypedForm.Option> KINDS =
            List.of(
                    new TypedForm.Option("run", "Work"),
                    new TypedForm.Option("set-up", "Set-up"),
                    new TypedForm.Option("rework", "Rework"));

    private static final Map<String, Sort> SORTS =
            Map.of("/forming", Sort.FORMING, "/other", Sort.OTHER, "/setUp", Sort.SET_UP);

    private BookTyping() {}

    /** On a step; with an end where a phone sends afterwards what it kept. */
    static BookingEntry onStep(TypedForm form, UUID id, int step) {
        return entry(form, id, step, form.choice("/what", What.class), form.text("/reason"));
    }

    static BookingEntry onNoJob(TypedForm form, UUID id) {
        String chosen = form.text("/why");
        String typed = form.text("/reason");
        String reason = chosen == null || typed == null ? chosen : chosen + ": " + typed;
        return entry(form, id, null, null, reason == null ? typed : reason);
    }

    /** A clock that runs on the whole job. */
    static BookingEntry onWholeJob(TypedForm form, UUID id) {
        BookingEntry read = entry(form, id, null, What.WHOLE_JOB, null);
        return read.ofSort(form.choice("/sort", Sort.class));
    }

    static BookingEntry counts(TypedForm form, UUID id) {
        return entry(form, id, null, null, form.text("/reason"));
    }

    /**
     * @param wrong what is corrected
     */
    static BookingEntry correction(TypedForm form, UUID id, Booking wrong) {
        What what = wrong.step() == null ? wrong.what() : form.choice("/what", What.class);
        Integer step = wrong.step() == null ? null : form.whole("/step");
        return entry(form, id, step, what, form.text("/reason"))
                .ofSort(wrong.sort() == null ? null : form.choice("/sort", Sort.class));
    }

    /**
     * The quick way: a booking on the whole job for each sort of work that has minutes. Their ids
     * hang on the form's, so that sending it again adds nothing.
     *
     * @throws InvalidInput when there are no minutes at all
     */
    static List<BookingEntry> quick(TypedForm form, UUID id) {
        List<BookingEntry> entries = new ArrayList<>();
        for (String path : List.of("/forming", "/other", "/setUp")) {
            Double minutes = form.number(path);
            if (minutes != null) {
                Sort sort = SORTS.get(path);
                boolean first = entries.isEmpty();
                entries.add(
                        new BookingEntry(
                                UUID.nameUUIDFromBytes(
                                        (id + " " + sort)
                                                .getBytes(java.nio.charset.StandardCharsets.UTF_8)),
                                null,
                                What.WHOLE_JOB,
                                minutes,
                                first ? form.whole("/pieces") : null,
                                first ? form.whole("/scrapped") : null,
                                null,
                                null,
                                form.text("/withHelper") != null,
                                null,
                                form.text("/note"),
                                form.date("/workedOn"),
                                sort,
                                null,
                                null,
                                null));
            }
        }
        form.throwIfUnread();
        if (entries.isEmpty()) {
            throw new InvalidInput("/forming", "or one of the others is missing: how long it took");
        }
        return entries;
    }

    /** At which field of the quick form a fault belongs. */
    static String quickPath(BookingEntry entry, String pointer) {
        return pointer.equals("/minutes")
                ? SORTS.entrySet().stream()
                        .filter(e -> e.getValue() == entry.sort())
                        .map(Map.Entry::getKey)
                        .findFirst()
                        .orElse(pointer)
                : pointer;
    }

    private static BookingEntry entry(
            TypedForm form,
            UUID id,
            @Nullable Integer step,
            @Nullable What what,
            @Nullable String reason) {
        BookingEntry entry =
                new BookingEntry(
                        id,
                        step,
                        what,
                        form.number("/minutes"),
                        form.whole("/pieces"),
                        form.whole("/scrapped"),
                        form.whole("/passes"),
                        form.whole("/checks"),
                        form.text("/withHelper") == null ? null : Boolean.TRUE,
                        reason,
                        form.text("/note"),
                        form.date("/workedOn"),
                        null,
                        moment(form, "/startedAt"),
                        moment(form, "/endedAt"),
                        form.text("/paused") == null ? null : Boolean.TRUE);
        form.throwIfUnread();
        return entry;
    }

    /** As the page's script writes it; nobody types it. */
    private static @Nullable Instant moment(TypedForm form, String path) {
        String text = form.text(path);
        try {
            return text == null ? null : Instant.parse(text);
        } catch (DateTimeParseException e) {
            throw new InvalidInput(path, "is no moment: one such as 2026-03-31T10:42:00Z");
        }
    }

    /** What stands in the form that corrects it. */
    static TypedForm show(TypedForm form, Booking wrong) {
        return form.show("/minutes", wrong.minutes())
                .show("/step", wrong.step())
                .show("/what", wrong.what())
                .show("/sort", wrong.sort())
                .show("/pieces", wrong.pieces())
                .show("/scrapped", wrong.scrapped())
                .show("/passes", wrong.passes())
                .show("/checks", wrong.checks())
                .show("/withHelper", wrong.withHelper() ? "yes" : "")
                .show("/reason", wrong.reason())
                .show("/note", wrong.note())
                .show("/workedOn", wrong.workedOn());
    }

    static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
