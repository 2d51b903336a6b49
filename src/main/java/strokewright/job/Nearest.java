package strokewright.job;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;

/** Puts what is most like a typed word first, by the letters that would have to change. */
final class Nearest {

    private Nearest() {}

    /** The more alike the earlier; the order of equals stays. */
    static <T> List<T> first(String word, List<T> all, Function<T, String> name) {
        String typed = plain(word);
        return all.stream()
                .sorted(Comparator.comparingDouble(one -> distance(typed, plain(name.apply(one)))))
                .toList();
    }

    /**
     * From 0, the same, to 1, nothing alike. A name of which every typed word begins one counts as
     * near: "J. Miller" is likely "Jane Miller".
     */
    private static double distance(String a, String b) {
        int longest = Math.max(a.length(), b.length());
        double whole = longest == 0 ? 0 : (double) changes(a, b) / longest;
        List<String> words = Arrays.asList(b.split(" "));
        boolean begins =
                Arrays.stream(a.split(" "))
                        .allMatch(t -> words.stream().anyMatch(w -> w.startsWith(t)));
        return begins ? whole / 4 : whole;
    }

    /** Levenshtein's distance. */
    static int changes(String a, String b) {
        int[] before = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            before[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int[] now = new int[b.length() + 1];
            now[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int changed = before[j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                now[j] = Math.min(changed, Math.min(before[j], now[j - 1]) + 1);
            }
            before = now;
        }
        return before[b.length()];
    }

    private static String plain(String text) {
        return text.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", " ").strip();
    }
}
