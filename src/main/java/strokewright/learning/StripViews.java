package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;
import strokewright.learning.StripFit.Compared;
import strokewright.learning.StripView.Change;
import strokewright.learning.StripView.Figure;
import strokewright.learning.StripView.ReadingRow;
import strokewright.learning.StripView.StripPart;
import strokewright.learning.StripView.Told;
import strokewright.quantity.Finding;
import strokewright.web.Numbers;

/** Makes the view of a set of test strips. */
record StripViews(Numbers numbers) {

    /**
     * @param book the edition that it was fitted with
     * @param adoption what adopting it now would change
     */
    StripView view(StripSetDocument set, ShopBook book, Optional<Adoption> adoption) {
        StripFit fit = set.fit();
        List<StripPart> strips = new ArrayList<>();
        for (int i = 0; i < set.strips().size(); i++) {
            strips.add(strip(set, book, i));
        }
        return new StripView(
                fit.findings().stream().map(this::told).toList(),
                fit.biteStrain() == null ? List.of() : figures(fit),
                fit.residualSdStrokes() == null ? null : scatter(fit),
                strips,
                adoption.map(this::changes).orElse(List.of()),
                book.machines().size() > 1);
    }

    /** One figure for the list: "1.07", or "≥ 1.07" where it is only bounded. */
    String bite(@Nullable Fitted bite) {
        return bite == null ? "–" : atLeast(bite) + percent(bite.value());
    }

    String work(@Nullable Fitted work) {
        return work == null ? "–" : atLeast(work) + joule(work.value());
    }

    String feed(@Nullable Fitted feed) {
        return feed == null ? "–" : atLeast(feed) + share(feed.value());
    }

    private static String atLeast(Fitted figure) {
        return figure.bound() == null ? "" : "≥ ";
    }

    private Told told(Finding finding) {
        StripWords words = new StripWords(numbers);
        return new Told(
                finding.severity().name().toLowerCase(Locale.ROOT),
                where(finding.pointer()),
                words.text(finding),
                words.change(finding));
    }

    private static String where(String pointer) {
        String[] parts = pointer.split("/");
        return parts.length < 5
                ? ""
                : "Strip "
                        + (Integer.parseInt(parts[2]) + 1)
                        + ", reading "
                        + (Integer.parseInt(parts[4]) + 1)
                        + ". ";
    }

    private List<Figure> figures(StripFit fit) {
        return List.of(
                new Figure(
                        "Bite, thick sheet",
                        bite(fit.biteStrain()),
                        "%",
                        interval(
                                fit.biteStrain(),
                                percent(fit.biteStrain().low()),
                                fit.biteStrain().high() == null
                                        ? ""
                                        : percent(fit.biteStrain().high()))),
                new Figure(
                        "Stroke work",
                        work(fit.strokeWorkJ()),
                        "J",
                        interval(
                                fit.strokeWorkJ(),
                                joule(fit.strokeWorkJ().low()),
                                fit.strokeWorkJ().high() == null
                                        ? ""
                                        : joule(fit.strokeWorkJ().high()))),
                new Figure(
                        "Feed efficiency",
                        feed(fit.feedEfficiency()),
                        "",
                        interval(
                                fit.feedEfficiency(),
                                share(fit.feedEfficiency().low()),
                                fit.feedEfficiency().high() == null
                                        ? ""
                                        : share(fit.feedEfficiency().high()))));
    }

    private static String interval(Fitted figure, String low, String high) {
        return figure.bound() == null ? low + " to " + high : "only a lower bound";
    }

    private String scatter(StripFit fit) {
        double mean =
                fit.readings().stream().mapToDouble(Compared::strokes).average().orElseThrow();
        return numbers.show(fit.residualSdStrokes(), fit.residualSdStrokes() < 10 ? 1 : 0)
                + " strokes, "
                + numbers.show(100 * fit.residualSdStrokes() / mean, 1)
                + " % of the strokes noted on the average";
    }

    private StripPart strip(StripSetDocument set, ShopBook book, int at) {
        TestStrips.Strip strip = set.strips().get(at);
        List<ReadingRow> rows = new ArrayList<>();
        for (int j = 0; j < strip.readings().size(); j++) {
            int reading = j;
            Compared compared =
                    set.fit().readings().stream()
                            .filter(r -> r.strip() == at && r.reading() == reading)
                            .findFirst()
                            .orElse(null);
            rows.add(row(strip.readings().get(j), compared));
        }
        return new StripPart(
                sketch(strip),
                set.fit().readings().isEmpty()
                        ? null
                        : StripPicture.of(set.notes(), set.fit(), book, numbers, at),
                rows);
    }

    private String sketch(TestStrips.Strip strip) {
        return strip.grade()
                + ", "
                + numbers.show(strip.thicknessMm())
                + " mm thick, "
                + (strip.shrinks() ? "shrunk" : "stretched")
                + ", "
                + numbers.show(strip.lengthMm())
                + " mm long, "
                + numbers.show(strip.heightMm())
                + " mm high, from "
                + (strip.startRadiusMm() == null
                        ? "straight"
                        : "R " + numbers.show(strip.startRadiusMm()) + " mm");
    }

    private ReadingRow row(TestStrips.Reading reading, @Nullable Compared compared) {
        return new ReadingRow(
                numbers.show(reading.radiusMm()),
                compared == null ? "" : percent(compared.strain()),
                numbers.show(reading.strokes()),
                numbers.show(reading.minutes(), 1),
                compared == null ? "" : numbers.show(compared.fittedStrokes(), 0),
                compared == null ? "" : signed(compared.residualStrokes(), 0),
                compared == null
                        ? ""
                        : signed(100 * compared.residualStrokes() / compared.strokes(), 1),
                compared == null ? "" : heldBy(compared.heldBy()));
    }

    private static String heldBy(Held held) {
        return switch (held) {
            case BITE -> "bite";
            case WORK -> "work";
            case BOTH -> "both";
        };
    }

    private String signed(double value, int decimals) {
        String shown = numbers.show(value, decimals);
        return shown.matches("[−]?0([.,]0*)?")
                ? numbers.show(0.0, decimals)
                : value > 0 ? "+" + shown : shown;
    }

    private List<Change> changes(Adoption adoption) {
        return List.of(
                change("Bite, thick sheet", adoption.biteInUse(), adoption.biteThen(), "%"),
                change("Stroke work", adoption.workInUse(), adoption.workThen(), "J"),
                change("Feed efficiency", adoption.feedInUse(), adoption.feedThen(), ""));
    }

    private Change change(String name, double now, double then, String unit) {
        return new Change(name, shown(now, unit), shown(then, unit), unit, now == then);
    }

    private String shown(double value, String unit) {
        return unit.equals("%") ? percent(value) : unit.equals("J") ? joule(value) : share(value);
    }

    private String percent(double value) {
        return numbers.show(100 * value, 2);
    }

    private String joule(double value) {
        return numbers.show(value, value < 10 ? 3 : 1);
    }

    private String share(double value) {
        return numbers.show(value, 3);
    }
}
