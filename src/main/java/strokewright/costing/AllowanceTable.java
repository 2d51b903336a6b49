package strokewright.costing;

import static java.util.Map.entry;

import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import strokewright.costing.Allowance.Attention;
import strokewright.costing.Allowance.Light;
import strokewright.costing.Allowance.MentalStrain;
import strokewright.costing.Allowance.Monotony;
import strokewright.costing.Allowance.Noise;
import strokewright.costing.Allowance.Posture;
import strokewright.costing.Allowance.Tediousness;

/**
 * Relaxation allowances in percent of normal time: ILO, Introduction to Work Study, 3rd edition,
 * from memory, one column for everybody. "No mental strain to speak of" is our own line.
 */
public final class AllowanceTable {

    public static final double STANDING = 2;

    /** Where the table of lifted masses ends. */
    public static final double HEAVIEST_KG = 33.5;

    private static final NavigableMap<Double, Double> LIFTED =
            new TreeMap<>(
                    Map.ofEntries(
                            entry(2.5, 0.0),
                            entry(5.0, 1.0),
                            entry(7.5, 2.0),
                            entry(10.0, 3.0),
                            entry(12.5, 4.0),
                            entry(15.0, 5.0),
                            entry(17.5, 7.0),
                            entry(20.0, 9.0),
                            entry(22.5, 11.0),
                            entry(25.0, 13.0),
                            entry(30.0, 17.0),
                            entry(HEAVIEST_KG, 22.0)));

    private static final Map<Enum<?>, Double> PERCENT =
            Map.ofEntries(
                    entry(Posture.SLIGHTLY_AWKWARD, 0.0),
                    entry(Posture.AWKWARD, 2.0),
                    entry(Posture.VERY_AWKWARD, 7.0),
                    entry(Light.SLIGHTLY_BELOW, 0.0),
                    entry(Light.WELL_BELOW, 2.0),
                    entry(Light.INADEQUATE, 5.0),
                    entry(Attention.FAIRLY_FINE, 0.0),
                    entry(Attention.FINE, 2.0),
                    entry(Attention.VERY_FINE, 5.0),
                    entry(Noise.CONTINUOUS, 0.0),
                    entry(Noise.INTERMITTENT_LOUD, 2.0),
                    entry(Noise.INTERMITTENT_VERY_LOUD, 5.0),
                    entry(Noise.HIGH_PITCHED_LOUD, 5.0),
                    entry(MentalStrain.NONE, 0.0),
                    entry(MentalStrain.FAIRLY_COMPLEX, 1.0),
                    entry(MentalStrain.COMPLEX, 4.0),
                    entry(MentalStrain.VERY_COMPLEX, 8.0),
                    entry(Monotony.LOW, 0.0),
                    entry(Monotony.MEDIUM, 1.0),
                    entry(Monotony.HIGH, 4.0),
                    entry(Tediousness.RATHER_TEDIOUS, 0.0),
                    entry(Tediousness.TEDIOUS, 2.0),
                    entry(Tediousness.VERY_TEDIOUS, 5.0));

    private AllowanceTable() {}

    /** What a line of the table adds. */
    public static double percent(Enum<?> choice) {
        return PERCENT.get(choice);
    }

    /** In a straight line between two masses of the table (assumed), as its first or its last. */
    static double lifted(double kg) {
        Map.Entry<Double, Double> under = LIFTED.floorEntry(kg);
        Map.Entry<Double, Double> over = LIFTED.ceilingEntry(kg);
        if (under == null) {
            return over.getValue();
        }
        if (over == null || over.equals(under)) {
            return under.getValue();
        }
        double share = (kg - under.getKey()) / (over.getKey() - under.getKey());
        return under.getValue() + share * (over.getValue() - under.getValue());
    }
}
