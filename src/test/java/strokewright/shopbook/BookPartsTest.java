package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import strokewright.estimate.ShopBook;
import strokewright.quantity.Money;

/** The words of the shop book cover its records, field for field. */
class BookPartsTest {

    /** Set by the shop or by storing, not typed. */
    private static final Set<String> NOT_TYPED = Set.of("/edition", "/currency");

    @Test
    void everyFieldOfTheRecordsIsDescribedAndNoOther() {
        Map<String, Class<?>> records = new TreeMap<>();
        leaves("", ShopBook.class, records);
        assertThat(described().keySet())
                .containsExactlyInAnyOrderElementsOf(
                        records.keySet().stream().filter(p -> !NOT_TYPED.contains(p)).toList());
    }

    @Test
    void choicesOfferEveryConstantAndNoOther() {
        Map<String, Class<?>> records = new TreeMap<>();
        leaves("", ShopBook.class, records);
        described()
                .forEach(
                        (pointer, field) -> {
                            Class<?> type = records.get(pointer);
                            if (type.isEnum()) {
                                assertThat(field.kind())
                                        .as(pointer)
                                        .isInstanceOf(Kind.Choice.class);
                                assertThat(((Kind.Choice) field.kind()).words().keySet())
                                        .as(pointer)
                                        .containsExactlyInAnyOrderElementsOf(names(type));
                            }
                        });
    }

    @Test
    void kindsFitTheTypesOfTheirRecords() {
        Map<String, Class<?>> records = new TreeMap<>();
        leaves("", ShopBook.class, records);
        described()
                .forEach(
                        (pointer, field) -> {
                            Class<?> type = records.get(pointer);
                            boolean fits =
                                    type == Money.class
                                            ? field.kind() instanceof Kind.Cash
                                            : type == Boolean.class
                                                    ? field.kind() instanceof Kind.YesNo
                                                    : type == Integer.class || type == Long.class
                                                            ? isWhole(field)
                                                            : type != Double.class
                                                                    || field.kind()
                                                                            instanceof Kind.Figure;
                            assertThat(fits).as(pointer + " is a " + type).isTrue();
                        });
    }

    @Test
    void keysOfPartsSectionsAndFieldsAreUnique() {
        List<BookSection> sections = BookParts.sections();
        assertThat(BookParts.ALL).extracting(BookPart::key).doesNotHaveDuplicates();
        assertThat(sections).extracting(BookSection::key).doesNotHaveDuplicates();
        for (BookSection section : sections) {
            assertThat(section.fields()).extracting(BookField::path).doesNotHaveDuplicates();
            assertThat(section.keys()).allMatch(key -> section.field(key).isPresent());
        }
    }

    private static boolean isWhole(BookField field) {
        return field.kind() instanceof Kind.Figure figure && figure.manner() == Kind.Manner.WHOLE;
    }

    private static List<String> names(Class<?> type) {
        return Arrays.stream(type.getFields())
                .filter(f -> f.isEnumConstant())
                .map(f -> f.getAnnotation(JsonProperty.class).value())
                .toList();
    }

    private static Map<String, BookField> described() {
        Map<String, BookField> all = new TreeMap<>();
        for (BookSection section : BookParts.sections()) {
            String at = section.isOne() ? section.at() : section.at() + "/*";
            for (BookField field : section.fields()) {
                if (section.shape() == BookSection.Shape.MEMBERS) {
                    all.put(at, section.fields().get(1));
                } else if (field.kind() instanceof Kind.Lines lines) {
                    lines.fields()
                            .forEach(
                                    f ->
                                            all.put(
                                                    at
                                                            + "/"
                                                            + field.path()
                                                            + "/*"
                                                            + (f.path().isEmpty()
                                                                    ? ""
                                                                    : "/" + f.path()),
                                                    f));
                } else if (!(field.kind() instanceof Kind.Built)) {
                    all.put(at + "/" + field.path(), field);
                }
            }
        }
        return all;
    }

    /** Pointers of all that holds a value, "*" for any entry of a list or map. */
    private static void leaves(String at, Type type, Map<String, Class<?>> found) {
        if (type instanceof ParameterizedType list) {
            Type[] of = list.getActualTypeArguments();
            leaves(at + "/*", of[of.length - 1], found);
        } else if (((Class<?>) type).isRecord() && type != Money.class) {
            for (RecordComponent c : ((Class<?>) type).getRecordComponents()) {
                leaves(at + "/" + c.getName(), c.getGenericType(), found);
            }
        } else {
            found.put(at, (Class<?>) type);
        }
    }

    @Test
    void labelsTellTheFieldsOfARowApart() {
        for (BookSection section : BookParts.sections()) {
            Set<String> seen = new TreeSet<>();
            List<String> twice =
                    section.fields().stream()
                            .map(f -> f.label() + " " + f.unit())
                            .filter(label -> !seen.add(label))
                            .collect(Collectors.toList());
            assertThat(twice).as(section.title()).isEmpty();
        }
    }
}
