package strokewright.job;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import strokewright.access.SignedIn;
import strokewright.exchange.CellFault;
import strokewright.exchange.FileColumn;
import strokewright.exchange.FileReading;
import strokewright.exchange.FileReading.Line;
import strokewright.exchange.FileTable;
import strokewright.exchange.FileWord;
import strokewright.exchange.Plan;
import strokewright.exchange.Plan.FieldChange;
import strokewright.exchange.Plan.What;
import strokewright.job.Booking.Sort;
import strokewright.office.Value;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import strokewright.web.Reading;

/**
 * Time sheets as a file: each row is a booking. A row that was taken in before is known again by
 * what stands in it, and adds nothing.
 */
@Component
class TimeSheets implements FileTable {

    private static final int MOST_ROWS = 10_000;
    private static final int MOST_OPTIONS = 60;
    private static final Pattern HOURS_AND_MINUTES =
            Pattern.compile("(\\d{1,3}):([0-5]\\d)(?::([0-5]\\d))?");
    private static final Pattern DIGITS = Pattern.compile("\\d+");

    private static final String NO_JOB = "none";

    /** A kind of work, a step of one job or of whichever it is, or all of the job. */
    private static final Pattern WORK =
            Pattern.compile("whole-job|kind:.+|(J-\\d{4}-\\d{4,9}/)?step:\\d{1,4}");

    private static final FileColumn PERSON =
            FileColumn.text("Person", 20, "who worked")
                    .alsoCalled("who", "name", "worker")
                    .isNeeded();
    private static final FileColumn DATE =
            FileColumn.date("Date", "such as 2026-03-31").alsoCalled("day", "workedOn").isNeeded();
    private static final FileColumn JOB =
            FileColumn.text("Job", 14, "its number; empty for hours on no job")
                    .alsoCalled("number");
    private static final FileColumn STEP =
            FileColumn.text(
                            "Step",
                            20,
                            "number on the route card, or the operation; empty for the whole job")
                    .alsoCalled("operation", "work");
    private static final FileColumn MINUTES =
            FileColumn.duration("Minutes", "min", "or hours").alsoCalled("min");
    private static final FileColumn HOURS =
            FileColumn.duration("Hours", "h", "as 1.5 or 1:30").alsoCalled("h");
    private static final FileColumn PIECES = FileColumn.number("Pieces", "", "done, all together");
    private static final FileColumn SCRAPPED = FileColumn.number("Scrapped", "", "");
    private static final FileColumn PASSES =
            FileColumn.number("Passes", "", "as counted, all pieces together");
    private static final FileColumn CHECKS =
            FileColumn.number("Checks", "", "as counted, all pieces together");
    private static final FileColumn WHAT =
            FileColumn.text(
                    "What",
                    12,
                    "run, set-up or rework; without a step forming, other or set-up; empty: run");
    private static final FileColumn REASON =
            FileColumn.text("Reason", 24, "of rework, or what hours on no job went to");
    private static final FileColumn NOTE = FileColumn.text("Note", 24, "");
    private static final FileColumn TWO =
            FileColumn.yesNo("Two people", "the whole time").alsoCalled("withHelper", "helper");

    private static final List<FileColumn> COLUMNS =
            List.of(
                    PERSON, DATE, JOB, STEP, MINUTES, HOURS, PIECES, SCRAPPED, PASSES, CHECKS, WHAT,
                    REASON, NOTE, TWO);

    private static final Map<String, FileColumn> BY_POINTER =
            Map.ofEntries(
                    Map.entry("/minutes", MINUTES),
                    Map.entry("/pieces", PIECES),
                    Map.entry("/scrapped", SCRAPPED),
                    Map.entry("/passes", PASSES),
                    Map.entry("/checks", CHECKS),
                    Map.entry("/reason", REASON),
                    Map.entry("/note", NOTE),
                    Map.entry("/what", WHAT),
                    Map.entry("/sort", WHAT),
                    Map.entry("/step", STEP),
                    Map.entry("/workedOn", DATE));

    private final JdbcClient sql;
    private final Bookings bookings;
    private final Presences presences;
    private final OpenJobs jobs;
    private final SheetWords words;

    TimeSheets(
            JdbcClient sql,
            Bookings bookings,
            Presences presences,
            OpenJobs jobs,
            SheetWords words) {
        this.sql = sql;
        this.bookings = bookings;
        this.presences = presences;
        this.jobs = jobs;
        this.words = words;
    }

    @Override
    public String key() {
        return "time-sheets";
    }

    @Override
    public String title() {
        return "Time sheets";
    }

    @Override
    public String noun() {
        return "booking";
    }

    @Override
    public String place() {
        return "/jobs";
    }

    @Override
    public String navigation() {
        return "jobs";
    }

    @Override
    public String effect() {
        return "Each row becomes a booking; a row that was taken in before adds nothing.";
    }

    @Override
    public boolean removes() {
        return false;
    }

    @Override
    public List<FileColumn> columns() {
        return COLUMNS;
    }

    /** Only the head: what is booked here already must not come in once more. */
    @Override
    public Iterator<List<Value>> rows(boolean begun) {
        return Collections.emptyIterator();
    }

    @Override
    public String version() {
        return sql.sql(
                                """
                                select count(*) || ' ' || coalesce(max(entered_at)::text, '')
                                from booking where shop_id = ? and source = 'sheet'
                                """)
                        .param(SignedIn.current().shopId())
                        .query(String.class)
                        .single()
                + words.all().hashCode();
    }

    @Override
    public void choose(String kind, String word, @Nullable String meaning) {
        if (meaning == null) {
            words.forget(kind, word);
            return;
        }
        requireMeaning(kind, meaning);
        int end = meaning.indexOf('/');
        if (!kind.equals("work") || end < 0) {
            words.choose(new SheetWords.Chosen(kind, word, meaning));
            return;
        }
        String job = meaning.substring(0, end) + " "; // of this job alone
        String tidy = SheetWords.tidy(word);
        words.choose(
                new SheetWords.Chosen(
                        kind,
                        tidy.startsWith(SheetWords.tidy(job)) ? tidy : job + word,
                        meaning.substring(end + 1)));
    }

    private void requireMeaning(String kind, String meaning) {
        boolean there =
                switch (String.valueOf(kind)) {
                    case "person" ->
                            presences.people().stream()
                                    .anyMatch(p -> p.id().toString().equals(meaning));
                    case "job" ->
                            meaning.equals(NO_JOB)
                                    || JobNumber.read(meaning).flatMap(jobs::find).isPresent();
                    case "work" -> WORK.matcher(meaning).matches();
                    default -> true;
                };
        if (!there) {
            throw new InvalidInput("/meaning", "is none of what is offered for such a word");
        }
    }

    @Override
    public Plan plan(FileReading file, boolean remove) {
        return new Import(file).plan();
    }

    @Override
    public Plan carryOut(FileReading file, boolean remove) {
        sql.sql("select pg_advisory_xact_lock(hashtext(?))")
                .param("time-sheets " + SignedIn.current().shopId())
                .query(row -> {});
        Import work = new Import(file);
        Plan plan = work.plan();
        if (plan.faults().isEmpty()) {
            bookings.bookFromSheets(work.wanted);
        }
        return plan;
    }

    /** One file against the shop of now. */
    private final class Import {

        private final FileReading file;
        private final List<Bookings.FromSheet> wanted = new ArrayList<>();
        private final List<CellFault> faults = new ArrayList<>();
        private final List<Plan.Row> rows = new ArrayList<>();
        private final List<Presences.Person> people = presences.people();
        private final Map<String, OpenJobs.OpenJob> byNumber = new LinkedHashMap<>();
        private final Map<String, String> chosen = words.byWord();
        private final Map<String, FileWord> asked = new LinkedHashMap<>();
        private final Map<String, Integer> seen = new HashMap<>();
        private final Set<UUID> known;
        private final LocalDate today = bookings.today();

        Import(FileReading file) {
            this.file = file;
            jobs.latest(1000).forEach(j -> byNumber.put(j.number(), j));
            known =
                    new HashSet<>(
                            sql.sql(
                                            """
                                            select id from booking
                                            where shop_id = ? and source = 'sheet'
                                              and worked_on > ?
                                            """)
                                    .params(SignedIn.current().shopId(), today.minusYears(2))
                                    .query(UUID.class)
                                    .list());
        }

        Plan plan() {
            if (file.lines().size() > MOST_ROWS) {
                faults.add(
                        file.fault(
                                file.lines().get(MOST_ROWS),
                                null,
                                "is the first of too many: at most "
                                        + MOST_ROWS
                                        + " at once, send the others in another file"));
                return new Plan(List.of(), faults, 0, List.of());
            }
            file.lines().forEach(this::take);
            return new Plan(rows, faults, 0, List.of(), List.copyOf(asked.values()));
        }

        private void take(Line line) {
            int before = faults.size();
            Presences.Person person = person(line);
            String typedJob = typed(line, JOB);
            OpenJobs.OpenJob job = job(line, typedJob);
            boolean onAJob = job != null;
            Integer step = onAJob ? step(line, job) : null;
            if (!onAJob && faults.size() == before && !typed(line, STEP).isEmpty()) {
                fault(line, STEP, "belongs to a job: say which");
            }
            String day = typed(line, DATE);
            if (day.isEmpty()) {
                fault(line, DATE, "is missing: the day of the work");
            }
            Double minutes = minutes(line);
            Sort sort = onAJob && step == null ? sort(line) : null;
            BookingEntry entry =
                    new BookingEntry(
                            new UUID(0, 0),
                            step,
                            sort == null ? what(line, onAJob) : null,
                            minutes,
                            whole(line, PIECES),
                            whole(line, SCRAPPED),
                            whole(line, PASSES),
                            whole(line, CHECKS),
                            typed(line, TWO).equals("yes") ? Boolean.TRUE : null,
                            orNull(typed(line, REASON)),
                            orNull(typed(line, NOTE)),
                            day.isEmpty() ? null : LocalDate.parse(day),
                            sort,
                            null,
                            null,
                            null);
            if (faults.size() > before) {
                return;
            }
            check(line, entry, job);
            if (faults.size() == before) {
                keep(line, entry, person, job);
            }
        }

        private void check(Line line, BookingEntry entry, OpenJobs.@Nullable OpenJob job) {
            Faults found = entry.faults(job != null, java.time.Instant.EPOCH);
            BookingEntry.day(found, entry.workedOn(), today);
            for (Fault f : found.all()) {
                fault(line, BY_POINTER.get(f.pointer()), f.message());
            }
            if (job != null && job.state() == JobState.CLOSED) {
                fault(line, JOB, "is closed: reopen it to book on it");
            }
        }

        private void keep(
                Line line,
                BookingEntry entry,
                Presences.Person person,
                OpenJobs.@Nullable OpenJob job) {
            String content = content(line, entry);
            int occurrence = seen.merge(content, 1, Integer::sum);
            UUID id =
                    UUID.nameUUIDFromBytes(
                            (SignedIn.current().shopId() + "\n" + content + "\n" + occurrence)
                                    .getBytes(StandardCharsets.UTF_8));
            String name =
                    person.name()
                            + ", "
                            + entry.workedOn()
                            + ", "
                            + (job == null ? "no job" : job.number());
            if (known.contains(id)) {
                rows.add(new Plan.Row(line.row(), What.SAME, name, List.of()));
                return;
            }
            wanted.add(
                    new Bookings.FromSheet(
                            job == null ? null : job.number(), entry.withId(id), person.id()));
            rows.add(new Plan.Row(line.row(), What.NEW, name, told(entry, job)));
        }

        /** As it was written, so that another choice of meanings makes no other booking of it. */
        private String content(Line line, BookingEntry entry) {
            return String.join(
                    "\n",
                    SheetWords.tidy(typed(line, PERSON)),
                    String.valueOf(entry.workedOn()),
                    SheetWords.tidy(typed(line, JOB)),
                    SheetWords.tidy(typed(line, STEP)),
                    BigDecimal.valueOf(entry.minutes())
                            .setScale(2, RoundingMode.HALF_UP)
                            .toPlainString(),
                    String.valueOf(entry.pieces()),
                    String.valueOf(entry.scrapped()),
                    String.valueOf(entry.passes()),
                    String.valueOf(entry.checks()),
                    SheetWords.tidy(typed(line, WHAT)),
                    String.valueOf(entry.reason()),
                    String.valueOf(entry.note()),
                    String.valueOf(entry.withHelper()));
        }

        private List<FieldChange> told(BookingEntry entry, OpenJobs.@Nullable OpenJob job) {
            List<FieldChange> told = new ArrayList<>();
            if (job != null && entry.step() != null) {
                told.add(
                        new FieldChange(
                                STEP.name(),
                                null,
                                entry.step() + ". " + job.steps().get(entry.step() - 1).words()));
            }
            told.add(
                    new FieldChange(MINUTES.name(), null, file.numbers().show(entry.minutes(), 1)));
            return told;
        }

        // Words ---------------------------------------------------------------------------------

        private Presences.@Nullable Person person(Line line) {
            String typed = typed(line, PERSON);
            if (typed.isEmpty()) {
                fault(line, PERSON, "is missing: who worked");
                return null;
            }
            String tidy = SheetWords.tidy(typed);
            List<Presences.Person> named =
                    people.stream()
                            .filter(
                                    p ->
                                            SheetWords.tidy(p.name()).equals(tidy)
                                                    || p.userName().equals(tidy))
                            .toList();
            if (named.size() == 1) {
                return named.get(0);
            }
            String meaning = chosen.get("person " + tidy);
            Optional<Presences.Person> meant =
                    people.stream().filter(p -> p.id().toString().equals(meaning)).findFirst();
            ask(
                    "person",
                    typed,
                    meant.map(p -> p.id().toString()).orElse(null),
                    Nearest.first(typed, people, Presences.Person::name).stream()
                            .map(p -> new FileWord.Meaning(p.id().toString(), p.name()))
                            .toList());
            if (meant.isEmpty()) {
                fault(line, PERSON, "“" + typed + "” is nobody’s name here: choose who is meant");
            }
            return meant.orElse(null);
        }

        private OpenJobs.@Nullable OpenJob job(Line line, String typed) {
            if (typed.isEmpty()) {
                return null;
            }
            Optional<OpenJobs.OpenJob> exact =
                    JobNumber.read(typed.toUpperCase(Locale.ROOT)).map(this::numbered);
            if (exact.isPresent()) {
                return exact.get();
            }
            String meaning = chosen.get("job " + SheetWords.tidy(typed));
            OpenJobs.OpenJob meant =
                    meaning == null
                            ? null
                            : JobNumber.read(meaning).map(this::numbered).orElse(null);
            boolean none = NO_JOB.equals(meaning);
            List<FileWord.Meaning> options = new ArrayList<>();
            nearestJobs(typed)
                    .forEach(
                            j ->
                                    options.add(
                                            new FileWord.Meaning(
                                                    j.number(),
                                                    j.number()
                                                            + " "
                                                            + j.title()
                                                            + ", "
                                                            + j.customer())));
            options.add(new FileWord.Meaning(NO_JOB, "no job"));
            ask("job", typed, none ? NO_JOB : meant == null ? null : meant.number(), options);
            if (meant == null && !none) {
                fault(
                        line,
                        JOB,
                        "“" + typed + "” is no number of a job here: choose which is meant");
            }
            return meant;
        }

        /** Older ones too. */
        private OpenJobs.@Nullable OpenJob numbered(JobNumber number) {
            return byNumber.computeIfAbsent(number.toString(), n -> jobs.find(number).orElse(null));
        }

        /** 26-1 and J1 end in the count; a title may be meant too. */
        private List<OpenJobs.OpenJob> nearestJobs(String typed) {
            List<String> digits = DIGITS.matcher(typed).results().map(m -> m.group()).toList();
            List<OpenJobs.OpenJob> all = new ArrayList<>();
            if (!digits.isEmpty()) {
                String n = stripped(digits.get(digits.size() - 1));
                String year = digits.size() > 1 ? digits.get(digits.size() - 2) : "";
                for (OpenJobs.OpenJob job : byNumber.values()) {
                    String[] parts = job.number().split("-");
                    if (stripped(parts[2]).equals(n) && parts[1].endsWith(year)) {
                        all.add(job);
                    }
                }
            }
            Nearest.first(typed, List.copyOf(byNumber.values()), OpenJobs.OpenJob::title).stream()
                    .filter(j -> !all.contains(j))
                    .forEach(all::add);
            return all;
        }

        private static String stripped(String digits) {
            return digits.replaceFirst("^0+(?=.)", "");
        }

        private @Nullable Integer step(Line line, OpenJobs.OpenJob job) {
            String typed = typed(line, STEP);
            if (typed.isEmpty()) {
                return null;
            }
            Matcher number = Pattern.compile("(\\d{1,4})\\.?").matcher(typed);
            if (number.matches()) {
                int n = Integer.parseInt(number.group(1));
                if (n < 1 || n > job.steps().size()) {
                    fault(
                            line,
                            STEP,
                            "is no step of " + job.number() + ": 1 to " + job.steps().size());
                    return null;
                }
                return n;
            }
            String tidy = SheetWords.tidy(typed);
            List<OpenJobs.OpenStep> named =
                    job.steps().stream().filter(s -> isCalled(s, tidy)).toList();
            if (named.size() == 1) {
                return named.get(0).n();
            }
            String here = chosen.get("work " + SheetWords.tidy(job.number() + " " + typed));
            String meaning = here != null ? here : chosen.get("work " + tidy);
            Integer meant = meaning == null ? null : meant(job, meaning);
            boolean whole = "whole-job".equals(meaning);
            String key = here != null ? job.number() + " " + typed : typed;
            ask(
                    "work",
                    meant == null && !whole ? typed : key,
                    meant == null && !whole ? null : meaning,
                    steps(job, typed, meaning, meant));
            if (meant == null && !whole) {
                fault(
                        line,
                        STEP,
                        "“"
                                + typed
                                + "” is no step of "
                                + job.number()
                                + ": choose which is meant");
            }
            return meant;
        }

        private static boolean isCalled(OpenJobs.OpenStep step, String tidy) {
            String words = SheetWords.tidy(step.words());
            int part = words.indexOf(": ");
            return words.equals(tidy)
                    || step.kind().equals(tidy)
                    || part >= 0 && words.substring(part + 2).equals(tidy);
        }

        /** A kind of work that a job has more than once does not say which. */
        private @Nullable Integer meant(OpenJobs.OpenJob job, String meaning) {
            if (meaning.startsWith("step:")) {
                int n = Integer.parseInt(meaning.substring(5));
                return n <= job.steps().size() ? n : null;
            }
            List<OpenJobs.OpenStep> of =
                    job.steps().stream().filter(s -> meaning.equals("kind:" + s.kind())).toList();
            return of.size() == 1 ? of.get(0).n() : null;
        }

        private static List<FileWord.Meaning> steps(
                OpenJobs.OpenJob job,
                String typed,
                @Nullable String meaning,
                @Nullable Integer meant) {
            List<FileWord.Meaning> options = new ArrayList<>();
            for (OpenJobs.OpenStep step :
                    Nearest.first(typed, job.steps(), OpenJobs.OpenStep::words)) {
                boolean once =
                        job.steps().stream().filter(s -> s.kind().equals(step.kind())).count() == 1;
                boolean chosenOne = meant != null && meant == step.n();
                options.add(
                        new FileWord.Meaning(
                                chosenOne
                                        ? meaning
                                        : once
                                                ? "kind:" + step.kind()
                                                : job.number() + "/step:" + step.n(),
                                step.n() + ". " + step.words()));
            }
            options.add(new FileWord.Meaning("whole-job", "the whole job"));
            return options;
        }

        private void ask(
                String kind, String word, @Nullable String meant, List<FileWord.Meaning> options) {
            List<FileWord.Meaning> few = options;
            if (options.size() > MOST_OPTIONS) {
                few = new ArrayList<>(options.subList(0, MOST_OPTIONS));
                few.add(options.get(options.size() - 1));
            }
            List<FileWord.Meaning> offered = List.copyOf(few);
            asked.merge(
                    kind + " " + SheetWords.tidy(word),
                    new FileWord(kind, word, 1, meant, offered),
                    (a, b) -> new FileWord(kind, a.word(), a.rows() + 1, b.meant(), a.options()));
        }

        // Figures -------------------------------------------------------------------------------

        private @Nullable Double minutes(Line line) {
            Double minutes = duration(line, MINUTES, 1);
            Double hours = duration(line, HOURS, 60);
            boolean neither = typed(line, MINUTES).isEmpty() && typed(line, HOURS).isEmpty();
            if (neither) {
                fault(line, file.has(MINUTES) ? MINUTES : HOURS, "is missing: how long it took");
            }
            if (minutes != null && hours != null && Math.abs(minutes - hours) > 0.5) {
                fault(line, HOURS, "says something else than the minutes do");
            }
            return minutes == null ? hours : minutes;
        }

        private @Nullable Double duration(Line line, FileColumn column, int minutesEach) {
            String typed = typed(line, column);
            Matcher m = HOURS_AND_MINUTES.matcher(typed);
            if (m.matches()) {
                double minutes = Integer.parseInt(m.group(1)) * 60.0 + Integer.parseInt(m.group(2));
                return m.group(3) == null ? minutes : minutes + Integer.parseInt(m.group(3)) / 60.0;
            }
            Double number = read(line, column, file.numbers().number(typed)).asDouble();
            return number == null ? null : number * minutesEach;
        }

        private @Nullable Integer whole(Line line, FileColumn column) {
            return read(line, column, file.numbers().whole(typed(line, column))).asInteger();
        }

        private Reading read(Line line, FileColumn column, Reading reading) {
            if (reading.fault() != null) {
                fault(line, column, reading.fault());
            }
            return reading;
        }

        private @Nullable Sort sort(Line line) {
            return switch (whatWord(line)) {
                case "forming" -> Sort.FORMING;
                case "other", "other work" -> Sort.OTHER;
                case "set-up", "setup", "set up" -> Sort.SET_UP;
                default -> null;
            };
        }

        private Booking.@Nullable What what(Line line, boolean onAJob) {
            return switch (whatWord(line)) {
                case "" -> null;
                case "run", "work", "running" -> Booking.What.RUN;
                case "set-up", "setup", "set up" -> Booking.What.SET_UP;
                case "rework" -> Booking.What.REWORK;
                case "whole-job", "whole job" -> Booking.What.WHOLE_JOB;
                case "indirect", "no job" -> Booking.What.INDIRECT;
                default -> {
                    fault(
                            line,
                            WHAT,
                            onAJob
                                    ? "must be run, set-up or rework, or without a step forming, other or set-up"
                                    : "must be indirect, or empty, on no job");
                    yield null;
                }
            };
        }

        private String whatWord(Line line) {
            return SheetWords.tidy(typed(line, WHAT));
        }

        private static String typed(Line line, FileColumn column) {
            return line.typed().getOrDefault(column, "");
        }

        private static @Nullable String orNull(String text) {
            return text.isEmpty() ? null : text;
        }

        private void fault(Line line, @Nullable FileColumn column, String message) {
            faults.add(file.fault(line, column, message));
        }
    }
}
