package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOffCheck;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Whatever a finding offers, typed as it is printed and by itself, clears that finding. */
class OfferedChangesTest {

    private static final int CASES = 80;

    private static final Map<String, String> FIELD =
            Map.of(
                    "by a flange height", "heightMm",
                    "by a radius", "radiusMm",
                    "by a starting radius", "startRadiusMm",
                    "by a depth", "depthMm",
                    "by a reach", "reachMm");

    private static final Pattern SIZE =
            Pattern.compile("(by a [a-z ]+) of at (?:most|least) (\\S+)\u00a0mm");
    private static final Pattern NAMED =
            Pattern.compile("(?:on|with) the (machine|tool) “(.*)”(.*)");

    private final List<String> grades = new ArrayList<>();

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void clearsTheFindingThatOffersIt(long seed) {
        Map<String, Integer> tried = tried(seed, CASES);
        assertThat(tried.values().stream().mapToInt(n -> n).sum()).isGreaterThan(30);
    }

    @Test
    void theCasesTryEveryKindOfChange() {
        assertThat(tried(7, 3 * CASES).keySet().stream().map(k -> k.split(" ", 2)[1]).distinct())
                .containsExactlyInAnyOrder(
                        "heightMm",
                        "radiusMm",
                        "startRadiusMm",
                        "depthMm",
                        "thicknessMm",
                        "reachMm",
                        "machine",
                        "tool",
                        "stretchTool");
    }

    @Test
    void theCrownOfADishIsOfferedAToolOfItsOwn() {
        ObjectNode takeOff =
                (ObjectNode)
                        Situations.JSON.readTree(
                                """
                                {"parts":[{"name":"P","grade":"AL99.5-O","thicknessMm":5,"massKg":2,
                                  "operations":[{"type":"dish","diameterMm":400,"depthMm":60,
                                    "tool":"Shrink, steel-faced","crownTool":"Dome, soft-faced"}]}]}
                                """);
        ShopBook book = book(false);
        Finding finding = estimate(takeOff, book).findings().get(0);
        String change = new FindingWords(SmallShop.EN).change(finding);
        assertThat(change).endsWith("or with the tool “Dome, steel-faced” for the crown.");
        String way = change.substring(change.indexOf("with the tool"), change.length() - 1);
        assertThat(apply(way, finding, takeOff, SmallShop.EN)).isEqualTo("crownTool");
        assertThat(estimate(takeOff, book).findings()).noneMatch(f -> f.change() != null);
    }

    /** How often each change was tried, by the code of its finding and its field. */
    private Map<String, Integer> tried(long seed, int cases) {
        SplittableRandom random = new SplittableRandom(seed);
        Map<String, Integer> tried = new TreeMap<>();
        for (int i = 0; i < cases; i++) {
            ShopBook book = book(random.nextBoolean());
            Numbers numbers = Numbers.of(random.nextBoolean() ? Locale.ENGLISH : Locale.GERMAN);
            ObjectNode takeOff = takeOff(random, book);
            Estimate estimate = estimate(takeOff, book);
            if (estimate == null) {
                continue;
            }
            for (Finding finding : estimate.findings()) {
                String change = new FindingWords(numbers).change(finding);
                if (change == null) {
                    continue;
                }
                String ways = change.replaceAll("^Cleared |\\.$", "");
                for (String way : ways.split(", or (?=by |on the machine|with the tool)")) {
                    ObjectNode changed = takeOff.deepCopy();
                    String field = apply(way, finding, changed, numbers);
                    tried.merge(finding.code() + " " + field, 1, Integer::sum);
                    assertThat(left(finding, changed, book))
                            .as("%s, %s, in %s", finding, way, takeOff)
                            .isFalse();
                }
            }
        }
        return tried;
    }

    private static boolean left(Finding finding, ObjectNode changed, ShopBook book) {
        Estimate estimate = estimate(changed, book);
        return estimate != null
                && estimate.findings().stream()
                        .anyMatch(
                                f ->
                                        f.code().equals(finding.code())
                                                && f.pointer().equals(finding.pointer()));
    }

    /** Null for more passes than anybody would do. */
    private static Estimate estimate(ObjectNode takeOff, ShopBook book) {
        TakeOff read = Situations.takeOff(takeOff.toString());
        assertThat(TakeOffCheck.faults(read, book)).as(takeOff.toString()).isEmpty();
        try {
            return Estimating.estimate(read, book);
        } catch (InvalidInput tooManyPasses) {
            return null;
        }
    }

    private static String apply(String way, Finding finding, ObjectNode takeOff, Numbers numbers) {
        ObjectNode part = (ObjectNode) takeOff.at("/parts/0");
        String[] steps = finding.pointer().split("/");
        ObjectNode operation = (ObjectNode) part.at("/operations/" + steps[4]);
        Matcher size = SIZE.matcher(way);
        if (size.matches()) {
            double typed = numbers.number(size.group(2)).value().doubleValue();
            if (size.group(1).equals("by a thickness")) {
                part.put("thicknessMm", typed);
                return "thicknessMm";
            }
            String field = FIELD.get(size.group(1));
            operation.put(field, typed);
            return field;
        }
        Matcher named = NAMED.matcher(way);
        assertThat(named.matches()).as(way).isTrue();
        if (named.group(1).equals("machine")) {
            part.put("machine", named.group(2));
            return "machine";
        }
        String field =
                switch (named.group(3)) {
                    case " for the crown" -> "crownTool";
                    case " for what stretches" -> "stretchTool";
                    default -> "tool";
                };
        operation.put(field, named.group(2));
        return field;
    }

    // Cases -----------------------------------------------------------------------------------

    private static ShopBook book(boolean smallFirst) {
        try (InputStream in =
                OfferedChangesTest.class.getResourceAsStream("/shop-book/starter.json")) {
            ObjectNode book = (ObjectNode) Situations.JSON.readTree(in);
            if (smallFirst) {
                ArrayNode machines = (ArrayNode) book.get("machines");
                machines.add(machines.remove(0));
            }
            return Situations.JSON.treeToValue(book, ShopBook.class).withEdition(1);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private ObjectNode takeOff(SplittableRandom random, ShopBook book) {
        if (grades.isEmpty()) {
            book.grades().forEach(g -> grades.add(g.code()));
        }
        ObjectNode takeOff = Situations.JSON.createObjectNode();
        ObjectNode part = takeOff.putArray("parts").addObject();
        part.put("name", "P").put("massKg", 2);
        part.put("grade", grades.get(random.nextInt(grades.size())));
        part.put("thicknessMm", size(random, 0.4, 6));
        if (random.nextInt(3) == 0) {
            part.put("machine", book.machines().get(random.nextInt(2)).name());
        }
        if (random.nextBoolean()) {
            part.putObject("blank")
                    .put("lengthMm", size(random, 300, 3000))
                    .put("widthMm", size(random, 100, 1500));
        }
        ArrayNode operations = part.putArray("operations");
        for (int i = random.nextInt(1, 3); i > 0; i--) {
            operation(operations.addObject(), random);
        }
        return takeOff;
    }

    private static void operation(ObjectNode operation, SplittableRandom random) {
        String sense = random.nextBoolean() ? "shrink" : "stretch";
        switch (random.nextInt(6)) {
            case 0, 1 -> {
                operation.put("type", "curve-edge").put("sense", sense);
                operation.put("lengthMm", size(random, 100, 2000));
                operation.put("radiusMm", size(random, 20, 900));
                operation.put("heightMm", size(random, 5, 120));
                if (random.nextInt(4) == 0) {
                    operation.put("startRadiusMm", size(random, 50, 3000));
                }
                tool(
                        operation,
                        "tool",
                        random,
                        "Edge",
                        sense.equals("shrink") ? "Shrink" : "Stretch");
            }
            case 2 -> {
                operation.put("type", "turn-flange").put("sense", sense);
                operation.put("radiusMm", size(random, 10, 400));
                operation.put("heightMm", size(random, 5, 80));
                operation.put("angleDeg", size(random, 20, 90));
                tool(operation, "tool", random, "Flange", "Edge");
            }
            case 3 -> {
                double diameter = size(random, 80, 900);
                operation.put("type", "dish").put("diameterMm", diameter);
                operation.put("depthMm", size(random, 0.05, 0.55) * diameter);
                if (random.nextInt(3) == 0) {
                    operation.put("rimShare", size(random, 0, 1));
                }
                tool(operation, "tool", random, "Shrink", "Edge");
                tool(operation, "crownTool", random, "Dome");
            }
            case 4 -> {
                operation.put("type", "smooth").put("areaMm2", size(random, 1000, 900_000));
                tool(operation, "tool", random, "Smooth fine");
            }
            default -> {
                operation.put("type", "follow-outline");
                operation.put("heightMm", size(random, 5, 90));
                ArrayNode segments = operation.putArray("segments");
                for (int i = random.nextInt(1, 6); i > 0; i--) {
                    ObjectNode segment = segments.addObject();
                    segment.put("lengthMm", size(random, 20, 900));
                    if (random.nextInt(4) > 0) {
                        double radius = size(random, 25, 900);
                        segment.put("radiusMm", random.nextBoolean() ? radius : -radius);
                    }
                }
                tool(operation, "tool", random, "Edge");
                tool(operation, "stretchTool", random, "Edge", "Stretch");
            }
        }
        if (random.nextInt(3) == 0) {
            operation.put("reachMm", size(random, 50, 900));
        }
    }

    private static void tool(
            ObjectNode operation, String field, SplittableRandom random, String... kinds) {
        if (random.nextBoolean()) {
            operation.put(
                    field,
                    kinds[random.nextInt(kinds.length)]
                            + (random.nextBoolean() ? ", soft-faced" : ", steel-faced"));
        }
    }

    /** As somebody would measure, to a tenth, or a hundredth where it is small. */
    private static double size(SplittableRandom random, double from, double to) {
        double size = from + random.nextDouble() * (to - from);
        return size < 10 ? Math.round(size * 100) / 100.0 : Math.round(size * 10) / 10.0;
    }
}
