package strokewright.estimate;

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
final class ToolChoice {

    static final Set<ToolKind> CROWN = EnumSet.of(ToolKind.DOME);

    private ToolChoice() {}

    static Set<ToolKind> kindsFor(Operation.Formed operation) {
        if (operation instanceof Operation.CurveEdge edge) {
            return edgeKinds(edge.sense());
        }
        if (operation instanceof Operation.TurnFlange flange) {
            Set<ToolKind> kinds = edgeKinds(flange.sense());
            kinds.add(ToolKind.FLANGE);
            return kinds;
        }
        if (operation instanceof Operation.Dish) {
            return edgeKinds(Sense.SHRINK);
        }
        if (operation instanceof Operation.Flatten) {
            return EnumSet.of(ToolKind.FLATTEN);
        }
        return EnumSet.of(ToolKind.SMOOTH);
    }

    /**
     * Tools that could do it, in the order of the shop book: the estimator's own choice, else all
     * of the right kind; on a visible surface the soft-faced ones where there are any.
     */
    static List<Tool> candidates(
            ShopBook book, @Nullable String chosen, Set<ToolKind> kinds, Surface surface) {
        if (chosen != null) {
            return book.tool(chosen).stream().toList();
        }
        List<Tool> fitting = book.tools().stream().filter(t -> kinds.contains(t.kind())).toList();
        List<Tool> soft = fitting.stream().filter(t -> !marks(t, surface)).toList();
        return soft.isEmpty() ? fitting : soft;
    }

    /** A steel-faced tool leaves marks that a visible surface must not keep. */
    static boolean marks(Tool tool, Surface surface) {
        return surface == Surface.VISIBLE && tool.surface() == ToolSurface.STEEL_FACED;
    }

    private static Set<ToolKind> edgeKinds(@Nullable Sense sense) {
        return sense == Sense.STRETCH
                ? EnumSet.of(ToolKind.STRETCH, ToolKind.EDGE)
                : EnumSet.of(ToolKind.SHRINK, ToolKind.EDGE);
    }
}
