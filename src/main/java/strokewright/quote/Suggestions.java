package strokewright.quote;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Finding;
import strokewright.quote.Suggestion.Kind;

/**
 * What a quote could tell its customer: on what the price rests, and what it does not contain. Each
 * comes from something that the items say, or say nothing of; whoever writes the quote picks.
 */
final class Suggestions {

    private static final Pattern DATE = Pattern.compile("\\b\\d{4}-\\d{2}-\\d{2}\\b");
    private static final Pattern COATING =
            Pattern.compile("\\b(paint|powder|coat|lacquer|galvani|anodi|plat(e|ing)\\b|primer)");
    private static final Pattern FIXING = Pattern.compile("\\b(fitting on|fix|install|erect|site)");
    private static final Pattern PACKING = Pattern.compile("\\b(pack|crat)");
    private static final Pattern TRANSPORT =
            Pattern.compile("\\b(deliver|freight|carriage|transport|shipp)");
    private static final Pattern PAPERS = Pattern.compile("\\b(report|certificate)");

    private final QuoteDocument quote;
    private final ShopBook book;
    private final List<Suggestion> found = new ArrayList<>();
    private final Set<String> said = new LinkedHashSet<>();

    private Suggestions(QuoteDocument quote, ShopBook book) {
        this.quote = quote;
        this.book = book;
    }

    /**
     * @param book that the quote was priced with
     * @return assumptions first, none twice
     */
    static List<Suggestion> of(QuoteDocument quote, ShopBook book, Letterhead letterhead) {
        Suggestions all = new Suggestions(quote, book);
        all.ofInformation();
        all.ofMetal();
        all.ofWork();
        all.ofBought();
        letterhead.assumptions().forEach(s -> all.assume(s, "said on every quote of the shop"));
        all.ofLinesLeftOut();
        all.ofWhatNothingIsSaid();
        letterhead.exclusions().forEach(s -> all.exclude(s, "said on every quote of the shop"));
        return all.found.stream().sorted(java.util.Comparator.comparing(Suggestion::kind)).toList();
    }

    // On what the price rests ---------------------------------------------------------------------

    private void ofInformation() {
        TreeMap<TakeOff.Information, List<String>> items = new TreeMap<>();
        for (PricedItem item : quote.items()) {
            items.computeIfAbsent(item.takeOff().information(), i -> new ArrayList<>())
                    .add(item.title());
        }
        items.forEach(
                (information, titles) ->
                        assume(
                                of(titles, items.size() > 1) + rests(information),
                                "taken off from: "
                                        + strokewright.web.TypedForm.kebab(information)
                                                .replace('-', ' ')));
    }

    private static String of(List<String> titles, boolean needed) {
        return needed ? listed(titles) + ": " : "";
    }

    private static String rests(TakeOff.Information information) {
        return switch (information) {
            case PHONE ->
                    "The price rests on what was told on the phone; it holds once a drawing or a"
                            + " sample shows the same.";
            case SKETCH ->
                    "The price rests on a sketch; sizes that it does not show are assumed and are"
                            + " settled before work begins.";
            case PHOTO ->
                    "The price rests on a photo; sizes are estimated from it and are measured"
                            + " before work begins.";
            case DRAWING -> "Made to the drawing that we were given.";
            case DRAWING_AND_TEMPLATE ->
                    "Made to the drawing and the template that we were given; where they differ,"
                            + " the template counts.";
            case OLD_PART ->
                    "Made after the old part, which stays with us until delivery; damage that shows"
                            + " only while it is worked on is settled then.";
            case REPEAT -> "Made as delivered before.";
        };
    }

    private void ofMetal() {
        List<TakeOff.Part> supplied =
                parts().filter(p -> p.supply() == TakeOff.Supply.CUSTOMER).toList();
        if (!supplied.isEmpty()) {
            assume(
                    "The customer supplies the sheet for "
                            + listed(names(supplied))
                            + " before work begins, in the grade and thickness stated, and a spare"
                            + " blank for proving.",
                    "the customer supplies metal");
            exclude("Metal for " + listed(names(supplied)) + ".", "the customer supplies metal");
        }
        List<TakeOff.Part> irreplaceable = parts().filter(TakeOff.Part::irreplaceable).toList();
        if (!irreplaceable.isEmpty()) {
            assume(
                    listed(names(irreplaceable))
                            + " cannot be bought again: we work with care, the risk stays with the"
                            + " customer.",
                    "marked as irreplaceable");
        }
        Set<String> dates = new LinkedHashSet<>();
        Set<String> grades =
                parts().filter(p -> p.supply() == TakeOff.Supply.SHOP)
                        .map(TakeOff.Part::grade)
                        .filter(Objects::nonNull)
                        .collect(Collectors.toCollection(LinkedHashSet::new));
        book.sheets().stream()
                .filter(s -> grades.contains(s.grade()) && s.origin() != null)
                .map(s -> DATE.matcher(s.origin()))
                .filter(Matcher::find)
                .forEach(m -> dates.add(m.group()));
        dates.stream()
                .max(java.util.Comparator.naturalOrder())
                .ifPresent(
                        date ->
                                add(
                                        Kind.METAL_PRICE_BASIS,
                                        "Sheet at the prices of "
                                                + date
                                                + ", held until the last day of this offer.",
                                        "the shop book dates its sheet prices"));
    }

    private void ofWork() {
        findings("tolerance-finer-than-forming")
                .findAny()
                .ifPresent(
                        f ->
                                assume(
                                        "Formed contours go by the template; the general tolerances"
                                                + " hold for cut and folded sizes.",
                                        "a class of tolerance is finer than forming"));
        List<String> classes =
                parts().map(p -> strokewright.web.TypedForm.kebab(p.tolerance()))
                        .distinct()
                        .toList();
        if (!classes.isEmpty()) {
            assume(
                    "Cut and folded sizes without a tolerance of their own: ISO 2768-1, class "
                            + String.join(" and ", classes)
                            + ".",
                    "class of tolerance of the parts");
        }
        if (findings("made-in-segments", "joints-stood-before").findAny().isPresent()
                || has("longer-than-stock")) {
            assume(
                    "Long and closed edges are made of several lengths, welded and dressed.",
                    "more than one length of sheet");
        }
        if (has("corners-in-outline")) {
            assume("Corners of the outline are cut, welded and dressed.", "an outline has corners");
        }
        List<TakeOff.Part> hidden =
                parts().filter(
                                p ->
                                        p.surface() == TakeOff.Surface.HIDDEN
                                                && !p.operations().isEmpty())
                        .toList();
        if (!hidden.isEmpty()) {
            assume(
                    "Marks of forming may stay on " + listed(names(hidden)) + ".",
                    "hidden surfaces");
        }
        if (has("marks-on-visible-surface")) {
            assume(
                    "Visible surfaces show faint marks of forming, dressed but not polished.",
                    "a tool leaves marks on a visible surface");
        }
        assume(
                "Design, strength and approvals are the customer’s; we make what the documents"
                        + " show.",
                "an estimate says nothing about strength");
    }

    private void ofBought() {
        List<String> bought = extras(TakeOff.ExtraKind.BOUGHT_OUT);
        if (!bought.isEmpty()) {
            assume(
                    listed(bought)
                            + ": bought out, at our supplier’s price and lead time of today.",
                    "bought-out work");
        }
        List<String> tools = extras(TakeOff.ExtraKind.TOOLING);
        if (!tools.isEmpty()) {
            assume(listed(tools) + ": made for this order, stays with us.", "tooling");
        }
    }

    private List<String> extras(TakeOff.ExtraKind kind) {
        return quote.items().stream()
                .flatMap(i -> i.takeOff().extras().stream())
                .filter(e -> e.kind() == kind)
                .map(e -> String.valueOf(e.name()))
                .distinct()
                .toList();
    }

    // What the price does not contain
    // ---------------------------------------------------------------

    private void ofLinesLeftOut() {
        findings("line-left-out")
                .map(f -> String.valueOf(f.values().get("standard")))
                .distinct()
                .filter(standard -> !ofTheShopAlone(standard))
                .forEach(standard -> exclude(standard + ".", "taken out of the work"));
        if (has("no-metal-price")) {
            exclude("Metal without a price yet.", "the shop book has no price for it");
        }
    }

    /** Preparing an order is no customer's affair. */
    private boolean ofTheShopAlone(String standard) {
        return book.standards().stream()
                .anyMatch(
                        s ->
                                standard.equals(s.name())
                                        && s.unit() == ShopBook.Unit.ORDER
                                        && !PAPERS.matcher(low(standard)).find());
    }

    private void ofWhatNothingIsSaid() {
        Terms terms = quote.terms();
        Delivery.Kind delivery = terms.delivery() == null ? null : terms.delivery().kind();
        missing(COATING, "Paint, powder coating and other surface treatment.");
        if (delivery == null || delivery == Delivery.Kind.COLLECTED) {
            missing(TRANSPORT, "Delivery: collected from the workshop.");
        }
        missing(PACKING, "Packing beyond what transport by hand needs.");
        if (delivery != Delivery.Kind.DELIVERED_AND_FITTED) {
            missing(FIXING, "Fitting, fixings and work on site.");
        }
        missing(PAPERS, "Certificates of material and reports of inspection.");
    }

    private void missing(Pattern work, String sentence) {
        Predicate<String> named = name -> work.matcher(low(name)).find();
        if (lines().noneMatch(named)) {
            exclude(sentence, "nothing in the items does it");
        }
    }

    /** Whatever is done or bought, by its name. */
    private Stream<String> lines() {
        return quote.items().stream()
                .flatMap(
                        i ->
                                Stream.concat(
                                        i.estimate().operations().stream()
                                                .map(Estimate.Line::standard),
                                        Stream.concat(
                                                Stream.of(i.title()),
                                                i.takeOff().extras().stream()
                                                        .map(TakeOff.Extra::name))))
                .filter(Objects::nonNull);
    }

    // ---------------------------------------------------------------------------------------------

    private Stream<TakeOff.Part> parts() {
        return quote.items().stream().flatMap(i -> i.takeOff().parts().stream());
    }

    private Stream<Finding> findings(String... codes) {
        Set<String> wanted = Set.of(codes);
        return quote.items().stream()
                .flatMap(i -> i.estimate().findings().stream())
                .filter(f -> wanted.contains(f.code()));
    }

    private boolean has(String code) {
        return findings(code).findAny().isPresent();
    }

    private static List<String> names(Collection<TakeOff.Part> parts) {
        return parts.stream().map(p -> String.valueOf(p.name())).distinct().toList();
    }

    private static String listed(List<String> names) {
        int last = names.size() - 1;
        return last < 1
                ? String.join("", names)
                : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
    }

    private static String low(@Nullable String text) {
        return text == null ? "" : text.toLowerCase(Locale.ROOT);
    }

    private void assume(String text, String because) {
        add(Kind.ASSUMPTION, text, because);
    }

    private void exclude(String text, String because) {
        add(Kind.EXCLUSION, text, because);
    }

    private void add(Kind kind, String text, String because) {
        if (said.add(kind + text)) {
            Terms terms = quote.terms();
            boolean taken =
                    switch (kind) {
                        case ASSUMPTION -> terms.assumptions().contains(text);
                        case EXCLUSION -> terms.exclusions().contains(text);
                        case METAL_PRICE_BASIS -> text.equals(terms.metalPriceBasis());
                    };
            found.add(new Suggestion(kind, text, because, taken));
        }
    }
}
