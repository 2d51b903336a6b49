package strokewright.quote;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.ui.Model;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.takeoff.Reckoned;
import strokewright.takeoff.TakeOffDesk;
import strokewright.takeoff.TakeOffDesk.Arrival;

/** The customer, asked for beside a take-off that becomes an item of a quote. */
@Component
class ForWhom {

    private final Customers customers;

    ForWhom(Customers customers) {
        this.customers = customers;
    }

    /** On the page of a take-off that the desk has opened. */
    void ask(Arrival arrival, Model model) {
        model.addAttribute("customers", customers.names());
        if (arrival == Arrival.NOT_SAVED) {
            String said = (String) model.getAttribute("customer");
            model.addAttribute("customerFault", fault(said).orElse(null));
        }
    }

    static boolean isSaid(Reckoned reckoned) {
        return fault(reckoned.typed().at(TakeOffDesk.CUSTOMER)).isEmpty();
    }

    private static Optional<String> fault(@Nullable String said) {
        Faults faults = new Faults();
        faults.text("", said);
        return faults.all().stream().map(Fault::message).findFirst();
    }
}
