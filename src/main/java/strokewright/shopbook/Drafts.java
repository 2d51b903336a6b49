package strokewright.shopbook;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;
import strokewright.web.VersionTag;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The draft of the next edition: one for each shop. It begins with the first change; until then it
 * is the current edition. Whoever changes it waits for whoever is at it, as with editions.
 */
@Component
class Drafts {

    private static final String OPEN = "open";
    private static final String ASIDE = "aside";
    private static final int MOST_ROWS = 2000;

    private final JdbcClient sql;
    private final JdbcTemplate batches;
    private final ShopBooks books;
    private final Shops shops;
    private final Documents documents;
    private final Clock clock;

    Drafts(
            JdbcClient sql,
            JdbcTemplate batches,
            ShopBooks books,
            Shops shops,
            Documents documents,
            Clock clock) {
        this.sql = sql;
        this.batches = batches;
        this.books = books;
        this.shops = shops;
        this.documents = documents;
        this.clock = clock;
    }

    /**
     * Who is at it.
     *
     * @param begunBy display name
     * @param changedBy display name
     */
    record Facts(
            int base,
            long version,
            String begunBy,
            Instant begunAt,
            String changedBy,
            Instant changedAt) {}

    /** Who changes it, from which opening of a page that showed which edition's draft. */
    record By(int base, String page) {}

    /** What became of a row that was sent. */
    enum Fate {
        KEPT,
        /** Somebody else changed it since it was shown. */
        CHANGED_MEANWHILE,
        /** Somebody took it out. */
        REMOVED_MEANWHILE
    }

    /**
     * @param there the row as it stands now
     * @param who changed it last, by display name
     */
    record Sent(Fate fate, Draft draft, Draft.Row there, @Nullable String who) {}

    /**
     * The page that a change comes from shows the draft of an edition that is no longer current.
     */
    static final class Over extends RuntimeException {

        Over() {
            super("the draft was adopted or given up meanwhile", null, false, false);
        }
    }

    @Transactional(readOnly = true)
    public Optional<Facts> facts() {
        return facts(OPEN);
    }

    /** Whether one was put aside that can still be taken up. */
    @Transactional(readOnly = true)
    public boolean hasAside() {
        return facts(ASIDE).isPresent() && facts(OPEN).isEmpty();
    }

    private Optional<Facts> facts(String slot) {
        return sql.sql(
                        """
                        select d.base, d.version, b.display_name, d.begun_at, c.display_name,
                          d.changed_at
                        from shop_book_draft d
                        join login b on b.shop_id = d.shop_id and b.id = d.begun_by
                        join login c on c.shop_id = d.shop_id and c.id = d.changed_by
                        where d.shop_id = ? and d.slot = ?
                        """)
                .params(SignedIn.current().shopId(), slot)
                .query(
                        (row, number) ->
                                new Facts(
                                        row.getInt(1),
                                        row.getLong(2),
                                        row.getString(3),
                                        row.getObject(4, OffsetDateTime.class).toInstant(),
                                        row.getString(5),
                                        row.getObject(6, OffsetDateTime.class).toInstant()))
                .optional();
    }

    /** As it is now: the stored one, else the current edition. */
    @Transactional(readOnly = true)
    public Draft now() {
        return facts().map(this::stored).orElseGet(this::unchanged);
    }

    private Draft unchanged() {
        ShopBook book = books.current();
        return Draft.of(book, BookTree.of(book, documents));
    }

    private Draft stored(Facts facts) {
        Map<String, List<Draft.Row>> rows = new LinkedHashMap<>();
        BookParts.sections().forEach(s -> rows.put(s.key(), new ArrayList<>()));
        sql.sql(
                        """
                        select section, id, place, removed, typed, version, page, changed_by,
                          changed_at
                        from shop_book_draft_row
                        where shop_id = ? and slot = ?
                        order by section, place, id
                        """)
                .params(SignedIn.current().shopId(), OPEN)
                .query(this::row)
                .list()
                .forEach(
                        row ->
                                rows.computeIfAbsent(row.section(), s -> new ArrayList<>())
                                        .add(row));
        return new Draft(facts.base, currency(), facts.version, rows);
    }

    private Draft.Row row(ResultSet row, int number) throws SQLException {
        Map<String, JsonNode> values = new LinkedHashMap<>();
        documents
                .read(row.getString(5), ObjectNode.class)
                .properties()
                .forEach(m -> values.put(m.getKey(), m.getValue()));
        return new Draft.Row(
                row.getString(1),
                row.getInt(2),
                row.getInt(3),
                row.getBoolean(4),
                values,
                row.getLong(6),
                row.getString(7),
                row.getObject(8, UUID.class),
                row.getObject(9, OffsetDateTime.class).toInstant());
    }

    private Currency currency() {
        return shops.current().currency();
    }

    // Changing --------------------------------------------------------------------------------

    /**
     * Keeps what was typed in one row.
     *
     * @param version of the row as the page knows it; null to write over whatever is there
     * @param typed what its values become
     * @throws Over when the page shows a draft that is no longer there
     * @throws Problem 404 when there is no such row
     */
    @Transactional
    public Sent keep(
            By by, String section, int id, @Nullable Long version, UnaryOperator<Draft.Row> typed) {
        Draft draft = atWork(by);
        Draft.Row there = draft.row(section, id).orElseThrow(() -> Problem.notFound("This row"));
        boolean mine =
                version == null || version == there.version() || by.page.equals(there.page());
        if (there.removed() && version != null) {
            return new Sent(Fate.REMOVED_MEANWHILE, draft, there, nameOf(there));
        }
        if (!mine) {
            return new Sent(Fate.CHANGED_MEANWHILE, draft, there, nameOf(there));
        }
        Draft.Row wanted = typed.apply(there);
        if (wanted.values().equals(there.values()) && !there.removed()) {
            return new Sent(Fate.KEPT, draft, there, null);
        }
        write(wanted, by);
        if (there.removed()) {
            setRemoved(section, id, false, by);
        }
        touch();
        Draft after = now();
        return new Sent(Fate.KEPT, after, after.row(section, id).orElseThrow(), null);
    }

    private @Nullable String nameOf(Draft.Row row) {
        return row.changedBy() == null ? null : shops.nameOf(row.changedBy());
    }

    /**
     * Adds an empty row at the end.
     *
     * @return its id
     */
    @Transactional
    public int add(By by, BookSection section) {
        Draft draft = atWork(by);
        return insert(by, section, draft.all(section), Integer.MAX_VALUE, Map.of());
    }

    /**
     * Adds a copy of a row below it.
     *
     * @return its id
     */
    @Transactional
    public int copy(By by, BookSection section, int id) {
        Draft draft = atWork(by);
        Draft.Row row = required(draft, section, id);
        Map<String, JsonNode> values = new LinkedHashMap<>(row.values());
        BookField name = section.nameField();
        JsonNode old = values.get(name.path());
        if (name.isText() && !Kind.isNothing(old) && old.isString()) {
            values.put(name.path(), Kind.JSON.stringNode(freeName(draft, section, old.asString())));
        }
        return insert(by, section, draft.all(section), row.place(), values);
    }

    private static String freeName(Draft draft, BookSection section, String name) {
        String copy = name + " copy";
        for (int i = 2; draft.rowOf(section.key(), copy).isPresent(); i++) {
            copy = name + " copy " + i;
        }
        return copy;
    }

    /** Marks a row as taken out; it can be put back. */
    @Transactional
    public void remove(By by, BookSection section, int id) {
        Draft draft = atWork(by);
        required(draft, section, id);
        if (section.isOne()) {
            throw Problem.wrongState("This part is one set of fields: it cannot be taken out.");
        }
        setRemoved(section.key(), id, true, by);
        touch();
    }

    @Transactional
    public void putBack(By by, BookSection section, int id) {
        Draft draft = atWork(by);
        required(draft, section, id);
        setRemoved(section.key(), id, false, by);
        touch();
    }

    /**
     * Moves a row among those that are there.
     *
     * @param step -1 up, 1 down; beyond the ends nothing happens
     */
    @Transactional
    public void move(By by, BookSection section, int id, int step) {
        Draft draft = atWork(by);
        Draft.Row row = required(draft, section, id);
        List<Draft.Row> living = draft.living(section);
        int to = living.indexOf(row) + step;
        if (row.removed() || to < 0 || to >= living.size()) {
            return;
        }
        Draft.Row other = living.get(to);
        place(section, row.id(), other.place());
        place(section, other.id(), row.place());
        touch();
    }

    /** Puts the draft aside; the one that was aside is gone. */
    @Transactional
    public void giveUp() {
        books.oneAtATime();
        if (facts(OPEN).isPresent()) {
            delete(ASIDE);
            rename(OPEN, ASIDE);
        }
    }

    /** Takes up the draft that was put aside, where no other was begun since. */
    @Transactional
    public void takeUp() {
        books.oneAtATime();
        if (hasAside()) {
            rename(ASIDE, OPEN);
        }
    }

    /**
     * Makes the draft the next edition and is done with it.
     *
     * @param version of the draft that was looked through
     * @return empty when it was changed since, or another edition was added
     * @throws Over when there is no draft
     * @throws InvalidInput with every fault
     */
    @Transactional
    public Optional<ShopBooks.Change> adopt(long version, DraftReader reader, String note) {
        books.oneAtATime();
        Facts facts = facts(OPEN).orElseThrow(Over::new);
        if (facts.version != version || facts.base != books.current().edition()) {
            return Optional.empty();
        }
        DraftReading reading = reader.read(stored(facts));
        if (!reading.faults().isEmpty()) {
            return Optional.empty();
        }
        ShopBooks.Change change =
                books.change(reading.book(), new VersionTag(facts.base).toString(), note);
        delete(OPEN);
        return Optional.of(change);
    }

    /** How the draft is read: in whose way of writing. */
    interface DraftReader {
        DraftReading read(Draft draft);
    }

    /** What becomes of the rows of one section. */
    interface Filling {

        /** Rows that change, are new or are taken out, by their ids. */
        List<Draft.Row> of(Draft draft);
    }

    /** Changes many rows of a section at once, in the draft as it is by then. */
    @Transactional
    public void fill(BookSection section, Filling filling) {
        books.oneAtATime();
        Draft before = now();
        List<Draft.Row> changed = filling.of(before);
        if (changed.isEmpty()) {
            return;
        }
        By by = new By(before.base(), "");
        Draft draft = atWork(by);
        List<Draft.Row> fresh = new ArrayList<>();
        for (Draft.Row row : changed) {
            Optional<Draft.Row> there = draft.row(section.key(), row.id());
            if (there.isEmpty()) {
                fresh.add(row);
                continue;
            }
            write(row, by);
            if (row.removed() != there.get().removed()) {
                setRemoved(section.key(), row.id(), row.removed(), by);
            }
        }
        insert(fresh);
        touch();
    }

    /** Puts another draft in the place of the open one, begun from the current edition. */
    @Transactional
    public void replace(UnaryOperator<Draft> change) {
        books.oneAtATime();
        Facts facts = facts(OPEN).orElseThrow(Over::new);
        Draft changed = change.apply(stored(facts));
        delete(OPEN);
        insert(changed, facts.version + 1);
    }

    /** The draft to be changed, which begins here if it has not. */
    private Draft atWork(By by) {
        books.oneAtATime();
        Optional<Facts> facts = facts(OPEN);
        if (facts.isPresent()) {
            if (facts.get().base != by.base) {
                throw new Over();
            }
            return stored(facts.get());
        }
        Draft draft = unchanged();
        if (draft.base() != by.base) {
            throw new Over();
        }
        insert(draft, 0);
        return draft;
    }

    private static Draft.Row required(Draft draft, BookSection section, int id) {
        return draft.row(section.key(), id).orElseThrow(() -> Problem.notFound("This row"));
    }

    // Tables ----------------------------------------------------------------------------------

    private void insert(Draft draft, long version) {
        SignedIn who = SignedIn.current();
        OffsetDateTime now = time();
        sql.sql("insert into shop_book_draft values (?, ?, ?, ?, ?, ?, ?, ?)")
                .params(
                        who.shopId(),
                        OPEN,
                        draft.base(),
                        version,
                        who.userId(),
                        now,
                        who.userId(),
                        now)
                .update();
        insert(draft.rows().values().stream().flatMap(List::stream).toList());
    }

    private void insert(List<Draft.Row> all) {
        SignedIn who = SignedIn.current();
        OffsetDateTime now = time();
        batches.batchUpdate(
                "insert into shop_book_draft_row values (?, ?, ?, ?, ?, ?, ?::jsonb, ?, ?, ?, ?)",
                all.stream()
                        .map(
                                row ->
                                        new Object[] {
                                            who.shopId(),
                                            OPEN,
                                            row.section(),
                                            row.id(),
                                            row.place(),
                                            row.removed(),
                                            documents.write(row.values()),
                                            row.version(),
                                            row.page(),
                                            who.userId(),
                                            now
                                        })
                        .toList());
    }

    private int insert(
            By by,
            BookSection section,
            List<Draft.Row> all,
            int after,
            Map<String, JsonNode> values) {
        if (section.isOne()) {
            throw Problem.wrongState("This part is one set of fields: nothing can be added.");
        }
        if (all.size() >= MOST_ROWS) {
            throw Problem.wrongState("There are too many rows: at most " + MOST_ROWS + ".");
        }
        int id = all.stream().mapToInt(Draft.Row::id).max().orElse(0) + 1;
        int last = all.stream().mapToInt(Draft.Row::place).max().orElse(0);
        int place = Math.min(after, last) + 1;
        SignedIn who = SignedIn.current();
        sql.sql(
                        """
                        update shop_book_draft_row set place = place + 1
                        where shop_id = ? and slot = ? and section = ? and place >= ?
                        """)
                .params(who.shopId(), OPEN, section.key(), place)
                .update();
        sql.sql(
                        "insert into shop_book_draft_row values (?, ?, ?, ?, ?, false, ?::jsonb, 1,"
                                + " ?, ?, ?)")
                .params(
                        who.shopId(),
                        OPEN,
                        section.key(),
                        id,
                        place,
                        documents.write(values),
                        by.page,
                        who.userId(),
                        time())
                .update();
        touch();
        return id;
    }

    private void write(Draft.Row row, By by) {
        SignedIn who = SignedIn.current();
        sql.sql(
                        """
                        update shop_book_draft_row
                        set typed = ?::jsonb, version = version + 1, page = ?, changed_by = ?,
                          changed_at = ?
                        where shop_id = ? and slot = ? and section = ? and id = ?
                        """)
                .params(
                        documents.write(row.values()),
                        by.page,
                        who.userId(),
                        time(),
                        who.shopId(),
                        OPEN,
                        row.section(),
                        row.id())
                .update();
    }

    private void setRemoved(String section, int id, boolean removed, By by) {
        SignedIn who = SignedIn.current();
        sql.sql(
                        """
                        update shop_book_draft_row
                        set removed = ?, version = version + 1, page = ?, changed_by = ?,
                          changed_at = ?
                        where shop_id = ? and slot = ? and section = ? and id = ?
                        """)
                .params(removed, by.page, who.userId(), time(), who.shopId(), OPEN, section, id)
                .update();
    }

    private void place(BookSection section, int id, int place) {
        sql.sql(
                        "update shop_book_draft_row set place = ? where shop_id = ? and slot = ?"
                                + " and section = ? and id = ?")
                .params(place, SignedIn.current().shopId(), OPEN, section.key(), id)
                .update();
    }

    private void touch() {
        SignedIn who = SignedIn.current();
        sql.sql(
                        "update shop_book_draft set version = version + 1, changed_by = ?,"
                                + " changed_at = ? where shop_id = ? and slot = ?")
                .params(who.userId(), time(), who.shopId(), OPEN)
                .update();
    }

    private void delete(String slot) {
        sql.sql("delete from shop_book_draft where shop_id = ? and slot = ?")
                .params(SignedIn.current().shopId(), slot)
                .update();
    }

    private void rename(String slot, String to) {
        sql.sql("update shop_book_draft set slot = ? where shop_id = ? and slot = ?")
                .params(to, SignedIn.current().shopId(), slot)
                .update();
    }

    private OffsetDateTime time() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS).atOffset(ZoneOffset.UTC);
    }
}
