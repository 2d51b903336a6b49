package strokewright.quote;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Iterator;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.MemoryCacheImageInputStream;
import strokewright.quantity.InvalidInput;

/** What a drawing may come as. Told by the content alone: a name says nothing for sure. */
enum AttachmentKind {
    PDF("application/pdf", "pdf"),
    PNG("image/png", "png"),
    JPEG("image/jpeg", "jpg"),
    SVG("image/svg+xml", "svg");

    private static final int MOST_SIDE = 30_000;
    private static final long MOST_PIXELS = 150_000_000;
    private static final byte[] PDF_HEAD = ascii("%PDF-");
    private static final byte[] PDF_END = ascii("%%EOF");
    private static final byte[] PDF_ENCRYPT = ascii("/Encrypt");
    private static final byte[] PNG_HEAD = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    private static final byte[] PNG_END = ascii("IEND");
    private static final byte[] JPEG_END = {(byte) 0xff, (byte) 0xd9};

    /** Cameras put a few things behind the picture. */
    private static final int PICTURE_TAIL = 1 << 16;

    private static final byte[] JPEG_HEAD = {(byte) 0xff, (byte) 0xd8, (byte) 0xff};

    /** How far from its end a PDF says that it ends (PDF 1.7, implementation note 18). */
    private static final int PDF_TAIL = 1024;

    private final String type;
    private final String ending;

    AttachmentKind(String type, String ending) {
        this.type = type;
        this.ending = ending;
    }

    String type() {
        return type;
    }

    String ending() {
        return ending;
    }

    /**
     * @throws InvalidInput with the reason when it is none of them, or one that is not to be kept
     */
    static AttachmentKind of(byte[] content) {
        if (startsWith(content, PDF_HEAD)) {
            return pdf(content);
        }
        if (startsWith(content, PNG_HEAD)) {
            return picture(content, PNG, PNG_END);
        }
        if (startsWith(content, JPEG_HEAD)) {
            return picture(content, JPEG, JPEG_END);
        }
        if (SvgCheck.looksLikeXml(content)) {
            SvgCheck.requireHarmless(content);
            return SVG;
        }
        throw new InvalidInput(
                "", "is none of what is kept here: a drawing as PDF, PNG, JPEG or SVG");
    }

    private static AttachmentKind pdf(byte[] content) {
        int tail = Math.max(0, content.length - PDF_TAIL);
        if (indexOf(content, PDF_END, tail) < 0) {
            throw new InvalidInput("", "is a PDF that breaks off: send the whole file");
        }
        for (int at = 0; (at = indexOf(content, PDF_ENCRYPT, at)) >= 0; at++) {
            int next = at + PDF_ENCRYPT.length;
            if (next < content.length && !Character.isLetterOrDigit(content[next])) {
                throw new InvalidInput(
                        "",
                        "is an encrypted PDF, which the shop may not open later: save it"
                                + " without a password");
            }
        }
        return PDF;
    }

    /** Only its head is read: a small file can claim a huge picture. */
    private static AttachmentKind picture(byte[] content, AttachmentKind kind, byte[] end) {
        if (indexOf(content, end, Math.max(0, content.length - PICTURE_TAIL)) < 0) {
            throw new InvalidInput("", "is a picture that breaks off: send the whole file");
        }
        Iterator<ImageReader> readers = ImageIO.getImageReadersByMIMEType(kind.type);
        ImageReader reader = readers.next();
        try (var in = new MemoryCacheImageInputStream(new ByteArrayInputStream(content))) {
            reader.setInput(in, true, true);
            long width = reader.getWidth(0);
            long height = reader.getHeight(0);
            if (width > MOST_SIDE || height > MOST_SIDE || width * height > MOST_PIXELS) {
                throw new InvalidInput(
                        "",
                        "is a picture of %d by %d pixels: at most 150 million"
                                .formatted(width, height));
            }
            return kind;
        } catch (IOException | IllegalArgumentException | IndexOutOfBoundsException e) {
            throw new InvalidInput("", "is a picture that cannot be read");
        } finally {
            reader.dispose();
        }
    }

    private static boolean startsWith(byte[] content, byte[] head) {
        return content.length >= head.length
                && Arrays.equals(content, 0, head.length, head, 0, head.length);
    }

    private static int indexOf(byte[] content, byte[] wanted, int from) {
        for (int i = from; i <= content.length - wanted.length; i++) {
            if (content[i] == wanted[0]
                    && Arrays.equals(content, i, i + wanted.length, wanted, 0, wanted.length)) {
                return i;
            }
        }
        return -1;
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }
}
