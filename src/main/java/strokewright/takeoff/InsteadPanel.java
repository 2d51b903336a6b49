package strokewright.takeoff;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Estimate;
import strokewright.estimate.Estimating;
import strokewright.estimate.MainSize;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff;
import strokewright.estimate.TakeOff.Part;
import strokewright.estimate.Variant;
import strokewright.estimate.VariantComparison.Against;
import strokewright.estimate.VariantComparison.At;
import strokewright.estimate.VariantComparison.Beside;
import strokewright.estimate.VariantComparison.MoreMoney;
import strokewright.estimate.Variants;
import strokewright.quantity.Finding;
import strokewright.quantity.InvalidInput;
import strokewright.web.Numbers;

/**
 * What else the item could be, beside the take-off: each variant with what it takes more or less,
 * at the main quantity.
 *
 * @param path that its buttons go to
 * @param waits whether the take-off has to be completed first
 * @param size the main size in words; empty without
 * @param own the take-off as it is; null while it waits
 * @param quick what to take with one key
 * @param fault of the text that was to be added; null without
 */
record InsteadPanel(
        String path,
        boolean waits,
        String size,
        String said,
        @Nullable Own own,
        List<Row> rows,
        List<String> quick,
        @Nullable String fault) {

    /** Where it is answered, below the path of its page. */
    static final String PATH = "/instead";

    /** In a typed take-off: what is typed next, and what stands beside. */
    static final String LIST = "/instead";

    static final String NEXT = LIST + "/text";

    /** Closed while nobody has asked for anything. */
    public boolean isOpen() { // public for the templates
        return !rows.isEmpty() || fault != null || !said.isBlank();
    }

    private static final String SAID = "/said";
    private static final int MOST_GRADES = 4;

    /** Where the shop book has no sheets by thickness; common practice, no source. */
    private static final List<Double> USUAL_MM =
            List.of(0.5, 0.6, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0);

    record Own(int quantity, String hours, String priceEach, String currency) {}

    /**
     * One variant.
     *
     * @param path of its text in the take-off
     * @param said as typed
     * @param understood what it was read as
     * @param fault why there are no figures; null where there are
     * @param hoursMore signed
     * @param priceMore signed
     * @param pricePercent signed; empty where there is no base
     * @param appeared what it has to tell that the take-off has not
     * @param vanished what only the take-off has to tell
     * @param notes what followed and what stayed
     */
    record Row(
            String key,
            String path,
            String said,
            String understood,
            @Nullable String fault,
            boolean feasible,
            String hours,
            String hoursMore,
            String priceEach,
            String priceMore,
            String pricePercent,
            List<FindingWords.Told> appeared,
            List<String> vanished,
            List<String> notes) {}

    /** Reads and reckons one page's variants. */
    static final class Maker {

        private final String path;
        private final TypedTakeOff typed;
        private final Reckoned reckoned;
        private final ShopBook book;
        private final Numbers numbers;
        private final FindingWords words;

        Maker(String path, Reckoned reckoned, ShopBook book, Numbers numbers) {
            this.path = path;
            this.typed = reckoned.typed();
            this.reckoned = reckoned;
            this.book = book;
            this.numbers = numbers;
            this.words = new FindingWords(numbers);
        }

        /**
         * @param fault of the text that was to be added; null without
         */
        InsteadPanel panel(@Nullable String fault) {
            String said = typed.at(NEXT);
            if (reckoned.estimate() == null) {
                List<Row> waiting = new ArrayList<>();
                typed.rows(LIST).forEach(row -> waiting.add(unread(row, null)));
                return new InsteadPanel(path, true, "", said, null, waiting, List.of(), fault);
            }
            TakeOff takeOff = reckoned.read().takeOff().withMainQuantityAlone();
            Estimate base = Estimating.estimate(takeOff, book);
            Variants variants = Variants.beside(takeOff, base, book);
            At own = variants.base().quantities().get(0);
            List<Row> rows = new ArrayList<>();
            for (String row : typed.rows(LIST)) {
                try {
                    rows.add(row(row, takeOff, variants.of(variant(row, takeOff), "")));
                } catch (InvalidInput e) {
                    rows.add(unread(row, told(e)));
                }
            }
            return new InsteadPanel(
                    path,
                    false,
                    MainSize.of(takeOff, null, book).map(this::size).orElse(""),
                    said,
                    new Own(
                            own.quantity(),
                            numbers.show(own.hours(), 2),
                            numbers.show(
                                    own.priceEach().amount(), own.priceEach().amount().scale()),
                            own.priceEach().currency().getCurrencyCode()),
                    rows,
                    quick(takeOff),
                    fault);
        }

        /**
         * The take-off that a variant leads to, at all its quantities.
         *
         * @return nothing while the take-off or the variant cannot be reckoned
         */
        Optional<Beside> taken(String key) {
            String row = LIST + "/" + key;
            if (!reckoned.complete() || typed.isEmpty(row + SAID)) {
                return Optional.empty();
            }
            TakeOff takeOff = reckoned.takeOff();
            try {
                return Optional.of(
                        Variants.beside(takeOff, reckoned.estimate(), book)
                                .of(variant(row, takeOff), ""));
            } catch (InvalidInput e) {
                return Optional.empty();
            }
        }

        /** What is wrong with a text that is to stand beside; null where it can. */
        @Nullable String fault(String said) {
            if (typed.rows(LIST).size() >= Variants.MOST) {
                return "is one too many: take one out first";
            }
            if (reckoned.estimate() == null) {
                return said.isBlank() ? "says nothing yet" : null;
            }
            TakeOff takeOff = reckoned.read().takeOff().withMainQuantityAlone();
            try {
                Variant variant = new Instead(takeOff, book, numbers).read(said);
                Variants.beside(takeOff, Estimating.estimate(takeOff, book), book).of(variant, "");
                return null;
            } catch (InvalidInput e) {
                return told(e);
            }
        }

        private Variant variant(String row, TakeOff takeOff) {
            return new Instead(takeOff, book, numbers).read(typed.at(row + SAID));
        }

        /** A page knows no pointers. */
        private static String told(InvalidInput e) {
            return e.faults()
                    .get(0)
                    .message()
                    .replaceFirst("leads to /\\S+, which", "leads to a figure that");
        }

        private Row unread(String row, @Nullable String fault) {
            return new Row(
                    row.substring(LIST.length() + 1),
                    row + SAID,
                    typed.at(row + SAID),
                    "",
                    fault,
                    true,
                    "",
                    "",
                    "",
                    "",
                    "",
                    List.of(),
                    List.of(),
                    List.of());
        }

        private Row row(String row, TakeOff takeOff, Beside beside) {
            Against figures = beside.quantities().get(0);
            MoreMoney price = figures.priceEachMore();
            return new Row(
                    row.substring(LIST.length() + 1),
                    row + SAID,
                    typed.at(row + SAID),
                    understood(beside.change(), takeOff, typed.at(row + SAID)),
                    null,
                    beside.feasible(),
                    numbers.show(figures.hours(), 2),
                    signed(numbers.show(figures.hoursMore().by(), 2)),
                    numbers.show(
                            figures.priceEach().amount(), figures.priceEach().amount().scale()),
                    signed(numbers.show(price.by().amount(), price.by().amount().scale())),
                    price.percent() == null ? "" : signed(numbers.show(price.percent(), 1)),
                    beside.appeared().stream().map(words::tell).toList(),
                    beside.vanished().stream().map(words::text).toList(),
                    notes(beside.notes()));
        }

        /** Lines that follow are told in one. */
        private List<String> notes(List<Finding> findings) {
            List<String> notes = new ArrayList<>();
            List<String> lines = new ArrayList<>();
            for (Finding finding : findings) {
                (finding.code().equals("amount-follows") ? lines : notes).add(words.text(finding));
            }
            if (!lines.isEmpty()) {
                notes.add("Lines that follow. " + String.join(" ", lines));
            }
            return notes;
        }

        static String signed(String shown) {
            boolean zero = shown.matches("[0.,\u2212-]*");
            return zero
                    ? shown.replace("\u2212", "")
                    : shown.startsWith("\u2212") ? shown : "+" + shown;
        }

        private String understood(Variant variant, TakeOff takeOff, String said) {
            List<String> all = new ArrayList<>();
            if (variant.grade() != null) {
                all.add(
                        book.grade(variant.grade())
                                .map(g -> g.name() + " · " + g.code())
                                .orElse(""));
            }
            if (variant.thicknessMm() != null) {
                all.add(mm(variant.thicknessMm()));
            }
            MainSize size = MainSize.of(takeOff, variant.part(), book).orElse(null);
            if (variant.diameterMm() != null && size != null) {
                all.add(sized(size.kind(), variant.diameterMm()) + ", not " + mm(size.mm()));
            }
            if (variant.lengthMm() != null) {
                all.add(sized(MainSize.Kind.LENGTH, variant.lengthMm()));
            }
            if (variant.information() != null) {
                all.add("behind it " + PartFields.information(variant.information()));
            }
            if (variant.surface() != null) {
                all.add(TakeOffReading.kebab(variant.surface()) + " surface");
            }
            if (variant.edge() != null) {
                all.add(TakeOffReading.kebab(variant.edge()) + " edge");
            }
            if (variant.machine() != null) {
                all.add(variant.machine());
            }
            if (variant.tool() != null) {
                all.add(variant.tool());
            }
            String text = String.join("; ", all).replace('\u00a0', ' ');
            if (text.equals(said)) {
                return ""; // nothing to tell
            }
            return variant.part() == null || takeOff.parts().size() < 2
                    ? text
                    : takeOff.parts().get(variant.part()).name() + ": " + text;
        }

        private String size(MainSize size) {
            return "Now " + sized(size.kind(), size.mm());
        }

        private String sized(MainSize.Kind kind, double mm) {
            return switch (kind) {
                case DIAMETER -> "Ø " + mm(mm) + " at the heel or bend line";
                case BEND -> "Ø " + mm(mm) + " of the largest bend";
                case OUTLINE -> mm(mm) + " over the outline";
                case LENGTH -> mm(mm) + " long";
            };
        }

        private String mm(double mm) {
            return numbers.show(mm) + "\u00a0mm";
        }

        // Likely ones -------------------------------------------------------------------------

        /** The next stock thickness up and down, and one grade of each other metal. */
        private List<String> quick(TakeOff takeOff) {
            if (takeOff.parts().isEmpty()) {
                return List.of();
            }
            Part first = takeOff.parts().get(0);
            List<String> quick = new ArrayList<>();
            TreeSet<Double> stock = stock(first);
            Double thinner = stock.lower(first.thicknessMm());
            Double thicker = stock.higher(first.thicknessMm());
            for (Double mm : new Double[] {thinner, thicker}) {
                if (mm != null) {
                    quick.add(numbers.typed(mm) + " mm");
                }
            }
            Map<String, Grade> others = new LinkedHashMap<>();
            String family = book.grade(first.grade()).map(Grade::family).orElse("");
            book.grades().stream()
                    .filter(g -> !String.valueOf(g.family()).equals(family))
                    .forEach(g -> others.putIfAbsent(String.valueOf(g.family()), g));
            others.values().stream().limit(MOST_GRADES).map(Grade::code).forEach(quick::add);
            return quick;
        }

        private TreeSet<Double> stock(Part part) {
            TreeSet<Double> stock = new TreeSet<>(Comparator.naturalOrder());
            book.sheets().stream()
                    .filter(s -> s.thicknessMm() != null)
                    .filter(s -> part.grade().equals(s.grade()))
                    .forEach(s -> stock.add(s.thicknessMm()));
            if (stock.lower(part.thicknessMm()) == null
                    && stock.higher(part.thicknessMm()) == null) {
                stock.addAll(USUAL_MM);
            }
            return stock;
        }
    }

    /** With one more beside, and an empty field for the next. */
    static TypedTakeOff added(TypedTakeOff typed, String said) {
        String key = typed.freeKey('w');
        return typed.with(LIST + "/" + key + SAID, said.strip()).with(NEXT, "");
    }

    static TypedTakeOff removed(TypedTakeOff typed, String key) {
        return typed.withoutRow(LIST + "/" + key);
    }

    /** Everything about the panel, for a take-off that takes another's place. */
    static List<Map.Entry<String, String>> of(TypedTakeOff typed) {
        return typed.entries().stream().filter(e -> e.getKey().startsWith(LIST + "/")).toList();
    }
}
