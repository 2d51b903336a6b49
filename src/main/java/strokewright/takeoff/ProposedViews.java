package strokewright.takeoff;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import strokewright.estimate.ProposedLines;
import strokewright.estimate.ShopBook;
import strokewright.takeoff.TakeOffView.CautionView;
import strokewright.takeoff.TakeOffView.HiddenField;
import strokewright.takeoff.TakeOffView.ProposedLine;
import strokewright.takeoff.TakeOffView.ProposedView;
import strokewright.web.Numbers;

/** What the shop book proposes beside the typed lines: each can be taken out and put back. */
final class ProposedViews {

    private final TypedTakeOff typed;
    private final Numbers numbers;
    private final Map<String, List<ProposedLines.Line>> lines = new HashMap<>();

    ProposedViews(Reckoned reckoned, ShopBook book, Numbers numbers) {
        this.typed = reckoned.typed();
        this.numbers = numbers;
        if (reckoned.estimate() != null) {
            ProposedLines proposed = ProposedLines.of(reckoned.read().takeOff(), book);
            lines.put("", proposed.item());
            for (int i = 0; i < proposed.parts().size(); i++) {
                lines.put(reckoned.read().path("/parts/" + i), proposed.parts().get(i));
            }
        }
    }

    /**
     * @param row path of a part; empty for the item
     * @param cautions of what counts
     */
    ProposedView of(String row, List<CautionView> cautions) {
        List<HiddenField> kept = new ArrayList<>();
        for (String code : LeftOut.in(typed, row)) {
            kept.add(new HiddenField(LeftOut.field(row, code), code));
        }
        String id = TakeOffViews.id("proposed", row);
        return new ProposedView(
                id,
                kept,
                lines.getOrDefault(row, List.of()).stream()
                        .map(
                                line ->
                                        new ProposedLine(
                                                id
                                                        + LeftOut.field("", line.code())
                                                                .replace('/', '-'),
                                                "proposed" + row + " " + line.code(),
                                                LeftOut.field(row, line.code()),
                                                line.code(),
                                                line.standard(),
                                                amount(line),
                                                line.unit() == null
                                                        ? ""
                                                        : line.unit().of(rounded(line)),
                                                minutes(line),
                                                line.out()))
                        .toList(),
                cautions);
    }

    /** Time standards that count. */
    Set<String> standards(String row) {
        return lines.getOrDefault(row, List.of()).stream()
                .filter(line -> !line.out())
                .map(ProposedLines.Line::standard)
                .collect(Collectors.toSet());
    }

    private String amount(ProposedLines.Line line) {
        return numbers.show(rounded(line));
    }

    private static double rounded(ProposedLines.Line line) {
        return Math.round(line.amount() * 1000) / 1000.0;
    }

    private String minutes(ProposedLines.Line line) {
        String each =
                line.minutesEach() > 0 ? numbers.show(line.minutesEach(), 1) + " min each" : "";
        String once =
                line.setupMinutes() > 0 ? numbers.show(line.setupMinutes(), 1) + " min once" : "";
        return each + (each.isEmpty() || once.isEmpty() ? "" : ", ") + once;
    }
}
