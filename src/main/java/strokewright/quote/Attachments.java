package strokewright.quote;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Semaphore;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/**
 * Drawings that came with quotes, kept as they came. They are never shown by the service, only
 * given back.
 */
@Component
public class Attachments {

    static final int LARGEST = 10 << 20;
    private static final int MOST = 20;
    private static final int LONGEST_NAME = 200;
    private static final int CHUNK = 1 << 20;

    /** So many are held in memory at the same time; the next one waits. */
    private final Semaphore places = new Semaphore(3);

    private final JdbcClient sql;
    private final StoredQuotes stored;
    private final TransactionTemplate transaction;

    Attachments(JdbcClient sql, StoredQuotes stored, PlatformTransactionManager transactions) {
        this.sql = sql;
        this.stored = stored;
        this.transaction = new TransactionTemplate(transactions);
    }

    /**
     * Keeps a drawing; the same one again changes nothing.
     *
     * @param in read to its end, or until it is too large; one that does not wait for anybody
     * @throws InvalidInput with the reason when it is nothing that is kept here
     * @throws Problem 404 when there is no such quote, 409 when it has too many already
     */
    Attachment add(String number, @Nullable String name, InputStream in) throws IOException {
        places.acquireUninterruptibly();
        try {
            byte[] content = in.readNBytes(LARGEST + 1);
            if (content.length > LARGEST) {
                throw new InvalidInput("", "is too large: a drawing may have at most 10 MB");
            }
            if (content.length == 0) {
                throw new InvalidInput("", "is missing: a drawing as PDF, PNG, JPEG or SVG");
            }
            AttachmentKind kind = AttachmentKind.of(content);
            return transaction.execute(
                    status -> keep(stored.quote(number), tidy(name, kind), kind, content));
        } finally {
            places.release();
        }
    }

    private Attachment keep(Quote quote, String name, AttachmentKind kind, byte[] content) {
        SignedIn who = SignedIn.current();
        byte[] hash = hash(content);
        sql.sql("select pg_advisory_xact_lock(hashtextextended(?, 0))")
                .param("attachments " + quote.id())
                .query((row, n) -> true)
                .single();
        List<Attachment> there = of(quote);
        String digits = HexFormat.of().formatHex(hash);
        for (Attachment known : there) {
            if (known.sha256().equals(digits)) {
                return known;
            }
        }
        if (there.size() >= MOST) {
            throw Problem.wrongState("A quote keeps at most " + MOST + " drawings.");
        }
        Attachment kept =
                new Attachment(
                        UUID.randomUUID(),
                        name,
                        kind.type(),
                        content.length,
                        digits,
                        stored.now(),
                        who.displayName());
        sql.sql(
                        """
                        insert into quote_attachment
                          (shop_id, id, quote_id, name, type, size, sha256, content, at, by)
                        values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
                        """)
                .params(
                        who.shopId(),
                        kept.id(),
                        quote.id(),
                        kept.name(),
                        kept.type(),
                        kept.size(),
                        hash,
                        content,
                        OffsetDateTime.ofInstant(kept.at(), ZoneOffset.UTC),
                        who.userId())
                .update();
        return kept;
    }

    /**
     * The first one first.
     *
     * @throws Problem 404 when there is no such quote
     */
    @Transactional(readOnly = true)
    public List<Attachment> of(String number) {
        return of(stored.quote(number));
    }

    private List<Attachment> of(Quote quote) {
        return sql.sql(
                        """
                        select a.id, a.name, a.type, a.size, a.sha256, a.at, l.display_name
                        from quote_attachment a
                        join login l on l.shop_id = a.shop_id and l.id = a.by
                        where a.shop_id = ? and a.quote_id = ?
                        order by a.at, a.id
                        """)
                .params(SignedIn.current().shopId(), quote.id())
                .query(
                        (row, n) ->
                                new Attachment(
                                        row.getObject(1, UUID.class),
                                        row.getString(2),
                                        row.getString(3),
                                        row.getInt(4),
                                        HexFormat.of().formatHex(row.getBytes(5)),
                                        row.getObject(6, OffsetDateTime.class).toInstant(),
                                        row.getString(7)))
                .list();
    }

    /**
     * @throws Problem 404 when there is no such quote or attachment
     */
    @Transactional(readOnly = true)
    public Attachment get(String number, UUID id) {
        return of(stored.quote(number)).stream()
                .filter(a -> a.id().equals(id))
                .findFirst()
                .orElseThrow(() -> Problem.notFound("Attachment " + id + " of quote " + number));
    }

    /** Writes the content out piece by piece, so that no reader holds the whole of it. */
    void copy(Attachment attachment, OutputStream out) throws IOException {
        for (int from = 0; from < attachment.size(); from += CHUNK) {
            out.write(chunk(attachment.id(), from));
        }
    }

    private byte[] chunk(UUID id, int from) {
        return transaction.execute(
                status ->
                        sql.sql(
                                        """
                                        select substring(content from ? for ?)
                                        from quote_attachment where shop_id = ? and id = ?
                                        """)
                                .params(from + 1, CHUNK, SignedIn.current().shopId(), id)
                                .query(byte[].class)
                                .single());
    }

    /**
     * Throws one away that came by mistake.
     *
     * @throws Problem 404 when there is none, 409 once a revision was issued
     */
    @Transactional
    public void remove(String number, UUID id) {
        Quote quote = stored.quote(number);
        get(number, id);
        if (stored.revisions(quote).stream().anyMatch(r -> r.state() != State.DRAFT)) {
            throw Problem.wrongState("The quote was issued: its drawings stay with it.");
        }
        sql.sql("delete from quote_attachment where shop_id = ? and id = ?")
                .params(SignedIn.current().shopId(), id)
                .update();
    }

    /** Without path, without what is not printed, and with the ending of what it is. */
    private static String tidy(@Nullable String name, AttachmentKind kind) {
        String plain = name == null ? "" : name;
        plain = plain.substring(Math.max(plain.lastIndexOf('/'), plain.lastIndexOf('\\')) + 1);
        plain = plain.replaceAll("[\\p{Cntrl}\\p{Cf}\"]", "").strip();
        String ending = "." + kind.ending();
        if (plain.isEmpty() || plain.startsWith(".")) {
            return "drawing" + ending;
        }
        if (plain.length() > LONGEST_NAME - ending.length()) {
            plain = plain.substring(0, LONGEST_NAME - ending.length() - 1);
        }
        String low = plain.toLowerCase(java.util.Locale.ROOT);
        boolean right =
                low.endsWith(ending) || kind == AttachmentKind.JPEG && low.endsWith(".jpeg");
        return right ? plain : plain + ending;
    }

    private static byte[] hash(byte[] content) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(content);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
