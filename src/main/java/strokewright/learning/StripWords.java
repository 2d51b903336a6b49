package strokewright.learning;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Finding;
import strokewright.web.Numbers;

/** What a fit has to tell, in words. */
record StripWords(Numbers numbers) {

    String text(Finding finding) {
        Map<String, Object> v = finding.values();
        return switch (finding.code()) {
            case "too-few-readings" ->
                    "Only "
                            + v.get("readings")
                            + (v.get("readings").equals(1) ? " reading" : " readings")
                            + ": bite and stroke work take at least "
                            + v.get("needed")
                            + ".";
            case "beyond-one-cycle" ->
                    "A strain of "
                            + percent(v.get("strain"))
                            + " is more than the "
                            + percent(v.get("room"))
                            + " that the metal takes before it needs an anneal: such a reading says"
                            + " nothing of bite and stroke work.";
            case "readings-contradict" ->
                    "The readings contradict each other: they are "
                            + number(v.get("residualSdPercent"), 0)
                            + " % off any one pair of bite and stroke work, and at most "
                            + number(v.get("mostPercent"), 0)
                            + " % would pass as scatter. The one pointed at is farthest off.";
            case "limits-not-told-apart" ->
                    "The readings fit the bite as well as the stroke work, so that neither can be"
                            + " told.";
            case "bite-not-credible" ->
                    "The bite would be "
                            + percent(v.get("value"))
                            + ", outside "
                            + percent(v.get("low"))
                            + " to "
                            + percent(v.get("high"))
                            + ".";
            case "work-not-credible" ->
                    "The stroke work would be "
                            + number(v.get("value"), 4)
                            + " J, outside "
                            + number(v.get("low"), 3)
                            + " to "
                            + number(v.get("high"), 0)
                            + " J.";
            case "feed-not-credible" ->
                    "The strokes would take "
                            + percent(v.get("value"))
                            + " of the stroke rate, outside "
                            + percent(v.get("low"))
                            + " to "
                            + percent(v.get("high"))
                            + ".";
            case "work-only-bounded" ->
                    "All readings were held back by the bite. Of the stroke work they only show that"
                            + " it is at least "
                            + number(v.get("strokeWorkJ"), 3)
                            + " J: with less, the last passes would have put in less strain.";
            case "bite-only-bounded" ->
                    "All readings were held back by the stroke work. Of the bite they only show that"
                            + " it is at least "
                            + percent(v.get("biteStrain"))
                            + ".";
            default -> throw new IllegalStateException("no words for " + finding.code());
        };
    }

    @Nullable String change(Finding finding) {
        return switch (finding.code()) {
            case "too-few-readings" -> "Note radius, strokes and minutes after every few passes.";
            case "beyond-one-cycle" -> "Leave the readings from there on out.";
            case "readings-contradict" ->
                    "Look for a slip of the pen, a strip of another metal, or strokes that were not"
                            + " counted from the first one on.";
            case "limits-not-told-apart" ->
                    "Form the strip tighter and note more readings, or add a strip of another"
                            + " thickness.";
            case "bite-not-credible", "work-not-credible" ->
                    "Look at the units, at the thickness, and at whether strokes count from the first"
                            + " one on.";
            case "feed-not-credible" ->
                    "Look at the minutes: under the strokes only, counted from the first stroke on;"
                            + " and at the stroke rate of tool and machine in the shop book.";
            case "work-only-bounded" ->
                    "A thicker or stronger sheet of the same family would show it.";
            case "bite-only-bounded" -> "A thinner sheet of the same family would show it.";
            default -> null;
        };
    }

    private String percent(Object share) {
        return number(((Number) share).doubleValue() * 100, 2) + " %";
    }

    private String number(Object value, int decimals) {
        return numbers.show(((Number) value).doubleValue(), decimals);
    }
}
