package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * What a shop knows of a customer. Sent, shown and imported as it is.
 *
 * @param id null of one that is not stored yet
 * @param address with line ends as on an envelope
 * @param deliveryAddress where it differs from the address
 * @param taxNumber the customer's own, as it stands on documents
 * @param tax how this customer's orders are taxed; at the shop's rate when left out
 * @param payment what a new quote starts with
 * @param notes for the shop alone; on no document
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record CustomerCard(
        @Nullable UUID id,
        String name,
        @Nullable String address,
        @Nullable String deliveryAddress,
        @Nullable String email,
        @Nullable String phone,
        @Nullable String taxNumber,
        List<Contact> contacts,
        TaxRule tax,
        Payment payment,
        @Nullable String notes) {

    static final int LONGEST_ADDRESS = 1000;
    static final int MOST_CONTACTS = 50;

    /**
     * Only what would break a mail header or is plainly no address; the rest a mail server knows.
     */
    private static final Pattern EMAIL =
            Pattern.compile("[^\\s@<>,;:\"()\\p{Cntrl}]+@[^\\s@<>,;:\"()\\p{Cntrl}]+");

    public CustomerCard {
        name = name == null ? null : name.strip();
        address = tidy(address);
        deliveryAddress = tidy(deliveryAddress);
        email = tidy(email);
        phone = tidy(phone);
        taxNumber = tidy(taxNumber);
        contacts =
                contacts == null
                        ? List.of()
                        : Collections.unmodifiableList(new ArrayList<>(contacts));
        tax = tax == null ? TaxRule.SHOP_RATE : tax;
        payment = payment == null ? Payment.UNSAID : payment;
        notes = tidy(notes);
    }

    /** Somebody at the customer's. */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Contact(
            @Nullable String name,
            @Nullable String role,
            @Nullable String email,
            @Nullable String phone) {}

    static CustomerCard named(@Nullable String name, @Nullable String address) {
        return new CustomerCard(
                null, name, address, null, null, null, null, List.of(), null, null, null);
    }

    CustomerCard withId(UUID other) {
        return new CustomerCard(
                other,
                name,
                address,
                deliveryAddress,
                email,
                phone,
                taxNumber,
                contacts,
                tax,
                payment,
                notes);
    }

    /** As it stands on documents. */
    QuoteDocument.Addressee addressee() {
        return new QuoteDocument.Addressee(id, name, address, deliveryAddress, taxNumber);
    }

    /** Where mail to the contact, or else to the customer, goes. */
    @Nullable String emailOf(@Nullable String contact) {
        return contacts.stream()
                .filter(c -> c.name().equals(contact))
                .map(Contact::email)
                .filter(mail -> mail != null)
                .findFirst()
                .orElse(email);
    }

    Faults faults() {
        Faults faults = new Faults();
        if (id != null) {
            faults.add("/id", "is given by the shop: leave it out");
        }
        faults.text("/name", name);
        longest(faults, "/address", address, LONGEST_ADDRESS);
        longest(faults, "/deliveryAddress", deliveryAddress, LONGEST_ADDRESS);
        email(faults, "/email", email);
        faults.textIfGiven("/phone", phone);
        faults.textIfGiven("/taxNumber", taxNumber);
        if (faults.size("/contacts", contacts, 0, MOST_CONTACTS)) {
            for (int i = 0; i < contacts.size(); i++) {
                contact(faults, "/contacts/" + i, contacts.get(i));
            }
            faults.distinct("/contacts", contacts, Contact::name, "/name");
        }
        tax.check(faults, "/tax");
        payment.check(faults, "/payment");
        Terms.prose(faults, "/notes", notes);
        return faults;
    }

    private static void contact(Faults faults, String at, @Nullable Contact contact) {
        if (faults.present(at, contact, "a contact with a name")) {
            faults.text(at + "/name", contact.name);
            faults.textIfGiven(at + "/role", contact.role);
            email(faults, at + "/email", contact.email);
            faults.textIfGiven(at + "/phone", contact.phone);
        }
    }

    static void email(Faults faults, String at, @Nullable String email) {
        if (email != null && faults.textIfGiven(at, email) && !EMAIL.matcher(email).matches()) {
            faults.add(at, "is no e-mail address: one such as office@example.com");
        }
    }

    static void longest(Faults faults, String at, @Nullable String text, int most) {
        if (text != null && text.length() > most) {
            faults.add(at, "is too long: at most " + most + " characters");
        }
    }

    /** Null of a text that says nothing. */
    static @Nullable String tidy(@Nullable String text) {
        return text == null || text.isBlank() ? null : text.strip().replace("\r\n", "\n");
    }
}
