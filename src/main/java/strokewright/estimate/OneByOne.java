package strokewright.estimate;

import java.util.Arrays;
import java.util.List;

/**
 * Each parameter alone at its P10 in one trial and at its P90 in the next, all others at their
 * median.
 */
final class OneByOne implements Draws {

    private final List<Parameter> parameters;

    OneByOne(List<Parameter> parameters) {
        this.parameters = parameters;
    }

    @Override
    public int trials() {
        return 2 * parameters.size();
    }

    @Override
    public double[] of(Parameter parameter, double exponent) {
        double[] draws = new double[trials()];
        Arrays.fill(draws, raised(parameter, 0, exponent));
        int place = parameters.indexOf(parameter);
        if (place >= 0) {
            draws[2 * place] = raised(parameter, NormalScores.P10, exponent);
            draws[2 * place + 1] = raised(parameter, NormalScores.P90, exponent);
        }
        return draws;
    }

    private static double raised(Parameter parameter, double z, double exponent) {
        double value = parameter.at(z);
        return exponent == 1 ? value : StrictMath.pow(value, exponent);
    }
}
