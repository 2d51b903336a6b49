package strokewright.web;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Money;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.databind.BeanDescription;
import tools.jackson.databind.DeserializationConfig;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.JavaType;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.ValueDeserializer;
import tools.jackson.databind.ValueSerializer;
import tools.jackson.databind.deser.AbstractDeserializer;
import tools.jackson.databind.deser.Deserializers;
import tools.jackson.databind.deser.ValueDeserializerModifier;
import tools.jackson.databind.deser.bean.BeanDeserializerBase;
import tools.jackson.databind.deser.std.DelegatingDeserializer;
import tools.jackson.databind.jsontype.TypeDeserializer;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.type.MapType;

/**
 * How single values are read: each from one kind of JSON value alone, and a value that does not fit
 * is written down with what would be right instead of ending the reading.
 */
final class JsonValues extends SimpleModule {

    private static final int MOST_SCALE = 12;
    private static final int MOST_DIGITS = 30;
    private static final Pattern AMOUNT = Pattern.compile("-?\\d{1,15}(\\.\\d{1,6})?");

    JsonValues() {
        super("strokewright-values");
        add(String.class, JsonValues::text, s -> s, "a text");
        add(Boolean.class, JsonValues::truth, Boolean::valueOf, "true or false");
        add(boolean.class, JsonValues::truth, Boolean::valueOf, "true or false");
        add(Integer.class, JsonValues::integer, Integer::valueOf, WHOLE);
        add(int.class, JsonValues::integer, Integer::valueOf, WHOLE);
        add(Long.class, JsonValues::integer, Long::valueOf, "a whole number");
        add(long.class, JsonValues::integer, Long::valueOf, "a whole number");
        add(Double.class, JsonValues::number, Double::valueOf, "a number");
        add(double.class, JsonValues::number, Double::valueOf, "a number");
        add(BigDecimal.class, JsonValues::number, JsonValues::decimal, DECIMAL);
        add(LocalDate.class, JsonValues::text, JsonValues::day, "a date such as 2026-03-31");
        add(Instant.class, JsonValues::text, Instant::parse, INSTANT);
        add(UUID.class, JsonValues::text, JsonValues::uuid, "an id of 36 characters");
        add(Currency.class, JsonValues::text, JsonValues::currency, CURRENCY);
        addDeserializer(Money.class, new MoneyReader());
        addSerializer(Money.class, new MoneyWriter());
    }

    private static final String WHOLE = "a whole number from -2147483648 to 2147483647";
    private static final String DECIMAL = "a number of at most 30 digits, 12 after the point";
    private static final String INSTANT = "a time in UTC such as 2026-03-31T14:30:00Z";
    private static final String CURRENCY = "a currency of ISO 4217 such as \"EUR\"";

    private <T> void add(
            Class<T> type,
            Function<JsonToken, Boolean> kind,
            Function<String, T> parse,
            String right) {
        addDeserializer(type, new Scalar<>(type, kind, parse, right));
    }

    @Override
    public void setupModule(SetupContext context) {
        super.setupModule(context);
        context.addDeserializers(new Choices());
        context.addDeserializerModifier(
                new ValueDeserializerModifier() {
                    @Override
                    public ValueDeserializer<?> modifyDeserializer(
                            DeserializationConfig config,
                            BeanDescription.Supplier description,
                            ValueDeserializer<?> deserializer) {
                        return deserializer instanceof BeanDeserializerBase
                                        || deserializer instanceof AbstractDeserializer
                                ? new Fields(deserializer, description.getType())
                                : deserializer;
                    }

                    @Override
                    public ValueDeserializer<?> modifyMapDeserializer(
                            DeserializationConfig config,
                            MapType type,
                            BeanDescription.Supplier description,
                            ValueDeserializer<?> deserializer) {
                        return new Fields(deserializer, type);
                    }
                });
    }

    private static boolean text(JsonToken token) {
        return token == JsonToken.VALUE_STRING;
    }

    private static boolean truth(JsonToken token) {
        return token.isBoolean();
    }

    private static boolean integer(JsonToken token) {
        return token == JsonToken.VALUE_NUMBER_INT;
    }

    private static boolean number(JsonToken token) {
        return token.isNumeric();
    }

    /** The limits keep 1E+10000000 away from arithmetic, which would write out its zeros. */
    private static BigDecimal decimal(String text) {
        BigDecimal value = new BigDecimal(text);
        if (value.precision() > MOST_DIGITS || Math.abs((long) value.scale()) > MOST_SCALE) {
            throw new NumberFormatException(text);
        }
        return value.scale() < 0 ? value.setScale(0) : value;
    }

    /** {@link LocalDate#parse} also takes years of up to nine digits, and those before our era. */
    static LocalDate day(String text) {
        LocalDate day = LocalDate.parse(text);
        if (day.getYear() < 1 || day.getYear() > 9999) {
            throw new IllegalArgumentException(text);
        }
        return day;
    }

    /** {@link UUID#fromString} also takes "1-1-1-1-1". */
    private static UUID uuid(String text) {
        if (text.length() != 36) {
            throw new IllegalArgumentException(text);
        }
        return UUID.fromString(text);
    }

    /** Only what prices are stated in: no gold, no testing codes. */
    private static Currency currency(String text) {
        Currency currency = Currency.getInstance(text);
        if (currency.getDefaultFractionDigits() < 0) {
            throw new IllegalArgumentException(text);
        }
        return currency;
    }

    /** One value, read from its text. */
    private static final class Scalar<T> extends ValueDeserializer<T> {

        private final Class<T> type;
        private final Function<JsonToken, Boolean> kind;
        private final Function<String, T> parse;
        private final String right;

        Scalar(
                Class<T> type,
                Function<JsonToken, Boolean> kind,
                Function<String, T> parse,
                String right) {
            this.type = type;
            this.kind = kind;
            this.parse = parse;
            this.right = right;
        }

        @Override
        public @Nullable T deserialize(JsonParser p, DeserializationContext context) {
            T value = read(p);
            if (value == null) {
                MisfitHandler.tell(context, StrictJson.pointer(p), "must be " + right);
                p.skipChildren();
            }
            return value;
        }

        private @Nullable T read(JsonParser p) {
            try {
                return kind.apply(p.currentToken()) && !endless(p)
                        ? parse.apply(p.getString())
                        : null;
            } catch (IllegalArgumentException | DateTimeParseException e) {
                return null;
            }
        }

        /** Told by the scan; to make a decimal of a million digits takes seconds. */
        private static boolean endless(JsonParser p) {
            return p.currentToken().isNumeric() && p.getString().length() > JsonScan.LONGEST_NUMBER;
        }

        @Override
        public @Nullable Object getNullValue(DeserializationContext context) {
            if (!type.isPrimitive()) {
                return null;
            }
            MisfitHandler.tell(
                    context, StrictJson.pointer(context.getParser()), "must be " + right);
            return getAbsentValue(context);
        }

        @Override
        public @Nullable Object getAbsentValue(DeserializationContext context) {
            return java.lang.reflect.Array.get(java.lang.reflect.Array.newInstance(type, 1), 0);
        }
    }

    /** One of the names of an enum. */
    private static final class Choices extends Deserializers.Base {

        @Override
        public ValueDeserializer<?> findEnumDeserializer(
                JavaType type, DeserializationConfig config, BeanDescription.Supplier description) {
            Map<String, Object> named = new LinkedHashMap<>();
            Object[] constants = type.getRawClass().getEnumConstants();
            String[] names =
                    config.getAnnotationIntrospector()
                            .findEnumValues(
                                    config,
                                    description.getClassInfo(),
                                    (Enum<?>[]) constants,
                                    new String[constants.length]);
            for (int i = 0; i < constants.length; i++) {
                named.put(
                        names[i] == null ? ((Enum<?>) constants[i]).name() : names[i],
                        constants[i]);
            }
            return new Scalar<>(
                    Object.class,
                    JsonValues::text,
                    named::get,
                    "one of " + String.join(", ", named.keySet()));
        }

        @Override
        public boolean hasDeserializerFor(DeserializationConfig config, Class<?> type) {
            return type.isEnum();
        }
    }

    /**
     * Records and maps. An empty text in their place would end the reading as a bad coercion, and a
     * list in the place of one of several types would be taken for its type and value.
     */
    private static final class Fields extends DelegatingDeserializer {

        private final JavaType type;

        Fields(ValueDeserializer<?> fields, JavaType type) {
            super(fields);
            this.type = type;
        }

        @Override
        protected ValueDeserializer<?> newDelegatingInstance(ValueDeserializer<?> fields) {
            return new Fields(fields, type);
        }

        @Override
        public @Nullable Object deserialize(JsonParser p, DeserializationContext context) {
            return fits(p)
                    ? super.deserialize(p, context)
                    : MisfitHandler.skipped(context, type, p);
        }

        @Override
        public @Nullable Object deserializeWithType(
                JsonParser p, DeserializationContext context, TypeDeserializer typeReader) {
            return fits(p)
                    ? super.deserializeWithType(p, context, typeReader)
                    : MisfitHandler.skipped(context, type, p);
        }

        /** Where the type has been read already, reading goes on behind the object's start. */
        private boolean fits(JsonParser p) {
            JsonToken token = p.currentToken();
            return token == JsonToken.VALUE_STRING
                    ? madeFromText()
                    : !token.isScalarValue() && token != JsonToken.START_ARRAY;
        }

        /** Records that say so with {@code @JsonCreator} on a method that takes one text. */
        private boolean madeFromText() {
            return getDelegatee() instanceof BeanDeserializerBase record
                    && record.getValueInstantiator().canCreateFromString();
        }
    }

    /** The amount is text, so that no reader on the way makes a binary fraction of it. */
    private static final class MoneyReader extends ValueDeserializer<Money> {

        private static final Scalar<BigDecimal> READ_AMOUNT =
                new Scalar<>(
                        BigDecimal.class,
                        JsonValues::text,
                        s -> AMOUNT.matcher(s).matches() ? new BigDecimal(s) : null,
                        "an amount in quotes such as \"12.50\", with at most 15 digits before and 6"
                                + " after the point");
        private static final Scalar<Currency> READ_CURRENCY =
                new Scalar<>(Currency.class, JsonValues::text, JsonValues::currency, CURRENCY);

        @Override
        public @Nullable Money deserialize(JsonParser p, DeserializationContext context) {
            String pointer = StrictJson.pointer(p);
            if (!p.isExpectedStartObjectToken()) {
                MisfitHandler.tell(
                        context,
                        pointer,
                        "must be an amount of money such as"
                                + " {\"amount\":\"12.50\",\"currency\":\"EUR\"}");
                p.skipChildren();
                return null;
            }
            boolean amountGiven = false;
            boolean currencyGiven = false;
            BigDecimal amount = null;
            Currency currency = null;
            for (String name = p.nextName(); name != null; name = p.nextName()) {
                p.nextToken();
                switch (name) {
                    case "amount" -> {
                        amountGiven = true;
                        amount = READ_AMOUNT.deserialize(p, context);
                    }
                    case "currency" -> {
                        currencyGiven = true;
                        currency = READ_CURRENCY.deserialize(p, context);
                    }
                    default -> {
                        MisfitHandler.tell(
                                context,
                                StrictJson.pointer(p),
                                "is not a field here; there are: amount, currency");
                        p.skipChildren();
                    }
                }
            }
            if (!amountGiven) {
                MisfitHandler.tell(context, pointer + "/amount", "is missing: such as \"12.50\"");
            }
            if (!currencyGiven) {
                MisfitHandler.tell(context, pointer + "/currency", "is missing: " + CURRENCY);
            }
            return amount == null || currency == null ? null : new Money(amount, currency);
        }
    }

    private static final class MoneyWriter extends ValueSerializer<Money> {

        @Override
        public void serialize(Money money, JsonGenerator out, SerializationContext context) {
            out.writeStartObject();
            out.writeStringProperty("amount", money.amount().toPlainString());
            out.writeStringProperty("currency", money.currency().getCurrencyCode());
            out.writeEndObject();
        }
    }
}
