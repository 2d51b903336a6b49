package strokewright.quote;

import java.util.ArrayList;
import java.util.List;
import strokewright.web.Numbers;
import strokewright.web.TypedForm;

/** A customer's card as it is typed: into the fields of a form and back. */
final class CardTyping {

    private static final String CONTACTS = "/contacts";
    private static final int SPARE_ROWS = 2;
    private static final int MORE_ROWS = 5;

    private CardTyping() {}

    static TypedForm show(CustomerCard card, Numbers numbers) {
        TypedForm form =
                new TypedForm(numbers)
                        .show("/name", card.name())
                        .show("/address", card.address())
                        .show("/deliveryAddress", card.deliveryAddress())
                        .show("/email", card.email())
                        .show("/phone", card.phone())
                        .show("/taxNumber", card.taxNumber())
                        .show("/notes", card.notes());
        for (int i = 0; i < card.contacts().size(); i++) {
            CustomerCard.Contact contact = card.contacts().get(i);
            form.show(contact(i) + "/name", contact.name())
                    .show(contact(i) + "/role", contact.role())
                    .show(contact(i) + "/phone", contact.phone())
                    .show(contact(i) + "/email", contact.email());
        }
        TermsTyping.show(form, "/tax", card.tax());
        TermsTyping.show(form, "/payment", card.payment());
        spareRows(form, false);
        return form;
    }

    /**
     * Empty rows behind the typed ones.
     *
     * @param more whether further ones were asked for
     */
    static void spareRows(TypedForm form, boolean more) {
        form.holds(CONTACTS).tidyRows(CONTACTS);
        int typed = form.rows(CONTACTS);
        for (int i = typed; i < typed + (more ? MORE_ROWS : SPARE_ROWS); i++) {
            for (String field : List.of("/name", "/role", "/phone", "/email")) {
                form.show(contact(i) + field, null);
            }
        }
    }

    private static String contact(int i) {
        return CONTACTS + "/" + i;
    }

    static CustomerCard card(TypedForm form) {
        form.tidyRows(CONTACTS);
        List<CustomerCard.Contact> contacts = new ArrayList<>();
        for (int i = 0; i < form.rows(CONTACTS); i++) {
            contacts.add(
                    new CustomerCard.Contact(
                            form.text(contact(i) + "/name"),
                            form.text(contact(i) + "/role"),
                            form.text(contact(i) + "/email"),
                            form.text(contact(i) + "/phone")));
        }
        return new CustomerCard(
                null,
                form.text("/name"),
                form.text("/address"),
                form.text("/deliveryAddress"),
                form.text("/email"),
                form.text("/phone"),
                form.text("/taxNumber"),
                contacts,
                TermsTyping.tax(form, "/tax"),
                TermsTyping.payment(form, "/payment"),
                form.text("/notes"));
    }
}
