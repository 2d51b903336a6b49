package strokewright.estimate;

import java.util.Map;
import java.util.function.DoubleUnaryOperator;

/**
 * Works out an expression as somebody with a pocket calculator would: {@code + − × / ^ ( )}, ⌈ ⌉
 * for the next whole number up, √, π, ln, exp, sin, asin and max of two.
 */
final class HandReckoning {

    private static final Map<String, DoubleUnaryOperator> FUNCTIONS =
            Map.of(
                    "ln", Math::log,
                    "exp", Math::exp,
                    "sin", Math::sin,
                    "asin", Math::asin,
                    "√", Math::sqrt);

    private final String text;
    private int at;

    private HandReckoning(String text) {
        this.text = text.replace(" ", "");
    }

    /**
     * @throws IllegalArgumentException where it cannot be read, with the place
     */
    static double of(String expression) {
        HandReckoning hand = new HandReckoning(expression);
        double value = hand.sum();
        if (hand.at < hand.text.length()) {
            throw hand.unreadable();
        }
        return value;
    }

    private double sum() {
        double sum = take("−") ? -product() : product();
        while (true) {
            if (take("+")) {
                sum += product();
            } else if (take("−")) {
                sum -= product();
            } else {
                return sum;
            }
        }
    }

    private double product() {
        double product = power();
        while (true) {
            if (take("×")) {
                product *= power();
            } else if (take("/")) {
                product /= power();
            } else {
                return product;
            }
        }
    }

    private double power() {
        double base = value();
        if (!take("^")) {
            return base;
        }
        return Math.pow(base, take("−") ? -value() : value());
    }

    private double value() {
        if (take("(")) {
            return closed(sum(), ")");
        }
        if (take("⌈")) {
            return Math.ceil(closed(sum(), "⌉") - 1e-9);
        }
        if (take("π")) {
            return Math.PI;
        }
        if (take("max(")) {
            double first = sum();
            need(",");
            return closed(Math.max(first, sum()), ")");
        }
        for (String name : FUNCTIONS.keySet()) {
            if (take(name + "(")) {
                return FUNCTIONS.get(name).applyAsDouble(closed(sum(), ")"));
            }
        }
        return number();
    }

    private double number() {
        int from = at;
        while (at < text.length()
                && (Character.isDigit(text.charAt(at)) || text.charAt(at) == '.')) {
            at++;
        }
        if (from == at) {
            throw unreadable();
        }
        return Double.parseDouble(text.substring(from, at));
    }

    private double closed(double value, String bracket) {
        need(bracket);
        return value;
    }

    private void need(String sign) {
        if (!take(sign)) {
            throw unreadable();
        }
    }

    private boolean take(String sign) {
        if (!text.startsWith(sign, at)) {
            return false;
        }
        at += sign.length();
        return true;
    }

    private IllegalArgumentException unreadable() {
        return new IllegalArgumentException(text + " cannot be read from " + text.substring(at));
    }
}
