package strokewright.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
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
import strokewright.comparison.CostRates;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.job.Bookings;
import strokewright.job.JobCosts;
import strokewright.job.JobRecord;
import strokewright.job.JobRecords;
import strokewright.job.Jobs;
import strokewright.job.Presences;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.quote.Customers;
import strokewright.quote.Letterheads;
import strokewright.quote.Outcomes;
import strokewright.quote.QuoteHistory;
import strokewright.quote.Quotes;
import strokewright.shopbook.ShopBooks;
import tools.jackson.databind.JsonNode;

class DemoTests extends ServiceTest {

    /** So many inquiries of the past are enough to see that it works. */
    private static final int LIVED = 4;

    @Autowired private Shops shops;
    @Autowired private ShopBooks books;
    @Autowired private Quotes quotes;
    @Autowired private Outcomes outcomes;
    @Autowired private QuoteHistory history;
    @Autowired private Customers customers;
    @Autowired private Letterheads letterheads;
    @Autowired private Jobs jobs;
    @Autowired private Bookings bookings;
    @Autowired private JobCosts costs;
    @Autowired private JobRecords records;
    @Autowired private Presences presences;
    @Autowired private CostRates costRates;
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
        assertThat(owner.call(quotes::count)).isEqualTo(8 + LIVED);
        assertThat(states(owner))
                .containsExactly(
                        "accepted",
                        "draft",
                        "draft",
                        "issued",
                        "issued",
                        "issued",
                        "declined",
                        "draft");
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

    @Test
    void theShopHasALetterheadWithALogoAndCustomersWithContacts() throws Exception {
        SignedIn owner = start();
        assertThat(owner.call(letterheads::logo)).isPresent();
        assertThat(owner.call(() -> customers.list(null, null, 50)))
                .hasSize(5)
                .allSatisfy(card -> assertThat(card.contacts()).isNotEmpty());
    }

    @Test
    void aPastIsOnlyThePastOfWhoeverBringsItIn() throws Exception {
        java.time.Instant now = java.time.Instant.parse("2026-03-10T12:00:00Z");
        DemoClock clock = new DemoClock(java.time.Clock.fixed(now, java.time.ZoneOffset.UTC));
        java.util.List<java.time.Instant> seen = new java.util.ArrayList<>();
        clock.daysAgo(
                3,
                () -> {
                    seen.add(clock.instant());
                    Thread other = new Thread(() -> seen.add(clock.instant()));
                    other.start();
                    try {
                        other.join();
                    } catch (InterruptedException e) {
                        throw new IllegalStateException(e);
                    }
                });
        seen.add(clock.instant());
        assertThat(seen).containsExactly(java.time.Instant.parse("2026-03-07T12:00:00Z"), now, now);
    }

    @Test
    void itsPastIsTheSameEachTimeAndHasWhatAShopSees() {
        List<DemoOrders.Inquiry> inquiries = DemoOrders.ofTheShop(documents);
        assertThat(inquiries).isEqualTo(DemoOrders.ofTheShop(documents));
        assertThat(inquiries)
                .extracting(DemoOrders.Inquiry::fate)
                .contains(DemoOrders.Fate.values());
        assertThat(inquiries)
                .filteredOn(i -> i.fate() == DemoOrders.Fate.MADE)
                .hasSize(60)
                .allSatisfy(i -> assertThat(i.daysAgo()).isBetween(21, 545));
    }

    @Test
    void everyInquiryOfItsPastCanBeMade() throws Exception {
        ShopBook book = start().call(books::current);
        assertThat(DemoOrders.ofTheShop(documents))
                .allSatisfy(
                        inquiry ->
                                assertThat(Estimating.reckon(inquiry.takeOff(), book).steps(1))
                                        .isNotEmpty());
    }

    @Test
    void whatItMadeIsBookedAndFinished() throws Exception {
        SignedIn owner = start();
        List<JobRecord> finished = owner.call(() -> records.finished(null, null));
        assertThat(finished)
                .isNotEmpty()
                .allSatisfy(
                        job -> {
                            assertThat(job.bookings()).isNotEmpty();
                            assertThat(job.metal()).isNotEmpty();
                            assertThat(job.isBookedToTheEnd()).isTrue();
                        });
    }

    private java.util.List<String> states(SignedIn owner) {
        int year = java.time.LocalDate.now(java.time.ZoneId.of("Europe/Berlin")).getYear();
        return java.util.stream.IntStream.rangeClosed(1 + LIVED, 8 + LIVED)
                .mapToObj("Q-%d-%%04d".formatted(year)::formatted)
                .map(number -> owner.call(() -> quotes.get(number)).document().state().word())
                .toList();
    }

    private SignedIn start() throws Exception {
        DemoClock clock = new DemoClock(java.time.Clock.systemUTC());
        List<DemoOrders.Inquiry> inquiries = DemoOrders.ofTheShop(documents);
        new Demo(
                        shops,
                        books,
                        quotes,
                        outcomes,
                        history,
                        customers,
                        letterheads,
                        new DemoPast(
                                quotes, outcomes, jobs, bookings, costs, records, presences,
                                costRates, clock),
                        inquiries.subList(0, LIVED),
                        clock,
                        documents,
                        environment)
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
