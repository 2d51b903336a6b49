package strokewright.sheet;

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
            return 0.005 * Math.pow(92, (36 - gauge) / 39.0);
        }
    };

    /** Lowest number, thickest sheet. */
    public static final int THICKEST = 3;

    /** Highest number, thinnest sheet. */
    public static final int THINNEST = 30;

    private static final double MM_PER_INCH = 25.4;

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

    /** In mm; empty where the table has no such gauge. */
    public OptionalDouble thicknessMm(int gauge) {
        return gauge >= thickest() && gauge <= THINNEST
                ? OptionalDouble.of(Math.round(inches(gauge) * 1e4) / 1e4 * MM_PER_INCH)
                : OptionalDouble.empty();
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
        if (of.startsWith("aluminium") || of.startsWith("copper") || of.startsWith("brass")) {
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
