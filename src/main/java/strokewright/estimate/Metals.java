package strokewright.estimate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.TakeOff.Supply;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;
import strokewright.quantity.Working;

/**
 * The sheet that the shop buys for one item. Parts of one grade and thickness share stock sheets;
 * what has no stock sheet, no blank or fits none is paid for by its mass.
 */
final class Metals {

    private final List<MetalByMass> byMass;
    private final List<MetalBySheet> bySheet;

    private Metals(List<MetalByMass> byMass, List<MetalBySheet> bySheet) {
        this.byMass = byMass;
        this.bySheet = bySheet;
    }

    /** Findings that hang on no quantity are added to those given. */
    static Metals of(TakeOff takeOff, ShopBook book, List<Finding> findings) {
        return new Sorting(takeOff, book, findings).metals();
    }

    /**
     * What a quantity takes, its figures written down.
     *
     * @param spares blanks of a part beyond its pieces
     */
    Bought buy(int quantity, ToIntFunction<Part> spares, Working working) {
        ToIntFunction<Part> blanks = blanks(quantity, spares);
        Bought bought = new Bought(working);
        byMass.forEach(m -> m.buy(blanks, bought));
        bySheet.forEach(m -> m.buy(blanks, bought));
        return bought;
    }

    /** Exact cost of the same, without its figures. */
    BigDecimal cost(int quantity, ToIntFunction<Part> spares) {
        ToIntFunction<Part> blanks = blanks(quantity, spares);
        BigDecimal cost = BigDecimal.ZERO;
        for (MetalByMass metal : byMass) {
            cost = cost.add(metal.cost(blanks));
        }
        for (MetalBySheet metal : bySheet) {
            cost = cost.add(metal.cost(blanks));
        }
        return cost;
    }

    /** What a larger quantity may cost less than a smaller one, at the very most. */
    double mostFall() {
        return byMass.stream().mapToDouble(MetalByMass::mostFall).sum()
                + bySheet.stream().mapToDouble(MetalBySheet::mostFall).sum();
    }

    private static ToIntFunction<Part> blanks(int quantity, ToIntFunction<Part> spares) {
        return part -> quantity * part.perAssembly() + spares.applyAsInt(part);
    }

    /** Which part is bought how. */
    private static final class Sorting {
        private final TakeOff takeOff;
        private final ShopBook book;
        private final List<Finding> findings;
        private final Map<Key, MetalByMass> byMass = new LinkedHashMap<>();
        private final Map<Key, List<Part>> nested = new LinkedHashMap<>();

        private record Key(String grade, double thicknessMm) {}

        Sorting(TakeOff takeOff, ShopBook book, List<Finding> findings) {
            this.takeOff = takeOff;
            this.book = book;
            this.findings = findings;
        }

        Metals metals() {
            for (int i = 0; i < takeOff.parts().size(); i++) {
                sort(takeOff.parts().get(i), "/parts/" + i);
            }
            List<MetalBySheet> bySheet = new ArrayList<>();
            nested.forEach((key, parts) -> bySheet.addAll(groups(parts)));
            return new Metals(List.copyOf(byMass.values()), bySheet);
        }

        private void sort(Part part, String at) {
            if (part.supply() == Supply.CUSTOMER) {
                add("customers-metal", Severity.NOTE, at + "/supply", metal(part));
                return;
            }
            List<Sheet> stock = stock(part);
            Sheet plain = withoutSize(part);
            if (stock.isEmpty() && plain == null) {
                add("no-metal-price", Severity.DOUBT, at + "/grade", metal(part));
            } else if (stock.isEmpty()) {
                byMass(part, plain);
            } else if (part.blank() == null) {
                add("no-blank-to-nest", Severity.NOTE, at + "/blank", metal(part));
                byMass(part, plain == null ? stock.get(0) : plain);
            } else if (stock.stream().noneMatch(s -> MetalBySheet.fits(part, s, book))) {
                tooLarge(part, stock, at);
                byMass(part, plain == null ? stock.get(0) : plain);
            } else {
                nested.computeIfAbsent(key(part), k -> new ArrayList<>()).add(part);
            }
        }

        private void tooLarge(Part part, List<Sheet> stock, String at) {
            Sheet largest =
                    stock.stream()
                            .max(Comparator.comparingDouble(s -> s.lengthMm() * s.widthMm()))
                            .orElseThrow();
            Map<String, Object> values = new LinkedHashMap<>(metal(part));
            values.put("lengthMm", part.blank().lengthMm());
            values.put("widthMm", part.blank().widthMm());
            values.put("sheetLengthMm", largest.lengthMm());
            values.put("sheetWidthMm", largest.widthMm());
            add("blank-over-sheet", Severity.DOUBT, at + "/blank", values);
        }

        private static Map<String, Object> metal(Part part) {
            return Map.of("grade", part.grade(), "thicknessMm", part.thicknessMm());
        }

        private void add(String code, Severity severity, String at, Map<String, Object> values) {
            findings.add(new Finding(code, severity, at, values));
        }

        private void byMass(Part part, Sheet sheet) {
            byMass.computeIfAbsent(key(part), k -> new MetalByMass(book, sheet)).add(part);
        }

        private static Key key(Part part) {
            return new Key(part.grade(), part.thicknessMm());
        }

        /** Stock sheets of this thickness, else those of the grade for every thickness. */
        private List<Sheet> stock(Part part) {
            List<Sheet> sized =
                    book.sheets().stream()
                            .filter(s -> s.grade().equals(part.grade()) && s.lengthMm() != null)
                            .toList();
            List<Sheet> ofThickness =
                    sized.stream().filter(s -> part.thicknessMm().equals(s.thicknessMm())).toList();
            boolean pricedByMass =
                    book.sheets().stream()
                            .anyMatch(
                                    s ->
                                            s.grade().equals(part.grade())
                                                    && s.lengthMm() == null
                                                    && part.thicknessMm().equals(s.thicknessMm()));
            return !ofThickness.isEmpty() || pricedByMass
                    ? ofThickness
                    : sized.stream().filter(s -> s.thicknessMm() == null).toList();
        }

        /** The line of this thickness, else the line of the grade for every thickness. */
        private @Nullable Sheet withoutSize(Part part) {
            List<Sheet> ofGrade =
                    book.sheets().stream()
                            .filter(s -> s.grade().equals(part.grade()) && s.lengthMm() == null)
                            .toList();
            return ofGrade.stream()
                    .filter(s -> part.thicknessMm().equals(s.thicknessMm()))
                    .findFirst()
                    .or(() -> ofGrade.stream().filter(s -> s.thicknessMm() == null).findFirst())
                    .orElse(null);
        }

        /**
         * All on one size if one holds them all; else as many as possible on one, then the rest.
         */
        private List<MetalBySheet> groups(List<Part> parts) {
            List<MetalBySheet> groups = new ArrayList<>();
            List<Part> left = parts;
            while (!left.isEmpty()) {
                List<Part> open = left;
                List<Sheet> stock = stock(open.get(0));
                long most = stock.stream().mapToLong(s -> held(open, s).size()).max().orElse(0);
                List<Part> group =
                        held(
                                open,
                                stock.stream()
                                        .filter(s -> held(open, s).size() == most)
                                        .findFirst()
                                        .orElseThrow());
                List<Sheet> holding =
                        stock.stream()
                                .filter(s -> group.stream().allMatch(p -> fits(p, s)))
                                .toList();
                groups.add(new MetalBySheet(book, group, holding));
                left = open.stream().filter(p -> !group.contains(p)).toList();
            }
            return groups;
        }

        private List<Part> held(List<Part> parts, Sheet sheet) {
            return parts.stream().filter(p -> fits(p, sheet)).toList();
        }

        private boolean fits(Part part, Sheet sheet) {
            return MetalBySheet.fits(part, sheet, book);
        }
    }
}
