package strokewright.shopbook;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBookDoubts;
import strokewright.quantity.Finding;
import strokewright.web.Numbers;

/** What the page says of a shop book in words. */
record ShopBookWords(ShopBook book, ZoneId zone) {

    private static final DateTimeFormatter MINUTE = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm");

    /** Words that an origin uses for a figure that nobody has measured or published. */
    private static final Map<String, String> WEAK =
            Map.of(
                    "assumed", "assumed",
                    "common practice", "common practice",
                    "invented", "invented",
                    "from memory", "from memory");

    /** As JSON and the take-off name it: "soft-faced", "dm²". */
    public String name(Enum<?> value) {
        try {
            JsonProperty named =
                    value.getDeclaringClass()
                            .getField(value.name())
                            .getAnnotation(JsonProperty.class);
            return named == null ? value.name() : named.value();
        } catch (NoSuchFieldException e) {
            throw new IllegalStateException(e);
        }
    }

    /** How far an origin can be trusted, in the words that it uses itself. */
    public List<String> marks(@Nullable String origin) {
        if (origin == null) {
            return List.of("no origin");
        }
        String text = origin.toLowerCase(Locale.ROOT);
        return WEAK.keySet().stream().filter(text::contains).sorted().toList();
    }

    /** A share as a percentage, exactly: 0.012 is 1.2. */
    public BigDecimal percent(double share) {
        return BigDecimal.valueOf(share).movePointRight(2).round(MathContext.DECIMAL32);
    }

    public String when(Instant instant) {
        return MINUTE.format(instant.atZone(zone));
    }

    public List<Standard> standardsAt(String workCentre) {
        return book.standards().stream().filter(s -> s.workCentre().equals(workCentre)).toList();
    }

    public boolean surcharge() {
        return book.priceScheme().kind() == PriceScheme.Kind.SURCHARGE;
    }

    /** The doubt and, apart, what would clear it. */
    record Doubt(String text, @Nullable String change) {}

    public List<Doubt> doubts(Numbers numbers) {
        return ShopBookDoubts.in(book).stream().map(finding -> doubt(finding, numbers)).toList();
    }

    private Doubt doubt(Finding finding, Numbers numbers) {
        return switch (finding.code()) {
            case "hardening-off-tensile-strength" -> hardening(finding, numbers);
            case "annealing-takes-no-time" ->
                    new Doubt(
                            "Some grades may be annealed, but no time standard is named for it: an"
                                    + " anneal costs its cooling and cleaning alone.",
                            "Name a time standard by dm² as annealStandard.");
            default -> throw new IllegalStateException("no words for " + finding.code());
        };
    }

    private Doubt hardening(Finding finding, Numbers numbers) {
        int at = Integer.parseInt(finding.pointer().split("/")[2]);
        Map<String, Object> values = finding.values();
        double off = (Double) values.get("offPercent");
        return new Doubt(
                book.grades().get(at).code()
                        + ": K and n imply a tensile strength of "
                        + numbers.show((Double) values.get("impliedTensileMpa"), 0)
                        + " MPa, "
                        + numbers.show(Math.abs(off), 0)
                        + (off > 0 ? " % over" : " % under")
                        + " the stated "
                        + numbers.show((Double) values.get("tensileMpa"), 0)
                        + " MPa. Passes and strokes of this grade are in doubt.",
                "With this n, K "
                        + numbers.show((Double) finding.change().get("strengthCoefficientMpa"), 0)
                        + " MPa would fit.");
    }

    /** A caution with the thing in the book that calls for it. */
    record Caution(String word, String text) {}

    public List<Caution> gradeCautions() {
        List<Caution> cautions = new ArrayList<>();
        if (book.grades().stream().anyMatch(ShopBook.Grade::annealable)) {
            cautions.add(
                    new Caution(
                            "Annealing",
                            "Aluminium does not glow before it melts: use a temperature marker. Keep"
                                    + " a fire watch, secure the cylinders, mark hot pieces. Heat"
                                    + " treatment temperatures are the metal supplier's to state."));
        }
        if (anyGrade("galvanised") || anyGrade("zinc")) {
            cautions.add(
                    new Caution(
                            "Galvanised sheet and zinc",
                            "Heat and welding drive off zinc fume: take the coating off first,"
                                    + " extract the fume."));
        }
        if (anyGrade("stainless")) {
            cautions.add(
                    new Caution(
                            "Stainless steel",
                            "Welding and grinding set chromium(VI) free: extract it at the source,"
                                    + " protect the breath."));
        }
        if (anyGrade("aluminium")) {
            cautions.add(
                    new Caution(
                            "Aluminium dust",
                            "Keep it apart from sparks and from steel grinding dust: it burns and"
                                    + " can explode."));
        }
        return cautions;
    }

    public List<Caution> machineCautions() {
        return List.of(
                new Caution(
                        "At the forming machine",
                        "Pinch points at the tools: guarded foot control, lock off before changing"
                                + " tools, eye and ear protection, loose sleeves and rings off; gloves"
                                + " against cuts for handling, none at moving tools; nothing short fed"
                                + " by hand. Capacities here are for estimating; the machine's manual"
                                + " decides."),
                new Caution(
                        "Vibration",
                        "Held work shakes the hands: mind the daily exposure (action value 2.5, limit"
                                + " 5 m/s² A(8), Directive 2002/44/EC)."));
    }

    public List<Caution> handlingCautions() {
        return List.of(
                new Caution(
                        "Lifting",
                        "From 15 kg or 1.5 m ask for help, above 25 kg two people or lifting gear,"
                                + " whatever the times say. Deburr before handling: sheared edges"
                                + " cut."));
    }

    public List<Caution> standardCautions() {
        return anyStandard("pickl")
                ? List.of(
                        new Caution(
                                "Pickling",
                                "Acid: eye and skin protection, extraction, rinse and neutralise, as"
                                        + " its safety data sheet says."))
                : List.of();
    }

    private boolean anyGrade(String word) {
        return book.grades().stream()
                .anyMatch(
                        g -> (g.name() + " " + g.family()).toLowerCase(Locale.ROOT).contains(word));
    }

    private boolean anyStandard(String word) {
        return book.standards().stream()
                .anyMatch(s -> s.name().toLowerCase(Locale.ROOT).contains(word));
    }
}
