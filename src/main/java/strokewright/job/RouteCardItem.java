package strokewright.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimate.Bent;
import strokewright.estimate.Estimate.Folded;
import strokewright.estimate.Estimate.MetalUsed;
import strokewright.estimate.Estimate.Sample;
import strokewright.estimate.Folding;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.WorkStep;
import strokewright.job.JobPlan.Planned;
import strokewright.quote.PricedItem;
import strokewright.sheet.Nest;
import strokewright.takeoff.FoldPicture;
import strokewright.takeoff.NestView;
import strokewright.web.Numbers;

/**
 * One item of a route card, in words and figures as they stand on the page.
 *
 * @param metal what is cut from which sheet
 * @param nests pictures of the sheets, two to a row
 * @param order what is done, one after the other; rows that stay together on a page
 * @param booked one row for each step, in the order of their numbers
 */
record RouteCardItem(
        int position,
        String title,
        String quantity,
        List<Blank> blanks,
        List<Metal> metal,
        List<List<String>> nests,
        List<List<RouteCardOrder.Row>> order,
        List<FoldedPart> folds,
        List<Check> checks,
        String bought,
        List<Booked> booked,
        String minutes) {

    record Blank(
            String part,
            String metal,
            String thickness,
            String size,
            String pieces,
            String spare,
            String cut,
            String notes) {}

    /**
     * What is taken of one metal.
     *
     * @param patterns how its sheets are cut, in words
     */
    record Metal(String bought, List<String> patterns) {}

    /**
     * A part with its bends in their order.
     *
     * @param profile seen from its end
     * @param blank with its bend lines
     */
    record FoldedPart(String part, String sizes, String profile, String blank, List<Fold> bends) {}

    /**
     * @param line from the edge of the first leg
     * @param leg behind the bend
     */
    record Fold(
            String number,
            String way,
            String line,
            String opening,
            String bendTo,
            String radius,
            String die,
            String leg) {}

    record Check(String part, String lot, String inspect, String verdict, String against) {}

    /**
     * A step with room for what was done.
     *
     * @param code null without an address
     * @param passes whether there are passes to note
     */
    record Booked(
            String n,
            String what,
            String workCentre,
            String setup,
            String run,
            @Nullable RouteCardCode code,
            boolean passes) {}

    /** Makes the view of one item. */
    static final class Making {

        private static final Pattern VIEW_BOX =
                Pattern.compile("<svg class=\"[^\"]*\".*?viewBox=\"0 0 ([\\d.]+) ([\\d.]+)\"");
        private static final double WIDE_MM = 86;

        private final PricedItem item;
        private final TakeOff takeOff;
        private final Estimate estimate;
        private final int quantity;
        private final Estimate.ForQuantity planned;
        private final ShopBook book;
        private final List<Step> steps;
        private final @Nullable String address;
        private final Numbers numbers;

        /**
         * @param steps those of the item
         * @param address of the job; null without one
         */
        Making(
                Planned planned,
                Estimate.ForQuantity figures,
                ShopBook book,
                List<Step> steps,
                @Nullable String address,
                Numbers numbers) {
            this.item = planned.item();
            this.takeOff = item.takeOff();
            this.estimate = item.estimate();
            this.quantity = planned.quantity();
            this.planned = figures;
            this.book = book;
            this.steps = steps;
            this.address = address;
            this.numbers = numbers;
        }

        RouteCardItem item() {
            return new RouteCardItem(
                    item.position(),
                    item.title(),
                    numbers.show(quantity),
                    takeOff.parts().stream().map(this::blank).toList(),
                    planned.metal().stream().map(this::metal).toList(),
                    nests(),
                    together(RouteCardOrder.of(estimate, takeOff, planned, book, steps, numbers)),
                    takeOff.parts().stream().flatMap(p -> folded(p).stream()).toList(),
                    planned.samples().stream().map(this::check).toList(),
                    bought(),
                    steps.stream().map(this::booked).toList(),
                    minutes());
        }

        /** What is put in or annealed for a piece of work does not part from it. */
        private static List<List<RouteCardOrder.Row>> together(List<RouteCardOrder.Row> rows) {
            List<List<RouteCardOrder.Row>> wholes = new ArrayList<>();
            List<RouteCardOrder.Row> open = new ArrayList<>();
            for (RouteCardOrder.Row row : rows) {
                open.add(row);
                if (row.isWork()) {
                    wholes.add(List.copyOf(open));
                    open.clear();
                }
            }
            if (!open.isEmpty()) {
                wholes.add(open);
            }
            return wholes;
        }

        // Blanks and sheets -----------------------------------------------------------------------

        private Blank blank(Part part) {
            int pieces = quantity * part.perAssembly();
            int spare =
                    planned.spares().stream()
                            .filter(s -> s.part().equals(part.name()))
                            .mapToInt(Estimate.Spare::blanks)
                            .sum();
            List<String> notes = new ArrayList<>();
            if (part.blank() == null && Folding.developed(part, book).isPresent()) {
                notes.add("developed");
            }
            if (part.grain() == TakeOff.Grain.ALONG_LENGTH) {
                notes.add("grain along its length");
            }
            if (part.supply() == TakeOff.Supply.CUSTOMER) {
                notes.add("customer's metal");
            }
            if (part.irreplaceable()) {
                notes.add("cannot be bought again");
            }
            if (part.surface() == TakeOff.Surface.VISIBLE) {
                notes.add("visible surface");
            }
            String grade =
                    book.grade(part.grade()).map(g -> g.name() + ", " + g.code()).orElse("–");
            return new Blank(
                    part.name(),
                    part.grade() == null ? "–" : grade,
                    part.thicknessMm() == null ? "–" : numbers.show(part.thicknessMm()),
                    size(part),
                    numbers.show(pieces),
                    numbers.show(spare),
                    numbers.show(pieces + spare),
                    String.join(", ", notes));
        }

        private String size(Part part) {
            TakeOff.Blank blank = Folding.withBlank(part, book).blank();
            String sheet =
                    blank == null || blank.lengthMm() == null || blank.widthMm() == null
                            ? ""
                            : mm(blank.lengthMm()) + " × " + mm(blank.widthMm());
            String disc =
                    estimate.operations().stream()
                            .filter(l -> Objects.equals(l.part(), part.name()))
                            .map(Estimate.Line::blankDiameterMm)
                            .filter(Objects::nonNull)
                            .map(d -> "disc Ø " + mm(d))
                            .collect(Collectors.joining(", "));
            String all =
                    Stream.of(sheet, disc)
                            .filter(t -> !t.isEmpty())
                            .collect(Collectors.joining(", "));
            return all.isEmpty() ? "as it comes" : all;
        }

        private Metal metal(MetalUsed metal) {
            String name = metal.grade() + ", " + numbers.show(metal.thicknessMm()) + "\u00a0mm: ";
            if (metal.sheets() == null
                    || metal.sheetLengthMm() == null
                    || metal.sheetWidthMm() == null) {
                return new Metal(
                        name + numbers.show(metal.kg(), 1) + "\u00a0kg, cut from what is in stock",
                        List.of());
            }
            return new Metal(
                    name
                            + sheets(metal.sheets())
                            + " of "
                            + mm(metal.sheetLengthMm())
                            + " × "
                            + mm(metal.sheetWidthMm())
                            + "\u00a0mm",
                    metal.patterns().stream().map(this::pattern).toList());
        }

        private String sheets(long number) {
            return numbers.show(number) + (number == 1 ? " sheet" : " sheets");
        }

        private String pattern(Nest.Pattern pattern) {
            Map<String, Integer> pieces = new LinkedHashMap<>();
            pattern.blocks().forEach(b -> pieces.merge(b.blank(), b.pieces(), Integer::sum));
            String kept =
                    pattern.offcuts().stream()
                            .filter(Nest.Offcut::kept)
                            .map(o -> mm(o.lengthMm()) + " × " + mm(o.widthMm()))
                            .collect(Collectors.joining(", "));
            return sheets(pattern.times())
                    + (pattern.times() == 1 ? " with " : ", each with ")
                    + pieces.entrySet().stream()
                            .map(e -> numbers.show(e.getValue()) + " × " + e.getKey())
                            .collect(Collectors.joining(", "))
                    + (kept.isEmpty() ? "" : "; keep the offcuts " + kept);
        }

        private List<List<String>> nests() {
            NestView nest = NestView.of(planned, "nest-" + item.position(), numbers);
            if (nest == null) {
                return List.of();
            }
            List<String> pictures =
                    Stream.concat(nest.pictures().stream(), nest.more().stream())
                            .map(Making::sized)
                            .toList();
            List<List<String>> rows = new ArrayList<>();
            for (int i = 0; i < pictures.size(); i += 2) {
                rows.add(pictures.subList(i, Math.min(i + 2, pictures.size())));
            }
            return rows;
        }

        /** Pictures take their width from the page; on paper that is stated. */
        private static String sized(String svg) {
            Matcher box = VIEW_BOX.matcher(svg);
            if (!box.find()) {
                return svg;
            }
            double high =
                    WIDE_MM * Double.parseDouble(box.group(2)) / Double.parseDouble(box.group(1));
            return svg.replaceFirst(
                    "<svg ",
                    String.format(
                            Locale.ROOT,
                            "<svg style=\"width:%.1fmm;height:%.1fmm\" ",
                            WIDE_MM,
                            high));
        }

        // Folding ---------------------------------------------------------------------------------

        private Optional<FoldedPart> folded(Part part) {
            Optional<Folded> stored =
                    estimate.folds().stream().filter(f -> f.part().equals(part.name())).findFirst();
            TakeOff.Fold fold = part.fold();
            if (stored.isEmpty() || fold == null) {
                return Optional.empty();
            }
            Folded folded = stored.get();
            List<Fold> bends = new ArrayList<>();
            for (int i = 0; i < folded.bends().size(); i++) {
                Bent bent = folded.bends().get(i);
                bends.add(
                        new Fold(
                                numbers.show(i + 1),
                                fold.bends().get(i).way() == TakeOff.Way.UP ? "up" : "down",
                                mm(bent.lineMm()),
                                numbers.show(bent.openingDeg()) + "°",
                                bent.bendToDeg() == null
                                        ? "by trial"
                                        : numbers.show(bent.bendToDeg(), 1) + "°",
                                mm(bent.radiusMm()),
                                mm(bent.dieOpeningMm()),
                                mm(fold.legsMm().get(i + 1))));
            }
            FoldPicture pictures = new FoldPicture(numbers);
            String id = "fold-" + item.position() + "-" + takeOff.parts().indexOf(part);
            return Optional.of(
                    new FoldedPart(
                            part.name(),
                            "Along the bends %s\u00a0mm, blank across them %s\u00a0mm, first leg %s\u00a0mm outside"
                                    .formatted(
                                            mm(folded.lengthMm()),
                                            mm(folded.developedMm()),
                                            mm(fold.legsMm().get(0))),
                            sized(
                                    pictures.profile(
                                            fold, folded, part.thicknessMm(), id + "-profile")),
                            sized(pictures.blank(folded, id + "-blank")),
                            bends));
        }

        // Final check -----------------------------------------------------------------------------

        private Check check(Sample sample) {
            boolean all = sample.inspected() >= sample.lot();
            return new Check(
                    sample.part() == null ? "Whole item" : sample.part(),
                    numbers.show(sample.lot()),
                    all
                            ? sample.lot() == 1 ? "the piece" : "every piece"
                            : numbers.show(sample.inspected()),
                    sample.accept() == null || sample.reject() == null
                            ? "each by itself"
                            : "accept up to "
                                    + numbers.show(sample.accept())
                                    + " failed, reject from "
                                    + numbers.show(sample.reject()),
                    against(sample.part()));
        }

        private String against(@Nullable String part) {
            List<String> against = new ArrayList<>();
            takeOff.parts().stream()
                    .filter(p -> Objects.equals(p.name(), part))
                    .forEach(
                            p -> {
                                against.add(
                                        "ISO 2768-"
                                                + p.tolerance().name().toLowerCase(Locale.ROOT));
                                if (isFormed(part)) {
                                    Double gap = p.templateGapMm();
                                    against.add(
                                            "gap to the template at most "
                                                    + mm(
                                                            gap == null
                                                                    ? book.times().templateGapMm()
                                                                    : gap)
                                                    + "\u00a0mm");
                                }
                            });
            return against.isEmpty() ? "drawing" : String.join(", ", against);
        }

        private boolean isFormed(@Nullable String part) {
            return estimate.operations().stream()
                    .anyMatch(l -> Objects.equals(l.part(), part) && l.standard() == null);
        }

        private String bought() {
            return takeOff.extras().stream()
                    .map(
                            e ->
                                    e.name()
                                            + (e.leadTimeDays() == null
                                                    ? ""
                                                    : " (" + e.leadTimeDays() + " days)"))
                    .collect(Collectors.joining(", "));
        }

        // Booking ---------------------------------------------------------------------------------

        private Booked booked(Step step) {
            WorkStep work = step.work();
            return new Booked(
                    numbers.show(step.n()),
                    RouteCard.words(work),
                    work.workCentre(),
                    minutes(work.setupMinutes()),
                    minutes(work.runMinutes()),
                    address == null
                            ? null
                            : RouteCardCode.of(
                                    address + "/" + step.n(),
                                    "code-" + step.n(),
                                    "Code of step " + step.n()),
                    hasPasses(work));
        }

        private boolean hasPasses(WorkStep work) {
            return estimate.operations().stream()
                    .anyMatch(
                            l ->
                                    l.standard() == null
                                            && Objects.equals(l.part(), work.part())
                                            && l.position() == work.position()
                                            && l.type().equals(work.kind()));
        }

        private String minutes() {
            double setup = steps.stream().mapToDouble(s -> s.work().setupMinutes()).sum();
            double run = steps.stream().mapToDouble(s -> s.work().runMinutes()).sum();
            return "Planned for all steps, person-minutes: set-up "
                    + minutes(setup)
                    + ", run "
                    + minutes(run)
                    + ".";
        }

        private String minutes(double minutes) {
            return minutes == 0 ? "–" : numbers.show(minutes, minutes < 100 ? 1 : 0);
        }

        private String mm(double value) {
            return numbers.show(Math.round(value * 10) / 10.0);
        }
    }
}
