package strokewright.whatif;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.costing.Percentage;
import strokewright.costing.PriceScheme;
import strokewright.estimate.Learned;
import strokewright.estimate.ShopBook;
import strokewright.estimate.ShopBook.Sheet;
import strokewright.estimate.ShopBook.WorkCentre;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.quantity.Money;
import strokewright.takeoff.Work;
import strokewright.web.Numbers;
import strokewright.web.Reading;

/**
 * What the owner types to be tried on the open drafts, field by field. Empty fields change nothing.
 * A rate is typed as it is to be, or as {@code +2}, or as {@code +5 %}.
 */
final class EffectTyping {

    private static final String FACTOR = "×";
    private static final String NEW = "learned-new";
    static final String NEW_KIND = NEW + "-kind";
    static final String NEW_FAMILY = NEW + "-family";
    static final String NEW_FACTOR = NEW + "-factor";

    private final ShopBook book;
    private final Numbers numbers;
    private final Map<String, String> typed;
    private final List<Group> groups = new ArrayList<>();
    private final Map<String, String> faults = new HashMap<>();
    private final List<String> said = new ArrayList<>();
    private final List<BookChange> changes = new ArrayList<>();

    /**
     * @param book the current edition
     * @param typed texts by the names of their fields
     */
    EffectTyping(ShopBook book, Numbers numbers, Map<String, String> typed) {
        this.book = book;
        this.numbers = numbers;
        this.typed = typed;
        String perHour = book.currency().getCurrencyCode() + "/h";
        List<Asked> rates = new ArrayList<>();
        for (WorkCentre centre : book.workCentres()) {
            rates.add(
                    new Asked(
                            "labour " + centre.name(),
                            centre.name() + ", labour",
                            perHour,
                            now(centre.labourIn(book.currency())),
                            t -> labour(centre, money(t))));
            rates.add(
                    new Asked(
                            "machine " + centre.name(),
                            centre.name() + ", machine",
                            perHour,
                            now(centre.machineIn(book.currency())),
                            t -> machine(centre, money(t))));
        }
        groups.add(new Group("Rates", "like 45, +2 or +5 %", rates));
        groups.add(new Group("Metal prices", "like 8 or −3", metals()));
        groups.add(new Group("Learned factors", "1 is as estimated", learned()));
        groups.add(new Group("Overheads and profit", "like 14 or +2", shares()));
        read();
    }

    private interface Reads {
        /**
         * @throws InvalidInput with what would be right
         */
        BookChange of(String text);
    }

    /**
     * @param name of its field, unique
     * @param now what stands in the current edition
     * @param byShare whether a number without a sign is so much more, too
     */
    record Asked(String name, String label, String unit, String now, boolean byShare, Reads reads) {

        Asked(String name, String label, String unit, String now, Reads reads) {
            this(name, label, unit, now, false, reads);
        }
    }

    record Group(String title, String help, List<Asked> fields) {}

    // What can be typed -----------------------------------------------------------------------

    private List<Asked> metals() {
        List<Asked> metals = new ArrayList<>();
        metals.add(
                new Asked(
                        "metal",
                        "All metal",
                        "%",
                        "",
                        true,
                        t -> new BookChange.MetalPrices(percent(t))));
        book.sheets().stream()
                .map(Sheet::grade)
                .distinct()
                .forEach(
                        g ->
                                metals.add(
                                        new Asked(
                                                "grade " + g,
                                                g,
                                                "%",
                                                prices(g),
                                                true,
                                                t -> sheet(g, percent(t)))));
        return metals;
    }

    private String prices(String grade) {
        List<String> prices =
                book.sheets().stream()
                        .filter(s -> grade.equals(s.grade()))
                        .map(
                                s ->
                                        s.pricePerSheet() == null
                                                ? show(s.pricePerKg()) + "/kg"
                                                : show(s.pricePerSheet()) + "/sheet")
                        .distinct()
                        .toList();
        return "now "
                + prices.get(0)
                + (prices.size() > 1 ? " and " + (prices.size() - 1) + " more" : "");
    }

    private List<Asked> learned() {
        return book.learned().stream()
                .map(
                        l ->
                                new Asked(
                                        "learned " + l.kind() + " " + l.family(),
                                        kind(l.kind())
                                                + (l.family() == null ? "" : ", " + l.family()),
                                        FACTOR,
                                        "now " + numbers.show(l.planFactor()),
                                        t -> factor(l.kind(), l.family(), number(t))))
                .toList();
    }

    private List<Asked> shares() {
        PriceScheme scheme = book.priceScheme();
        boolean surcharge = scheme.kind() == PriceScheme.Kind.SURCHARGE;
        return Percentage.beforeTax(surcharge)
                .map(
                        p ->
                                new Asked(
                                        "share " + p.word(),
                                        p.label(surcharge),
                                        "%",
                                        "now " + numbers.show(p.of(scheme)),
                                        t -> share(p, t)))
                .toList();
    }

    static String kind(String kind) {
        return switch (kind) {
            case Learned.SETUP -> "Set-up";
            case Learned.OTHER -> "All other work";
            case Learned.RESERVE -> "Risk reserve";
            default -> Work.of(kind).map(Work::label).orElse(kind);
        };
    }

    // Reading -----------------------------------------------------------------------------------

    private void read() {
        List<String> names = new ArrayList<>();
        for (Group group : groups) {
            for (Asked asked : group.fields) {
                String text = typed(asked.name);
                if (!text.isEmpty()) {
                    read(asked, text, names);
                }
            }
        }
        readNew(names);
        if (faults.isEmpty() && !changes.isEmpty()) {
            try {
                new EffectAsked(null, changes, null, null).changed(book);
            } catch (InvalidInput e) {
                e.faults().forEach(f -> faults.putIfAbsent(fieldOf(f, names), f.message()));
            }
        }
    }

    private void read(Asked asked, String text, List<String> names) {
        try {
            changes.add(asked.reads.of(text));
            names.add(asked.name);
            said.add(
                    asked.label
                            + ": "
                            + said(asked, text)
                            + (asked.now.isEmpty() ? "" : " (" + asked.now + ")"));
        } catch (InvalidInput e) {
            faults.put(asked.name, e.faults().get(0).message());
        }
    }

    private static String said(Asked asked, String text) {
        String plain = text.replace('-', '\u2212');
        if (asked.unit.equals(FACTOR)) {
            return FACTOR + "\u00a0" + plain;
        }
        boolean more = asked.byShare && !isSigned(text);
        return (more ? "+" : "") + plain + (text.endsWith("%") ? "" : "\u00a0" + asked.unit);
    }

    private void readNew(List<String> names) {
        String kind = typed(NEW_KIND);
        String factor = typed(NEW_FACTOR);
        if (kind.isEmpty() && factor.isEmpty()) {
            return;
        }
        if (kind.isEmpty() || factor.isEmpty()) {
            faults.put(kind.isEmpty() ? NEW_KIND : NEW_FACTOR, "is missing");
            return;
        }
        String family = typed(NEW_FAMILY).isEmpty() ? null : typed(NEW_FAMILY);
        read(
                new Asked(
                        NEW_FACTOR,
                        kind(kind) + (family == null ? "" : ", " + family),
                        FACTOR,
                        "",
                        t -> factor(kind, family, number(t))),
                factor,
                names);
    }

    private static String fieldOf(Fault fault, List<String> names) {
        return names.get(Integer.parseInt(fault.pointer().split("/")[2]));
    }

    private static BookChange labour(WorkCentre centre, MoneyChange m) {
        return new BookChange.LabourRate(centre.name(), m.to(), m.by(), m.byPercent());
    }

    private static BookChange machine(WorkCentre centre, MoneyChange m) {
        return new BookChange.MachineRate(centre.name(), m.to(), m.by(), m.byPercent());
    }

    private static BookChange sheet(String grade, double percent) {
        return new BookChange.SheetPrice(grade, null, null, null, null, percent);
    }

    private static BookChange factor(String kind, @Nullable String family, BigDecimal factor) {
        return new BookChange.LearnedFactor(kind, family, factor.doubleValue(), null);
    }

    private BookChange share(Percentage share, String text) {
        double value = percent(text);
        return isSigned(text)
                ? new BookChange.Share(share.word(), null, value)
                : new BookChange.Share(share.word(), value, null);
    }

    private MoneyChange money(String text) {
        if (text.endsWith("%")) {
            return new MoneyChange(null, null, percent(text));
        }
        Money money = new Money(number(text), book.currency());
        return isSigned(text)
                ? new MoneyChange(null, money, null)
                : new MoneyChange(money, null, null);
    }

    private static boolean isSigned(String text) {
        return !text.isEmpty() && "+-\u2212".indexOf(text.charAt(0)) >= 0;
    }

    private double percent(String text) {
        return number(text.endsWith("%") ? text.substring(0, text.length() - 1) : text)
                .doubleValue();
    }

    private BigDecimal number(String text) {
        Reading read = numbers.number(text);
        if (read.value() == null) {
            throw new InvalidInput(
                    "", Objects.requireNonNullElse(read.fault(), "must be a number"));
        }
        return read.value();
    }

    // What came of it -----------------------------------------------------------------------------

    String typed(String name) {
        return typed.getOrDefault(name, "").strip();
    }

    List<Group> groups() {
        return groups;
    }

    /** By the names of their fields. */
    Map<String, String> faults() {
        return faults;
    }

    List<BookChange> changes() {
        return changes;
    }

    /** What is tried, in words. */
    List<String> said() {
        return said;
    }

    boolean isEmpty() {
        return changes.isEmpty() && faults.isEmpty();
    }

    private String now(Money money) {
        return "now " + numbers.show(money.amount(), money.amount().scale());
    }

    private String show(Money money) {
        return numbers.show(money);
    }
}
