package strokewright.quote;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Iterator;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.Documents;
import strokewright.access.SignedIn;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;
import strokewright.web.VersionTag;

/** The letterhead of the shop of whoever is signed in. */
@Component
public class Letterheads {

    private final JdbcClient sql;
    private final Documents documents;

    Letterheads(JdbcClient sql, Documents documents) {
        this.sql = sql;
        this.documents = documents;
    }

    /** As read, with the tag that a change has to bring back. */
    public record Tagged(Letterhead letterhead, VersionTag version) {}

    /** The picture at the head of documents. */
    public record Logo(byte[] picture, String type) {

        private static final int LARGEST = 1 << 20;
        private static final int MOST_PIXELS = 4000;

        /**
         * @throws InvalidInput when it is no PNG or JPEG that a document can carry
         */
        static Logo of(byte[] picture) {
            if (picture.length > LARGEST) {
                throw new InvalidInput("", "is too large: a logo may have at most 1 MiB");
            }
            try (ImageInputStream in =
                    ImageIO.createImageInputStream(new ByteArrayInputStream(picture))) {
                Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
                if (readers.hasNext()) {
                    ImageReader reader = readers.next();
                    String format = reader.getFormatName().toLowerCase(Locale.ROOT);
                    if (format.equals("png") || format.equals("jpeg")) {
                        return read(reader, in, picture, "image/" + format);
                    }
                }
            } catch (IOException | RuntimeException e) {
                throw e instanceof InvalidInput known ? known : unreadable();
            }
            throw unreadable();
        }

        /** The size is looked at before a pixel is read: a small file can claim a huge picture. */
        private static Logo read(
                ImageReader reader, ImageInputStream in, byte[] picture, String type)
                throws IOException {
            try {
                reader.setInput(in);
                if (reader.getWidth(0) > MOST_PIXELS || reader.getHeight(0) > MOST_PIXELS) {
                    throw new InvalidInput(
                            "", "is too large: a logo may have at most 4000 by 4000 pixels");
                }
                reader.read(0);
                return new Logo(picture, type);
            } finally {
                reader.dispose();
            }
        }

        private static InvalidInput unreadable() {
            return new InvalidInput("", "is no picture that can be read: a PNG or a JPEG");
        }
    }

    @Transactional(readOnly = true)
    public Tagged get() {
        return sql.sql("select letterhead, version from letterhead where shop_id = ?")
                .param(SignedIn.current().shopId())
                .query(
                        (row, number) ->
                                new Tagged(
                                        documents.read(row.getString(1), Letterhead.class),
                                        new VersionTag(row.getInt(2))))
                .optional()
                .orElseGet(() -> new Tagged(Letterhead.unsaid(), new VersionTag(0)));
    }

    Letterhead current() {
        return get().letterhead();
    }

    /**
     * @throws InvalidInput with every fault
     * @throws Problem 412 when somebody changed it meanwhile, 428 without tag
     */
    @Transactional
    public Tagged change(Letterhead letterhead, @Nullable String ifMatch) {
        Tagged before = get();
        before.version.mustMatch(ifMatch);
        letterhead.faults().throwIfAny();
        int changed =
                sql.sql(
                                """
                                insert into letterhead as l (shop_id, letterhead, version)
                                values (?, ?::jsonb, 1)
                                on conflict (shop_id) do update
                                  set letterhead = excluded.letterhead, version = l.version + 1
                                  where l.version = ?
                                """)
                        .params(
                                SignedIn.current().shopId(),
                                documents.write(letterhead),
                                before.version.version())
                        .update();
        if (changed == 0) {
            throw Problem.changedMeanwhile();
        }
        return get();
    }

    @Transactional(readOnly = true)
    public Optional<Logo> logo() {
        return sql.sql(
                        """
                        select logo, logo_type from letterhead
                        where shop_id = ? and logo is not null
                        """)
                .param(SignedIn.current().shopId())
                .query((row, number) -> new Logo(row.getBytes(1), row.getString(2)))
                .optional();
    }

    /**
     * @param logo null for none
     * @throws InvalidInput when it is no picture that a document can carry
     */
    @Transactional
    public void change(@Nullable Logo logo) {
        sql.sql(
                        """
                        insert into letterhead as l (shop_id, letterhead, logo, logo_type, version)
                        values (?, ?::jsonb, ?, ?, 1)
                        on conflict (shop_id) do update
                          set logo = excluded.logo, logo_type = excluded.logo_type,
                            version = l.version + 1
                        """)
                .params(
                        SignedIn.current().shopId(),
                        documents.write(Letterhead.unsaid()),
                        logo == null ? null : logo.picture,
                        logo == null ? null : logo.type)
                .update();
    }
}
