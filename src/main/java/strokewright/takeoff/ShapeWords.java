package strokewright.takeoff;

import java.util.Map;
import strokewright.estimate.Proposal;
import strokewright.quantity.Finding;
import strokewright.web.Numbers;

/** What is told about a shape that became a part. */
final class ShapeWords {

    private final Numbers numbers;

    ShapeWords(Numbers numbers) {
        this.numbers = numbers;
    }

    String text(Finding note) {
        Map<String, Object> v = note.values();
        return switch (note.code()) {
            case "rule-not-found" ->
                    "Left out: "
                            + work(v.get("when"), v.get("amount"))
                            + ". The shop book has no rule that proposes it.";
            case "blank-of-strip" ->
                    blank(v)
                            + heel(v)
                            + "; flange "
                            + mm(v, "flangeHeightMm")
                            + " and return "
                            + mm(v, "returnMm")
                            + ".";
            case "blank-of-u-frame" ->
                    blank(v)
                            + heel(v)
                            + " beyond the legs of "
                            + mm(v, "legMm")
                            + "; flange "
                            + mm(v, "flangeHeightMm")
                            + " and return "
                            + mm(v, "returnMm")
                            + ".";
            case "blank-of-rib" ->
                    blank(v)
                            + heel(v)
                            + "; two flanges of "
                            + mm(v, "flangeHeightMm")
                            + " and the web of "
                            + mm(v, "webMm")
                            + ".";
            case "blank-of-flanged-disc" ->
                    disc(v)
                            + "the flange laid flat all round, with a trim of "
                            + mm(v, "trimMm")
                            + ". Of equal area it would be "
                            + mm(v, "equalAreaMm")
                            + " without trim.";
            case "blank-of-bowl" ->
                    disc(v) + "of equal area, with a trim of " + mm(v, "trimMm") + ".";
            case "blank-of-collared-bowl" ->
                    disc(v)
                            + "the collar of "
                            + mm(v, "rimWidthMm")
                            + " keeps its size and the middle is stretched, with a trim of "
                            + mm(v, "trimMm")
                            + ". A collar that is drawn in takes up to "
                            + mm(v, "equalAreaMm")
                            + ": give the dish a rim share then.";
            case "blank-of-arch-edge" ->
                    blank(v)
                            + "round a band from radius "
                            + mm(v, "innerRadiusMm")
                            + " to "
                            + mm(v, "outerRadiusMm")
                            + ", no run-out.";
            case "panel-is-there" ->
                    "The panel is there already: nothing is cut, and its metal is the customer’s.";
            case "smoothed-at-each-spot" ->
                    "Smoothed afterwards: a square of 150 mm at each spot, "
                            + numbers.show(((Number) v.get("areaMm2")).doubleValue() / 1e4, 1)
                            + " dm² (assumed).";
            default -> note.code();
        };
    }

    private String blank(Map<String, Object> v) {
        return "Blank "
                + mm(v, "blankLengthMm").replace(" mm", "")
                + " × "
                + mm(v, "blankWidthMm")
                + ": ";
    }

    private String disc(Map<String, Object> v) {
        return "Blank Ø " + mm(v, "blankLengthMm") + ": ";
    }

    private String heel(Map<String, Object> v) {
        return "heel length "
                + mm(v, "heelLengthMm")
                + ", run-out "
                + mm(v, "runOutMm")
                + " at each end";
    }

    /** What a rule's standard would be for, as far as a shape asks for it. */
    private static String work(Object when, Object amount) {
        return switch ((Proposal.Amount) amount) {
            case BENDS -> "folding";
            case CIRCUMFERENCE -> "cutting along the curve";
            case PERIMETER -> "deburring the cut edges";
            case EDGE_LENGTH -> "trimming the rim";
            case ENDS -> "cutting off the run-out";
            default -> when == Proposal.When.CURVED_EDGE ? "truing up" : "a line of other work";
        };
    }

    private String mm(Map<String, Object> v, String name) {
        double value = ((Number) v.get(name)).doubleValue();
        return numbers.show(Math.round(value * 10) / 10.0) + " mm";
    }
}
