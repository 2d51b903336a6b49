package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import strokewright.estimate.ShopBook;
import strokewright.takeoff.Situations;

class PriceChangesTest {

    private static final ShopBook BOOK = Situations.surchargeBook();
    private static final ShopBook DEARER =
            Situations.withRate(BOOK, "Forming", "labourRate", "99.00");

    @Test
    void theSameHasNoDifferenceAndNoReason() {
        QuoteDocument quote = Quoted.quote(BOOK, Situations.roundFrame(), Situations.bowl());
        PriceChanges none = PriceChanges.between(quote, quote);

        assertThat(none.rows()).isEmpty();
        assertThat(none.why()).isEmpty();
        assertThat(none.netBefore()).isEqualTo(none.net());
    }

    @Test
    void aDearerShopBookShowsEveryQuantityOldAndNew() {
        QuoteDocument before = Quoted.quote(BOOK, Situations.roundFrame());
        QuoteDocument now = Quoted.quote(DEARER, Situations.roundFrame());
        PriceChanges changes = PriceChanges.between(before, now);

        assertThat(changes.rows())
                .extracting(PriceChanges.Row::quantity)
                .containsExactly(1, 2, 5, 12);
        assertThat(changes.rows())
                .allSatisfy(
                        row -> assertThat(row.now().amount()).isGreaterThan(row.before().amount()));
        assertThat(changes.rows()).filteredOn(PriceChanges.Row::main).hasSize(1);
        assertThat(changes.net()).isEqualTo(now.total().net());
        assertThat(changes.netBefore()).isEqualTo(before.total().net());
    }

    @Test
    void anotherQuantityAloneIsNoOtherWork() {
        QuoteDocument before = Quoted.quote(BOOK, Situations.bowl());
        QuoteDocument now = Quoted.quote(BOOK, Situations.bowl().withMainQuantity(3));
        PriceChanges changes = PriceChanges.between(before, now);

        assertThat(changes.why()).containsExactly("Another main quantity.");
        assertThat(changes.rows())
                .singleElement()
                .matches(row -> row.before() == null && row.quantity() == 3 && row.main());
    }

    @Test
    void itemsThatCameOrWentAndOtherWorkAreTold() {
        QuoteDocument before = Quoted.quote(BOOK, Situations.roundFrame(), Situations.bowl());
        QuoteDocument now = Quoted.quote(BOOK, Situations.bowl());
        PriceChanges changes = PriceChanges.between(before, now);

        assertThat(changes.why()).contains("Other work or metal in item 1.", "Items came or went.");
        assertThat(changes.rows())
                .filteredOn(row -> row.now() == null)
                .singleElement()
                .matches(row -> row.position() == 2 && row.title().equals("Bowl"));
    }

    @Test
    void whatBecameAnOptionIsTold() {
        QuoteDocument before =
                Quoted.quote(
                        Quoted.item(1, false, Situations.bowl(), BOOK),
                        Quoted.item(2, false, Situations.roundFrame(), BOOK));
        QuoteDocument now =
                Quoted.quote(
                        Quoted.item(1, false, Situations.bowl(), BOOK),
                        Quoted.item(2, true, Situations.roundFrame(), BOOK));
        PriceChanges changes = PriceChanges.between(before, now);

        assertThat(changes.rows()).isEmpty();
        assertThat(changes.why()).containsExactly("What is an option has changed.");
        assertThat(changes.net().amount()).isLessThan(changes.netBefore().amount());
    }
}
