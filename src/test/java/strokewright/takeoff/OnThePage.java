package strokewright.takeoff;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Why;
import strokewright.web.Numbers;

/** What a take-off's page takes and says, for tests of pages that are made with it. */
public final class OnThePage {

    private OnThePage() {}

    /** Fields of the form by their names, as somebody types them in an English browser. */
    public static Map<String, String> fields(TakeOff takeOff) {
        Map<String, String> form = new LinkedHashMap<>();
        TakeOffTyping.of(takeOff, SmallShop.BOOK, Numbers.of(Locale.ENGLISH))
                .stored()
                .forEach(field -> form.put(field.get(0), field.get(1)));
        return form;
    }

    /** What a working calls a figure. */
    public static String nameOf(Why why) {
        return WorkingViews.named(why.figure());
    }
}
