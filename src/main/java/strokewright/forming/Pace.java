package strokewright.forming;

import static strokewright.forming.FormingFormula.STROKE_RATE;

import strokewright.quantity.Why.Input;
import strokewright.quantity.Working;

/**
 * How fast a piece passes through the machine.
 *
 * @param strokesPerMinute the slower of tool and machine
 * @param feedEfficiency η, share of the stroke rate left under hand feed
 * @param pickUpSeconds one repositioning
 * @param checkEveryPasses k
 * @param stationSeconds one station of a template check
 */
public record Pace(
        Input strokesPerMinute,
        Input feedEfficiency,
        Input pickUpSeconds,
        Input checkEveryPasses,
        Input stationSeconds) {

    public static Input rate(Input tool, Input machine, Working working) {
        return Input.computed(
                "rate", working.figure("strokesPerMinute", STROKE_RATE, tool, machine), "1/min");
    }
}
