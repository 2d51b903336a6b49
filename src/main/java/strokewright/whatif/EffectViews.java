package strokewright.whatif;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.Operation;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import strokewright.quantity.Fault;
import strokewright.quantity.Finding;
import strokewright.quantity.Money;
import strokewright.takeoff.Field;
import strokewright.takeoff.FindingWords;
import strokewright.takeoff.RowBar;
import strokewright.takeoff.Words;
import strokewright.web.Numbers;
import strokewright.whatif.Effect.Both;
import strokewright.whatif.Effect.OfItem;
import strokewright.whatif.Effect.OfQuote;
import strokewright.whatif.EffectView.FieldGroup;
import strokewright.whatif.EffectView.NewFactor;
import strokewright.whatif.EffectView.Result;
import strokewright.whatif.EffectView.Row;
import strokewright.whatif.EffectView.SumRow;
import strokewright.whatif.EffectView.TypedField;
import strokewright.whatif.EffectView.Unreckoned;

/** Makes the view of the effect page. */
final class EffectViews {

    private static final int HOURS = 2;

    private final ShopBook book;
    private final Numbers numbers;
    private final FindingWords words;

    /**
     * @param book the current edition
     */
    EffectViews(ShopBook book, Numbers numbers) {
        this.book = book;
        this.numbers = numbers;
        this.words = new FindingWords(numbers);
    }

    EffectView view(
            EffectTyping typing,
            List<String> tried,
            @Nullable String trouble,
            @Nullable Effect effect) {
        List<FieldGroup> groups = new ArrayList<>();
        for (EffectTyping.Group group : typing.groups()) {
            List<TypedField> fields = new ArrayList<>();
            for (EffectTyping.Asked asked : group.fields()) {
                fields.add(
                        new TypedField(
                                "f-" + groups.size() + "-" + fields.size(),
                                asked.name(),
                                asked.label(),
                                asked.unit(),
                                asked.now(),
                                typing.typed(asked.name()),
                                typing.faults().get(asked.name())));
            }
            groups.add(
                    new FieldGroup(
                            group.title(),
                            group.help(),
                            fields.stream().anyMatch(this::said),
                            fields));
        }
        return new EffectView(
                book.edition(),
                groups,
                newFactor(typing),
                tried,
                trouble,
                effect == null ? null : result(effect));
    }

    private boolean said(TypedField field) {
        return !field.typed().isEmpty() || field.fault() != null;
    }

    private NewFactor newFactor(EffectTyping typing) {
        return new NewFactor(
                options(
                        "choose …",
                        BookChange.kinds(book).stream()
                                .map(k -> new Field.Option(k, EffectTyping.kind(k)))),
                options(
                        "all others",
                        BookChange.families(book).stream().map(f -> new Field.Option(f, f))),
                typing.typed(EffectTyping.NEW_KIND),
                typing.typed(EffectTyping.NEW_FAMILY),
                typing.typed(EffectTyping.NEW_FACTOR),
                typing.faults().get(EffectTyping.NEW_KIND),
                typing.faults().get(EffectTyping.NEW_FACTOR));
    }

    private static List<Field.Option> options(String none, Stream<Field.Option> all) {
        return Stream.concat(Stream.of(new Field.Option("", none)), all).toList();
    }

    // Result --------------------------------------------------------------------------------------

    private Result result(Effect effect) {
        List<OfQuote> reckoned = effect.quotes().stream().filter(q -> q.both() != null).toList();
        RowBar scale = RowBar.around(reckoned.stream().mapToDouble(q -> by(q.both())));
        return new Result(
                effect.draftEdition() == null
                        ? "With these changes"
                        : "With the draft of edition " + effect.draftEdition(),
                book.currency().getCurrencyCode(),
                counted(effect, reckoned),
                sums(effect.total().both()),
                reckoned.stream().filter(EffectViews::isTold).map(q -> row(q, scale)).toList(),
                reckoned.stream().filter(q -> !isTold(q)).map(OfQuote::number).toList(),
                effect.quotes().stream()
                        .filter(q -> q.both() == null)
                        .map(this::unreckoned)
                        .toList(),
                effect.left() == 0 ? "" : numbers.show(effect.left()),
                effect.next());
    }

    /** Whether anything of it is otherwise with the other book, or than it was saved. */
    private static boolean isTold(OfQuote quote) {
        return quote.both().changes()
                || !quote.kept().equals(quote.both().now().net())
                || quote.items().stream()
                        .anyMatch(
                                i ->
                                        i.both() == null
                                                || i.both().changes()
                                                || !i.appeared().isEmpty()
                                                || !i.vanished().isEmpty());
    }

    private static double by(Both both) {
        return both.netMore().by().amount().doubleValue();
    }

    private String counted(Effect effect, List<OfQuote> reckoned) {
        if (effect.quotes().isEmpty()) {
            return "There is no open draft.";
        }
        long dearer = reckoned.stream().filter(q -> by(q.both()) > 0).count();
        long cheaper = reckoned.stream().filter(q -> by(q.both()) < 0).count();
        int drafts = effect.quotes().size();
        String each =
                Stream.of(
                                some(dearer, "dearer"),
                                some(cheaper, "cheaper"),
                                some(reckoned.size() - dearer - cheaper, "at the same price"),
                                some(drafts - reckoned.size(), "not to be reckoned"))
                        .filter(s -> !s.isEmpty())
                        .collect(Collectors.joining(", "));
        return (drafts == 1 ? "1 open draft" : numbers.show(drafts) + " open drafts")
                + ": "
                + each
                + ".";
    }

    private String some(long count, String what) {
        return count == 0 ? "" : numbers.show(count) + " " + what;
    }

    private List<SumRow> sums(Both both) {
        return List.of(
                new SumRow(
                        "Price before tax",
                        book.currency().getCurrencyCode(),
                        amount(both.now().net()),
                        amount(both.then().net()),
                        signed(both.netMore().by()),
                        percent(both.netMore().percent())),
                new SumRow(
                        "Hours",
                        "h",
                        numbers.show(both.now().hours(), HOURS),
                        numbers.show(both.then().hours(), HOURS),
                        signed(both.hoursMore().by()),
                        percent(both.hoursMore().percent())));
    }

    private Row row(OfQuote quote, RowBar scale) {
        Both both = Objects.requireNonNull(quote.both());
        return new Row(
                quote.number(),
                quote.customer(),
                quote.title(),
                scale.more(by(both)),
                amount(both.now().net()),
                amount(both.then().net()),
                signed(both.netMore().by()),
                percent(both.netMore().percent()),
                numbers.show(both.now().hours(), HOURS),
                signed(both.hoursMore().by()),
                quote.kept().equals(both.now().net())
                        ? ""
                        : "Still says %s, as saved with edition %d; saved again now it would be %s."
                                .formatted(
                                        numbers.show(quote.kept()),
                                        quote.edition(),
                                        numbers.show(both.now().net())),
                quote.items().size() == 1 ? List.of() : items(quote),
                quote.items().stream()
                        .flatMap(i -> i.appeared().stream().map(f -> told(quote, i, f)))
                        .toList(),
                quote.items().stream()
                        .flatMap(i -> i.vanished().stream().map(f -> told(quote, i, f).text()))
                        .toList());
    }

    private List<String> items(OfQuote quote) {
        return quote.items().stream().map(this::item).toList();
    }

    private String item(OfItem item) {
        String name =
                item.position()
                        + " "
                        + item.title()
                        + (item.option() ? " (option)" : "")
                        + ", "
                        + (item.quantity() == 1
                                ? "1 piece"
                                : numbers.show(item.quantity()) + " pieces");
        if (item.both() == null) {
            return name + ": cannot be reckoned; " + String.join("; ", reasons(item));
        }
        return "%s: %s → %s (%s), %s h (%s)"
                .formatted(
                        name,
                        amount(item.both().now().net()),
                        numbers.show(item.both().then().net()),
                        signed(item.both().netMore().by()),
                        numbers.show(item.both().then().hours(), HOURS),
                        signed(item.both().hoursMore().by()));
    }

    /** With the item where there are several, and the place within it. */
    private FindingWords.Told told(OfQuote quote, OfItem item, Finding finding) {
        FindingWords.Told told = words.tell(finding);
        return new FindingWords.Told(
                told.style(),
                told.word(),
                where(quote, item, finding.pointer()) + told.text(),
                null);
    }

    private static String where(OfQuote quote, OfItem item, String pointer) {
        String place = Words.where(pointer, item.takeOff());
        String of = quote.items().size() == 1 ? "" : item.title();
        String both = of + (of.isEmpty() || place.isEmpty() ? "" : ", ") + place;
        return both.isEmpty() ? "" : both + ": ";
    }

    private Unreckoned unreckoned(OfQuote quote) {
        return new Unreckoned(
                quote.number(),
                quote.customer(),
                quote.title(),
                numbers.show(quote.kept()),
                quote.items().stream()
                        .filter(i -> i.both() == null)
                        .flatMap(
                                i ->
                                        reasons(i).stream()
                                                .map(
                                                        r ->
                                                                (quote.items().size() == 1
                                                                                ? ""
                                                                                : i.title() + ": ")
                                                                        + r))
                        .toList());
    }

    private List<String> reasons(OfItem item) {
        List<Fault> faults = item.faultsThen().isEmpty() ? item.faultsNow() : item.faultsThen();
        String also =
                item.faultsThen().isEmpty()
                        ? ", with edition " + book.edition()
                        : item.faultsNow().isEmpty()
                                ? ""
                                : ", with edition " + book.edition() + " too";
        return faults.stream().map(f -> reason(f, item) + also).toList();
    }

    private static String reason(Fault fault, OfItem item) {
        String place = Words.where(fault.pointer(), item.takeOff());
        String field = fault.pointer().substring(fault.pointer().lastIndexOf('/') + 1);
        String named = named(fault.pointer(), field, item.takeOff());
        // the names that there are instead belong to where one can be chosen
        String message = fault.message().replaceFirst("; there are: .*", "");
        return (place.isEmpty() ? "" : place + ", ")
                + field.replaceAll("Mm$|Kg$", "")
                + (named.isEmpty() ? " " : " " + named + ": ")
                + message;
    }

    /** What the take-off calls something that is gone; empty for anything else. */
    private static String named(String pointer, String field, TakeOff takeOff) {
        String[] steps = pointer.split("/");
        if (steps.length < 4) {
            return "";
        }
        int index = Integer.parseInt(steps[2]);
        boolean ofPart = steps[1].equals("parts");
        if (steps.length == 4 && ofPart) {
            TakeOff.Part part = takeOff.parts().get(index);
            return switch (field) {
                case "grade" -> String.valueOf(part.grade());
                case "machine" -> String.valueOf(part.machine());
                default -> "";
            };
        }
        Operation work =
                ofPart && steps.length == 6 && steps[3].equals("operations")
                        ? takeOff.parts().get(index).operations().get(Integer.parseInt(steps[4]))
                        : steps[1].equals("assembly") ? takeOff.assembly().get(index) : null;
        return switch (field) {
            case "standard" ->
                    work instanceof Operation.Standard s ? String.valueOf(s.standard()) : "";
            case "tool" -> work instanceof Operation.Formed f ? String.valueOf(f.tool()) : "";
            default -> "";
        };
    }

    private String amount(Money money) {
        return numbers.show(money.amount(), money.amount().scale());
    }

    private String signed(Money money) {
        return plus(money.amount().signum()) + amount(money);
    }

    private String signed(double hours) {
        String shown = numbers.show(hours, HOURS);
        boolean nothing = shown.matches("[\u22120.,]*");
        return nothing ? numbers.show(0.0, HOURS) : plus(Math.signum(hours)) + shown;
    }

    private static String plus(double sign) {
        return sign > 0 ? "+" : "";
    }

    private String percent(@Nullable Double percent) {
        if (percent == null || Math.abs(percent) < 0.05) {
            return "";
        }
        return plus(percent) + numbers.show(percent, 1) + "\u00a0%";
    }
}
