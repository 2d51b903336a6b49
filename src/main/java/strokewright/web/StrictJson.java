package strokewright.web;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ProblemDetail;
import org.springframework.http.converter.json.ProblemDetailJacksonMixin;
import strokewright.quantity.Fault;
import strokewright.quantity.Faults;
import strokewright.quantity.InvalidInput;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonPointer;
import tools.jackson.core.JsonToken;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.StreamConstraintsException;
import tools.jackson.core.exc.UnexpectedEndOfInputException;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JavaType;
import tools.jackson.databind.json.JsonMapper;

/**
 * Reads a JSON document into records and names every fault with its pointer, all at once: first
 * what can be said without knowing the record ({@link JsonScan}), then what does not fit it.
 */
final class StrictJson {

    static final int DEEPEST = 32;
    private static final int MOST_FAULTS = 100;

    private final JsonMapper mapper =
            JsonMapper.builder(
                            JsonFactory.builder()
                                    .streamReadConstraints(
                                            StreamReadConstraints.builder()
                                                    .maxNestingDepth(DEEPEST)
                                                    // the body's limit is lower: told with a
                                                    // pointer by the scan instead
                                                    .maxNumberLength(Integer.MAX_VALUE)
                                                    .build())
                                    .build())
                    .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
                    .enable(DeserializationFeature.FAIL_ON_IGNORED_PROPERTIES)
                    .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
                    .addModule(new JsonValues())
                    .addHandler(new MisfitHandler())
                    .addMixIn(ProblemDetail.class, ProblemDetailJacksonMixin.class)
                    .build();

    JsonMapper mapper() {
        return mapper;
    }

    /**
     * @throws InvalidInput naming every fault found
     */
    Object read(byte[] body, JavaType type) {
        String document = decoded(body);
        Faults lexical = new Faults();
        JsonScan scan = new JsonScan(lexical);
        try (JsonParser p = mapper.createParser(document)) {
            try {
                scan.scan(p);
            } catch (JacksonException e) {
                lexical.add(pointer(p), reason(e, p));
                throw refused(lexical.all());
            }
        }
        if (lexical.all().stream().anyMatch(f -> f.pointer().isEmpty())) {
            throw refused(lexical.all()); // no one document that could be bound
        }
        Faults misfits = new Faults();
        Object value = null;
        try {
            value =
                    mapper.readerFor(type)
                            .withAttribute(Faults.class, misfits)
                            .readValue(scan.typeStandsLate() ? typeFirst(document) : document);
        } catch (JacksonException e) {
            misfits.add(path(e), "does not fit here");
        }
        if (value == null || !lexical.none() || !misfits.none()) {
            throw refused(together(lexical.all(), misfits.all()));
        }
        return value;
    }

    /**
     * The same document with the type first in every object. Fields before it would be kept in a
     * buffer until it is known, and out of the buffer come wrong pointers.
     */
    private String typeFirst(String document) {
        try (JsonParser p = mapper.createParser(document)) {
            p.nextToken();
            return typeFirst(p);
        }
    }

    private String typeFirst(JsonParser p) {
        return switch (p.currentToken()) {
            case START_OBJECT -> {
                Deque<String> members = new ArrayDeque<>();
                for (String name = p.nextName(); name != null; name = p.nextName()) {
                    p.nextToken();
                    String member = mapper.writeValueAsString(name) + ":" + typeFirst(p);
                    if (name.equals(JsonScan.TYPE)) {
                        members.addFirst(member);
                    } else {
                        members.addLast(member);
                    }
                }
                yield "{" + String.join(",", members) + "}";
            }
            case START_ARRAY -> {
                List<String> entries = new ArrayList<>();
                while (p.nextToken() != JsonToken.END_ARRAY) {
                    entries.add(typeFirst(p));
                }
                yield "[" + String.join(",", entries) + "]";
            }
            case VALUE_STRING -> mapper.writeValueAsString(p.getString());
            default -> p.getString();
        };
    }

    /** RFC 8259, section 8.1: JSON between systems is UTF-8. */
    private static String decoded(byte[] body) {
        try {
            String text =
                    StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(body)).toString();
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException e) {
            throw new InvalidInput("", "is not UTF-8 text");
        }
    }

    /** A field that is wrong as it stands need not be told a second time that it does not fit. */
    private static List<Fault> together(List<Fault> lexical, List<Fault> misfits) {
        Set<String> told = new HashSet<>();
        lexical.forEach(f -> told.add(f.pointer()));
        return java.util.stream.Stream.concat(
                        lexical.stream(), misfits.stream().filter(f -> !told.contains(f.pointer())))
                .toList();
    }

    private static InvalidInput refused(List<Fault> faults) {
        if (faults.size() <= MOST_FAULTS) {
            return new InvalidInput(faults);
        }
        Faults told = new Faults();
        faults.stream().limit(MOST_FAULTS).forEach(f -> told.add(f.pointer(), f.message()));
        told.add("", "has " + (faults.size() - MOST_FAULTS) + " more faults");
        return new InvalidInput(told.all());
    }

    /** Own words: those of the parser name its options and classes. */
    private static String reason(JacksonException e, JsonParser p) {
        if (e instanceof StreamConstraintsException) {
            return "goes beyond what is read, at "
                    + place(p.currentLocation())
                    + ": nested at most "
                    + DEEPEST
                    + " deep, names of at most 50,000 characters";
        }
        String place = place(e.getLocation());
        return e instanceof UnexpectedEndOfInputException
                ? "ends too early, at " + place
                : "is not JSON from " + place + " on";
    }

    static String place(@Nullable TokenStreamLocation at) {
        return at == null
                ? "an unknown place"
                : "line " + at.getLineNr() + ", column " + at.getColumnNr();
    }

    private static String path(JacksonException e) {
        JsonPointer pointer = JsonPointer.empty();
        for (JacksonException.Reference step : e.getPath()) {
            pointer =
                    step.getPropertyName() == null
                            ? pointer.appendIndex(step.getIndex())
                            : pointer.appendProperty(step.getPropertyName());
        }
        return pointer.toString();
    }

    static String pointer(JsonParser p) {
        return p.streamReadContext().pathAsPointer().toString();
    }
}
