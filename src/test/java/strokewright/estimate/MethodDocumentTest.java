package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.quantity.Why;
import tools.jackson.databind.JsonNode;

/**
 * The method as users read it, docs/method.md, against the program. Its examples by hand are
 * reckoned twice: each expression from the digits that the page shows, and the take-off by the
 * program. Its table of formulas has every formula in the words of the code.
 */
class MethodDocumentTest {

    private static final String PAGE = read();

    private static final ShopBook STARTER =
            EditedBook.read("/shop-book/starter.json")
                    .with("/proposals", List.of()) // the examples type all their lines
                    .with("/priceScheme/priceFrom", "plan") // nobody simulates by hand
                    .book()
                    .withEdition(1);

    private static final Pattern JSON = Pattern.compile("```json\n(.*?)```", Pattern.DOTALL);
    private static final Pattern OF_QUANTITY = Pattern.compile("(\\d+): (.*)");
    private static final Pattern NUMBER = Pattern.compile("[−-]?\\d+(?:\\.\\d+)?");

    /** What digits left off on the page may add up to along an expression. */
    private static final double LEFT_OFF = 2e-3;

    @Test
    void namesEveryFormulaInItsOwnWords() {
        List<String> rows =
                Formulas.all().stream()
                        .map(
                                f ->
                                        "| `"
                                                + f.code()
                                                + "` | "
                                                + cell(f.text())
                                                + " | "
                                                + cell(f.source())
                                                + " |")
                        .toList();

        assertThat(rows.stream().filter(row -> !PAGE.contains(row + "\n")))
                .as("rows that docs/method.md lacks")
                .isEmpty();
        assertThat(section("## Every formula").lines().filter(line -> line.startsWith("| `")))
                .as("rows of docs/method.md, without those of formulas that are gone")
                .containsExactlyElementsOf(rows);
    }

    private static String cell(String text) {
        return text.replace("|", "\\|");
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void everyExpressionGivesWhatThePageSays(Example example) {
        for (Step step : example.steps) {
            double byHand = HandReckoning.of(step.byHand);
            double tolerance =
                    step.counts() ? 0 : Math.max(step.lastDigit(), Math.abs(byHand) * LEFT_OFF);

            assertThat(step.result())
                    .as(step.byHand + " gives " + step.gives)
                    .isCloseTo(byHand, within(tolerance));
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void everyFigureIsTheOneOfTheProgram(Example example) {
        Map<String, Integer> seen = new HashMap<>();
        int compared = 0;
        for (Step step : example.steps) {
            if (!step.named.isEmpty()) {
                int nth = seen.merge(step.named, 1, Integer::sum) - 1;
                List<Double> figures = example.named(step.named);
                assertThat(figures).as("the program's " + step.named).hasSizeGreaterThan(nth);
                assertThat(figures.get(nth))
                        .as(step.step + ", " + step.named)
                        .isCloseTo(step.result(), within(step.lastDigit() / 2 + 1e-9));
                compared++;
            }
        }
        assertThat(compared).isGreaterThan(3);
    }

    /** Rates, and the price read backward. */
    @Test
    void ratesAndTheWayBackGiveWhatThePageSays() {
        String price = section("## Price");
        List<Step> reckoned =
                steps(price.substring(price.indexOf("### Rates"))).stream()
                        .filter(step -> !step.byHand.isEmpty())
                        .toList();

        assertThat(reckoned).hasSizeGreaterThan(15);
        for (Step step : reckoned) {
            double byHand = HandReckoning.of(step.byHand);
            assertThat(step.result())
                    .as(step.byHand + " gives " + step.gives)
                    .isCloseTo(
                            byHand,
                            within(Math.max(step.lastDigit(), Math.abs(byHand) * LEFT_OFF)));
        }
    }

    @Test
    void hasAnEdgeAPriceADishAnOutlineAFoldACheckAndTwoRoutes() {
        assertThat(examples()).hasSize(7);
        assertThat(takeOffs().flatMap(e -> e.worked.operations().stream()).map(Estimate.Line::type))
                .contains("curve-edge", "dish", "follow-outline");
        assertThat(takeOffs()).allMatch(e -> e.worked.feasible());
    }

    private static Stream<Example> takeOffs() {
        return examples().filter(e -> e.worked != null);
    }

    @Test
    void saysEveryCautionAsThePagesDo() {
        String safety = section("## Safety");
        assertThat(Arrays.stream(Caution.values()).filter(c -> !says(safety, c)))
                .as("cautions that docs/method.md lacks")
                .isEmpty();
    }

    private static boolean says(String section, Caution caution) {
        return section.lines()
                .anyMatch(
                        line ->
                                line.startsWith("| " + caution.title() + " | ")
                                        && line.endsWith(" | " + caution.text() + " |"));
    }

    /** The batch that the dish is said to be made in. */
    @Test
    void fiveBowlsAreProvedAndMadeAsABatch() {
        Estimate.ForQuantity five =
                examples()
                        .filter(e -> e.title.equals("A dish"))
                        .findFirst()
                        .orElseThrow()
                        .worked
                        .quantities()
                        .get(1);

        assertThat(five.passage()).isEqualTo(Estimate.Passage.BATCH);
        assertThat(five.provingRound()).isTrue();
    }

    /** The table of handling classes, the words on times and limits. */
    @Test
    void defaultsAreThoseOfAShopBookThatStatesNone() {
        ShopBook.Times times = ShopBook.Times.DEFAULTS;
        List<String> defaults =
                new ArrayList<>(
                        List.of(
                                plain(times.machineAllowancePercent())
                                        + " % at the forming machine",
                                plain(times.benchAllowancePercent()) + " % at the bench",
                                "b = log₂ " + plain(times.practiceSlope()),
                                "under " + plain(times.minimumRowStrain()) + " (assumed)",
                                "the same × " + plain(times.shearedEdgeFactor()),
                                plain(times.dentFindSeconds()) + " s to find and feel",
                                "sheet under " + plain(times.thinSheetMm()) + " mm",
                                "The default gap is " + plain(times.templateGapMm()) + " mm",
                                "every " + plain(times.degreesPerTippingPass()) + "° begun",
                                "every " + plain(times.arcStationMm()) + " mm begun along a radius",
                                "every "
                                        + plain(times.outlineStationMm())
                                        + " mm begun along an outline",
                                "every " + plain(times.areaStationMm()) + " mm square begun",
                                "Each takes "
                                        + plain(times.stationSeconds())
                                        + " s at every station",
                                "one for every " + times.checkEveryPasses() + " passes begun",
                                plain(times.annealCoolCleanMinutes())
                                        + " min for cooling and cleaning",
                                "(default "
                                        + plain(times.smallestWorkableRadiusMm())
                                        + " mm, assumed)"));
        times.handling().stream().map(MethodDocumentTest::row).forEach(defaults::add);

        assertThat(defaults.stream().filter(words -> !PAGE.contains(words)))
                .as("words that docs/method.md lacks")
                .isEmpty();
    }

    private static String row(ShopBook.HandlingClass handling) {
        return "| "
                + Stream.of(handling.upToKg(), handling.upToAreaM2(), handling.upToLengthMm())
                        .map(x -> x == null ? "more" : plain(x))
                        .collect(Collectors.joining(" | "))
                + " | "
                + plain(handling.seconds())
                + " | "
                + handling.people()
                + " |";
    }

    @Test
    void familyFactorsAreThoseOfTheStarterBook() {
        assertThat(PAGE)
                .contains(
                        "soft aluminium and copper 1.0, brass and low-carbon steel 0.8,"
                                + " aluminium-magnesium 0.7, stainless 0.4, titanium 0.3");
        assertThat(STARTER.familyBite())
                .containsOnly(
                        Map.entry("aluminium-soft", 1.0),
                        Map.entry("copper", 1.0),
                        Map.entry("brass", 0.8),
                        Map.entry("low-carbon-steel", 0.8),
                        Map.entry("aluminium-magnesium", 0.7),
                        Map.entry("stainless", 0.4),
                        Map.entry("titanium", 0.3));
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    /** One step of an example: what is reckoned, from what, to what, under which name. */
    private record Step(String step, String byHand, String gives, String named) {

        private String digits() {
            Matcher number = NUMBER.matcher(gives);
            assertThat(number.lookingAt()).as("a number in " + gives).isTrue();
            return number.group().replace('−', '-');
        }

        double result() {
            return Double.parseDouble(digits());
        }

        /** One in the last place that the page shows; counts are exact. */
        double lastDigit() {
            return counts() ? 0 : Math.pow(10, -new BigDecimal(digits()).scale());
        }

        /** Whole things, rounded up or from whole things. */
        private boolean counts() {
            return !digits().contains(".")
                    && (byHand.contains("⌈") || byHand.matches("[0-9 +−×()]+"));
        }
    }

    /**
     * @param worked the take-off's; null for routes
     * @param compared the routes'; null for a take-off
     */
    private record Example(
            String title,
            @Nullable Estimate worked,
            @Nullable RouteComparison compared,
            List<Step> steps) {

        /** Figures of that name, in the program's order. */
        List<Double> named(String name) {
            Matcher of = OF_QUANTITY.matcher(name);
            int quantity = of.matches() ? Integer.parseInt(of.group(1)) : 0;
            String figure = of.matches() ? of.group(2) : name;
            if (compared != null) {
                return ofRoutes(quantity, figure);
            }
            return working(quantity)
                    .filter(why -> why.figure().equals(figure))
                    .map(Why::value)
                    .toList();
        }

        /** Of all forming and folds, or of one quantity. */
        private Stream<Why> working(int quantity) {
            return quantity > 0
                    ? worked.quantities().stream()
                            .filter(q -> q.quantity() == quantity)
                            .flatMap(q -> q.why().stream())
                    : Stream.concat(
                            worked.operations().stream()
                                    .filter(line -> line.standard() == null)
                                    .flatMap(line -> line.why().stream()),
                            worked.folds().stream().flatMap(fold -> fold.why().stream()));
        }

        private List<Double> ofRoutes(int quantity, String figure) {
            return switch (figure) {
                case "equalAt" -> compared.breakEvens().stream().map(b -> b.equalAt()).toList();
                case "breakEven" ->
                        compared.breakEvens().stream().map(b -> (double) b.quantity()).toList();
                default ->
                        compared.routes().stream()
                                .filter(route -> route.name().equals(figure))
                                .flatMap(route -> route.quantities().stream())
                                .filter(at -> at.quantity() == quantity)
                                .map(at -> at.cost().amount().doubleValue())
                                .toList();
            };
        }

        @Override
        public String toString() {
            return title;
        }
    }

    /** Sections of the examples; one without a take-off goes on with the one before it. */
    private static Stream<Example> examples() {
        List<Example> examples = new ArrayList<>();
        Estimate worked = null;
        for (String section : section("## Worked by hand").split("\n### ")) {
            RouteComparison compared = null;
            Matcher json = JSON.matcher(section);
            if (json.find()) {
                JsonNode typed = EditedBook.JSON.readTree(json.group(1));
                compared = typed.has("routes") ? compared(typed) : null;
                worked = typed.has("routes") ? null : worked(typed);
            }
            List<Step> steps = steps(section);
            if (!steps.isEmpty()) {
                String title = section.lines().findFirst().orElseThrow();
                examples.add(new Example(title, worked, compared, steps));
            }
        }
        return examples.stream();
    }

    private static Estimate worked(JsonNode takeOff) {
        return Estimating.estimate(EditedBook.JSON.treeToValue(takeOff, TakeOff.class), STARTER);
    }

    private static RouteComparison compared(JsonNode typed) {
        List<Route> routes = new ArrayList<>();
        typed.get("routes")
                .forEach(route -> routes.add(EditedBook.JSON.treeToValue(route, Route.class)));
        return Routes.compare(routes, typed.get("upToQuantity").asInt(), STARTER).comparison();
    }

    private static List<Step> steps(String section) {
        return section.lines()
                .filter(line -> line.startsWith("| ") && !line.startsWith("| step |"))
                .map(line -> Arrays.stream(line.split("\\|", -1)).map(String::strip).toList())
                .map(cells -> new Step(cells.get(1), cells.get(2), cells.get(3), cells.get(4)))
                .toList();
    }

    private static String section(String heading) {
        int from = PAGE.indexOf(heading + "\n");
        assertThat(from).as(heading).isNotNegative();
        int to = PAGE.indexOf("\n## ", from + heading.length());
        return PAGE.substring(from, to < 0 ? PAGE.length() : to);
    }

    private static String read() {
        try {
            return Files.readString(Path.of("docs", "method.md"));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
