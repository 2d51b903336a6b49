package strokewright.sheet;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Thickness of a sheet gauge. A gauge is another thickness in every metal, so the table goes with
 * it.
 *
 * <p>Rules: manufacturers' standard steel {@code t = w / 41.82} in, with the nominal weight w of
 * the gauge in lb/ft²; galvanised {@code t = (w + 0.15625) / 41.82}; stainless (US standard gauge)
 * {@code t = w / 40}; aluminium, copper and brass (B&amp;S, the American wire gauge) {@code t =
 * 0.005 · 92^((36 − g)/39)}. Weights, and stainless, are those of 15 U.S.C. § 206; the other rules
 * give the figures of published gauge charts, gauge by gauge, to their last digit.
 *
 * <p>Copper also goes by its weight in oz/ft²: {@code t = oz / 16 / 144 / 0.322} in, with the 0.322
 * lb/in³ of sheet copper. That gives table 1.1.3 of the Copper Development Association's
 * architecture design handbook, 6 to 48 oz, to 0.0001 in.
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
    /** Its charts begin at gauge 8. */
    GALVANISED {
        @Override
        int thickest() {
            return 8;
        }

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
            return americanWire(gauge);
        }
    },
    COPPER {
        @Override
        double inches(int gauge) {
            return americanWire(gauge);
        }
    },
    /** Not a gauge: the number is copper's weight in oz/ft². */
    COPPER_OUNCES {
        @Override
        int thinnest() {
            return 99;
        }

        @Override
        double inches(int ounces) {
            return ounces / 16.0 / IN2_PER_FT2 / COPPER_LB_PER_IN3;
        }
    };

    /** Lowest number, thickest sheet. */
    public static final int THICKEST = 3;

    /** Highest number, thinnest sheet. */
    public static final int THINNEST = 30;

    private static final BigDecimal MM_PER_INCH = new BigDecimal("25.4");

    private static final double IN2_PER_FT2 = 144;
    private static final double COPPER_LB_PER_IN3 = 0.322;

    /** Zinc, or zinc with iron, aluminium or magnesium, as EN 10346 has it in a steel's name. */
    private static final Pattern COATED =
            Pattern.compile("\\+(?:z|zf|za|zm|az)\\d*\\b|galvani[sz]ed|\\bgalv\\b");

    /** Nominal weight of gauge 3, 4, … 30 in lb/ft², 15 U.S.C. § 206. */
    private static final double[] WEIGHTS = {
        10, 9.375, 8.75, 8.125, 7.5, 6.875, 6.25, 5.625, 5.0, 4.375, 3.75, 3.125, 2.8125, 2.5, 2.25,
        2.0, 1.75, 1.5, 1.375, 1.25, 1.125, 1.0, 0.875, 0.75, 0.6875, 0.625, 0.5625, 0.5
    };

    abstract double inches(int gauge);

    int thickest() {
        return THICKEST;
    }

    int thinnest() {
        return THINNEST;
    }

    /**
     * In mm, the double next to the exact decimal, so that a gauge is the same sheet as its inches;
     * empty where the table has no such gauge.
     */
    public OptionalDouble thicknessMm(int gauge) {
        if (gauge < thickest() || gauge > thinnest()) {
            return OptionalDouble.empty();
        }
        BigDecimal rounded = BigDecimal.valueOf(Math.round(inches(gauge) * 1e4), 4);
        return OptionalDouble.of(rounded.multiply(MM_PER_INCH).doubleValue());
    }

    private static double americanWire(int gauge) {
        return 0.005 * Math.pow(92, (36 - gauge) / 39.0);
    }

    /** In mm, by the name of a table; empty where it has no such gauge. */
    public static OptionalDouble inTable(String table, int gauge) {
        return valueOf(table.toUpperCase(Locale.ROOT)).thicknessMm(gauge);
    }

    /**
     * The table that a bare gauge of a grade is read by: coated steel by its name or code.
     *
     * @param family of metal in the shop book
     * @return null where none goes by gauge, like zinc, whose gauge is one of its own
     */
    public static @Nullable String tableOf(@Nullable String family, String code, String name) {
        String of = String.valueOf(family).toLowerCase(Locale.ROOT);
        if (of.startsWith("stainless")) {
            return "stainless";
        }
        if (of.startsWith("copper")) {
            return "copper";
        }
        if (of.startsWith("aluminium") || of.startsWith("brass")) {
            return "aluminium";
        }
        if (!of.contains("steel")) {
            return null;
        }
        String said = (of + " " + code + " " + name).toLowerCase(Locale.ROOT);
        return COATED.matcher(said).find() ? "galvanised" : "steel";
    }

    private static double weight(int gauge) {
        return WEIGHTS[gauge - THICKEST];
    }
}
