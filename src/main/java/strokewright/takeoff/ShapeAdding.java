package strokewright.takeoff;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.FromShape;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/**
 * A typed take-off to which a shape was added: its parts and lines are rows like any other.
 *
 * @param typed with the shape in it and the shape's sizes taken out of its panel
 * @param parts paths of the parts that are new
 * @param lines paths of the assembly lines that are new
 * @param replaced path of the one untouched part that the page began with; null where there was
 *     none
 */
record ShapeAdding(
        TypedTakeOff typed, List<String> parts, List<String> lines, @Nullable String replaced) {

    /** What a fresh part holds without anybody having typed into it. */
    private static final Set<String> CHOSEN =
            Set.of(
                    "grade",
                    "surface",
                    "edge",
                    "tolerance",
                    "supply",
                    "type",
                    "sense",
                    "grain",
                    "irreplaceable");

    /** Of the panel, what the next shape likely has too. */
    private static final Set<String> STAYS = Set.of("type", "grade", "thicknessMm");

    private static final Set<String> SAYS_NO_SIZE =
            Set.of("type", "grade", "thicknessMm", "flange", "rim", "sense");

    /**
     * @param highestKey of all rows that the page knows, removed ones included
     */
    static ShapeAdding of(
            TypedTakeOff typed, FromShape shape, ShopBook book, Numbers numbers, int highestKey) {
        List<String> before = typed.rows("/parts");
        String replaced =
                before.size() == 1 && isUntouched(typed, before.get(0)) ? before.get(0) : null;
        List<Map.Entry<String, String>> rows =
                TakeOffTyping.of(
                        shape,
                        typed.at(ShapeReading.AT + "/thicknessMm").strip(),
                        book,
                        numbers,
                        Math.max(highestKey, typed.highestKey()));
        TypedTakeOff added =
                (replaced == null ? typed : typed.withoutRow(replaced))
                        .without(
                                path ->
                                        path.startsWith(ShapeReading.AT + "/")
                                                && !STAYS.contains(lastStep(path)))
                        .plus(rows);
        return new ShapeAdding(
                added, fresh(added, typed, "/parts"), fresh(added, typed, "/assembly"), replaced);
    }

    static boolean isUntouched(TypedTakeOff typed, String part) {
        return !typed.says(
                part, path -> path.contains(LeftOut.AT) || CHOSEN.contains(lastStep(path)));
    }

    /** Whether a size stands in the panel. */
    static boolean isHalfTyped(TypedTakeOff typed) {
        return typed.says(ShapeReading.AT, path -> SAYS_NO_SIZE.contains(lastStep(path)));
    }

    private static List<String> fresh(TypedTakeOff now, TypedTakeOff before, String list) {
        List<String> rows = new ArrayList<>(now.rows(list));
        rows.removeAll(before.rows(list));
        return List.copyOf(rows);
    }

    private static String lastStep(String path) {
        return path.substring(path.lastIndexOf('/') + 1);
    }
}
