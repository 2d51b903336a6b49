package strokewright.quote;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.takeoff.Situations;

/**
 * Quotes of all kinds, put straight into the tables as the service may, so that their dates can lie
 * anywhere. Call it inside of a transaction of the shop.
 */
final class SeededQuotes {

    static final List<String> CUSTOMERS =
            List.of(
                    "Harbour Theatre",
                    "Fernhill Fountain Makers",
                    "Müller & Söhne",
                    "100% Blech_Bau");
    static final List<String> TITLES =
            List.of("Round frame", "Bowl \\ deep", "=1+1 cover", "Große Schüssel", "Repair PANEL");
    static final List<String> KINDS =
            List.of("curve-edge", "dish", "turn-flange", "smooth", "Guillotine cut", "TIG weld");
    static final List<Double> THICKNESSES = List.of(0.8, 1.0, 1.5, 2.0);
    static final Instant NOON = Instant.parse("2026-03-15T11:00:00Z");

    private static final String PART =
            """
            {"title":"Round sign frame","quantities":[1,5,20],
             "parts":[{"name":"Rim","grade":"AL99.5-O","thicknessMm":2.0,
               "blank":{"lengthMm":1950,"widthMm":120},
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"heightMm":40},
                {"type":"standard","standard":"Guillotine cut","amount":4}]}]}
            """;

    private final JdbcClient sql;
    private final UUID shop;
    private final List<UUID> people;
    private final ShopBook book;
    private final TakeOff takeOff;
    private final Estimate estimate;
    private final List<UUID> customers = new ArrayList<>();

    SeededQuotes(JdbcClient sql, UUID shop, List<UUID> people, ShopBook book) {
        this.sql = sql;
        this.shop = shop;
        this.people = people;
        this.book = book;
        this.takeOff = Situations.takeOff(PART);
        this.estimate = Estimating.estimate(takeOff, book);
    }

    /** One item's facts. */
    record Piece(
            String title,
            boolean option,
            List<String> grades,
            List<String> kinds,
            @Nullable Double thicknessMm,
            @Nullable Double sizeMm) {}

    record Made(
            QuoteNumber number,
            State state,
            Instant at,
            @Nullable LocalDate validUntil,
            int customer,
            UUID customerId,
            UUID estimator,
            String title,
            @Nullable String contact,
            @Nullable String reference,
            @Nullable String orderNumber,
            @Nullable String note,
            BigDecimal net,
            List<Piece> pieces) {

        String customerName() {
            return CUSTOMERS.get(customer);
        }
    }

    List<Made> make(Random random, int count) {
        for (String name : CUSTOMERS) {
            UUID id = UUID.randomUUID();
            customers.add(id);
            sql.sql(
                            "insert into customer (shop_id, id, name, card, created_at, version)"
                                    + " values (?, ?, ?, jsonb_build_object('id', ?::text, 'name',"
                                    + " ?::text), now(), 0)")
                    .params(shop, id, name, id.toString(), name)
                    .update();
        }
        List<Made> made = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            made.add(keep(one(random, i)));
        }
        return made;
    }

    private Made one(Random random, int i) {
        State state = State.values()[random.nextInt(State.values().length)];
        if (state == State.LAPSED) {
            state = State.ISSUED;
        }
        Instant at = NOON.plusSeconds(random.nextInt(200 * 86400) - 100L * 86400);
        if (random.nextInt(8) == 0) {
            at = Instant.parse("2026-02-28T23:00:00Z").minusMillis(random.nextInt(2));
        }
        int customer = random.nextInt(CUSTOMERS.size());
        List<Piece> pieces = new ArrayList<>();
        for (int item = 0; item < 1 + random.nextInt(3); item++) {
            pieces.add(piece(random));
        }
        return new Made(
                new QuoteNumber(
                        2025 + random.nextInt(2),
                        random.nextInt(6) == 0 ? 9_990 + i : 1 + 14 * i + random.nextInt(14)),
                state,
                at,
                state == State.DRAFT && random.nextBoolean()
                        ? null
                        : LocalDate.ofInstant(at, ZoneOffset.UTC).plusDays(random.nextInt(60)),
                customer,
                customers.get(customer),
                people.get(random.nextInt(people.size())),
                pick(random, TITLES) + " " + i,
                maybe(random, "Ms Öz" + i % 3),
                maybe(random, "REF/" + i % 7),
                state == State.ACCEPTED ? maybe(random, "PO-7" + i % 5) : null,
                maybe(random, "told by phone, 5% off " + i % 4),
                new BigDecimal(random.nextInt(400_000)).movePointLeft(2),
                pieces);
    }

    private Piece piece(Random random) {
        List<String> grades = new ArrayList<>();
        for (int g = 0; g < 1 + random.nextInt(2); g++) {
            grades.add(book.grades().get(random.nextInt(book.grades().size())).code());
        }
        List<String> kinds =
                Stream.concat(KINDS.stream(), estimate.operations().stream().map(ItemFacts::kind))
                        .distinct()
                        .filter(k -> random.nextInt(4) > 0)
                        .toList();
        return new Piece(
                pick(random, TITLES),
                random.nextInt(4) == 0,
                grades.stream().distinct().toList(),
                kinds,
                random.nextInt(9) == 0 ? null : pick(random, THICKNESSES),
                random.nextInt(9) == 0 ? null : Double.valueOf(100 + random.nextInt(1900)));
    }

    private static <T> T pick(Random random, List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    private static @Nullable String maybe(Random random, String text) {
        return random.nextInt(3) == 0 ? null : text;
    }

    private Made keep(Made made) {
        UUID quote = UUID.randomUUID();
        UUID revision = UUID.randomUUID();
        var at = made.at.atOffset(ZoneOffset.UTC);
        sql.sql(
                        """
                        insert into quote (shop_id, id, year, n, revision, state, valid_until,
                          contact, created_at, created_by, changed_at, version)
                        values (?, ?, ?, ?, 1, ?, ?, ?, ?, ?, ?, 0)
                        """)
                .params(
                        shop,
                        quote,
                        made.number.year(),
                        made.number.n(),
                        made.state.word(),
                        made.state == State.DRAFT ? null : made.validUntil,
                        made.contact,
                        at,
                        made.estimator,
                        at)
                .update();
        sql.sql(
                        """
                        insert into quote_revision (shop_id, id, quote_id, n, state, title,
                          customer_id, edition, method_version, format_version, feasible, currency,
                          net, tax, main_quantity, information, changed_at, changed_by, terms,
                          valid_until)
                        values (?, ?, ?, 1, 'draft', ?, ?, ?, ?, 1, true, 'EUR', ?, 0, 1, 'drawing',
                          ?, ?, jsonb_strip_nulls(jsonb_build_object('customerReference', ?::text,
                            'leadTimeDays', 12)), ?)
                        """)
                .params(
                        shop,
                        revision,
                        quote,
                        made.title,
                        made.customerId,
                        book.edition(),
                        Estimating.METHOD_VERSION,
                        made.net,
                        at,
                        made.estimator,
                        made.reference,
                        made.validUntil)
                .update();
        for (int i = 0; i < made.pieces.size(); i++) {
            keep(revision, i + 1, made.pieces.get(i));
        }
        if (made.state != State.DRAFT) {
            sql.sql(
                            """
                            insert into addressee (shop_id, revision_id, name, contact)
                            values (?, ?, ?, ?)
                            """)
                    .params(shop, revision, made.customerName(), made.contact)
                    .update();
            sql.sql(
                            """
                            update quote_revision set state = 'issued', issued_at = ?, issued_by = ?
                            where shop_id = ? and id = ?
                            """)
                    .params(at, made.estimator, shop, revision)
                    .update();
        }
        if (made.state != State.DRAFT && made.state != State.ISSUED) {
            decide(revision, made);
        }
        if (made.note != null) {
            sql.sql(
                            "insert into quote_note (shop_id, id, quote_id, at, by, text) values (?,"
                                    + " ?, ?, ?, ?, ?)")
                    .params(shop, UUID.randomUUID(), quote, at, made.estimator, made.note)
                    .update();
        }
        return made;
    }

    private void keep(UUID revision, int position, Piece piece) {
        sql.sql(
                        """
                        insert into quote_item (shop_id, id, revision_id, position, optional, title,
                          take_off, estimate, grades, kinds, thickness_mm, size_mm, hours)
                        values (?, ?, ?, ?, ?, ?, ?::jsonb, ?::jsonb, ?, ?, ?, ?, ?)
                        """)
                .params(
                        shop,
                        UUID.randomUUID(),
                        revision,
                        position,
                        piece.option,
                        piece.title,
                        Situations.JSON.writeValueAsString(takeOff),
                        Situations.JSON.writeValueAsString(estimate),
                        piece.grades.toArray(String[]::new),
                        piece.kinds.toArray(String[]::new),
                        piece.thicknessMm,
                        piece.sizeMm,
                        estimate.quantities().get(0).hours().plan())
                .update();
    }

    private void decide(UUID revision, Made made) {
        String outcome =
                switch (made.state) {
                    case ACCEPTED ->
                            Situations.JSON.writeValueAsString(
                                    new Outcome(
                                            Outcome.Kind.ACCEPTED,
                                            LocalDate.ofInstant(made.at, ZoneOffset.UTC),
                                            null,
                                            null,
                                            null,
                                            new Order(
                                                    made.orderNumber,
                                                    List.of(new Order.Line(1, 1)),
                                                    null,
                                                    QuoteDocument.Total.of(
                                                            estimate.quantities().get(0)))));
                    case DECLINED -> declined(Outcome.Kind.DECLINED, Outcome.Reason.PRICE, made);
                    default -> declined(Outcome.Kind.WITHDRAWN, null, made);
                };
        sql.sql(
                        """
                        insert into quote_outcome (shop_id, id, revision_id, kind, decided_on,
                          outcome, net, at, by)
                        values (?, ?, ?, ?, ?, ?::jsonb, ?, ?, ?)
                        """)
                .params(
                        shop,
                        UUID.randomUUID(),
                        revision,
                        made.state.word(),
                        LocalDate.ofInstant(made.at, ZoneOffset.UTC),
                        outcome,
                        made.state == State.ACCEPTED ? made.net : null,
                        made.at.atOffset(ZoneOffset.UTC),
                        made.estimator)
                .update();
    }

    private static String declined(Outcome.Kind kind, Outcome.@Nullable Reason reason, Made made) {
        return Situations.JSON.writeValueAsString(
                new Outcome(
                        kind,
                        LocalDate.ofInstant(made.at, ZoneOffset.UTC),
                        reason,
                        null,
                        null,
                        null));
    }
}
