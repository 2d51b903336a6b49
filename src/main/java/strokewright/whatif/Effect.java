package strokewright.whatif;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Currency;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.VariantComparison.More;
import strokewright.estimate.VariantComparison.MoreMoney;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.quote.OpenDraft;
import strokewright.quote.PricedItem;

/**
 * What another shop book would do to the quotes that are still drafts. Issued ones never change.
 *
 * <p>“Now” is what a draft would be if it were saved again unchanged: reckoned with the current
 * edition, as every saving is. So the difference comes from the other book alone, also where a
 * draft was last saved with an older edition; what it says until then is its {@code kept}.
 *
 * @param edition the current one
 * @param draftEdition what the draft would be adopted as; null where changes were tried
 * @param open how many drafts there are, from where it was asked on
 * @param left how many of these are older than all here and were not looked at
 * @param next to ask on with as {@code before}; null where none is left
 * @param total of the quotes here that can be reckoned with both books
 * @param quotes first those that cannot be reckoned, then the largest difference in price
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record Effect(
        int edition,
        @Nullable Integer draftEdition,
        int open,
        int left,
        @Nullable String next,
        Total total,
        List<OfQuote> quotes) {

    Effect {
        quotes = List.copyOf(quotes);
    }

    /**
     * @param hours person-hours of the main quantities, as planned
     * @param net before tax
     */
    record Figures(double hours, Money net) {

        private static Figures none(Currency currency) {
            return new Figures(0, Money.zero(currency));
        }

        private Figures plus(Figures other) {
            return new Figures(hours + other.hours, net.plus(other.net));
        }
    }

    /** The same with both books, and what the other one makes more; less is below zero. */
    record Both(Figures now, Figures then, More hoursMore, MoreMoney netMore) {

        static Both of(Figures now, Figures then) {
            return new Both(
                    now, then, More.of(now.hours, then.hours), MoreMoney.of(now.net, then.net));
        }

        boolean changes() {
            return hoursMore.by() != 0 || !netMore.by().isZero();
        }
    }

    /**
     * @param quotes that both is the sum of
     * @param unreckoned quotes that are in no sum
     */
    record Total(int quotes, int unreckoned, @JsonUnwrapped Both both) {

        private static Total of(List<OfQuote> quotes, Currency currency) {
            List<Both> reckoned =
                    quotes.stream().map(OfQuote::both).filter(Objects::nonNull).toList();
            Figures none = Figures.none(currency);
            return new Total(
                    reckoned.size(),
                    quotes.size() - reckoned.size(),
                    Both.of(
                            reckoned.stream().map(Both::now).reduce(none, Figures::plus),
                            reckoned.stream().map(Both::then).reduce(none, Figures::plus)));
        }
    }

    /**
     * @param edition that it was last saved with
     * @param kept net as it stands in the draft
     * @param both of all items but options; null where one of these cannot be reckoned
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record OfQuote(
            String number,
            int revision,
            String customer,
            String title,
            int edition,
            Money kept,
            @JsonUnwrapped @Nullable Both both,
            List<OfItem> items) {

        OfQuote {
            items = List.copyOf(items);
        }

        private double size() {
            return both == null
                    ? Double.POSITIVE_INFINITY
                    : Math.abs(both.netMore.by().amount().doubleValue());
        }
    }

    /**
     * @param quantity the main one
     * @param both null where it cannot be reckoned
     * @param feasible whether it can be made as described, with the other book; null where it
     *     cannot be reckoned
     * @param appeared findings that only the other book leads to
     * @param vanished findings that only the current edition leads to
     * @param faultsNow why it cannot be reckoned with the current edition either
     * @param faultsThen why it cannot be reckoned with the other book
     * @param takeOff that the pointers go into
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    record OfItem(
            int position,
            String title,
            boolean option,
            int quantity,
            @JsonUnwrapped @Nullable Both both,
            @Nullable Boolean feasible,
            List<Finding> appeared,
            List<Finding> vanished,
            List<Fault> faultsNow,
            List<Fault> faultsThen,
            @JsonIgnore TakeOff takeOff) {

        OfItem {
            appeared = List.copyOf(appeared);
            vanished = List.copyOf(vanished);
            faultsNow = List.copyOf(faultsNow);
            faultsThen = List.copyOf(faultsThen);
        }
    }

    static Effect of(
            ShopBook now,
            @Nullable Integer draftEdition,
            int open,
            @Nullable String next,
            List<OfQuote> quotes) {
        List<OfQuote> sorted = new ArrayList<>(quotes);
        sorted.sort(Comparator.comparingDouble(OfQuote::size).reversed());
        return new Effect(
                now.edition(),
                draftEdition,
                open,
                open - quotes.size(),
                next,
                Total.of(quotes, now.currency()),
                sorted);
    }

    // One draft -----------------------------------------------------------------------------------

    /** One draft with both books. */
    static OfQuote on(OpenDraft draft, ShopBook now, ShopBook then) {
        // with the same edition and method the saved estimate is the one that saving would give
        boolean asSaved =
                draft.edition() == now.edition()
                        && draft.methodVersion() == Estimating.METHOD_VERSION;
        List<OfItem> items =
                draft.items().stream()
                        .map(
                                i ->
                                        item(
                                                i,
                                                asSaved
                                                        ? new Tried(i.estimate(), List.of())
                                                        : Tried.of(i, draft.terms().applied(now)),
                                                Tried.of(i, draft.terms().applied(then))))
                        .toList();
        return new OfQuote(
                draft.number().toString(),
                draft.revision(),
                draft.customer(),
                draft.title(),
                draft.edition(),
                draft.net(),
                sum(items, now.currency()),
                items);
    }

    private static @Nullable Both sum(List<OfItem> items, Currency currency) {
        Figures now = Figures.none(currency);
        Figures then = Figures.none(currency);
        for (OfItem item : items) {
            if (item.option) {
                continue;
            }
            if (item.both == null) {
                return null;
            }
            now = now.plus(item.both.now);
            then = then.plus(item.both.then);
        }
        return Both.of(now, then);
    }

    private static OfItem item(PricedItem item, Tried now, Tried then) {
        boolean reckoned = now.estimate != null && then.estimate != null;
        return new OfItem(
                item.position(),
                item.title(),
                item.option(),
                item.takeOff().mainQuantity(),
                reckoned ? Both.of(now.figures(item), then.figures(item)) : null,
                then.estimate == null ? null : then.estimate.feasible(),
                reckoned ? Finding.beyond(then.findings(item), now.findings(item)) : List.of(),
                reckoned ? Finding.beyond(now.findings(item), then.findings(item)) : List.of(),
                now.faults,
                then.faults,
                item.takeOff());
    }

    /** An item with one book: an estimate, or why there is none. */
    private record Tried(@Nullable Estimate estimate, List<Fault> faults) {

        private static final String QUANTITIES = "/quantities/";

        static Tried of(PricedItem item, ShopBook book) {
            try {
                TakeOff main = item.takeOff().withMainQuantityAlone();
                return new Tried(Estimating.estimate(main, book), List.of());
            } catch (InvalidInput e) {
                return new Tried(null, e.faults());
            }
        }

        /** Those of other quantities left out, where there are any: they are not told here. */
        List<Finding> findings(PricedItem item) {
            int main =
                    estimate.quantities().size() == 1
                            ? 0
                            : item.takeOff().quantities().indexOf(item.takeOff().mainQuantity());
            String own =
                    QUANTITIES + item.takeOff().quantities().indexOf(item.takeOff().mainQuantity());
            return estimate.findings().stream()
                    .filter(
                            f ->
                                    !f.pointer().startsWith(QUANTITIES)
                                            || f.pointer().equals(QUANTITIES + main))
                    .map(f -> f.pointer().startsWith(QUANTITIES) ? f.at(own) : f)
                    .toList();
        }

        Figures figures(PricedItem item) {
            Estimate.ForQuantity main = item.with(estimate).main();
            return new Figures(main.hours().plan(), main.price().offer());
        }
    }
}
