package strokewright.job;

import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import strokewright.web.Drawing;

/**
 * An address as a QR code (ISO/IEC 18004), drawn in lines so that it prints sharp at any size.
 *
 * @param address as it stands beside the code, in letters
 * @param svg with its quiet zone
 */
record RouteCardCode(String address, String svg) {

    /** Modules that stay white around a code, ISO/IEC 18004. */
    private static final int QUIET = 4;

    /**
     * @param id unique on its page
     * @param opens what the address opens, in a few words
     */
    static RouteCardCode of(String address, String id, String opens) {
        ByteMatrix modules = modules(address);
        double size = modules.getWidth() + 2.0 * QUIET;
        Drawing drawing = new Drawing(size, size, id, opens, "Code that opens " + address);
        drawing.path("fill", dark(modules));
        return new RouteCardCode(address, drawing.svg());
    }

    /** Level M: about 15 % of it may be dirty or torn and it still reads. */
    private static ByteMatrix modules(String address) {
        try {
            return Encoder.encode(
                            address,
                            ErrorCorrectionLevel.M,
                            Map.of(EncodeHintType.CHARACTER_SET, StandardCharsets.UTF_8.name()))
                    .getMatrix();
        } catch (WriterException e) {
            throw new IllegalArgumentException("too long for a code: " + address, e);
        }
    }

    /** Dark modules that touch in a row are one box, or fine white lines would part them. */
    private static String dark(ByteMatrix modules) {
        StringBuilder path = new StringBuilder();
        for (int y = 0; y < modules.getHeight(); y++) {
            int x = 0;
            while (x < modules.getWidth()) {
                int from = x;
                while (x < modules.getWidth() && modules.get(x, y) == 1) {
                    x++;
                }
                if (x > from) {
                    int wide = x - from;
                    path.append("M%d %dh%dv1h-%dz".formatted(from + QUIET, y + QUIET, wide, wide));
                }
                x++;
            }
        }
        return path.toString();
    }
}
