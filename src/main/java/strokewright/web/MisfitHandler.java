package strokewright.web;

import java.util.Collection;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import strokewright.quantity.Faults;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonPointer;
import tools.jackson.core.JsonToken;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.JavaType;
import tools.jackson.databind.ValueDeserializer;
import tools.jackson.databind.deser.DeserializationProblemHandler;
import tools.jackson.databind.deser.ValueInstantiator;
import tools.jackson.databind.jsontype.TypeIdResolver;

/**
 * Writes down what does not fit a record and lets the reading go on. (The collecting handler that
 * comes with Jackson points at the parent of an unknown field, names Java classes, and stops at the
 * first wrong kind or unknown type.) Values are told by {@link JsonValues}.
 */
final class MisfitHandler extends DeserializationProblemHandler {

    static void tell(DeserializationContext context, String pointer, String message) {
        if (context.getAttribute(Faults.class) instanceof Faults faults) {
            faults.add(pointer, message);
        }
    }

    @Override
    public boolean handleUnknownProperty(
            DeserializationContext context,
            JsonParser p,
            ValueDeserializer<?> deserializer,
            Object beanOrClass,
            String name) {
        // Of a record they come from a buffer when the record is complete: the parser proper then
        // stands at the record's end, and its path is the record's.
        String pointer = StrictJson.pointer(p);
        String last = JsonPointer.empty().appendProperty(name).toString();
        if (p != context.getParser()
                && context.getParser().currentToken() == JsonToken.END_OBJECT) {
            pointer = StrictJson.pointer(context.getParser()) + last;
        } else if (!pointer.endsWith(last)) {
            pointer += last;
        }
        tell(context, pointer, "is not a field here" + known(deserializer));
        p.skipChildren();
        return true;
    }

    private static String known(ValueDeserializer<?> deserializer) {
        Collection<Object> names = deserializer.getKnownPropertyNames();
        return names == null || names.isEmpty()
                ? ""
                : "; there are: "
                        + String.join(", ", names.stream().map(String::valueOf).sorted().toList());
    }

    @Override
    public @Nullable Object handleUnexpectedToken(
            DeserializationContext context,
            JavaType type,
            JsonToken token,
            JsonParser p,
            String internal) {
        return skipped(context, type, p);
    }

    @Override
    public @Nullable Object handleMissingInstantiator(
            DeserializationContext context,
            Class<?> type,
            ValueInstantiator instantiator,
            JsonParser p,
            String internal) {
        return skipped(context, context.constructType(type), p);
    }

    static @Nullable Object skipped(DeserializationContext context, JavaType type, JsonParser p) {
        tell(
                context,
                StrictJson.pointer(p),
                type.isCollectionLikeType() || type.isArrayType()
                        ? "must be a list"
                        : "must be an object with fields");
        p.skipChildren();
        return null;
    }

    @Override
    public JavaType handleUnknownTypeId(
            DeserializationContext context,
            JavaType base,
            String id,
            TypeIdResolver resolver,
            String internal) {
        return untyped(context, base, "is not known: ");
    }

    @Override
    public JavaType handleMissingTypeId(
            DeserializationContext context,
            JavaType base,
            TypeIdResolver resolver,
            String internal) {
        return untyped(context, base, "is missing: ");
    }

    /** Nothing can be made of an object of unknown type: it is read over. */
    private static JavaType untyped(DeserializationContext context, JavaType base, String what) {
        JsonParser p = context.getParser();
        String pointer = StrictJson.pointer(p);
        tell(
                context,
                pointer.endsWith("/type") ? pointer : pointer + "/type",
                what + "one of " + String.join(", ", types(context, base)));
        return context.constructType(Void.class);
    }

    private static Collection<String> types(DeserializationContext context, JavaType base) {
        var config = context.getConfig();
        var found =
                config.getSubtypeResolver()
                        .collectAndResolveSubtypesByTypeId(
                                config, context.introspectClassAnnotations(base));
        Collection<String> names = new TreeSet<>();
        found.stream().filter(t -> t.hasName()).forEach(t -> names.add(t.getName()));
        return names.isEmpty() ? List.of() : names;
    }

    @Override
    public @Nullable Object handleInstantiationProblem(
            DeserializationContext context,
            Class<?> type,
            @Nullable Object argument,
            Throwable problem) {
        tell(context, StrictJson.pointer(context.getParser()), "does not fit together");
        return null;
    }
}
