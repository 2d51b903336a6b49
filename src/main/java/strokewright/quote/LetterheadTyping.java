package strokewright.quote;

import strokewright.web.Numbers;
import strokewright.web.TypedForm;

/** The letterhead as it is typed: into the fields of a form and back. */
final class LetterheadTyping {

    private LetterheadTyping() {}

    static TypedForm show(Letterhead letterhead, Numbers numbers) {
        TypedForm form =
                new TypedForm(numbers)
                        .show("/name", letterhead.name())
                        .show("/address", letterhead.address())
                        .show("/phone", letterhead.phone())
                        .show("/email", letterhead.email())
                        .show("/web", letterhead.web())
                        .show("/taxNumber", letterhead.taxNumber())
                        .show("/bank", letterhead.bank())
                        .show("/paper", letterhead.paper())
                        .show("/locale", letterhead.locale())
                        .show("/validityDays", letterhead.validityDays())
                        .show("/assumptions", letterhead.assumptions())
                        .show("/exclusions", letterhead.exclusions())
                        .show("/conditions", letterhead.conditions())
                        .show("/link", letterhead.link());
        TermsTyping.show(form, "/payment", letterhead.payment());
        return form;
    }

    static Letterhead letterhead(TypedForm form) {
        return new Letterhead(
                form.text("/name"),
                form.text("/address"),
                form.text("/phone"),
                form.text("/email"),
                form.text("/web"),
                form.text("/taxNumber"),
                form.lines("/bank"),
                form.choice("/paper", Letterhead.Paper.class),
                form.text("/locale"),
                form.whole("/validityDays"),
                TermsTyping.payment(form, "/payment"),
                form.lines("/assumptions"),
                form.lines("/exclusions"),
                form.text("/conditions"),
                form.text("/link"));
    }
}
