package strokewright.takeoff;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;
import tools.jackson.databind.json.JsonMapper;

/** A shop book with one or two of everything, and take-offs as somebody types them for it. */
final class SmallShop {

    static final ShopBook BOOK = book();
    static final Numbers EN = Numbers.of(Locale.ENGLISH);
    static final Numbers DE = Numbers.of(Locale.GERMAN);

    private SmallShop() {}

    private static ShopBook book() {
        try (InputStream in = SmallShop.class.getResourceAsStream("/shop-book/small.json")) {
            return JsonMapper.builder().build().readValue(in, ShopBook.class).withEdition(3);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A round frame of 600 outside with a flange of 40, as typed in an English browser. */
    static TypedTakeOff roundFrame() {
        return typed(
                "/title", "Round frame",
                "/quantities", "1, 2 5",
                "/parts/p1/name", "Rim",
                "/parts/p1/grade", "soft",
                "/parts/p1/thicknessMm", "2.0",
                "/parts/p1/operations/o1/type", "curve-edge",
                "/parts/p1/blank/lengthMm", "1945",
                "/parts/p1/blank/widthMm", "120",
                "/parts/p1/operations/o1/sense", "shrink",
                "/parts/p1/operations/o1/radiusMm", "300",
                "/parts/p1/operations/o1/lengthMm", "1884.96",
                "/parts/p1/operations/o1/heightMm", "40",
                "/parts/p1/operations/o2/type", "standard",
                "/parts/p1/operations/o2/standard", "Cut",
                "/parts/p1/operations/o2/amount", "4");
    }

    static TypedTakeOff typed(String... pathsAndTexts) {
        List<Map.Entry<String, String>> fields = new ArrayList<>();
        for (int i = 0; i < pathsAndTexts.length; i += 2) {
            fields.add(Map.entry(pathsAndTexts[i], pathsAndTexts[i + 1]));
        }
        return TypedTakeOff.of(fields);
    }
}
