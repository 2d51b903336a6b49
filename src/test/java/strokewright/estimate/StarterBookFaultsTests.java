package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.quantity.Fault;
import tools.jackson.databind.JsonNode;

/** The starter book as it is, and with every one of its figures and texts spoilt in turn. */
class StarterBookFaultsTests {

    private static final String STARTER = "/shop-book/starter.json";
    private static final Set<String> CHOICES =
            Set.of("kind", "surface", "unit", "priceFrom", "when");
    private static final Set<String> HAVE_DEFAULTS =
            Set.of("/bending/method", "/priceScheme/kind", "/priceScheme/priceFrom");

    @Test
    void hasNoFaultAndNoDoubt() {
        ShopBook starter = EditedBook.read(STARTER).book();
        assertThat(ShopBookCheck.faults(starter)).isEmpty();
        assertThat(ShopBookDoubts.in(starter)).isEmpty();
    }

    static Stream<Spoilt> everySpoiltPlace() {
        return places().flatMap(StarterBookFaultsTests::spoilt);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("everySpoiltPlace")
    void namesTheOnePlaceThatIsSpoilt(Spoilt spoilt) {
        assertThat(pointers(spoilt.in(EditedBook.read(STARTER)))).contains(spoilt.pointer());
    }

    static IntStream seeds() {
        return IntStream.range(0, 50);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void namesAllOfSeveralSpoiltPlaces(int seed) {
        Random random = new Random(seed);
        List<Spoilt> all = everySpoiltPlace().toList();
        List<Spoilt> some =
                random.ints(5, 0, all.size())
                        .mapToObj(all::get)
                        .filter(s -> s.value() != null) // keeps the other pointers where they are
                        .toList();
        EditedBook book = EditedBook.read(STARTER);
        some.forEach(s -> s.in(book));
        assertThat(pointers(book)).containsAll(some.stream().map(Spoilt::pointer).toList());
    }

    record Spoilt(String pointer, Object value) {

        EditedBook in(EditedBook book) {
            return value == null ? book.without(pointer) : book.with(pointer, value);
        }

        @Override
        public String toString() {
            String text = String.valueOf(value);
            return pointer + " = " + (text.length() > 20 ? text.length() + " characters" : text);
        }
    }

    private record Place(String pointer, JsonNode value) {

        String field() {
            return pointer.substring(pointer.lastIndexOf('/') + 1);
        }
    }

    private static Stream<Spoilt> spoilt(Place place) {
        String at = place.pointer();
        if (place.value().isNumber()) {
            return Stream.of(new Spoilt(at, -1), new Spoilt(at, 2_000_000_000));
        }
        if (place.value().isBoolean() || HAVE_DEFAULTS.contains(at)) {
            return Stream.empty();
        }
        boolean ofRule = at.startsWith("/proposals/");
        if (ofRule && place.field().equals("place")) {
            return Stream.empty(); // after the forming when left out
        }
        if (CHOICES.contains(place.field()) || ofRule && place.field().equals("amount")) {
            return Stream.of(new Spoilt(at, null));
        }
        return switch (place.field()) {
            case "amount" -> Stream.of(new Spoilt(at, "-0.01"), new Spoilt(at, "1000000.01"));
            case "currency" -> Stream.of(new Spoilt(at, at.equals("/currency") ? "XXX" : "CHF"));
            default -> Stream.of(new Spoilt(at, at + "x".repeat(201))); // none known by chance
        };
    }

    private static Stream<Place> places() {
        List<Place> places = new ArrayList<>();
        collect("", EditedBook.read(STARTER).root(), places);
        return places.stream();
    }

    private static void collect(String at, JsonNode node, List<Place> places) {
        if (node.isObject()) {
            node.properties().forEach(e -> collect(at + "/" + e.getKey(), e.getValue(), places));
        } else if (node.isArray()) {
            for (int i = 0; i < node.size(); i++) {
                collect(at + "/" + i, node.get(i), places);
            }
        } else {
            places.add(new Place(at, node));
        }
    }

    private static List<String> pointers(EditedBook edited) {
        return ShopBookCheck.faults(edited.book()).stream().map(Fault::pointer).toList();
    }
}
