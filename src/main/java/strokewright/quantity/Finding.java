package strokewright.quantity;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Something the calculation has to tell: a limit passed, a doubt, a note.
 *
 * @param code what it is, in kebab case; pages turn it into a sentence
 * @param pointer JSON Pointer (RFC 6901) into the take-off
 * @param values the figures behind it, unit in each name
 * @param change the nearest change that would clear it, computed; null where there is none
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Finding(
        String code,
        Severity severity,
        String pointer,
        Map<String, Object> values,
        @Nullable Map<String, Object> change) {

    public Finding {
        values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
        change = change == null ? null : Collections.unmodifiableMap(new LinkedHashMap<>(change));
    }

    public Finding(String code, Severity severity, String pointer, Map<String, Object> values) {
        this(code, severity, pointer, values, null);
    }

    /** The same with another change offered; with none where there is nothing to offer. */
    public Finding offering(Map<String, Object> other) {
        return new Finding(code, severity, pointer, values, other.isEmpty() ? null : other);
    }

    /** The same, told at another place. */
    public Finding at(String other) {
        return new Finding(code, severity, other, values, change);
    }

    /** What the one list has to tell and the other has not, at the same place and as grave. */
    public static List<Finding> beyond(List<Finding> findings, List<Finding> others) {
        Set<List<Object>> told = new HashSet<>();
        others.forEach(f -> told.add(f.place()));
        return findings.stream().filter(f -> !told.contains(f.place())).toList();
    }

    private List<Object> place() {
        return List.of(code, severity, pointer);
    }
}
