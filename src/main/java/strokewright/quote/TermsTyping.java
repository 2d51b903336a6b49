package strokewright.quote;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import strokewright.web.TypedForm;
import strokewright.web.TypedForm.Option;

/** Terms as they are typed: into the fields of a form and back. */
final class TermsTyping {

    /** So many rows of payment stages are open beyond those that say something. */
    private static final int SPARE_ROWS = 2;

    private static final int MORE_ROWS = 5;

    static final List<Option> DELIVERIES =
            options("not said yet", Delivery.Kind.values(), Delivery.Kind::words);

    private static final String[] TAX_WORDS = {
        "rate of the shop book", "own rate", "reverse charge", "export", "exempt"
    };

    private TermsTyping() {}

    /** Every constant under its words, behind what an empty choice means. */
    static <E extends Enum<E>> List<Option> options(
            @Nullable String empty, E[] constants, java.util.function.Function<E, String> words) {
        List<Option> options = new ArrayList<>();
        if (empty != null) {
            options.add(new Option("", empty));
        }
        Arrays.stream(constants)
                .forEach(c -> options.add(new Option(TypedForm.kebab(c), words.apply(c))));
        return options;
    }

    /**
     * @param empty what an empty choice means; null where there is none
     */
    static List<Option> taxes(@Nullable String empty) {
        return options(empty, TaxRule.Kind.values(), kind -> TAX_WORDS[kind.ordinal()]);
    }

    static void show(TypedForm form, String at, Terms terms) {
        form.show(at + "/validUntil", terms.validUntil())
                .show(at + "/customerReference", terms.customerReference())
                .show(at + "/leadTimeDays", terms.leadTimeDays())
                .show(
                        at + "/delivery/kind",
                        terms.delivery() == null ? null : terms.delivery().kind())
                .show(
                        at + "/delivery/place",
                        terms.delivery() == null ? null : terms.delivery().place())
                .show(at + "/siteWork", terms.siteWork())
                .show(at + "/assumptions", terms.assumptions())
                .show(at + "/exclusions", terms.exclusions())
                .show(at + "/metalPriceBasis", terms.metalPriceBasis())
                .show(at + "/remarks", terms.remarks());
        show(form, at + "/tax", terms.tax());
        show(form, at + "/payment", terms.payment());
    }

    static void show(TypedForm form, String at, @Nullable TaxRule tax) {
        form.show(at + "/kind", tax == null ? null : tax.kind())
                .show(at + "/percent", tax == null ? null : tax.percent())
                .show(at + "/reason", tax == null ? null : tax.reason());
    }

    static void show(TypedForm form, String at, Payment payment) {
        form.show(at + "/days", payment.days())
                .show(at + "/settlementDiscountPercent", payment.settlementDiscountPercent())
                .show(at + "/settlementDays", payment.settlementDays())
                .show(at + "/tradeDiscountPercent", payment.tradeDiscountPercent());
        for (int i = 0; i < payment.stages().size(); i++) {
            form.show(stage(at, i) + "/when", payment.stages().get(i).when())
                    .show(stage(at, i) + "/percent", payment.stages().get(i).percent());
        }
        spareStages(form, at, false);
    }

    private static String stage(String at, int i) {
        return at + "/stages/" + i;
    }

    /**
     * Empty rows behind the typed ones.
     *
     * @param more whether further ones were asked for
     */
    static void spareStages(TypedForm form, String at, boolean more) {
        form.holds(at + "/stages").tidyRows(at + "/stages");
        int typed = form.rows(at + "/stages");
        for (int i = typed; i < typed + (more ? MORE_ROWS : SPARE_ROWS); i++) {
            form.show(stage(at, i) + "/when", null).show(stage(at, i) + "/percent", null);
        }
    }

    static Terms terms(TypedForm form, String at) {
        return new Terms(
                form.date(at + "/validUntil"),
                form.text(at + "/customerReference"),
                tax(form, at + "/tax"),
                payment(form, at + "/payment"),
                form.whole(at + "/leadTimeDays"),
                delivery(form, at + "/delivery"),
                form.text(at + "/siteWork"),
                form.lines(at + "/assumptions"),
                form.lines(at + "/exclusions"),
                form.text(at + "/metalPriceBasis"),
                form.text(at + "/remarks"));
    }

    private static @Nullable Delivery delivery(TypedForm form, String at) {
        Delivery.Kind kind = form.choice(at + "/kind", Delivery.Kind.class);
        String place = form.text(at + "/place");
        return kind == null && place == null ? null : new Delivery(kind, place);
    }

    /** Null when nothing is chosen and nothing typed. */
    static @Nullable TaxRule tax(TypedForm form, String at) {
        TaxRule.Kind kind = form.choice(at + "/kind", TaxRule.Kind.class);
        Double percent = form.number(at + "/percent");
        String reason = form.text(at + "/reason");
        return kind == null && percent == null && reason == null
                ? null
                : new TaxRule(kind, percent, reason);
    }

    static Payment payment(TypedForm form, String at) {
        String stages = at + "/stages";
        form.tidyRows(stages);
        List<Payment.Stage> read = new ArrayList<>();
        for (int i = 0; i < form.rows(stages); i++) {
            read.add(
                    new Payment.Stage(
                            form.text(stage(at, i) + "/when"),
                            form.number(stage(at, i) + "/percent")));
        }
        return new Payment(
                form.whole(at + "/days"),
                form.number(at + "/settlementDiscountPercent"),
                form.whole(at + "/settlementDays"),
                form.number(at + "/tradeDiscountPercent"),
                read);
    }
}
