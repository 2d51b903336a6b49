package strokewright.estimate;

import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.CurveEdge;
import strokewright.estimate.Operation.Dish;
import strokewright.estimate.Operation.Flatten;
import strokewright.estimate.Operation.FollowOutline;
import strokewright.estimate.Operation.Formed;
import strokewright.estimate.Operation.Override;
import strokewright.estimate.Operation.Segment;
import strokewright.estimate.Operation.Smooth;
import strokewright.estimate.Operation.TakeOutDents;
import strokewright.estimate.Operation.TurnFlange;
import strokewright.forming.SvgText;

/** Forming operations in another size, with other tools or other own minutes. */
final class Reshaped {

    private Reshaped() {}

    /** How sizes become others. */
    interface Sizes {

        /** Of radii, and of a dish its diameter and depth. */
        double radius(double mm);

        /** Along what is bent. */
        double along(double mm);

        double area(double mm2);

        double reach(double mm);

        /** Of a whole outline. */
        double outline();
    }

    static Formed in(Sizes sizes, Formed operation) {
        Double reach = operation.reachMm() == null ? null : sizes.reach(operation.reachMm());
        if (operation instanceof CurveEdge o) {
            Double start = o.startRadiusMm() == null ? null : sizes.radius(o.startRadiusMm());
            return new CurveEdge(
                    o.sense(),
                    sizes.along(o.lengthMm()),
                    sizes.radius(o.radiusMm()),
                    start,
                    o.heightMm(),
                    o.count(),
                    reach,
                    o.tool(),
                    o.override());
        }
        if (operation instanceof TurnFlange o) {
            return new TurnFlange(
                    o.sense(),
                    sizes.radius(o.radiusMm()),
                    o.heightMm(),
                    o.angleDeg(),
                    o.sweepDeg(),
                    o.count(),
                    reach,
                    o.tool(),
                    o.override());
        }
        if (operation instanceof Dish o) {
            return new Dish(
                    sizes.radius(o.diameterMm()),
                    sizes.radius(o.depthMm()),
                    o.rimShare(),
                    o.trimMm(),
                    o.count(),
                    reach,
                    o.tool(),
                    o.crownTool(),
                    o.override());
        }
        if (operation instanceof Smooth o) {
            return new Smooth(
                    sizes.area(o.areaMm2()),
                    o.timesOver(),
                    o.count(),
                    reach,
                    o.tool(),
                    o.override());
        }
        if (operation instanceof Flatten o) {
            return new Flatten(
                    sizes.area(o.areaMm2()),
                    o.timesOver(),
                    o.count(),
                    reach,
                    o.tool(),
                    o.override());
        }
        if (operation instanceof FollowOutline o) {
            return outline(sizes, o, reach);
        }
        TakeOutDents o = (TakeOutDents) operation;
        return new TakeOutDents(
                o.spots(), o.strokesPerSpot(), o.count(), reach, o.tool(), o.override());
    }

    private static FollowOutline outline(Sizes sizes, FollowOutline o, @Nullable Double reach) {
        double k = sizes.outline();
        return new FollowOutline(
                o.path() == null || k == 1 ? o.path() : SvgText.scaled(o.path(), k),
                o.segments() == null
                        ? null
                        : o.segments().stream()
                                .map(
                                        s ->
                                                new Segment(
                                                        s.lengthMm() * k,
                                                        s.radiusMm() == null
                                                                ? null
                                                                : s.radiusMm() * k))
                                .toList(),
                o.heightMm(),
                o.flange(),
                o.count(),
                reach,
                o.tool(),
                o.stretchTool(),
                o.override());
    }

    /** With the tool for all of it that the tool can do. */
    static Formed with(ShopBook.Tool tool, Formed operation, ShopBook book) {
        if (operation instanceof Dish o) {
            boolean crown = ToolChoice.CROWN.contains(tool.kind());
            boolean rim = ToolChoice.kindsFor(o).contains(tool.kind());
            return new Dish(
                    o.diameterMm(),
                    o.depthMm(),
                    o.rimShare(),
                    o.trimMm(),
                    o.count(),
                    o.reachMm(),
                    rim ? tool.name() : o.tool(),
                    crown ? tool.name() : o.crownTool(),
                    o.override());
        }
        if (operation instanceof FollowOutline o) {
            String first = o.tool();
            String stretching = o.stretchTool();
            for (Phase phase : LaidOutline.of(o, book.times()).phases()) {
                if (phase.kinds().contains(tool.kind())) {
                    first = phase.field().equals("/tool") ? tool.name() : first;
                    stretching = phase.field().equals("/tool") ? stretching : tool.name();
                }
            }
            return new FollowOutline(
                    o.path(),
                    o.segments(),
                    o.heightMm(),
                    o.flange(),
                    o.count(),
                    o.reachMm(),
                    first,
                    stretching,
                    o.override());
        }
        return ToolChoice.kindsFor(operation).contains(tool.kind())
                ? with(operation, tool.name(), operation.override())
                : operation;
    }

    static Formed with(Formed operation, @Nullable Override own) {
        return with(operation, operation.tool(), own);
    }

    private static Formed with(Formed operation, @Nullable String tool, @Nullable Override own) {
        if (operation instanceof CurveEdge o) {
            return new CurveEdge(
                    o.sense(),
                    o.lengthMm(),
                    o.radiusMm(),
                    o.startRadiusMm(),
                    o.heightMm(),
                    o.count(),
                    o.reachMm(),
                    tool,
                    own);
        }
        if (operation instanceof TurnFlange o) {
            return new TurnFlange(
                    o.sense(),
                    o.radiusMm(),
                    o.heightMm(),
                    o.angleDeg(),
                    o.sweepDeg(),
                    o.count(),
                    o.reachMm(),
                    tool,
                    own);
        }
        if (operation instanceof Dish o) {
            return new Dish(
                    o.diameterMm(),
                    o.depthMm(),
                    o.rimShare(),
                    o.trimMm(),
                    o.count(),
                    o.reachMm(),
                    tool,
                    o.crownTool(),
                    own);
        }
        if (operation instanceof Smooth o) {
            return new Smooth(o.areaMm2(), o.timesOver(), o.count(), o.reachMm(), tool, own);
        }
        if (operation instanceof Flatten o) {
            return new Flatten(o.areaMm2(), o.timesOver(), o.count(), o.reachMm(), tool, own);
        }
        if (operation instanceof FollowOutline o) {
            return new FollowOutline(
                    o.path(),
                    o.segments(),
                    o.heightMm(),
                    o.flange(),
                    o.count(),
                    o.reachMm(),
                    tool,
                    o.stretchTool(),
                    own);
        }
        TakeOutDents o = (TakeOutDents) operation;
        return new TakeOutDents(o.spots(), o.strokesPerSpot(), o.count(), o.reachMm(), tool, own);
    }
}
