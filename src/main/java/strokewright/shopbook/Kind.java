package strokewright.shopbook;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.SheetGauge;
import strokewright.sheet.Gauge;
import strokewright.web.Numbers;
import strokewright.web.Reading;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A kind of value in the shop book: how it is typed, how it stands in JSON and how it is said. What
 * cannot be read is kept as it was typed ({@link Kept}), so that nothing typed is lost.
 */
sealed interface Kind {

    JsonNodeFactory JSON = JsonNodeFactory.instance;

    /** In whose way of writing, in which money, and by which names. */
    record With(Numbers numbers, Currency currency, Names names) {}

    /** Rows that can be chosen elsewhere, by the key of their section. */
    interface Names {

        Names NONE =
                new Names() {
                    @Override
                    public @Nullable String nameOf(String section, int row) {
                        return null;
                    }

                    @Override
                    public OptionalInt rowOf(String section, String name) {
                        return OptionalInt.empty();
                    }

                    @Override
                    public Map<Integer, String> all(String section) {
                        return Map.of();
                    }
                };

        @Nullable String nameOf(String section, int row);

        OptionalInt rowOf(String section, String name);

        /** Without rows that were removed. */
        Map<Integer, String> all(String section);
    }

    /** One thing to choose. */
    record Option(String value, String label, boolean chosen) {}

    /** Null where nothing was typed. */
    JsonNode read(String typed, With with);

    /** As one would type it. */
    String typed(@Nullable JsonNode value, With with);

    /** In words, without its unit; "–" where nothing stands. */
    String say(@Nullable JsonNode value, With with);

    /** To choose from; empty where text is typed. */
    default List<Option> options(@Nullable JsonNode value, With with) {
        return List.of();
    }

    /** What a phone's keyboard should offer. */
    default String inputMode() {
        return "text";
    }

    static boolean isNothing(@Nullable JsonNode value) {
        return value == null || value.isNull() || value.isMissingNode();
    }

    /** A text. */
    record Text() implements Kind {

        @Override
        public JsonNode read(String typed, With with) {
            return typed.isBlank() ? JSON.nullNode() : JSON.stringNode(typed.strip());
        }

        @Override
        public String typed(@Nullable JsonNode value, With with) {
            return isNothing(value) ? "" : value.asString();
        }

        @Override
        public String say(@Nullable JsonNode value, With with) {
            return isNothing(value) ? "–" : value.asString();
        }
    }

    /** How a number is typed. */
    enum Manner {
        PLAIN,
        WHOLE,
        /** In mm, cm, m or inch. */
        LENGTH,
        /** As a length, or in gauge. */
        THICKNESS
    }

    /**
     * A number.
     *
     * @param percent whether the book has a share where people say per cent
     */
    record Figure(Manner manner, boolean percent) implements Kind {

        /** A millionth of a millimetre: beyond it stands only what an inch left over. */
        private static final int DECIMALS_OF_A_LENGTH = 6;

        private static final BigDecimal MOST_WHOLE = BigDecimal.valueOf(Integer.MAX_VALUE);

        @Override
        public JsonNode read(String typed, With with) {
            if (manner == Manner.THICKNESS && SheetGauge.read(typed).isPresent()) {
                return Kept.gauge(typed.strip());
            }
            return read(typed, with, null);
        }

        /**
         * @param gaugeTable by which a bare gauge goes; null to ask for it
         */
        JsonNode read(String typed, With with, @Nullable String gaugeTable) {
            Numbers numbers = with.numbers;
            Reading read =
                    switch (manner) {
                        case PLAIN -> numbers.number(typed);
                        case WHOLE -> numbers.whole(typed);
                        case LENGTH -> numbers.lengthMm(typed);
                        case THICKNESS -> numbers.thicknessMm(typed, Gauge::inTable, gaugeTable);
                    };
            if (read.fault() != null) {
                return Kept.unread(typed, read.fault());
            }
            BigDecimal value = read.value();
            if (value == null) {
                return JSON.nullNode();
            }
            if (manner == Manner.WHOLE) {
                return value.abs().compareTo(MOST_WHOLE) > 0
                        ? Kept.unread(typed, "is too large: at most 2147483647")
                        : JSON.numberNode(value.intValueExact());
            }
            if (manner != Manner.PLAIN) {
                value = value.setScale(DECIMALS_OF_A_LENGTH, RoundingMode.HALF_UP);
            }
            return JSON.numberNode((percent ? value.movePointLeft(2) : value).stripTrailingZeros());
        }

        @Override
        public String typed(@Nullable JsonNode value, With with) {
            return isNothing(value)
                    ? ""
                    : Kept.gaugeIn(value).orElseGet(() -> with.numbers.typed(shown(value)));
        }

        /** Every digit: a difference that is too small to be seen is none that can be judged. */
        @Override
        public String say(@Nullable JsonNode value, With with) {
            if (isNothing(value)) {
                return "–";
            }
            Optional<String> gauge = Kept.gaugeIn(value);
            if (gauge.isPresent()) {
                return gauge.get();
            }
            BigDecimal shown = shown(value).stripTrailingZeros();
            return with.numbers.show(shown, Math.max(0, shown.scale()));
        }

        private BigDecimal shown(JsonNode value) {
            BigDecimal exact = value.decimalValue();
            return percent ? exact.movePointRight(2) : exact;
        }

        @Override
        public String inputMode() {
            return switch (manner) {
                case PLAIN -> "decimal";
                case WHOLE -> "numeric";
                case LENGTH, THICKNESS -> "text"; // units are typed with it
            };
        }
    }

    /** An amount in the currency of the book. */
    record Cash() implements Kind {

        @Override
        public JsonNode read(String typed, With with) {
            String code = with.currency.getCurrencyCode();
            String amount = typed.strip();
            if (amount.toUpperCase(Locale.ROOT).endsWith(code)) {
                amount = amount.substring(0, amount.length() - code.length());
            }
            Reading read = with.numbers.number(amount);
            if (read.fault() != null) {
                return Kept.unread(typed, read.fault());
            }
            if (read.value() == null) {
                return JSON.nullNode();
            }
            ObjectNode money = JSON.objectNode();
            money.put("amount", read.value().toPlainString());
            money.put("currency", code);
            return money;
        }

        @Override
        public String typed(@Nullable JsonNode value, With with) {
            return isNothing(value)
                    ? ""
                    : value.path("amount").asString().replace('.', mark(with.numbers));
        }

        @Override
        public String say(@Nullable JsonNode value, With with) {
            if (isNothing(value)) {
                return "–";
            }
            BigDecimal amount = new BigDecimal(value.path("amount").asString());
            return with.numbers.show(amount, Math.max(0, amount.scale()));
        }

        /** Keeps trailing noughts, which {@link Numbers#typed} would drop: 42.10 is an amount. */
        private static char mark(Numbers numbers) {
            return numbers.typed(0.5).charAt(1);
        }

        @Override
        public String inputMode() {
            return "decimal";
        }
    }

    /** Yes or no; no where nothing stands. */
    record YesNo() implements Kind {

        @Override
        public JsonNode read(String typed, With with) {
            return JSON.booleanNode(typed.equals("yes"));
        }

        @Override
        public String typed(@Nullable JsonNode value, With with) {
            return isTrue(value) ? "yes" : "";
        }

        @Override
        public String say(@Nullable JsonNode value, With with) {
            return isTrue(value) ? "yes" : "no";
        }

        static boolean isTrue(@Nullable JsonNode value) {
            return value != null && value.isBoolean() && value.booleanValue();
        }
    }

    /**
     * One of a few words.
     *
     * @param words by what stands in JSON
     * @param nothing what it says when nothing is chosen; null where something has to be
     */
    record Choice(Map<String, String> words, @Nullable String nothing) implements Kind {

        @Override
        public JsonNode read(String typed, With with) {
            String word = typed.strip();
            if (word.isEmpty()) {
                return JSON.nullNode();
            }
            return words.containsKey(word)
                    ? JSON.stringNode(word)
                    : Kept.unread(word, "must be one of " + String.join(", ", words.values()));
        }

        /** A step of rounding stands as 0.5 or as 0.50. */
        @Override
        public String typed(@Nullable JsonNode value, With with) {
            if (isNothing(value)) {
                return "";
            }
            String word = value.asString();
            return !words.containsKey(word) && words.containsKey(word + "0") ? word + "0" : word;
        }

        @Override
        public String say(@Nullable JsonNode value, With with) {
            String word = typed(value, with);
            return word.isEmpty()
                    ? nothing == null ? "–" : nothing
                    : words.getOrDefault(word, word);
        }

        @Override
        public List<Option> options(@Nullable JsonNode value, With with) {
            String chosen = Kept.isUnread(value) ? Kept.text(value) : typed(value, with);
            Map<String, String> all = new LinkedHashMap<>();
            if (nothing != null || chosen.isEmpty()) {
                all.put("", nothing == null ? "choose" : nothing);
            }
            all.putAll(words);
            all.putIfAbsent(chosen, chosen);
            return all.entrySet().stream()
                    .map(e -> new Option(e.getKey(), e.getValue(), e.getKey().equals(chosen)))
                    .toList();
        }
    }

    /** Whether what stands below it counts; JSON has or lacks the object. */
    record Built(String stated, String built) implements Kind {

        @Override
        public JsonNode read(String typed, With with) {
            return JSON.booleanNode(typed.equals("built"));
        }

        @Override
        public String typed(@Nullable JsonNode value, With with) {
            return YesNo.isTrue(value) ? "built" : "";
        }

        @Override
        public String say(@Nullable JsonNode value, With with) {
            return YesNo.isTrue(value) ? built : stated;
        }

        @Override
        public List<Option> options(@Nullable JsonNode value, With with) {
            boolean on = YesNo.isTrue(value);
            return List.of(new Option("", stated, !on), new Option("built", built, on));
        }
    }

    /**
     * The name of a row of another section. In a draft the row is kept, not its name: renaming the
     * row renames every use of it.
     *
     * @param section key of that section
     * @param also what can be chosen beside its rows
     * @param nothing what it says when nothing is chosen; null where something has to be
     */
    record Named(String section, Map<String, String> also, @Nullable String nothing)
            implements Kind {

        private static final String ROW = "row ";
        private static final String NAME = "name ";

        @Override
        public JsonNode read(String typed, With with) {
            if (typed.isBlank()) {
                return JSON.nullNode();
            }
            if (typed.startsWith(ROW) && typed.substring(ROW.length()).matches("\\d{1,9}")) {
                return Kept.row(Integer.parseInt(typed.substring(ROW.length())));
            }
            String name = typed.startsWith(NAME) ? typed.substring(NAME.length()) : typed;
            return of(name, with);
        }

        /** The name as the book has it, tied to its row where there is one. */
        JsonNode of(String name, With with) {
            if (also.containsKey(name)) {
                return JSON.stringNode(name);
            }
            OptionalInt row = with.names.rowOf(section, name);
            return row.isPresent() ? Kept.row(row.getAsInt()) : JSON.stringNode(name);
        }

        /** The name that the book gets. */
        @Nullable String name(@Nullable JsonNode value, With with) {
            if (isNothing(value)) {
                return null;
            }
            OptionalInt row = Kept.rowIn(value);
            return row.isPresent() ? with.names.nameOf(section, row.getAsInt()) : value.asString();
        }

        @Override
        public String typed(@Nullable JsonNode value, With with) {
            if (isNothing(value)) {
                return "";
            }
            OptionalInt row = Kept.rowIn(value);
            return row.isPresent() ? ROW + row.getAsInt() : NAME + value.asString();
        }

        @Override
        public String say(@Nullable JsonNode value, With with) {
            String name = name(value, with);
            return name == null ? nothing == null ? "–" : nothing : also.getOrDefault(name, name);
        }

        @Override
        public List<Option> options(@Nullable JsonNode value, With with) {
            String chosen = typed(value, with);
            Map<String, String> all = new LinkedHashMap<>();
            if (nothing != null || chosen.isEmpty()) {
                all.put("", nothing == null ? "choose" : nothing);
            }
            also.forEach((name, words) -> all.put(NAME + name, words));
            with.names
                    .all(section)
                    .forEach((row, name) -> all.put(ROW + row, name.isBlank() ? "–" : name));
            if (!all.containsKey(chosen)) {
                all.put(chosen, say(value, with) + " (not in this book)");
            }
            return all.entrySet().stream()
                    .map(e -> new Option(e.getKey(), e.getValue(), e.getKey().equals(chosen)))
                    .toList();
        }
    }

    /**
     * A short list within a row, such as price breaks.
     *
     * @param noun of one line
     * @param fields of a line; a single one with an empty path where the list is of plain values
     */
    record Lines(String noun, List<BookField> fields) implements Kind {

        @Override
        public JsonNode read(String typed, With with) {
            throw new IllegalStateException("is read field by field");
        }

        @Override
        public String typed(@Nullable JsonNode value, With with) {
            throw new IllegalStateException("is typed field by field");
        }

        @Override
        public String say(@Nullable JsonNode list, With with) {
            if (isNothing(list) || list.isEmpty()) {
                return "none";
            }
            StringBuilder all = new StringBuilder();
            for (JsonNode line : list) {
                all.append(all.isEmpty() ? "" : fields.size() == 1 ? ", " : "; ");
                for (int i = 0; i < fields.size(); i++) {
                    BookField field = fields.get(i);
                    JsonNode value = field.path().isEmpty() ? line : line.path(field.path());
                    all.append(i == 0 ? "" : " ")
                            .append(
                                    fields.size() == 1
                                            ? ""
                                            : field.label().toLowerCase(Locale.ROOT))
                            .append(fields.size() == 1 ? "" : " ")
                            .append(field.sayWithUnit(value, with));
                }
            }
            return all.toString();
        }
    }
}
