package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Currency;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.estimate.TakeOff.Blank;
import strokewright.estimate.TakeOff.Part;

/** A shop that has changed nothing yet can price every kind of work. */
class StarterBookEstimatesTest {

    private static final ShopBook BOOK = starter();

    @ParameterizedTest
    @MethodSource
    void pricesEveryKindOfWork(Operation operation) {
        Part part =
                new Part(
                        "Part",
                        1,
                        BOOK.grades().get(0).code(),
                        1.5,
                        null,
                        new Blank(600.0, 400.0),
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        List.of(operation),
                        null,
                        null,
                        null,
                        List.of(),
                        null);
        Estimate estimate =
                Estimating.estimate(
                        new TakeOff(
                                "Item",
                                null,
                                null,
                                null,
                                null,
                                List.of(part),
                                null,
                                null,
                                null,
                                List.of(),
                                List.of(),
                                null),
                        BOOK);
        assertThat(estimate.feasible()).isTrue();
        assertThat(estimate.typed().get(0).machineMinutes()).isPositive();
        assertThat(estimate.quantities().get(0).price().offer().amount()).isPositive();
    }

    static List<Operation> pricesEveryKindOfWork() {
        return List.of(
                new Operation.CurveEdge(
                        Operation.Sense.SHRINK, 900.0, 300.0, null, 30.0, 1, null, null, null),
                new Operation.CurveEdge(
                        Operation.Sense.STRETCH, 900.0, 300.0, null, 30.0, 1, null, null, null),
                new Operation.TurnFlange(
                        Operation.Sense.SHRINK, 200.0, 20.0, 90.0, 360.0, 1, null, null, null),
                new Operation.Dish(300.0, 40.0, null, 5.0, 1, null, null, null, null),
                new Operation.Smooth(90_000.0, 2, 1, null, null, null),
                new Operation.Flatten(90_000.0, 1, 1, null, null, null),
                new Operation.TakeOutDents(4, 60, 1, null, null, null),
                new Operation.Standard("Guillotine cut", 4.0));
    }

    private static ShopBook starter() {
        try (var in = ShopBook.class.getResourceAsStream("/shop-book/starter.json")) {
            ShopBook book = EditedBook.JSON.readValue(in, ShopBook.class).withEdition(1);
            assertThat(book.currency()).isEqualTo(Currency.getInstance("EUR"));
            return book;
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
