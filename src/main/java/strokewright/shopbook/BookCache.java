package strokewright.shopbook;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook;

/** Editions that were read lately. They never change, so nothing here can be out of date. */
final class BookCache {

    private static final int MOST = 200;

    private final Map<Key, ShopBook> books =
            Collections.synchronizedMap(
                    new LinkedHashMap<>(16, 0.75f, true) {
                        @Override
                        protected boolean removeEldestEntry(Map.Entry<Key, ShopBook> eldest) {
                            return size() > MOST;
                        }
                    });

    @Nullable ShopBook get(UUID shopId, int edition) {
        return books.get(new Key(shopId, edition));
    }

    void put(UUID shopId, ShopBook book) {
        books.put(new Key(shopId, book.edition()), book);
    }

    private record Key(UUID shopId, int edition) {}
}
