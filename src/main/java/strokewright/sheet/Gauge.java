package strokewright.sheet;

import java.util.OptionalDouble;

/**
 * Thickness of a sheet gauge. A gauge is another thickness in every metal, so the table goes with
 * it.
 *
 * <p>Rules: manufacturers' standard steel {@code t = w / 41.82} in, with the nominal weight w of
 * the gauge in lb/ft²; galvanised {@code t = (w + 0.15625) / 41.82}; stainless (US standard gauge)
 * {@code t = w / 40}; aluminium, copper and brass (B&amp;S, the American wire gauge) {@code t =
 * 0.005 · 92^((36 − g)/39)}. The rule of 41.82 lb/ft² per inch and the gauges 10, 16, 18, 20 and 21
 * were seen in published gauge charts; the rest is quoted from memory of ASTM A480, ASTM A653 and
 * Machinery's Handbook, with which the rules agree.
 *
 * <p>As in the printed tables the inches are rounded to four decimals.
 */
public enum Gauge {
    STEEL {
        @Override
        double inches(int gauge) {
            return weight(gauge) / 41.82;
        }
    },
    GALVANISED {
        @Override
        double inches(int gauge) {
            return (weight(gauge) + 0.15625) / 41.82;
        }
    },
    STAINLESS {
        @Override
        double inches(int gauge) {
            return weight(gauge) / 40;
        }
    },
    ALUMINIUM {
        @Override
        double inches(int gauge) {
            return 0.005 * Math.pow(92, (36 - gauge) / 39.0);
        }
    };

    /** Lowest number, thickest sheet. */
    public static final int THICKEST = 10;

    /** Highest number, thinnest sheet. */
    public static final int THINNEST = 24;

    private static final double MM_PER_INCH = 25.4;

    /** Nominal weight of gauge 10, 11, … 24 in lb/ft². */
    private static final double[] WEIGHTS = {
        5.625, 5.0, 4.375, 3.75, 3.125, 2.8125, 2.5, 2.25, 2.0, 1.75, 1.5, 1.375, 1.25, 1.125, 1.0
    };

    abstract double inches(int gauge);

    /** In mm; empty outside {@link #THICKEST} to {@link #THINNEST}. */
    public OptionalDouble thicknessMm(int gauge) {
        return gauge >= THICKEST && gauge <= THINNEST
                ? OptionalDouble.of(Math.round(inches(gauge) * 1e4) / 1e4 * MM_PER_INCH)
                : OptionalDouble.empty();
    }

    private static double weight(int gauge) {
        return WEIGHTS[gauge - THICKEST];
    }
}
