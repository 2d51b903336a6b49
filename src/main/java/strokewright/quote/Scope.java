package strokewright.quote;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import strokewright.estimate.Estimate;
import strokewright.estimate.Proposal;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.ExtraKind;
import strokewright.takeoff.Work;

/** What a customer gets for the price of an item: metal, work, what is bought, what it rests on. */
final class Scope {

    private final Stationery stationery;
    private final ShopBook book;

    Scope(Stationery stationery, ShopBook book) {
        this.stationery = stationery;
        this.book = book;
    }

    List<String> of(PricedItem item) {
        TakeOff takeOff = item.takeOff();
        List<String> lines = new ArrayList<>();
        takeOff.parts().forEach(part -> lines.add(part(part)));
        work(item.estimate()).ifPresent(lines::add);
        besides(item.estimate()).ifPresent(lines::add);
        bought(takeOff).ifPresent(lines::add);
        lines.add("Priced from " + information(takeOff.information()) + ".");
        return lines;
    }

    private String part(TakeOff.Part part) {
        String metal =
                book.grade(part.grade())
                        .map(ShopBook.Grade::name)
                        .orElse(String.valueOf(part.grade()));
        return "%s%s: %s, %s\u00a0mm, %s; %s, %s, tolerances ISO\u00a02768-%s."
                .formatted(
                        part.name(),
                        part.perAssembly() == 1
                                ? ""
                                : " (" + stationery.whole(part.perAssembly()) + " each)",
                        metal,
                        stationery.number(Objects.requireNonNullElse(part.thicknessMm(), 0.0)),
                        switch (part.supply()) {
                            case SHOP -> "supplied by us";
                            case CUSTOMER -> "supplied by you";
                        },
                        switch (part.surface()) {
                            case VISIBLE -> "visible surface";
                            case HIDDEN -> "surface not visible";
                        },
                        switch (part.edge()) {
                            case DRESSED -> "edges dressed";
                            case SHEARED -> "edges as sheared";
                        },
                        part.tolerance().name().toLowerCase(Locale.ROOT));
    }

    /** Lines that somebody typed; names may have commas in them. */
    private static Optional<String> work(Estimate estimate) {
        return listed("Work: ", estimate.typed().stream());
    }

    /**
     * Lines that the shop's rules propose: they are paid for, so the customer reads that they are
     * in. Getting an order ready, which every order needs before its first cut, is nothing that is
     * delivered.
     */
    private Optional<String> besides(Estimate estimate) {
        Set<String> typed = estimate.typed().stream().map(Scope::name).collect(Collectors.toSet());
        Set<String> readyFirst =
                book.proposals().stream()
                        .filter(p -> p.when() == Proposal.When.ALWAYS)
                        .filter(p -> p.place() == Proposal.Place.BEFORE)
                        .map(Proposal::code)
                        .collect(Collectors.toSet());
        return listed(
                "Also included: ",
                estimate.operations().stream()
                        .filter(line -> line.proposal() != null)
                        .filter(line -> !readyFirst.contains(line.proposal()))
                        .filter(line -> !typed.contains(name(line))));
    }

    private static Optional<String> listed(String head, Stream<Estimate.Line> lines) {
        String named = lines.map(Scope::name).distinct().collect(Collectors.joining("; "));
        return named.isEmpty() ? Optional.empty() : Optional.of(head + named + ".");
    }

    private static String name(Estimate.Line line) {
        return line.standard() != null
                ? line.standard()
                : Work.of(line.type()).map(Work::label).orElse(line.type());
    }

    private static Optional<String> bought(TakeOff takeOff) {
        String named =
                takeOff.extras().stream()
                        .filter(extra -> extra.kind() == ExtraKind.BOUGHT_OUT)
                        .map(extra -> String.valueOf(extra.name()))
                        .distinct()
                        .collect(Collectors.joining(", "));
        return named.isEmpty() ? Optional.empty() : Optional.of("Bought in: " + named + ".");
    }

    private static String information(TakeOff.Information information) {
        return switch (information) {
            case PHONE -> "what was said on the telephone";
            case SKETCH -> "a sketch";
            case PHOTO -> "a photograph";
            case DRAWING -> "a drawing";
            case DRAWING_AND_TEMPLATE -> "a drawing and a template";
            case OLD_PART -> "an old part";
            case REPEAT -> "an earlier order";
        };
    }
}
