package strokewright.shopbook;

import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.exchange.FileTable;

/** The sections of the shop book that go out as files and come in again. */
@Configuration(proxyBeanMethods = false)
class BookTables {

    @Bean
    static FileTable metalPrices(Drafts drafts, ShopBooks books, Shops shops, Documents documents) {
        return table("sheets", drafts, books, shops, documents);
    }

    @Bean
    static FileTable timeStandards(
            Drafts drafts, ShopBooks books, Shops shops, Documents documents) {
        return table(BookParts.STANDARDS, drafts, books, shops, documents);
    }

    private static FileTable table(
            String section, Drafts drafts, ShopBooks books, Shops shops, Documents documents) {
        return new BookTable(
                BookParts.section(section).orElseThrow(), drafts, books, shops, documents);
    }
}
