package strokewright.takeoff;

import java.util.Locale;
import strokewright.estimate.Estimate.Driver;

/** What drives the doubt, and what somebody can do about it. */
final class DriverWords {

    private DriverWords() {}

    /**
     * @param byStrip whether a test strip would tell
     */
    record Advice(String text, boolean byStrip) {}

    static String name(Driver driver) {
        String parameter = driver.parameter();
        return parameter.substring(0, 1).toUpperCase(Locale.ROOT) + parameter.substring(1);
    }

    /** The one thing that narrows the doubt most. */
    static Advice advice(Driver widest) {
        String parameter = widest.parameter();
        String said = parameter.toLowerCase(Locale.ROOT);
        if (said.startsWith("bite") || said.startsWith("stroke work") || said.startsWith("feed")) {
            return new Advice(
                    "Most of the doubt: %s. One test strip of this tool and metal narrows it."
                            .formatted(parameter),
                    true);
        }
        String remedy =
                said.startsWith("price of")
                        ? "Ask for today's price of the metal."
                        : said.startsWith("checks")
                                ? "Time a few template checks."
                                : said.startsWith("work by hand")
                                        ? "A drawing with a template, or the hours of an earlier one, narrow it."
                                        : "Time it on the next job.";
        return new Advice("Most of the doubt: %s. %s".formatted(parameter, remedy), false);
    }
}
