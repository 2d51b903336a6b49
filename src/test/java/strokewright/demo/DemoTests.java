package strokewright.demo;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.DefaultApplicationArguments;
import org.springframework.core.env.Environment;
import org.springframework.http.HttpHeaders;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Documents;
import strokewright.access.Shops;
import strokewright.access.SignedIn;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.quote.Quotes;
import strokewright.shopbook.ShopBooks;
import tools.jackson.databind.JsonNode;

class DemoTests extends ServiceTest {

    @Autowired private Shops shops;
    @Autowired private ShopBooks books;
    @Autowired private Quotes quotes;
    @Autowired private Documents documents;
    @Autowired private Environment environment;

    @Test
    void comesOnceHoweverOftenTheServiceStarts() throws Exception {
        SignedIn owner = start();
        assertThat(owner.shopName()).isEqualTo("Quillmoor Sheet & Form");
        assertThat(start().shopId()).isEqualTo(owner.shopId());
        ShopBook book = owner.call(books::current);
        assertThat(book.edition()).isEqualTo(2);
        assertThat(book.priceScheme().kind()).isEqualTo(PriceScheme.Kind.SURCHARGE);
        assertThat(owner.call(quotes::count)).isEqualTo(5);
    }

    @Test
    void anOwnersOwnChangesStay() throws Exception {
        SignedIn owner = start();
        ShopBook book = owner.call(books::current);
        ShopBook changed =
                owner.call(() -> books.change(book.withPriceScheme(scheme(book)), "*", "cheaper"))
                        .book();
        start();
        assertThat(owner.call(books::current)).isEqualTo(changed);
    }

    @ParameterizedTest
    @ValueSource(strings = {"estimator", "owner", "office", "floor"})
    void everybodyOfTheDemoCanSignIn(String user) throws Exception {
        start();
        JsonNode tokens =
                TestShop.stranger(port())
                        .get()
                        .uri("/api/v1/tokens")
                        .headers((HttpHeaders h) -> h.setBasicAuth(user, Demo.PASSWORD))
                        .exchange()
                        .expectStatus()
                        .isOk()
                        .expectBody(JsonNode.class)
                        .returnResult()
                        .getResponseBody();
        assertThat(tokens.get("tokens")).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "round-sign-frame",
                "copper-bowl",
                "cover-with-dents",
                "counter-edge",
                "shelf-channel"
            })
    void itsTakeOffsCanBeMadeWithItsShopBook(String name) throws Exception {
        SignedIn owner = start();
        TakeOff takeOff = new DemoData(documents).takeOff(name);
        Estimate estimate = Estimating.estimate(takeOff, owner.call(books::current));
        assertThat(estimate.findings())
                .filteredOn(finding -> finding.severity() == Severity.REFUSAL)
                .extracting(Finding::code)
                .isEmpty();
        assertThat(estimate.feasible()).isTrue();
        assertThat(estimate.quantities()).hasSameSizeAs(takeOff.quantities());
    }

    private SignedIn start() throws Exception {
        new Demo(shops, books, quotes, documents, environment)
                .run(new DefaultApplicationArguments());
        DemoData.DemoShop demo = new DemoData(documents).shop();
        return shops.open(demo.shop(), demo.users().get(0).with(Demo.PASSWORD));
    }

    private static PriceScheme scheme(ShopBook book) {
        PriceScheme s = book.priceScheme();
        return new PriceScheme(
                s.kind(),
                s.priceFrom(),
                s.materialOverheadPercent(),
                s.productionOverheadPercent(),
                s.administrationPercent(),
                s.salesPercent(),
                s.profitPercent() - 1,
                s.settlementDiscountPercent(),
                s.commissionPercent(),
                s.tradeDiscountPercent(),
                s.taxPercent(),
                s.roundEachTo(),
                s.minimumOrder(),
                s.urgencyPercent(),
                null);
    }
}
