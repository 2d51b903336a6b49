package strokewright.learning;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation.Sense;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Tool;
import strokewright.estimate.ShopBook.ToolKind;
import strokewright.estimate.ToolChoice;
import strokewright.learning.TestStrips.Reading;
import strokewright.learning.TestStrips.Strip;
import strokewright.quantity.Faults;

/** What usable notes of test strips look like, with one edition of the shop book. */
final class TestStripsCheck {

    private static final int MOST_STRIPS = 20;
    private static final int MOST_READINGS = 100;
    private static final int MOST_IN_ALL = 200;
    private static final double LARGEST_RADIUS_MM = 1_000_000;
    private static final double LONGEST_MM = 20_000;
    private static final double HIGHEST_MM = 500;

    private final TestStrips notes;
    private final ShopBook book;
    private final Faults faults = new Faults();
    private final @Nullable Tool tool;

    private TestStripsCheck(TestStrips notes, ShopBook book) {
        this.notes = notes;
        this.book = book;
        this.tool = book.tool(notes.tool()).orElse(null);
    }

    /** Every fault, each with its pointer and what would be right. */
    static Faults faults(TestStrips notes, ShopBook book) {
        TestStripsCheck check = new TestStripsCheck(notes, book);
        check.check();
        return check.faults;
    }

    /** The family of the strips that are of a known grade; null when it is not one family. */
    static @Nullable String family(TestStrips notes, ShopBook book) {
        Set<String> families =
                notes.strips().stream()
                        .filter(Objects::nonNull)
                        .flatMap(strip -> book.grade(strip.grade()).stream())
                        .map(Grade::family)
                        .collect(Collectors.toSet());
        return families.size() == 1 ? families.iterator().next() : null;
    }

    private void check() {
        tool();
        faults.known(
                "/machine",
                notes.machine(),
                book.machines().stream().map(ShopBook.Machine::name).toList(),
                "machine");
        if (faults.size("/strips", notes.strips(), 1, MOST_STRIPS)) {
            for (int i = 0; i < notes.strips().size(); i++) {
                if (faults.present("/strips/" + i, notes.strips().get(i), "a strip")) {
                    strip("/strips/" + i, notes.strips().get(i));
                }
            }
            inAll();
            family();
        }
    }

    private void tool() {
        List<String> fitting =
                book.tools().stream()
                        .filter(t -> ToolChoice.EDGE.contains(t.kind()))
                        .map(Tool::name)
                        .toList();
        if (tool != null && !fitting.contains(tool.name())) {
            faults.add("/tool", "is no tool for edges; there are: " + String.join(", ", fitting));
        } else {
            faults.known("/tool", notes.tool(), fitting, "tool for edges");
        }
    }

    private void inAll() {
        int readings =
                notes.strips().stream()
                        .filter(Objects::nonNull)
                        .mapToInt(strip -> strip.readings().size())
                        .sum();
        if (readings > MOST_IN_ALL) {
            faults.add("/strips", "have " + readings + " readings: at most " + MOST_IN_ALL);
        }
    }

    private void family() {
        String first = null;
        for (int i = 0; i < notes.strips().size(); i++) {
            Strip strip = notes.strips().get(i);
            String family =
                    strip == null
                            ? null
                            : book.grade(strip.grade()).map(Grade::family).orElse(null);
            first = first == null ? family : first;
            if (family != null && !family.equals(first)) {
                faults.add(
                        "/strips/" + i + "/grade",
                        "is of the family " + family + ", a strip before it of " + first);
            }
        }
        if (notes.family() != null && first != null && !notes.family().equals(first)) {
            faults.add("/family", "must be left out or " + first + ", as the strips' grades are");
        }
    }

    private void strip(String at, Strip strip) {
        boolean known =
                faults.known(
                        at + "/grade",
                        strip.grade(),
                        book.grades().stream().map(Grade::code).toList(),
                        "grade");
        if (known && book.grade(strip.grade()).orElseThrow().strainPerPass() != null) {
            faults.add(
                    at + "/grade",
                    "goes by a strain per pass in the shop book: it has no bite and stroke work to"
                            + " fit");
        }
        faults.over(at + "/thicknessMm", strip.thicknessMm(), 0, 50);
        sense(at + "/sense", strip.sense());
        faults.over(at + "/lengthMm", strip.lengthMm(), 0, LONGEST_MM);
        boolean height = faults.over(at + "/heightMm", strip.heightMm(), 0, HIGHEST_MM);
        boolean start =
                faults.overIfGiven(
                        at + "/startRadiusMm", strip.startRadiusMm(), 0, LARGEST_RADIUS_MM);
        if (height && start && strip.startRadiusMm() != null) {
            leavesRoom(at + "/startRadiusMm", strip, strip.startRadiusMm());
        }
        if (faults.size(at + "/readings", strip.readings(), 1, MOST_READINGS)) {
            readings(at + "/readings/", strip, height, start);
        }
    }

    private void sense(String at, @Nullable Sense sense) {
        if (!faults.present(at, sense, "shrink or stretch") || tool == null) {
            return;
        }
        ToolKind other = sense == Sense.SHRINK ? ToolKind.STRETCH : ToolKind.SHRINK;
        if (tool.kind() == other) {
            faults.add(at, "is not what the tool does");
        }
    }

    /** A flange inside the curve must leave a middle. */
    private void leavesRoom(String at, Strip strip, double radius) {
        if (strip.shrinks() && !(strip.heightMm() < radius)) {
            faults.add(at, "must be over heightMm: a shrunk flange points to the centre");
        }
    }

    private void readings(String at, Strip strip, boolean height, boolean start) {
        double radius = start && strip.startRadiusMm() != null ? strip.startRadiusMm() : 0;
        Double before = radius > 0 ? radius : null;
        Double strokes = null;
        Double minutes = null;
        for (int i = 0; i < strip.readings().size(); i++) {
            Reading reading = strip.readings().get(i);
            if (!faults.present(at + i, reading, "radiusMm, strokes and minutes")) {
                continue;
            }
            if (faults.over(at + i + "/radiusMm", reading.radiusMm(), 0, LARGEST_RADIUS_MM)) {
                radius(at + i + "/radiusMm", reading.radiusMm(), before, i == 0);
                if (height) {
                    leavesRoom(at + i + "/radiusMm", strip, reading.radiusMm());
                }
                before = reading.radiusMm();
            }
            strokes = counted(at + i + "/strokes", reading.strokes(), strokes, 10_000_000);
            minutes = counted(at + i + "/minutes", reading.minutes(), minutes, 100_000);
        }
    }

    private void radius(String at, double radius, @Nullable Double before, boolean first) {
        if (before != null && first && !(radius < before)) {
            faults.add(at, "must be under startRadiusMm: the strip is curved tighter");
        } else if (before != null && !(radius <= before)) {
            faults.add(at, "must not be over the radius before it: the strip is curved tighter");
        }
    }

    private @Nullable Double counted(
            String at, @Nullable Double value, @Nullable Double before, double most) {
        if (!faults.over(at, value, 0, most)) {
            return before;
        }
        if (before != null && !(value > before)) {
            faults.add(at, "must be over the figure before it: it counts from the first stroke on");
        }
        return value;
    }
}
