package strokewright.quote;

import jakarta.persistence.EntityManager;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.SignedIn;
import strokewright.quantity.Money;

/** Reads the drafts of the shop block by block, so that no connection is held between two. */
@Component
public class OpenDrafts {

    private final EntityManager entities;
    private final JdbcClient sql;
    private final Documents documents;

    OpenDrafts(EntityManager entities, JdbcClient sql, Documents documents) {
        this.entities = entities;
        this.sql = sql;
        this.documents = documents;
    }

    /**
     * @param before only quotes with a lower number
     */
    @Transactional(readOnly = true)
    public int count(@Nullable QuoteNumber before) {
        return sql.sql(
                        """
                        select count(*)
                        from quote q
                        join quote_revision r on r.shop_id = q.shop_id and r.quote_id = q.id
                          and r.n = q.revision
                        where q.shop_id = ? and q.state = 'draft' and (q.year, q.n) < (?, ?)
                        """)
                .params(SignedIn.current().shopId(), year(before), n(before))
                .query(Integer.class)
                .single();
    }

    /**
     * Newest first.
     *
     * @param before only quotes with a lower number
     */
    @Transactional(readOnly = true)
    public List<OpenDraft> read(@Nullable QuoteNumber before, int most) {
        List<Head> heads =
                sql.sql(
                                """
                                select r.id, q.year, q.n, r.n, c.name, r.title, r.edition,
                                  r.method_version, r.net, r.currency, r.terms
                                from quote q
                                join quote_revision r on r.shop_id = q.shop_id
                                  and r.quote_id = q.id and r.n = q.revision
                                join customer c on c.shop_id = r.shop_id and c.id = r.customer_id
                                where q.shop_id = ? and q.state = 'draft'
                                  and (q.year, q.n) < (?, ?)
                                order by q.year desc, q.n desc
                                limit ?
                                """)
                        .params(SignedIn.current().shopId(), year(before), n(before), most)
                        .query(
                                (row, number) ->
                                        new Head(
                                                row.getObject(1, UUID.class),
                                                new QuoteNumber(row.getInt(2), row.getInt(3)),
                                                row.getInt(4),
                                                row.getString(5),
                                                row.getString(6),
                                                row.getInt(7),
                                                row.getInt(8),
                                                Money.rounded(
                                                        row.getBigDecimal(9),
                                                        Currency.getInstance(row.getString(10))),
                                                documents.read(row.getString(11), Terms.class)))
                        .list();
        Map<UUID, List<Item>> items =
                entities.createQuery(
                                "from Item i where i.revisionId in :revisions order by i.position",
                                Item.class)
                        .setParameter("revisions", heads.stream().map(Head::revisionId).toList())
                        .getResultStream()
                        .collect(Collectors.groupingBy(Item::revisionId));
        return heads.stream()
                .map(h -> h.with(items.getOrDefault(h.revisionId, List.of())))
                .toList();
    }

    private static int year(@Nullable QuoteNumber before) {
        return before == null ? Integer.MAX_VALUE : before.year();
    }

    private static int n(@Nullable QuoteNumber before) {
        return before == null ? Integer.MAX_VALUE : before.n();
    }

    private record Head(
            UUID revisionId,
            QuoteNumber number,
            int revision,
            String customer,
            String title,
            int edition,
            int methodVersion,
            Money net,
            Terms terms) {

        OpenDraft with(List<Item> items) {
            return new OpenDraft(
                    number,
                    revision,
                    customer,
                    title,
                    edition,
                    methodVersion,
                    net,
                    terms,
                    items.stream().map(Item::priced).toList());
        }
    }
}
