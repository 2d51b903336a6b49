package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.ServiceTest;
import strokewright.access.Role;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Sound take-offs that were spoilt at random places: whatever arrives, the answer names each spoilt
 * field and nothing of the inside. A failure is repeated by its seed.
 */
class MalformedTakeOffTests extends ServiceTest {

    private static final int BODIES_PER_SEED = 100;

    private static final String SOUND =
            """
            {"title":"Round sign frame ⌀ 600","information":"drawing","quantities":[1,2,5],"mainQuantity":1,
             "alreadyMade":0,
             "parts":[
              {"name":"Rim","perAssembly":1,"grade":"AL99.5-O","thicknessMm":2.0,"massKg":null,
               "blank":{"lengthMm":1950,"widthMm":120},"surface":"visible","edge":"dressed",
               "templateGapMm":1.5,"tolerance":"c","supply":"shop","machine":null,
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"startRadiusMm":null,
                 "heightMm":40,"count":1,"reachMm":null,"tool":null,
                 "override":{"minutes":30,"reason":"made one last year"}},
                {"sense":"stretch","radiusMm":60,"type":"turn-flange","heightMm":12,"angleDeg":90,"sweepDeg":360},
                {"diameterMm":400,"depthMm":100,"rimShare":0.5,"trimMm":5,"crownTool":null,"type":"dish"}]},
              {"name":"Back","grade":"AL99.5-O","thicknessMm":1.5,"blank":{"lengthMm":600,"widthMm":600},
               "operations":[
                {"type":"smooth","areaMm2":150000,"timesOver":2},
                {"type":"flatten","areaMm2":90000,"timesOver":1},
                {"type":"take-out-dents","spots":6,"strokesPerSpot":60},
                {"type":"standard","standard":"Guillotine cut","amount":4}]}],
             "assembly":[{"type":"standard","standard":"TIG weld","amount":1.9}],
             "extras":[{"name":"Powder coat","per":"order","kind":"bought-out",
               "cost":{"amount":"85.00","currency":"EUR"}}]}
            """;

    private static final Set<String> WHOLE =
            Set.of(
                    "perAssembly",
                    "count",
                    "alreadyMade",
                    "mainQuantity",
                    "spots",
                    "strokesPerSpot",
                    "timesOver",
                    "0",
                    "1",
                    "2");
    private static final Set<String> CHOICE =
            Set.of("information", "sense", "surface", "edge", "tolerance", "supply", "per", "kind");

    private String token;

    @BeforeEach
    void signIn() {
        token = openShop().token(Role.ESTIMATOR);
    }

    private Answer post(byte[] body, String contentType) {
        return Answer.to(
                HttpRequest.newBuilder(
                                URI.create("http://localhost:" + port() + "/api/v1/estimates"))
                        .header("Content-Type", contentType)
                        .header("Authorization", "Bearer " + token)
                        .POST(BodyPublishers.ofByteArray(body)));
    }

    private Answer post(String body) {
        return post(body.getBytes(StandardCharsets.UTF_8), "application/json");
    }

    @Test
    void theSoundOneIsEstimated() {
        Answer answer = post(SOUND);
        assertThat(answer.status()).as(answer.body()).isEqualTo(200);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {101, 102, 103, 104, 105, 106, 107, 108})
    void everyFieldOfTheWrongKindIsNamed(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < BODIES_PER_SEED; i++) {
            Spoilt spoilt = new Spoilt(random);
            Answer answer = post(spoilt.text());
            assertThat(answer.status()).as(spoilt.text() + "\n" + answer.body()).isEqualTo(400);
            answer.isProblem(400);
            assertThat(new TreeSet<>(answer.pointers()))
                    .as(spoilt.text())
                    .isEqualTo(spoilt.pointers());
        }
    }

    /** The values fit their fields, but no such piece can be made. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {201, 202})
    void everyFieldOutOfItsRangeIsNamed(long seed) {
        Random random = new Random(seed);
        Map<String, List<String>> wrong = new LinkedHashMap<>();
        wrong.put("/title", List.of("\"" + "x".repeat(201) + "\""));
        wrong.put("/quantities/1", List.of("0", "-1", "100001", "null"));
        wrong.put("/parts/0/thicknessMm", List.of("0", "-2", "1e300", "null"));
        wrong.put("/parts/0/grade", List.of("\"unheard of\"", "null"));
        wrong.put("/parts/0/blank/widthMm", List.of("0", "-120", "1e308"));
        wrong.put("/parts/0/operations/0/lengthMm", List.of("0", "-1", "1e12", "null"));
        wrong.put("/parts/0/operations/0/sense", List.of("null"));
        wrong.put("/parts/0/operations/1/sweepDeg", List.of("0", "361"));
        wrong.put("/parts/0/operations/2/rimShare", List.of("-0.1", "1.1"));
        wrong.put("/parts/1/operations/0/areaMm2", List.of("0", "-1", "null"));
        wrong.put("/parts/1/operations/2/spots", List.of("0", "-3", "2147483647", "null"));
        wrong.put("/parts/1/operations/3/standard", List.of("\"Juggling\"", "null"));
        wrong.put("/assembly/0/amount", List.of("-1", "1e300", "null"));
        wrong.put("/extras/0/cost/currency", List.of("\"USD\""));
        List<String> fields = List.copyOf(wrong.keySet());
        for (int i = 0; i < BODIES_PER_SEED; i++) {
            Map<String, String> replaced = new LinkedHashMap<>();
            for (int n = 1 + random.nextInt(4); n > 0; n--) {
                String field = any(fields, random);
                replaced.put(field, any(wrong.get(field), random));
            }
            String body = new Spoilt(replaced).text();
            Answer answer = post(body);
            assertThat(answer.status()).as(replaced + "\n" + answer.body()).isEqualTo(400);
            assertThat(answer.isProblem(400).pointers())
                    .as(replaced.toString())
                    .containsAll(replaced.keySet());
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {301, 302})
    void bodiesThatAreCutOffOrGarbledAreTold(long seed) {
        Random random = new Random(seed);
        byte[] sound = SOUND.strip().getBytes(StandardCharsets.UTF_8);
        for (int i = 0; i < BODIES_PER_SEED; i++) {
            byte[] cut = Arrays.copyOf(sound, random.nextInt(sound.length));
            Answer answer = post(cut, "application/json").isProblem(400);
            assertThat(answer.pointers()).as("cut at " + cut.length).isNotEmpty();
        }
        String[] tokens = {
            "NaN",
            "Infinity",
            "-Infinity",
            "undefined",
            "'x'",
            "0x1F",
            "1.",
            "+1",
            "[,]",
            "{,}",
            "/**/",
            "\u0000",
            "\"\t\"",
            "\"\\x\"",
            "\"\\u12\"",
            "\\",
            "1e",
            "tru"
        };
        for (int i = 0; i < BODIES_PER_SEED; i++) {
            Spoilt spoilt = new Spoilt(Map.of(anyField(random), any(List.of(tokens), random)));
            Answer answer = post(spoilt.text()).isProblem(400);
            // what is no value at all is told at the last place that was reached: in a list that
            // can be the entry before, or the list
            String field = spoilt.pointers().iterator().next();
            String place = field.replaceFirst("/\\d+$", "");
            assertThat(answer.pointers())
                    .as(spoilt.text())
                    .anyMatch(p -> (p + "/").startsWith(place + "/"));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {401, 402, 403})
    void noiseNeverBreaksTheService(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < BODIES_PER_SEED; i++) {
            byte[] body = SOUND.getBytes(StandardCharsets.UTF_8);
            for (int n = 1 + random.nextInt(5); n > 0; n--) {
                body[random.nextInt(body.length)] = (byte) random.nextInt(256);
            }
            Answer answer = post(body, "application/json");
            if (answer.status() != 200) {
                answer.isProblem(400);
            }
        }
        for (int i = 0; i < BODIES_PER_SEED; i++) {
            byte[] body = new byte[random.nextInt(300)];
            random.nextBytes(body);
            post(body, "application/json").isProblem(400);
        }
    }

    @Test
    void deepNestingIsRefusedWhereverItStands() {
        for (String pointer : fields()) {
            for (String deep : List.of("[".repeat(900) + "]".repeat(900), "[".repeat(60_000))) {
                Answer answer = post(new Spoilt(Map.of(pointer, deep)).text()).isProblem(400);
                assertThat(answer.pointers().get(0)).startsWith(pointer);
            }
        }
    }

    @Test
    void otherKindsOfBodyAreRefusedWhateverTheyHold() {
        String yaml = "title: Round sign frame\nparts: []\n";
        for (String type :
                List.of(
                        "application/yaml",
                        "application/x-yaml",
                        "text/yaml",
                        "application/vnd.oai.openapi",
                        "application/problem+json",
                        "application/merge-patch+json",
                        "application/geo+json;charset=utf-8",
                        "application/*+json",
                        "application/xml",
                        "application/cbor",
                        "application/x-smile",
                        "application/x-ndjson",
                        "text/plain",
                        "text/html",
                        "text/csv",
                        "application/x-www-form-urlencoded",
                        "multipart/form-data; boundary=b",
                        "application/octet-stream",
                        "application/json;charset=utf-16",
                        "application/json;charset=nonsense",
                        "*/*",
                        "json",
                        "application/",
                        ";")) {
            for (String body : List.of(SOUND, yaml, "", "--b--")) {
                post(body.getBytes(StandardCharsets.UTF_8), type).isProblem(415);
            }
        }
    }

    private static <T> T any(List<T> list, Random random) {
        return list.get(random.nextInt(list.size()));
    }

    private static List<String> fields() {
        List<String> fields = new ArrayList<>();
        collect("", JsonMapper.shared().readTree(SOUND), fields);
        return fields.subList(1, fields.size());
    }

    private static String anyField(Random random) {
        return any(fields(), random);
    }

    private static void collect(String pointer, JsonNode node, List<String> into) {
        into.add(pointer);
        if (node.isObject()) {
            node.properties().forEach(p -> collect(pointer + "/" + p.getKey(), p.getValue(), into));
        }
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            collect(pointer + "/" + i, node.get(i), into);
        }
    }

    /** The sound take-off with some of it replaced, added or doubled. */
    private static final class Spoilt {

        private final Map<String, String> replaced = new LinkedHashMap<>();
        private final Map<String, String> added = new LinkedHashMap<>();
        private final Set<String> pointers = new TreeSet<>();
        private final Set<String> touched = new TreeSet<>();

        Spoilt(Map<String, String> replaced) {
            this.replaced.putAll(replaced);
            pointers.addAll(replaced.keySet());
        }

        Spoilt(Random random) {
            for (int n = 1 + random.nextInt(6); n > 0 || pointers.isEmpty(); n--) {
                spoil(anyField(random), random);
            }
        }

        private void spoil(String pointer, Random random) {
            String name = pointer.substring(pointer.lastIndexOf('/') + 1);
            String parent = pointer.substring(0, pointer.lastIndexOf('/'));
            // nothing inside of an operation of unknown type can be named
            String reach = name.equals("type") ? parent : pointer;
            if (touched.stream()
                    .anyMatch(
                            t ->
                                    (t + "/").startsWith(reach + "/")
                                            || (reach + "/").startsWith(t + "/"))) {
                return;
            }
            touched.add(reach);
            JsonNode node = JsonMapper.shared().readTree(SOUND).at(pointer);
            if (node.isObject() && random.nextInt(3) == 0) {
                String unknown =
                        any(
                                List.of(
                                        "colour",
                                        "Name",
                                        "lengthmm",
                                        "__proto__",
                                        "a/b",
                                        "@type",
                                        ""),
                                random);
                String value = any(List.of("1", "null", "\"x\"", "{\"a\":[1]}", "[[]]"), random);
                if (!pointer.endsWith("/cost") || !value.equals("null")) {
                    added.put(pointer, "\"" + unknown + "\":" + value);
                    pointers.add(pointer + "/" + unknown.replace("/", "~1"));
                    return;
                }
            }
            if (!JsonMapper.shared().readTree(SOUND).at(parent).isArray()
                    && random.nextInt(8) == 0) {
                added.merge(
                        parent,
                        "\"" + name + "\":" + any(List.of("null", node.toString()), random),
                        (a, b) -> a + "," + b);
                pointers.add(pointer);
                return;
            }
            replaced.put(pointer, wrong(name, node, random));
            pointers.add(pointer);
        }

        private static String wrong(String name, JsonNode node, Random random) {
            List<String> any = new ArrayList<>(List.of("true", "\"\\u0000\"", "1e400", "-0.0"));
            if (node.isObject()) {
                any.addAll(List.of("5", "\"\"", "\"x\"", "[]", "[{}]"));
            } else if (node.isArray()) {
                any.addAll(List.of("5", "\"\"", "\"x\"", "{}", "false"));
            } else if (node.isNumber() && WHOLE.contains(name)) {
                any.addAll(
                        List.of("1.5", "1.0", "1e2", "99999999999", "\"1\"", "[1]", "{}", "\"\""));
            } else if (node.isNumber()) {
                any.addAll(
                        List.of("\"1\"", "\"NaN\"", "[1]", "{\"a\":1}", "1e-400", "9".repeat(150)));
                any.addAll(List.of("-1E+2147483648", "1e99999999999999", "\"1,5\"", "\"\""));
            } else if (name.equals("type")) {
                any.addAll(List.of("\"fold\"", "7", "null", "\"\"", "\"Dish\""));
            } else if (name.equals("amount")) {
                any.addAll(List.of("85", "null", "\"85,00\"", "\"1e3\"", "\"\"", "\"NaN\""));
                any.addAll(List.of("\"1234567890123456\"", "\"0.1234567\"", "\" 1\"", "\"+1\""));
            } else if (name.equals("currency")) {
                any.addAll(List.of("\"euro\"", "\"eur\"", "978", "null", "\"XXX\"", "\"\"", "{}"));
            } else if (CHOICE.contains(name)) {
                any.addAll(List.of("\"DRAWING\"", "\"\"", "1", "0", "\" c\"", "[\"c\"]", "{}"));
            } else if (node.isString()) {
                any.addAll(
                        List.of(
                                "5",
                                "[\"x\"]",
                                "{}",
                                "\"a\\u0007\"",
                                "\"\\ud800\"",
                                "\"\\udc00\""));
            } else { // null in the sound one: a text or a number, so that both kinds are wrong
                return any(List.of("true", "{}", "[]", "\"\\u0000\"", "1e400"), random);
            }
            return any(any, random);
        }

        Set<String> pointers() {
            return pointers;
        }

        String text() {
            StringBuilder out = new StringBuilder();
            write("", JsonMapper.shared().readTree(SOUND), out);
            return out.toString();
        }

        private void write(String pointer, JsonNode node, StringBuilder out) {
            if (replaced.containsKey(pointer)) {
                out.append(replaced.get(pointer));
            } else if (node.isObject()) {
                List<String> members = new ArrayList<>();
                node.properties()
                        .forEach(
                                p -> {
                                    StringBuilder member = new StringBuilder();
                                    write(pointer + "/" + p.getKey(), p.getValue(), member);
                                    members.add("\"" + p.getKey() + "\":" + member);
                                });
                if (added.containsKey(pointer)) {
                    members.add(added.get(pointer));
                }
                out.append('{').append(String.join(",", members)).append('}');
            } else if (node.isArray()) {
                List<String> entries = new ArrayList<>();
                for (int i = 0; i < node.size(); i++) {
                    StringBuilder entry = new StringBuilder();
                    write(pointer + "/" + i, node.get(i), entry);
                    entries.add(entry.toString());
                }
                out.append('[').append(String.join(",", entries)).append(']');
            } else {
                out.append(node);
            }
        }
    }
}
