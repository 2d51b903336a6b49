package strokewright.estimate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import strokewright.estimate.ShopBook.HandlingClass;
import strokewright.estimate.ShopBook.Tool;

/**
 * How one item goes over one machine: the tools put in, one after the other, and the pick-ups of
 * its pieces at each.
 *
 * @param mounts tools in the order in which they are put in
 * @param pickUpMinutes elapsed, to pick up every piece of one item once at each change
 * @param pickUpPersonMinutes the same times people
 */
record Round(List<Tool> mounts, double pickUpMinutes, double pickUpPersonMinutes) {

    int changes() {
        return mounts.size();
    }

    double mountMinutes() {
        return mounts.stream().mapToDouble(Tool::mountMinutes).sum();
    }

    /** Whether the next item finds its first tool in the machine. */
    private boolean beginsAsItEnds() {
        return !mounts.isEmpty() && mounts.get(0).equals(mounts.get(mounts.size() - 1));
    }

    /** Changes of every further item that goes through on its own. */
    int furtherChanges() {
        return furtherMounts().size();
    }

    List<Tool> furtherMounts() {
        return beginsAsItEnds() ? mounts.subList(1, mounts.size()) : mounts;
    }

    double furtherMountMinutes() {
        return furtherMounts().stream().mapToDouble(Tool::mountMinutes).sum();
    }

    /** Collects the visits of one item in their order. */
    static final class Growing {
        private final ShopBook book;
        private final List<Tool> mounts = new ArrayList<>();
        private final Set<Planned> inHand = Collections.newSetFromMap(new IdentityHashMap<>());
        private double minutes;
        private double personMinutes;

        Growing(ShopBook book) {
            this.book = book;
        }

        /** Every part that is worked with a tool is picked up once while the tool is in. */
        void visit(Planned part, Tool tool, boolean change) {
            if (change) {
                mounts.add(tool);
                inHand.clear();
            }
            if (inHand.add(part)) {
                HandlingClass handling = Bench.of(book, part.part(), part.machine()).handling();
                double elapsed = part.part().perAssembly() * handling.seconds() / 60;
                minutes += elapsed;
                personMinutes += elapsed * handling.people();
            }
        }

        Round grown() {
            return new Round(List.copyOf(mounts), minutes, personMinutes);
        }
    }
}
