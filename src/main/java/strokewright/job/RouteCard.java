package strokewright.job;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Caution;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.WorkStep;
import strokewright.job.JobPlan.Planned;
import strokewright.office.Paper;
import strokewright.office.Pdf;
import strokewright.quote.Letterhead;
import strokewright.takeoff.Cautions;
import strokewright.takeoff.Words;
import strokewright.takeoff.Work;
import strokewright.web.Numbers;

/**
 * The card that goes with a job through the shop: what is cut, in which order it is worked and with
 * which tools, what is checked, what to look out for, and room to write down what was done. It
 * carries no price and no rate: it lies about where anybody can read it.
 */
final class RouteCard {

    /** More places than these are counted: the caution itself always stands. */
    private static final int MOST_TRIGGERS = 8;

    private final Heading heading;
    private final JobPlan plan;
    private final ShopBook book;
    private final Letterhead letterhead;
    private final String shopName;
    private final String bookingLink;
    private final Numbers numbers;

    private RouteCard(
            Heading heading,
            JobPlan plan,
            ShopBook book,
            Letterhead letterhead,
            String shopName,
            String bookingLink) {
        this.heading = heading;
        this.plan = plan;
        this.book = book;
        this.letterhead = letterhead;
        this.shopName = shopName;
        this.bookingLink = bookingLink.replaceAll("/+$", "");
        this.numbers = Numbers.of(letterhead.forFigures());
    }

    /**
     * What stands in the title block.
     *
     * @param date of the release
     * @param releasedBy whose plan it is
     */
    record Heading(
            String jobNumber,
            String title,
            String customer,
            @Nullable LocalDate dueOn,
            LocalDate date,
            String releasedBy) {}

    /**
     * @param book the edition that the items were reckoned with
     * @param shopName where the letterhead says none
     * @param bookingLink under which the floor's phones reach the service, such as
     *     https://shop.example; blank for none, and then there are no codes
     */
    static byte[] of(
            Heading heading,
            JobPlan plan,
            ShopBook book,
            Letterhead letterhead,
            String shopName,
            String bookingLink) {
        RouteCard card = new RouteCard(heading, plan, book, letterhead, shopName, bookingLink);
        return Pdf.of("route-card", card.paper(), card.view());
    }

    /** What the template shows, in words and figures as they stand on the page. */
    record View(
            @Nullable RouteCardCode code,
            String customer,
            String due,
            String edition,
            List<Warned> cautions,
            List<RouteCardItem> items,
            boolean several) {}

    /**
     * A caution with what calls it up.
     *
     * @param more of this job, such as planned minutes; empty for none
     */
    record Warned(String title, String text, String because, String more) {}

    private Paper paper() {
        return new Paper(
                switch (letterhead.paper()) {
                    case A4 -> Paper.Size.A4;
                    case LETTER -> Paper.Size.LETTER;
                },
                "Route card",
                heading.jobNumber(),
                null,
                letterhead.dated(heading.date()),
                heading.title(),
                heading.releasedBy(),
                "",
                new Paper.Sender(
                        letterhead.name() == null ? shopName : letterhead.name(),
                        List.of(),
                        List.of(),
                        List.of(),
                        null),
                List.of(),
                List.of(),
                null);
    }

    private View view() {
        String address = bookingLink + "/book/" + heading.jobNumber();
        boolean linked = !bookingLink.isBlank();
        List<RouteCardItem> items = new ArrayList<>();
        for (Planned planned : plan.items()) {
            int position = planned.item().position();
            items.add(
                    new RouteCardItem.Making(
                                    planned,
                                    planned(planned),
                                    book,
                                    plan.steps().stream()
                                            .filter(s -> s.item() == position)
                                            .toList(),
                                    linked ? address : null,
                                    numbers)
                            .item());
        }
        return new View(
                linked ? RouteCardCode.of(address, "code-job", "Code of the job") : null,
                heading.customer(),
                heading.dueOn() == null ? "–" : letterhead.dated(heading.dueOn()),
                book.edition() == null ? "–" : String.valueOf(book.edition()),
                cautions(),
                items,
                items.size() > 1);
    }

    /** The stored figures of the quantity; what was not priced is reckoned. */
    private Estimate.ForQuantity planned(Planned planned) {
        return planned.item().estimate().quantities().stream()
                .filter(q -> q.quantity() == planned.quantity())
                .findFirst()
                .orElseGet(
                        () ->
                                Estimating.reckon(planned.item().takeOff(), book)
                                        .forQuantity(planned.quantity()));
    }

    // Cautions ------------------------------------------------------------------------------------

    private List<Warned> cautions() {
        Map<Caution, Set<String>> all = new EnumMap<>(Caution.class);
        double strokeMinutes = 0;
        for (Planned planned : plan.items()) {
            Estimate estimate = planned.item().estimate();
            Cautions.of(planned.item().takeOff(), estimate, book)
                    .forEach(
                            (caution, places) ->
                                    all.computeIfAbsent(caution, c -> new LinkedHashSet<>())
                                            .addAll(because(planned, places)));
            strokeMinutes +=
                    Cautions.strokeMinutes(
                            planned.item().takeOff().withMainQuantity(planned.quantity()),
                            estimate);
        }
        double minutes = strokeMinutes;
        return all.entrySet().stream()
                .map(
                        e ->
                                new Warned(
                                        e.getKey().title(),
                                        e.getKey().text(),
                                        because(List.copyOf(e.getValue())),
                                        e.getKey() == Caution.VIBRATION
                                                ? "Planned here: "
                                                        + numbers.show(minutes, 0)
                                                        + " stroke minutes, all people together."
                                                : ""))
                .toList();
    }

    /** Lines of work by their steps; parts, and the item itself, by their names. */
    private List<String> because(Planned planned, Set<String> places) {
        String item = plan.items().size() == 1 ? "" : "item " + planned.item().position() + ", ";
        if (places.isEmpty()) {
            return List.of(item + planned.item().title());
        }
        Map<String, String> lines = new HashMap<>();
        for (Estimate.Line line : planned.item().estimate().operations()) {
            lines.merge(
                    Words.operation(line), worked(planned, line), (one, two) -> one + ", " + two);
        }
        return places.stream().map(p -> lines.getOrDefault(p, item + p)).toList();
    }

    private String worked(Planned planned, Estimate.Line line) {
        return plan.steps().stream()
                .filter(s -> s.item() == planned.item().position())
                .filter(s -> Objects.equals(s.work().part(), line.part()))
                .filter(s -> s.work().position() == line.position())
                .findFirst()
                .map(s -> "step " + s.n() + " ")
                .orElse("")
                .concat(words(line));
    }

    private static String because(List<String> places) {
        int more = places.size() - MOST_TRIGGERS;
        return String.join("; ", places.subList(0, Math.min(MOST_TRIGGERS, places.size())))
                + (more > 0 ? "; and " + more + " more" : "");
    }

    // Words ---------------------------------------------------------------------------------------

    static String words(Estimate.Line line) {
        return words(line.part(), line.standard() == null ? line.type() : line.standard());
    }

    static String words(WorkStep work) {
        return words(work.part(), work.kind());
    }

    static String words(@Nullable String part, String kind) {
        if (kind.equals(WorkStep.TOOL_CHANGES)) {
            return "Tool changes";
        }
        return (part == null ? "Whole item" : part)
                + ": "
                + Work.of(kind).map(Work::label).orElse(kind);
    }
}
