package strokewright.takeoff;

import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What the buttons of a row do to a typed take-off, where no script does it in the page. */
final class TakeOffActions {

    private static final Pattern ACTION =
            Pattern.compile("(add|remove|up|down|computed) ((?:/[A-Za-z0-9]{1,40}){1,6})");

    /** Takes a proposed line out, or puts it back. */
    private static final Pattern PROPOSED =
            Pattern.compile("proposed((?:/[A-Za-z0-9]{1,40}){0,2}) (.{1,200})");

    private TakeOffActions() {}

    /**
     * @param action a verb and the path of a row, or of the list to add to; anything else changes
     *     nothing
     */
    static UnaryOperator<TypedTakeOff> of(String action) {
        Matcher proposed = PROPOSED.matcher(action);
        if (proposed.matches()) {
            return typed -> LeftOut.turned(typed, proposed.group(1), proposed.group(2));
        }
        Matcher m = ACTION.matcher(action);
        if (!m.matches()) {
            return typed -> typed;
        }
        String path = m.group(2);
        return switch (m.group(1)) {
            case "remove" -> typed -> typed.withoutRow(path);
            case "up" -> typed -> typed.moved(path, -1);
            case "down" -> typed -> typed.moved(path, 1);
            case "computed" ->
                    typed ->
                            typed.with(path + "/overrideMinutes", "")
                                    .with(path + "/overrideReason", "");
            default -> typed -> added(typed, path);
        };
    }

    private static TypedTakeOff added(TypedTakeOff typed, String list) {
        if (list.equals("/parts")) {
            String part = "/parts/" + typed.freeKey('p');
            return typed.with(part + "/name", "")
                    .withRow(part + "/operations", 'o', "type", Work.CURVE_EDGE.kind());
        }
        if (list.matches("/parts/[A-Za-z0-9]+/operations")) {
            return typed.withRow(list, 'o', "type", Work.CURVE_EDGE.kind());
        }
        if (list.matches("/parts/[A-Za-z0-9]+/operations/[A-Za-z0-9]+/segments")) {
            return typed.withRow(list, 's', "lengthMm", "");
        }
        if (list.matches("/parts/[A-Za-z0-9]+/fold/bends")) {
            return typed.withRow(list, 'b', "legMm", "");
        }
        return switch (list) {
            case "/assembly" -> typed.withRow(list, 'o', "standard", "");
            case "/extras" -> typed.withRow(list, 'e', "name", "");
            default -> typed;
        };
    }
}
