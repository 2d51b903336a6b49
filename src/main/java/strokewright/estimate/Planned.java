package strokewright.estimate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;

/**
 * One part on its machine, with every tool that could do each of its forming operations.
 *
 * @param choices of its forming operations, by their index among the operations
 */
record Planned(
        ShopBook book,
        Part part,
        String pointer,
        @Nullable Machine machine,
        Map<Integer, Choices> choices) {

    /** On the machine that the take-off names, else on the first that can do all of it. */
    static Planned of(ShopBook book, Part part, String pointer) {
        if (part.machine() != null || book.machines().isEmpty()) {
            return on(book, part, book.machine(part.machine()).orElse(null), pointer);
        }
        Planned first = null;
        for (Machine machine : book.machines()) {
            Planned planned = on(book, part, machine, pointer);
            if (planned.choices.values().stream().allMatch(c -> c.refusals() == 0)) {
                return planned;
            }
            first = first == null ? planned : first;
        }
        return first;
    }

    private static Planned on(ShopBook book, Part part, @Nullable Machine machine, String pointer) {
        Map<Integer, Choices> choices = new TreeMap<>();
        for (int i = 0; i < part.operations().size(); i++) {
            if (part.operations().get(i) instanceof Operation.Formed formed) {
                choices.put(i, choices(book, part, machine, formed, i, pointer));
            }
        }
        return new Planned(book, part, pointer, machine, choices);
    }

    private static Choices choices(
            ShopBook book,
            Part part,
            @Nullable Machine machine,
            Operation.Formed formed,
            int index,
            String pointer) {
        return Choices.of(
                FormedWork.Maker.of(
                        Bench.of(book, part, machine),
                        formed,
                        index + 1,
                        pointer + "/operations/" + index));
    }

    Worked standard(int index) {
        return Estimating.standard(
                book,
                part,
                part.tolerance(),
                index + 1,
                (Operation.Standard) part.operations().get(index));
    }

    /** Refusals say which other machine, or which other tool, could do it. */
    Worked withOtherWays(int index, Worked worked) {
        if (Choices.refusals(worked.line()) == 0) {
            return worked;
        }
        Operation.Formed formed = (Operation.Formed) part.operations().get(index);
        String otherMachine = null;
        for (Machine machine : book.machines()) {
            if (otherMachine == null
                    && !machine.equals(this.machine)
                    && choices(book, part, machine, formed, index, pointer).refusals() == 0) {
                otherMachine = machine.name();
            }
        }
        Map<String, Object> otherTools = choices.get(index).otherTools();
        List<Finding> findings = new ArrayList<>();
        for (Finding finding : worked.line().findings()) {
            findings.add(
                    finding.severity() == Severity.REFUSAL
                            ? also(finding, otherMachine, otherTools)
                            : finding);
        }
        return worked.instead(findings);
    }

    private static Finding also(
            Finding finding, @Nullable String machine, Map<String, Object> tools) {
        Map<String, Object> change = new LinkedHashMap<>();
        if (finding.change() != null) {
            change.putAll(finding.change());
        }
        if (machine != null) {
            change.put("machine", machine);
        }
        change.putAll(tools);
        return finding.offering(change);
    }
}
