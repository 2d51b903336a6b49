package strokewright.estimate;

import java.util.List;

/**
 * What the rules of the shop book propose for an item, whether it counts or was taken out; in the
 * order of the rules.
 *
 * @param parts lines of each part
 * @param item lines on the item as a whole
 */
public record ProposedLines(List<List<Line>> parts, List<Line> item) {

    public ProposedLines {
        parts = parts.stream().map(List::copyOf).toList();
        item = List.copyOf(item);
    }

    /**
     * One line.
     *
     * @param code of its rule
     * @param amount in the unit of the time standard
     * @param minutesEach normal minutes of one piece
     * @param setupMinutes normal minutes once for the order
     * @param out whether it was taken out
     */
    public record Line(
            String code,
            String standard,
            ShopBook.Unit unit,
            double amount,
            double minutesEach,
            double setupMinutes,
            Proposal.Place place,
            boolean out) {}

    /**
     * @param takeOff that {@link TakeOffCheck} has passed
     */
    public static ProposedLines of(TakeOff takeOff, ShopBook book) {
        Proposing.Proposed proposed = Proposing.of(Folding.withBlanks(takeOff, book), book);
        return new ProposedLines(
                proposed.ofParts().stream().map(ProposedLines::shown).toList(),
                shown(proposed.ofItem()));
    }

    private static List<Line> shown(List<Proposing.Line> lines) {
        return lines.stream().map(Proposing.Line::shown).toList();
    }
}
