package strokewright.office;

/** What text must be to stand in a cell, a sheet's name or a footer unharmed. */
final class Texts {

    private static final int LONGEST_IN_A_CELL = 32_767;
    private static final int LONGEST_SHEET_NAME = 31;

    private Texts() {}

    /**
     * Whether a spreadsheet program would take the text for a formula once it is edited or saved as
     * separated values; it is then marked as text by a quote that is not part of it.
     */
    static boolean looksLikeFormula(String text) {
        return !text.isEmpty() && "=+-@\t\r".indexOf(text.charAt(0)) >= 0;
    }

    /**
     * As separated values have it: with an apostrophe in front of what a spreadsheet program would
     * take for a formula, and of what {@link #unguarded} would otherwise take one away from.
     */
    static String guarded(String text) {
        return looksLikeFormula(withoutApostrophes(text)) ? "'" + text : text;
    }

    /** The text that {@link #guarded} was given. */
    static String unguarded(String text) {
        return text.startsWith("'") && looksLikeFormula(withoutApostrophes(text))
                ? text.substring(1)
                : text;
    }

    private static String withoutApostrophes(String text) {
        int begin = 0;
        while (begin < text.length() && text.charAt(begin) == '\'') {
            begin++;
        }
        return text.substring(begin);
    }

    /** {@code _x0041_} would be read as a letter (ECMA-376, part 1, ST_Xstring). */
    static String escaped(String text) {
        return text.indexOf("_x") < 0 ? text : text.replaceAll("_(?=x[0-9A-Fa-f]{4}_)", "_x005F_");
    }

    static String fitting(String text) {
        return text.length() <= LONGEST_IN_A_CELL ? text : text.substring(0, LONGEST_IN_A_CELL);
    }

    /** Sheet names know no {@code []:*?/\}, no quote at either end, and at most 31 characters. */
    static String sheetName(String wanted) {
        String name = wanted.replaceAll("[\\[\\]:*?/\\\\\\p{Cntrl}]", " ").strip();
        name = name.replaceAll("^'+|'+$", "");
        if (name.length() > LONGEST_SHEET_NAME) {
            name = cut(name, LONGEST_SHEET_NAME).strip().replaceAll("'+$", "");
        }
        return name.isEmpty() ? "Sheet" : name;
    }

    /** At most so many characters, without tearing a pair of surrogates apart. */
    static String cut(String text, int length) {
        if (text.length() <= length) {
            return text;
        }
        return text.substring(
                0, Character.isHighSurrogate(text.charAt(length - 1)) ? length - 1 : length);
    }

    /** In headers and footers an ampersand begins a command. */
    static String inMargin(String text) {
        return text.replace("&", "&&");
    }
}
