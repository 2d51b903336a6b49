package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Currency;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.ServiceTest;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;

class ShopBooksTests extends ServiceTest {

    @Autowired private ShopBooks books;
    @Autowired private StarterBook starter;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    @Test
    void whatIsReadBackIsWhatWasStored() {
        SignedIn owner = openShop().user(Role.OWNER);
        ShopBook first = owner.call(() -> books.current());
        assertThat(first).isEqualTo(starter.in(Currency.getInstance("EUR")).withEdition(1));
    }

    @Test
    void aKnownEditionIsNotReadAgain() {
        SignedIn owner = openShop().user(Role.OWNER);
        ShopBook first = owner.call(() -> books.current());
        assertThat(owner.call(() -> books.current())).isSameAs(first);
        assertThat(owner.call(() -> books.edition(1))).isSameAs(first);
    }

    @Test
    void anEditionThatIsRolledBackIsForgotten() {
        SignedIn owner = openShop().user(Role.OWNER);
        ShopBook lost = without(owner, "Loading");
        owner.run(
                () ->
                        new TransactionTemplate(transactions)
                                .executeWithoutResult(
                                        status -> {
                                            books.change(lost, "\"1\"", null);
                                            assertThat(books.current().standard("Loading"))
                                                    .isEmpty();
                                            status.setRollbackOnly();
                                        }));
        assertThat(owner.call(() -> books.current()).edition()).isEqualTo(1);
        owner.call(() -> books.change(without(owner, "First-piece report"), "\"1\"", null));
        ShopBook second = owner.call(() -> books.edition(2));
        assertThat(second.standard("Loading")).isPresent();
        assertThat(second.standard("First-piece report")).isEmpty();
    }

    /** Not even the service itself could: its role has no right to. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "update shop_book_edition set note = 'other'",
                "delete from shop_book_edition",
                "truncate shop_book_edition"
            })
    void theDatabaseKeepsEditionsAsTheyAre(String statement) {
        SignedIn owner = openShop().user(Role.OWNER);
        assertThatThrownBy(
                        () ->
                                owner.run(
                                        () ->
                                                new TransactionTemplate(transactions)
                                                        .executeWithoutResult(
                                                                s -> sql.sql(statement).update())))
                .rootCause()
                .hasMessageContaining("permission denied");
    }

    @Test
    void plainSqlSeesOneShopAlone() {
        openShop();
        SignedIn owner = openShop().user(Role.OWNER);
        List<String> shops =
                owner.call(
                        () ->
                                new TransactionTemplate(transactions)
                                        .execute(
                                                s ->
                                                        sql.sql(
                                                                        "select distinct shop_id::text"
                                                                                + " from shop_book_edition")
                                                                .query(String.class)
                                                                .list()));
        assertThat(shops).containsExactly(owner.shopId().toString());
    }

    private ShopBook without(SignedIn owner, String standard) {
        ShopBook book = owner.call(() -> books.current());
        return new ShopBook(
                null,
                book.currency(),
                book.grades(),
                book.sheets(),
                book.machines(),
                book.tools(),
                book.familyBite(),
                book.passLimits(),
                book.times(),
                book.standards().stream().filter(s -> !s.name().equals(standard)).toList(),
                book.workCentres(),
                book.priceScheme(),
                book.routes(),
                book.proposals(),
                book.cutting(),
                book.bending(),
                book.inspection(),
                book.uncertainty(),
                book.learned());
    }
}
