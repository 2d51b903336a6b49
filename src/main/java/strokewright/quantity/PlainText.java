package strokewright.quantity;

/** Which characters a text of people may hold. */
public final class PlainText {

    private PlainText() {}

    /**
     * Control characters but tabs and line ends, non-characters, which no database stores, and
     * marks that {@linkplain #turns turn} the reading direction.
     */
    public static boolean isForeign(char c) {
        return Character.isISOControl(c) && c != '\t' && c != '\r' && c != '\n'
                || c >= '\ufffe'
                || turns(c);
    }

    /**
     * Marks that embed, override or isolate a reading direction: with them a text shows otherwise
     * than it is kept (Unicode Technical Report 36, on bidirectional text spoofing).
     */
    private static boolean turns(char c) {
        return c >= '\u202a' && c <= '\u202e' || c >= '\u2066' && c <= '\u2069';
    }

    /** Without the marks that nobody types but that come along when text is pasted. */
    public static String withoutTurns(String text) {
        return text.chars()
                .filter(c -> !turns((char) c))
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
