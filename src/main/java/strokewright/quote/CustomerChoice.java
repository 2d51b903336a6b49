package strokewright.quote;

import com.fasterxml.jackson.annotation.JsonCreator;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;

/**
 * Whom a quote is for: a customer by id, or one by name, who is added if there is none of that name
 * (and address, where one is given). In JSON an object, or just the name.
 */
public record CustomerChoice(@Nullable UUID id, @Nullable String name, @Nullable String address) {

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public static CustomerChoice named(String name) {
        return new CustomerChoice(null, name, null);
    }

    /** Adds what is wrong, under the pointer. */
    public void check(Faults faults, String at) {
        if (id != null && (name != null || address != null)) {
            faults.add(at + "/id", "must stand alone: give the id, or a name with an address");
        } else if (id == null) {
            faults.text(at + "/name", name);
            CustomerCard.longest(faults, at + "/address", address, CustomerCard.LONGEST_ADDRESS);
        }
    }
}
