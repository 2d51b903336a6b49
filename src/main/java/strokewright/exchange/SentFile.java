package strokewright.exchange;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * A file as somebody sent it.
 *
 * @param name null where a program sent it without one
 */
public record SentFile(byte[] content, @Nullable String name, @Nullable String mediaType) {

    String digest() {
        return digest(content);
    }

    static String digest(byte[]... all) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            for (byte[] one : all) {
                digest.update(one);
                digest.update((byte) 0);
            }
            return HexFormat.of().formatHex(digest.digest(), 0, 16);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
