package strokewright.learning;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Sense;

/**
 * What a shop noted while it formed strips of one metal family with one tool on one machine.
 *
 * @param family that of the strips' grades when left out
 */
record TestStrips(
        @Nullable String tool,
        @Nullable String machine,
        @Nullable String family,
        List<Strip> strips) {

    TestStrips {
        strips = copy(strips);
    }

    TestStrips withFamily(String name) {
        return new TestStrips(tool, machine, name, strips);
    }

    /**
     * A flanged strip that is curved further and further.
     *
     * @param lengthMm along the heel
     * @param heightMm of the flange
     * @param startRadiusMm heel radius before the first stroke; null when straight
     */
    record Strip(
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Sense sense,
            @Nullable Double lengthMm,
            @Nullable Double heightMm,
            @Nullable Double startRadiusMm,
            List<Reading> readings) {

        Strip {
            readings = copy(readings);
        }

        boolean shrinks() {
            return sense == Sense.SHRINK;
        }
    }

    /**
     * What was noted after some passes.
     *
     * @param radiusMm heel radius reached
     * @param strokes since the first one
     * @param minutes under the strokes since the first one, without checks and pick-ups
     */
    record Reading(@Nullable Double radiusMm, @Nullable Double strokes, @Nullable Double minutes) {}

    private static <T> List<T> copy(@Nullable List<T> list) {
        return list == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(list));
    }
}
