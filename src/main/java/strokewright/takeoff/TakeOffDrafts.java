package strokewright.takeoff;

import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.SignedIn;

/**
 * What somebody has typed into the take-off page and not yet saved, by place: a new take-off, or an
 * item of a quote that is being changed. Nobody else sees it. What stands under {@code /routes} of
 * a place, its other routes, goes where the place goes.
 */
@Component
public class TakeOffDrafts {

    public static final String ROUTES = "/routes";

    private static final String BEFORE = "/before";

    private final JdbcClient sql;
    private final Documents documents;
    private final Clock clock;

    TakeOffDrafts(JdbcClient sql, Documents documents, Clock clock) {
        this.sql = sql;
        this.documents = documents;
        this.clock = clock;
    }

    public record Draft(TypedTakeOff typed, Instant keptAt) {}

    @Transactional(readOnly = true)
    public Optional<Draft> find(String place) {
        SignedIn who = SignedIn.current();
        return sql.sql(
                        "select form, kept_at from take_off_draft"
                                + " where shop_id = ? and login_id = ? and place = ?")
                .params(who.shopId(), who.userId(), place)
                .query(
                        (row, number) ->
                                new Draft(
                                        read(row.getString(1)),
                                        row.getObject(2, OffsetDateTime.class).toInstant()))
                .optional();
    }

    @Transactional(readOnly = true)
    public boolean hasBefore(String place) {
        return find(place + BEFORE).isPresent();
    }

    /**
     * Keeps what was typed last.
     *
     * @param page which opening of the page it comes from
     * @param turn counts up within one page: of two requests that overtake each other the later one
     *     stands
     */
    @Transactional
    public Instant keep(String place, String page, long turn, TypedTakeOff typed) {
        SignedIn who = SignedIn.current();
        OffsetDateTime now = OffsetDateTime.now(clock);
        sql.sql(
                        """
                        insert into take_off_draft as kept
                          (shop_id, login_id, place, page, turn, form, kept_at)
                        values (?, ?, ?, ?, ?, ?::jsonb, ?)
                        on conflict (shop_id, login_id, place) do update
                        set page = excluded.page, turn = excluded.turn, form = excluded.form,
                          kept_at = excluded.kept_at
                        where kept.page <> excluded.page or kept.turn <= excluded.turn
                        """)
                .params(
                        who.shopId(),
                        who.userId(),
                        place,
                        page,
                        turn,
                        documents.write(typed.stored()),
                        now)
                .update();
        return now.toInstant();
    }

    /** Puts the draft aside, so that a fresh one can be begun and this one fetched back. */
    @Transactional
    public void putAside(String place) {
        if (find(place).isPresent()) {
            forget(place + BEFORE);
            rename(place, place + BEFORE);
        }
    }

    /** Puts a copy aside and goes on with the draft: it can be fetched back. */
    @Transactional
    public void copyAside(String place) {
        SignedIn who = SignedIn.current();
        forget(place + BEFORE);
        sql.sql(
                        """
                        insert into take_off_draft
                          (shop_id, login_id, place, page, turn, form, kept_at)
                        select shop_id, login_id, ? || substr(place, ?), page, turn, form, kept_at
                        from take_off_draft
                        where shop_id = ? and login_id = ?
                          and (place = ? or starts_with(place, ?))
                        """)
                .params(
                        place + BEFORE,
                        place.length() + 1,
                        who.shopId(),
                        who.userId(),
                        place,
                        place + ROUTES)
                .update();
    }

    /** Takes the one that was put aside, and puts the present one aside for it. */
    @Transactional
    public void bringBack(String place) {
        if (hasBefore(place)) {
            rename(place, place + "/between");
            rename(place + BEFORE, place);
            rename(place + "/between", place + BEFORE);
        }
    }

    @Transactional
    public void forget(String place) {
        SignedIn who = SignedIn.current();
        sql.sql(
                        "delete from take_off_draft where shop_id = ? and login_id = ?"
                                + " and (place = ? or starts_with(place, ?))")
                .params(who.shopId(), who.userId(), place, place + ROUTES)
                .update();
    }

    private void rename(String place, String to) {
        SignedIn who = SignedIn.current();
        sql.sql(
                        "update take_off_draft set place = ? || substr(place, ?)"
                                + " where shop_id = ? and login_id = ?"
                                + " and (place = ? or starts_with(place, ?))")
                .params(to, place.length() + 1, who.shopId(), who.userId(), place, place + ROUTES)
                .update();
    }

    private TypedTakeOff read(String form) {
        List<List<String>> fields =
                java.util.Arrays.stream(documents.read(form, String[][].class))
                        .map(List::of)
                        .toList();
        return TypedTakeOff.ofStored(fields);
    }
}
