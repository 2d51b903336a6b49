package strokewright.shopbook;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Caution;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Times;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.estimate.ShopBookDoubts;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
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

    /** Which hours prices are made from, as its page has it. */
    public String priceFrom() {
        BookField field =
                BookParts.section(BookParts.PRICE_SCHEME)
                        .flatMap(s -> s.field("priceFrom"))
                        .orElseThrow();
        return ((Kind.Choice) field.kind()).words().get(name(book.priceScheme().priceFrom()));
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
            case "rate-off-its-basis" -> rateOffBasis(finding, numbers);
            case "allowance-off-its-basis" -> allowanceOffBasis(finding, numbers);
            default -> throw new IllegalStateException("no words for " + finding.code());
        };
    }

    private Doubt rateOffBasis(Finding finding, Numbers numbers) {
        String[] steps = finding.pointer().split("/");
        String rate = steps[3].equals("labourRate") ? "labour rate" : "machine rate";
        Map<String, Object> values = finding.values();
        return new Doubt(
                book.workCentres().get(Integer.parseInt(steps[2])).name()
                        + ": the stated "
                        + rate
                        + " of "
                        + numbers.show((Money) values.get("stated"))
                        + " an hour counts, but its build-up gives "
                        + numbers.show((Money) values.get("built"))
                        + ".",
                "Leave the rate empty and the build-up counts, or correct the build-up.");
    }

    private static Doubt allowanceOffBasis(Finding finding, Numbers numbers) {
        Map<String, Object> values = finding.values();
        return new Doubt(
                "The stated allowance "
                        + (finding.pointer().endsWith("machineAllowancePercent")
                                ? "at the forming machine"
                                : "at the bench")
                        + " of "
                        + numbers.show((Double) values.get("statedPercent"))
                        + " % counts, but its build-up gives "
                        + numbers.show((Double) values.get("builtPercent"))
                        + " %.",
                "Leave the percentage empty and the build-up counts, or correct the build-up.");
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

    /** How a rate or an allowance is built. */
    record BuiltUp(String summary, String caption, List<RateSteps.Step> steps) {}

    public List<BuiltUp> buildUps(Numbers numbers) {
        RateSteps steps = new RateSteps(numbers);
        List<BuiltUp> all = new ArrayList<>();
        for (WorkCentre centre : book.workCentres()) {
            if (centre.labourBasis() != null) {
                all.add(
                        builtUp(
                                centre.name() + ", labour",
                                centre.isLabourDerived(),
                                "In " + book.currency(),
                                steps.of(centre.labourBasis())));
            }
            if (centre.machineBasis() != null) {
                all.add(
                        builtUp(
                                centre.name() + ", machine",
                                centre.isMachineDerived(),
                                "In " + book.currency(),
                                steps.of(centre.machineBasis())));
            }
        }
        Times times = book.times();
        if (times.machineAllowanceBasis() != null) {
            all.add(
                    builtUp(
                            "Allowance at the forming machine",
                            times.machineAllowancePercent() == null,
                            "Percent of normal time",
                            steps.of(times.machineAllowanceBasis())));
        }
        if (times.benchAllowanceBasis() != null) {
            all.add(
                    builtUp(
                            "Allowance at the bench",
                            times.benchAllowancePercent() == null,
                            "Percent of normal time",
                            steps.of(times.benchAllowanceBasis())));
        }
        return List.copyOf(all);
    }

    private static BuiltUp builtUp(
            String what, boolean counts, String caption, List<RateSteps.Step> steps) {
        return new BuiltUp(
                what + (counts ? ": how it is built" : ": stated, and how it is built"),
                caption,
                steps);
    }

    public Set<Caution> gradeCautions() {
        return Caution.of(book.grades());
    }

    public Set<Caution> machineCautions() {
        return EnumSet.of(Caution.FORMING, Caution.VIBRATION);
    }

    public Set<Caution> handlingCautions() {
        return EnumSet.of(Caution.SHARP_EDGES, Caution.LIFTING_HELP, Caution.LIFTING_TWO);
    }

    public Set<Caution> standardCautions() {
        return anyStandard("pickl") ? EnumSet.of(Caution.PICKLING) : EnumSet.noneOf(Caution.class);
    }

    private boolean anyStandard(String word) {
        return book.standards().stream()
                .anyMatch(s -> s.name().toLowerCase(Locale.ROOT).contains(word));
    }
}
