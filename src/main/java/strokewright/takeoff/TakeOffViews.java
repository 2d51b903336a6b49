package strokewright.takeoff;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.AskedPrice;
import strokewright.estimate.AtMarketPrice;
import strokewright.estimate.Caution;
import strokewright.estimate.Estimate;
import strokewright.estimate.Folding;
import strokewright.estimate.FormingHours;
import strokewright.estimate.Operation;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.takeoff.Field.Kind;
import strokewright.takeoff.TakeOffView.CautionView;
import strokewright.takeoff.TakeOffView.FaultView;
import strokewright.takeoff.TakeOffView.FieldView;
import strokewright.takeoff.TakeOffView.Figure;
import strokewright.takeoff.TakeOffView.FoldView;
import strokewright.takeoff.TakeOffView.MainView;
import strokewright.takeoff.TakeOffView.MarketView;
import strokewright.takeoff.TakeOffView.OptionView;
import strokewright.takeoff.TakeOffView.PlanView;
import strokewright.takeoff.TakeOffView.ProposedView;
import strokewright.takeoff.TakeOffView.ResultView;
import strokewright.takeoff.TakeOffView.RowView;
import strokewright.takeoff.TakeOffView.SlotView;
import strokewright.takeoff.TakeOffView.WorkedOut;
import strokewright.takeoff.TakeOffView.WorkingView;
import strokewright.web.Numbers;
import strokewright.web.Reading;

/** Makes the take-off page's view of what was typed and what came of it. */
public final class TakeOffViews {

    /** Keys that a page's script puts real ones in place of, in rows that are still to be added. */
    static final String PART_KEY = "PKEY";

    static final String LINE_KEY = "LKEY";

    static final String SEGMENT_KEY = "SKEY";

    private static final int MOST_LINES_LISTED = 8;

    private final ShopBook book;
    private final Numbers numbers;
    private final TypedTakeOff typed;
    private final Reckoned reckoned;
    private final FindingWords words;
    private final Pictures pictures;
    private final PassPictures passPictures;
    private final WorkingViews workings;
    private final ProposedViews proposed;
    private final Map<String, String> faultAt = new HashMap<>();
    private final Map<String, Estimate.Line> lines;
    private final Map<String, Operation> operations = new HashMap<>();
    private final Map<String, Part> parts = new HashMap<>();
    private final Set<Caution> toldOnce = EnumSet.noneOf(Caution.class);

    public TakeOffViews(Reckoned reckoned, ShopBook book, Numbers numbers) {
        this.book = book;
        this.numbers = numbers;
        this.typed = reckoned.typed();
        this.reckoned = reckoned;
        this.words = new FindingWords(numbers);
        this.pictures = new Pictures(numbers);
        this.passPictures = new PassPictures(numbers);
        this.workings = new WorkingViews(numbers);
        reckoned.faults().forEach(f -> faultAt.putIfAbsent(f.pointer(), f.message()));
        this.lines = reckoned.lines();
        this.proposed = new ProposedViews(reckoned, book, numbers);
        TakeOff takeOff = reckoned.read().takeOff();
        for (int i = 0; i < takeOff.parts().size(); i++) {
            Part part = takeOff.parts().get(i);
            parts.put(reckoned.read().path("/parts/" + i), part);
            for (int j = 0; j < part.operations().size(); j++) {
                operations.put(
                        reckoned.read().path("/parts/" + i + "/operations/" + j),
                        part.operations().get(j));
            }
        }
    }

    TakeOffView view(String base, @Nullable String saved) {
        return new TakeOffView(
                base,
                fields("", PartFields.ITEM),
                parts(typed.rows("/parts")),
                assembly(typed.rows("/assembly")),
                proposed(""),
                typed.rows("/extras").stream().map(this::extra).toList(),
                field("", PartFields.MARKET_PRICE),
                result(saved));
    }

    /** What an answer brings anew. */
    record Told(List<SlotView> slots, List<ProposedView> proposed) {}

    /**
     * Only what is told beside each row, in the order of the page, so that a caution which stands
     * once stays where it is.
     */
    Told told() {
        List<SlotView> slots = new ArrayList<>();
        List<ProposedView> proposals = new ArrayList<>();
        for (String row : typed.rows("/parts")) {
            slots.add(partSlot(row));
            typed.rows(row + "/operations").forEach(line -> slots.add(lineSlot(line)));
            proposals.add(proposed(row));
        }
        typed.rows("/assembly").forEach(line -> slots.add(lineSlot(line)));
        proposals.add(proposed(""));
        typed.rows("/extras").forEach(row -> slots.add(extraSlot(row)));
        return new Told(slots, proposals);
    }

    private ProposedView proposed(String row) {
        return proposed.of(row, once(cautionsOfProposed(row)));
    }

    /** Of what is proposed in a part, or on the item as a whole. */
    private Set<Caution> cautionsOfProposed(String row) {
        Set<Caution> cautions = EnumSet.noneOf(Caution.class);
        Set<String> standards = proposed.standards(row);
        if (reckoned.estimate() == null || standards.isEmpty()) {
            return cautions;
        }
        List<Part> metals = row.isEmpty() ? List.copyOf(parts.values()) : List.of(parts.get(row));
        for (Estimate.Line line : reckoned.estimate().operations()) {
            if (line.proposal() != null && standards.contains(line.standard())) {
                metals.forEach(p -> cautions.addAll(Caution.of(line, book.grade(p.grade()))));
            }
        }
        return cautions;
    }

    // Rows ------------------------------------------------------------------------------------

    List<RowView> parts(List<String> rows) {
        return rows.stream().map(this::part).toList();
    }

    List<RowView> assembly(List<String> rows) {
        return rows.stream().map(row -> line(row, true)).toList();
    }

    private RowView part(String row) {
        SlotView slot = partSlot(row);
        return new RowView(
                row,
                id("row", row),
                "part",
                null,
                fields(row, PartFields.PART),
                fields(row, PartFields.PART_MORE),
                List.of(),
                typed.rows(row + "/operations").stream().map(r -> line(r, false)).toList(),
                slot,
                fold(row),
                proposed(row));
    }

    private FoldView fold(String row) {
        return new FoldView(
                typed.says(row + TakeOffReading.FOLD, Set.of()),
                fields(row, PartFields.FOLD),
                typed.rows(row + TakeOffReading.BENDS).stream().map(this::bend).toList());
    }

    private RowView bend(String row) {
        return new RowView(
                row,
                id("row", row),
                "bend",
                null,
                fields(row, PartFields.BEND),
                List.of(),
                List.of(),
                List.of(),
                SlotView.empty(id("at", row)));
    }

    RowView newBend() {
        return bend("/parts/" + PART_KEY + TakeOffReading.BENDS + "/" + SEGMENT_KEY);
    }

    private RowView line(String row, boolean ofAssembly) {
        Work work = ofAssembly ? Work.STANDARD : work(row);
        return line(row, work, ofAssembly ? null : kinds(row, work), lineSlot(row));
    }

    private Work work(String row) {
        return Work.of(typed.at(row + "/type")).orElse(Work.STANDARD);
    }

    private RowView line(String row, Work work, @Nullable FieldView kinds, SlotView slot) {
        return new RowView(
                row,
                id("row", row),
                "line",
                kinds,
                fields(row, work.fields()),
                fields(row, work.more()),
                fields(row, work.own()),
                work.hasSegments()
                        ? typed.rows(row + TakeOffReading.SEGMENTS).stream()
                                .map(this::segment)
                                .toList()
                        : List.of(),
                slot);
    }

    private RowView segment(String row) {
        return new RowView(
                row,
                id("row", row),
                "segment",
                null,
                fields(row, Work.SEGMENT),
                List.of(),
                List.of(),
                List.of(),
                SlotView.empty(id("at", row)));
    }

    RowView newSegment() {
        return segment(
                "/parts/"
                        + PART_KEY
                        + "/operations/"
                        + LINE_KEY
                        + TakeOffReading.SEGMENTS
                        + "/"
                        + SEGMENT_KEY);
    }

    private FieldView kinds(String row, Work chosen) {
        List<OptionView> options = new ArrayList<>();
        for (Work work : Work.values()) {
            options.add(new OptionView(work.kind(), work.label(), work == chosen, null));
        }
        String path = row + "/type";
        return new FieldView(
                path, id("f", path), "Work", "choice", "", chosen.kind(), "", "", options, null);
    }

    private RowView extra(String row) {
        return new RowView(
                row,
                id("row", row),
                "extra",
                null,
                fields(row, PartFields.EXTRA),
                List.of(),
                List.of(),
                List.of(),
                extraSlot(row));
    }

    /** A part as it is added, with one line in it. */
    RowView newPart() {
        String row = "/parts/" + PART_KEY;
        return new RowView(
                row,
                id("row", row),
                "part",
                null,
                fields(row, PartFields.PART),
                fields(row, PartFields.PART_MORE),
                List.of(),
                List.of(),
                SlotView.empty(id("at", row)),
                fold(row),
                proposed(row));
    }

    /** A line as it is added, one for each kind of work. */
    List<RowView> newLines() {
        String row = "/parts/" + PART_KEY + "/operations/" + LINE_KEY;
        List<RowView> rows = new ArrayList<>();
        for (Work work : Work.values()) {
            rows.add(line(row, work, kinds(row, work), SlotView.empty(id("at", row))));
        }
        return rows;
    }

    RowView newAssemblyLine() {
        String row = "/assembly/" + LINE_KEY;
        return line(row, Work.STANDARD, null, SlotView.empty(id("at", row)));
    }

    RowView newExtra() {
        String row = "/extras/" + LINE_KEY;
        return new RowView(
                row,
                id("row", row),
                "extra",
                null,
                fields(row, PartFields.EXTRA),
                List.of(),
                List.of(),
                List.of(),
                SlotView.empty(id("at", row)));
    }

    private List<FieldView> fields(String row, List<Field> fields) {
        return fields.stream().map(f -> field(row, f)).toList();
    }

    private FieldView field(String row, Field field) {
        String path = row + "/" + field.name();
        String value = typed.at(path);
        String workedOut = reckoned.read().workedOut().get(path);
        String unit = field.isMoney() ? currency() : "";
        return new FieldView(
                path,
                id("f", path),
                field.label(),
                field.kind() == Kind.CHOICE
                        ? "choice"
                        : field.kind() == Kind.TEXT
                                ? "text"
                                : field.kind() == Kind.LINES ? "lines" : "number",
                unit.isEmpty() ? field.unit() : unit,
                value,
                workedOut == null ? otherwise(row, field) : workedOut,
                field.hint(),
                options(field, value),
                isTold(path) ? faultAt.get(path) : null);
    }

    /**
     * What is missing is listed with the result and not told at its field, or a fresh row would be
     * full of red; but own minutes without a reason, or a reason without minutes, are half typed.
     */
    private boolean isTold(String path) {
        return !typed.isEmpty(path) || TakeOffReading.isOwn(path);
    }

    private String currency() {
        return String.valueOf(book.currency());
    }

    private String otherwise(String row, Field field) {
        boolean nameOfPart = field.name().equals("name") && row.startsWith("/parts/");
        return nameOfPart
                ? "Part " + Math.max(1, 1 + typed.rows("/parts").indexOf(row))
                : field.otherwise();
    }

    private @Nullable List<OptionView> options(Field field, String value) {
        if (field.options() == null) {
            return null;
        }
        List<OptionView> options = new ArrayList<>();
        boolean known = false;
        for (Field.Option option : field.options().apply(book)) {
            boolean chosen = option.value().equals(value);
            known = known || chosen;
            options.add(
                    new OptionView(
                            option.value(),
                            option.label(),
                            chosen,
                            field.name().equals("standard") ? unitOf(option.value()) : null));
        }
        if (!known && !value.isEmpty()) { // gone from the shop book since it was chosen
            options.add(new OptionView(value, value + " (not in the shop book)", true, null));
        }
        return options;
    }

    private double amount(String shown) {
        Double amount = numbers.number(shown).asDouble();
        return amount == null ? Double.NaN : amount;
    }

    private ShopBook.@Nullable Unit unitOf(String standard) {
        return book.standard(standard).map(ShopBook.Standard::unit).orElse(null);
    }

    // Slots -----------------------------------------------------------------------------------

    private SlotView partSlot(String row) {
        Part typedPart = parts.get(row);
        if (typedPart == null) {
            return slot(row, List.of(), Set.of(), List.of(), WorkingView.EMPTY);
        }
        Part part = Folding.withBlank(typedPart, book);
        List<Figure> figures = new ArrayList<>();
        Double kg = Folding.massKg(part, book);
        if (kg != null) {
            figures.add(new Figure("one piece", numbers.show(kg, 2), "kg"));
        }
        TakeOff.Blank blank = part.blank();
        if (blank != null && blank.lengthMm() != null && blank.widthMm() != null) {
            figures.add(
                    new Figure(
                            "blank", size(blank.lengthMm()) + " × " + size(blank.widthMm()), "mm"));
        }
        if (part.thicknessMm() != null) {
            figures.add(new Figure("thickness", thickness(part), "mm"));
        }
        Optional<Estimate.Folded> folded = Folding.of(part, book);
        List<String> drawn = new ArrayList<>();
        folded.ifPresent(f -> fold(row, part, f, figures, drawn));
        return slot(
                row,
                figures,
                Caution.of(part, kg),
                drawn,
                folded.map(f -> workings.of(f.why())).orElse(WorkingView.EMPTY));
    }

    /** "16 ga = 1.52", three digits: sheet is rolled to no more. */
    private String thickness(Part part) {
        BigDecimal mm = BigDecimal.valueOf(part.thicknessMm());
        return part.gauge() == null
                ? numbers.show(mm)
                : part.gauge() + " = " + numbers.show(mm.round(new MathContext(3)));
    }

    private void fold(
            String row,
            Part part,
            Estimate.Folded folded,
            List<Figure> figures,
            List<String> drawn) {
        figures.add(new Figure("developed", size(folded.developedMm()), "mm"));
        figures.add(
                new Figure(
                        folded.bends().size() == 1 ? "bend line at" : "bend lines at",
                        folded.bends().stream()
                                        .limit(MOST_LINES_LISTED)
                                        .map(b -> numbers.show(Math.round(b.lineMm() * 10) / 10.0))
                                        .collect(Collectors.joining(" · "))
                                + (folded.bends().size() > MOST_LINES_LISTED ? " …" : ""),
                        "mm"));
        Estimate.Bent first = folded.bends().get(0);
        figures.add(new Figure("bend force", numbers.show(first.forceKn(), 1), "kN"));
        figures.add(new Figure("die", size(first.dieOpeningMm()), "mm"));
        if (folded.bends().stream().anyMatch(b -> b.bendToDeg() != null)) {
            figures.add(new Figure("bend to, for springback", bendTo(folded), "°"));
        }
        FoldPicture picture = new FoldPicture(numbers);
        drawn.add(picture.profile(part.fold(), folded, part.thicknessMm(), id("fold", row)));
        drawn.add(picture.blank(folded, id("flat", row)));
    }

    /** Once where all are bent alike, else bend by bend. */
    private String bendTo(Estimate.Folded folded) {
        List<String> each =
                folded.bends().stream()
                        .map(b -> b.bendToDeg() == null ? "–" : numbers.show(b.bendToDeg(), 1))
                        .toList();
        return each.stream().distinct().count() == 1
                ? each.get(0)
                : each.stream().limit(MOST_LINES_LISTED).collect(Collectors.joining(" · "))
                        + (each.size() > MOST_LINES_LISTED ? " …" : "");
    }

    private String size(double mm) {
        return numbers.show(Math.round(mm * 100) / 100.0);
    }

    private SlotView extraSlot(String row) {
        return slot(row, List.of(), Set.of(), List.of(), WorkingView.EMPTY);
    }

    private SlotView lineSlot(String row) {
        Estimate.Line line = lines.get(row);
        if (line == null) {
            return slot(row, List.of(), Set.of(), List.of(), WorkingView.EMPTY);
        }
        List<String> drawn = new ArrayList<>();
        Operation operation = operations.get(row);
        if (operation != null) {
            add(drawn, pictures.outline(operation, line, book, id("outline", row)));
            add(drawn, pictures.shape(operation, id("shape", row)));
            drawn.addAll(passPictures.of(line, id("worked", row)));
        }
        return slot(row, figures(row, line), cautions(row, line), drawn, workings.of(line.why()));
    }

    private static void add(List<String> drawn, @Nullable String picture) {
        if (picture != null) {
            drawn.add(picture);
        }
    }

    private Set<Caution> cautions(String row, Estimate.Line line) {
        Set<Caution> cautions = EnumSet.noneOf(Caution.class);
        if (row.startsWith("/assembly/")) {
            reckoned.read().takeOff().parts().stream()
                    .map(p -> Caution.of(line, book.grade(p.grade())))
                    .forEach(cautions::addAll);
        } else {
            Part part = parts.get(row.substring(0, row.indexOf("/operations/")));
            cautions.addAll(
                    Caution.of(line, part == null ? Optional.empty() : book.grade(part.grade())));
        }
        return cautions;
    }

    private SlotView slot(
            String row,
            List<Figure> figures,
            Set<Caution> cautions,
            List<String> drawn,
            WorkingView working) {
        boolean incomplete = reckoned.leftOut().stream().anyMatch(row::equals);
        boolean there = reckoned.read().pathOf().containsValue(row);
        return new SlotView(
                id("at", row),
                !there && !incomplete,
                incomplete,
                figures,
                findingsAt(row),
                once(cautions),
                drawn,
                working);
    }

    /** What was taken out stands among what is proposed. */
    private List<FindingWords.Told> findingsAt(String row) {
        return reckoned.findingsAt(row).stream()
                .filter(f -> !f.code().equals("line-left-out"))
                .map(words::tell)
                .toList();
    }

    /** The same caution stands once, where it is first called for. */
    private List<CautionView> once(Set<Caution> cautions) {
        return cautions.stream()
                .filter(toldOnce::add)
                .map(c -> new CautionView(c.title(), c.text() + vibration(c)))
                .toList();
    }

    /** Planned stroke minutes of the main quantity. */
    private String vibration(Caution caution) {
        if (caution != Caution.VIBRATION || reckoned.main() == null) {
            return "";
        }
        double minutes = 0;
        for (Map.Entry<String, Estimate.Line> each : lines.entrySet()) {
            Part part =
                    each.getKey().contains("/operations/")
                            ? parts.get(
                                    each.getKey()
                                            .substring(0, each.getKey().indexOf("/operations/")))
                            : null;
            Double strokes = each.getValue().strokeMinutes();
            if (strokes != null && part != null) {
                minutes += strokes * part.perAssembly() * reckoned.main().quantity();
            }
        }
        return " Planned here: "
                + numbers.show(minutes, 0)
                + " stroke minutes for "
                + pieces(reckoned.main().quantity())
                + ".";
    }

    private String pieces(int quantity) {
        return quantity == 1 ? "one" : numbers.show(quantity) + " of it";
    }

    private List<Figure> figures(String row, Estimate.Line line) {
        List<Figure> figures = new ArrayList<>();
        if (line.standard() != null) {
            String offered = reckoned.read().workedOut().get(row + "/amount");
            if (offered != null) {
                figures.add(
                        new Figure(
                                "amount, from the geometry",
                                offered,
                                unitOf(line.standard()).of(amount(offered))));
            }
            if (line.machineMinutes() > 0) {
                figures.add(minutes("each", line.machineMinutes()));
            }
            if (line.setupMinutes() != null && line.setupMinutes() > 0) {
                figures.add(minutes("once", line.setupMinutes()));
            }
            figures.add(new Figure("at", line.workCentre(), ""));
            return figures;
        }
        if (line.outline() != null) {
            figures.addAll(outline(line.outline()));
        }
        if (line.strains() != null && !line.strains().isEmpty()) {
            double most = line.strains().get(line.strains().size() - 1);
            figures.add(new Figure("strain", numbers.show(most * 100, 1), "%"));
        }
        int passes = passes(line);
        if (passes > 0) {
            figures.add(new Figure("passes", numbers.show(passes), ""));
        }
        if (line.strokes() != null) {
            figures.add(new Figure("strokes", numbers.show(line.strokes()), ""));
        }
        if (line.override() == null) {
            figures.add(minutes("at the machine", line.machineMinutes()));
        } else {
            figures.add(minutes("own minutes, which count", line.override().minutes()));
            figures.add(minutes("computed", line.machineMinutes()));
        }
        if (line.annealMinutes() != null && line.annealMinutes() > 0) {
            figures.add(minutes("annealing", line.annealMinutes()));
        }
        if (line.people() > 1) {
            figures.add(new Figure("people", numbers.show(line.people()), ""));
        }
        if (line.edgeThicknessMm() != null) {
            figures.add(new Figure("edge then", numbers.show(line.edgeThicknessMm(), 2), "mm"));
        }
        if (line.crown() != null) {
            figures.add(
                    new Figure("crown then", numbers.show(line.crown().thicknessMm(), 2), "mm"));
        }
        if (line.blankDiameterMm() != null) {
            figures.add(new Figure("blank Ø", numbers.show(line.blankDiameterMm(), 1), "mm"));
        }
        if (line.tool() != null) {
            figures.add(new Figure("tool", String.join(" and ", Words.toolsAlone(line)), ""));
        }
        if (line.machine() != null) {
            figures.add(new Figure("on", line.machine(), ""));
        }
        return figures;
    }

    private List<Figure> outline(Estimate.Outlined outline) {
        List<Figure> figures = new ArrayList<>();
        figures.add(new Figure("outline", numbers.show(outline.lengthMm(), 0), "mm"));
        figures.add(new Figure("stretches", numbers.show(outline.stretches().size()), ""));
        if (!outline.corners().isEmpty()) {
            figures.add(new Figure("corners", numbers.show(outline.corners().size()), ""));
        }
        return figures;
    }

    /** Of the most worked row, corrections and tipping with it. */
    private static int passes(Estimate.Line line) {
        int most =
                line.passes() == null
                        ? 0
                        : line.passes().stream().mapToInt(Integer::intValue).max().orElse(0);
        return most
                + (line.correctionPasses() == null ? 0 : line.correctionPasses())
                + (line.tippingPasses() == null ? 0 : line.tippingPasses());
    }

    private Figure minutes(String name, double minutes) {
        return new Figure(name, numbers.show(minutes, 1), "min");
    }

    // Result ----------------------------------------------------------------------------------

    public ResultView result(@Nullable String saved) {
        Estimate.ForQuantity main = reckoned.main();
        Estimate estimate = reckoned.estimate();
        Set<Caution> cautions = Caution.of(reckoned.takeOff());
        return new ResultView(
                main == null ? null : main(main),
                estimate == null || main == null
                        ? null
                        : PriceViews.of(
                                estimate, main, reckoned.read().takeOff(), book, numbers, "price"),
                estimate == null ? null : PlanView.of(estimate, "plan", numbers),
                estimate != null && estimate.feasible(),
                faults(),
                reckoned.leftOut().stream().map(this::where).toList(),
                findingsAt(""),
                cautions.stream().map(c -> new CautionView(c.title(), c.text())).toList(),
                reckoned.read().workedOut().entrySet().stream()
                        .map(e -> new WorkedOut(id("f", e.getKey()), e.getValue()))
                        .toList(),
                reckoned.complete(),
                book.edition(),
                estimate == null
                        ? FormingHours.doubt(book)
                        : FormingHours.doubt(reckoned.read().takeOff(), estimate, book),
                main == null ? null : market(main.quantity()),
                saved);
    }

    /** What the typed market's price leaves; null while none is typed. */
    private @Nullable MarketView market(int quantity) {
        if (typed.isEmpty(TakeOffDesk.MARKET_PRICE)) {
            return null;
        }
        Reading read = numbers.number(typed.at(TakeOffDesk.MARKET_PRICE));
        if (read.fault() != null) {
            return MarketView.unread(read.fault());
        }
        Money each = new Money(read.value(), book.currency());
        try {
            AtMarketPrice left =
                    new AskedPrice(reckoned.read().takeOff(), quantity, each, null).answer(book);
            return new MarketView(
                    new MarketWords(numbers).of(left), left.profit().amount().signum() < 0, null);
        } catch (InvalidInput e) {
            return MarketView.unread(e.faults().get(0).message());
        }
    }

    private MainView main(Estimate.ForQuantity main) {
        return new MainView(
                main.quantity(),
                amount(main.priceEach()),
                amount(main.price().offer()),
                numbers.show(main.hours().plan(), 2),
                currency(),
                NestView.of(main, "nest", numbers),
                workings.of(main.why()));
    }

    private String amount(Money money) {
        return numbers.show(money.amount(), money.amount().scale());
    }

    private List<FaultView> faults() {
        List<FaultView> views = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (Fault fault : reckoned.faults()) {
            if (seen.add(fault.pointer())) {
                views.add(
                        new FaultView(
                                id("f", fault.pointer()),
                                where(fault.pointer()),
                                fault.message(),
                                !isTold(fault.pointer())));
            }
        }
        return views;
    }

    /** "Rim, line 2, flange height" for a path. */
    private String where(String path) {
        List<String> steps = new ArrayList<>();
        String[] names = path.substring(1).split("/");
        if (names[0].equals("parts") && names.length > 1) {
            String part = "/parts/" + names[1];
            String name = typed.at(part + "/name").strip();
            int number = typed.rows("/parts").indexOf(part) + 1;
            steps.add(name.isEmpty() ? "Part " + number : name);
            if (names.length > 4 && names[2].equals("fold") && names[3].equals("bends")) {
                String bends = part + TakeOffReading.BENDS;
                steps.add("bend " + (typed.rows(bends).indexOf(bends + "/" + names[4]) + 1));
            }
            if (names.length > 3 && names[2].equals("operations")) {
                String line = part + "/operations/" + names[3];
                steps.add("line " + (typed.rows(part + "/operations").indexOf(line) + 1));
                if (names.length > 5) {
                    String list = line + TakeOffReading.SEGMENTS;
                    int segment = typed.rows(list).indexOf(list + "/" + names[5]) + 1;
                    steps.add("segment " + segment);
                }
            }
        } else if (names.length > 1) {
            int number = typed.rows("/" + names[0]).indexOf("/" + names[0] + "/" + names[1]) + 1;
            steps.add((names[0].equals("extras") ? "extra " : "assembly line ") + number);
        }
        label(path).ifPresent(steps::add);
        return steps.isEmpty() ? "The take-off" : String.join(", ", steps);
    }

    private Optional<String> label(String path) {
        if (path.endsWith(TakeOffReading.OWN)) {
            return Optional.of("own minutes");
        }
        if (path.endsWith(TakeOffReading.FOLD)) {
            return Optional.of("fold");
        }
        List<Field> all = new ArrayList<>(PartFields.ITEM);
        if (path.contains(TakeOffReading.BENDS + "/")) {
            all.clear();
            all.addAll(PartFields.BEND);
        }
        all.addAll(PartFields.FOLD);
        all.addAll(PartFields.PART);
        all.addAll(PartFields.PART_MORE);
        all.addAll(PartFields.EXTRA);
        if (path.contains("/operations/") || path.startsWith("/assembly/")) {
            all.clear();
            String row = path.substring(0, path.lastIndexOf('/'));
            if (row.contains(TakeOffReading.SEGMENTS + "/")) {
                row = row.substring(0, row.indexOf(TakeOffReading.SEGMENTS + "/"));
                all.addAll(Work.SEGMENT);
            }
            Work work = path.startsWith("/assembly/") ? Work.STANDARD : work(row);
            all.addAll(work.fields());
            all.addAll(work.more());
            all.addAll(work.own());
        }
        return all.stream()
                .filter(f -> path.endsWith("/" + f.name()))
                .map(f -> f.label().toLowerCase(Locale.ROOT))
                .findFirst();
    }

    /** Usable in an id and in a selector. */
    static String id(String what, String path) {
        return what + path.replace('/', '-');
    }
}
