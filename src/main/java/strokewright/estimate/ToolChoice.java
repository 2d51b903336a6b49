package strokewright.estimate;

import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.estimate.ShopBook.ToolSurface;
import strokewright.estimate.TakeOff.Surface;

/** Which tools can do which work. */
public final class ToolChoice {

    /** For curving an edge, in either sense. */
    public static final Set<ToolKind> EDGE =
            kinds(ToolKind.SHRINK, ToolKind.STRETCH, ToolKind.EDGE);

    /** For stretching an edge. */
    public static final Set<ToolKind> STRETCHED_EDGE = kinds(ToolKind.STRETCH, ToolKind.EDGE);

    /** For turning up a flange, in either sense. */
    public static final Set<ToolKind> FLANGE =
            kinds(ToolKind.FLANGE, ToolKind.SHRINK, ToolKind.STRETCH, ToolKind.EDGE);

    public static final Set<ToolKind> RIM = kinds(ToolKind.SHRINK, ToolKind.EDGE);
    public static final Set<ToolKind> CROWN = kinds(ToolKind.DOME);
    public static final Set<ToolKind> FLATTEN = kinds(ToolKind.FLATTEN);

    /** For smoothing an area and for taking out dents. */
    public static final Set<ToolKind> SMOOTH = kinds(ToolKind.SMOOTH);

    private ToolChoice() {}

    /** For the operation, or for what of it the field {@code tool} chooses. */
    static Set<ToolKind> kindsFor(Operation.Formed operation) {
        if (operation instanceof Operation.Dish) {
            return RIM;
        }
        if (operation instanceof Operation.FollowOutline) {
            return EDGE;
        }
        if (operation instanceof Operation.CurveEdge edge) {
            return inSense(EDGE, edge.sense());
        }
        if (operation instanceof Operation.TurnFlange flange) {
            return inSense(FLANGE, flange.sense());
        }
        return operation instanceof Operation.Flatten ? FLATTEN : SMOOTH;
    }

    /**
     * Tools that could do it, in the order of the shop book: the estimator's own choice, else all
     * of the right kind. On a visible surface these are the soft-faced ones; steel-faced ones too
     * where there is no other, or where the shop has a time standard for dressing out their marks.
     */
    static List<Tool> candidates(
            ShopBook book, @Nullable String chosen, Set<ToolKind> kinds, Surface surface) {
        if (chosen != null) {
            return book.tool(chosen).stream().toList();
        }
        List<Tool> fitting = book.tools().stream().filter(t -> kinds.contains(t.kind())).toList();
        if (book.times().dressMarksStandard() != null) {
            return fitting;
        }
        List<Tool> soft = fitting.stream().filter(t -> !marks(t, surface)).toList();
        return soft.isEmpty() ? fitting : soft;
    }

    /** A steel-faced tool leaves marks that a visible surface must not keep. */
    static boolean marks(Tool tool, Surface surface) {
        return surface == Surface.VISIBLE && tool.surface() == ToolSurface.STEEL_FACED;
    }

    /** Without the tool of the other sense. */
    static Set<ToolKind> inSense(Set<ToolKind> kinds, @Nullable Sense sense) {
        Set<ToolKind> left = EnumSet.copyOf(kinds);
        left.remove(sense == Sense.STRETCH ? ToolKind.SHRINK : ToolKind.STRETCH);
        return left;
    }

    private static Set<ToolKind> kinds(ToolKind... kinds) {
        return Collections.unmodifiableSet(EnumSet.copyOf(List.of(kinds)));
    }
}
