package strokewright.estimate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import strokewright.quantity.Fault;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

class TakeOffCheckTest {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private static final String USABLE =
            """
            {"title":"Frame","information":"drawing","quantities":[1,5],"mainQuantity":1,"alreadyMade":0,
             "parts":[{"name":"Rim","perAssembly":1,"grade":"al","thicknessMm":2.0,"massKg":1.27,
               "blank":{"lengthMm":1950,"widthMm":120},"templateGapMm":1.5,"machine":"press",
               "operations":[
                {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"startRadiusMm":900,"heightMm":40,"count":1,"reachMm":100,"tool":"soft","override":{"minutes":3,"reason":"seen"}},
                {"type":"turn-flange","sense":"stretch","radiusMm":60,"heightMm":12,"angleDeg":90,"sweepDeg":360},
                {"type":"dish","diameterMm":400,"depthMm":200,"rimShare":0.5,"trimMm":5,"crownTool":"crown"},
                {"type":"smooth","areaMm2":150000,"timesOver":2},
                {"type":"take-out-dents","spots":6,"strokesPerSpot":60},
                {"type":"standard","standard":"Cut","amount":4}]}],
             "assembly":[{"type":"standard","standard":"Weld","amount":1.9}],
             "extras":[{"name":"Powder coat","per":"order","kind":"bought-out","cost":{"amount":"85.00","currency":"EUR"}},
               {"name":"Press tool","per":"order","kind":"tooling","cost":{"amount":"1900.00","currency":"EUR"},"lifePieces":400,"leadTimeDays":35}]}
            """;

    @Test
    void usableTakeOffHasNoFault() {
        assertThat(faults(JSON.readTree(USABLE))).isEmpty();
    }

    /** One field at a time set to something that cannot be worked with. */
    @ParameterizedTest(name = "{0} = {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "/quantities | [] | /quantities",
                "/quantities/1 | 0 | /quantities/1",
                "/quantities/1 | 100001 | /quantities/1",
                "/quantities/1 | 1 | /quantities/1",
                "/quantities/1 | null | /quantities/1",
                "/mainQuantity | 3 | /mainQuantity",
                "/alreadyMade | -1 | /alreadyMade",
                "/parts/0 | null | /parts/0",
                "/parts/0/name | \" \" | /parts/0/name",
                "/parts/0/perAssembly | 0 | /parts/0/perAssembly",
                "/parts/0/grade | \"tin\" | /parts/0/grade",
                "/extras/1/lifePieces | 0 | /extras/1/lifePieces",
                "/extras/1/lifePieces | 100000001 | /extras/1/lifePieces",
                "/extras/1/per | \"piece\" | /extras/1/lifePieces",
                "/extras/1/leadTimeDays | -1 | /extras/1/leadTimeDays",
                "/extras/1/leadTimeDays | 3651 | /extras/1/leadTimeDays",
                "/parts/0/grade | null | /parts/0/grade",
                "/parts/0/thicknessMm | 0 | /parts/0/thicknessMm",
                "/parts/0/thicknessMm | -1 | /parts/0/thicknessMm",
                "/parts/0/thicknessMm | null | /parts/0/thicknessMm",
                "/parts/0/massKg | 0 | /parts/0/massKg",
                "/parts/0/blank/lengthMm | null | /parts/0/blank/lengthMm",
                "/parts/0/blank/widthMm | 0 | /parts/0/blank/widthMm",
                "/parts/0/templateGapMm | -0.1 | /parts/0/templateGapMm",
                "/parts/0/machine | \"loom\" | /parts/0/machine",
                "/parts/0/operations/0 | null | /parts/0/operations/0",
                "/parts/0/operations/0/sense | null | /parts/0/operations/0/sense",
                "/parts/0/operations/0/lengthMm | 0 | /parts/0/operations/0/lengthMm",
                "/parts/0/operations/0/radiusMm | 1e7 | /parts/0/operations/0/radiusMm",
                "/parts/0/operations/0/startRadiusMm | 0 | /parts/0/operations/0/startRadiusMm",
                "/parts/0/operations/0/heightMm | null | /parts/0/operations/0/heightMm",
                "/parts/0/operations/0/count | 0 | /parts/0/operations/0/count",
                "/parts/0/operations/0/reachMm | 0 | /parts/0/operations/0/reachMm",
                "/parts/0/operations/0/tool | \"spoon\" | /parts/0/operations/0/tool",
                "/parts/0/operations/0/tool | \"crown\" | /parts/0/operations/0/tool",
                "/parts/0/operations/0/override/minutes | -1 | /parts/0/operations/0/override/minutes",
                "/parts/0/operations/0/override/reason | null | /parts/0/operations/0/override/reason",
                "/parts/0/operations/1/angleDeg | 90.1 | /parts/0/operations/1/angleDeg",
                "/parts/0/operations/1/sweepDeg | 361 | /parts/0/operations/1/sweepDeg",
                "/parts/0/operations/2/diameterMm | 0 | /parts/0/operations/2/diameterMm",
                "/parts/0/operations/2/rimShare | 1.1 | /parts/0/operations/2/rimShare",
                "/parts/0/operations/2/crownTool | \"soft\" | /parts/0/operations/2/crownTool",
                "/parts/0/operations/3/areaMm2 | 0 | /parts/0/operations/3/areaMm2",
                "/parts/0/operations/3/timesOver | 0 | /parts/0/operations/3/timesOver",
                "/parts/0/operations/4/spots | 0 | /parts/0/operations/4/spots",
                "/parts/0/operations/5/standard | \"Guess\" | /parts/0/operations/5/standard",
                "/parts/0/operations/5/amount | 0 | /parts/0/operations/5/amount",
                "/extras/0/cost | null | /extras/0/cost",
                "/extras/0/cost/currency | \"USD\" | /extras/0/cost/currency",
                "/extras/0/name | null | /extras/0/name",
            })
    void faultIsNamedWhereItStands(String field, String value, String pointer) {
        JsonNode takeOff = JSON.readTree(USABLE);
        set(takeOff, JsonPointer.compile(field), JSON.readTree(value));

        assertThat(faults(takeOff)).extracting(Fault::pointer).containsExactly(pointer);
    }

    /** By the tables: 16 of aluminium is 1.290 mm, of steel 1.519; 20 oz of copper 0.685. */
    @ParameterizedTest(name = "{0} beside {1} mm")
    @CsvSource({
        "16 ga, 1.29032, true",
        "16 ga, 1.29, true",
        "16 gauge, 1.28, false",
        "16 ga, 2.0, false",
        "16 ga steel, 1.52, true",
        "16 ga steel, 1.29, false",
        "20 oz copper, 0.69, true",
        "20 oz copper, 0.9, false",
        "31 ga, 0.2, false",
        "16 ga lead, 1.2, true",
        "1.29 mm, 1.29, false",
        "thick, 1.29, false"
    })
    void aGaugeMustNotTellAnotherThickness(String gauge, double thicknessMm, boolean usable) {
        ObjectNode takeOff = (ObjectNode) JSON.readTree(USABLE);
        ObjectNode part = (ObjectNode) takeOff.at("/parts/0");
        part.put("gauge", gauge).put("thicknessMm", thicknessMm);

        List<String> pointers = faults(takeOff).stream().map(Fault::pointer).toList();
        assertThat(pointers).isEqualTo(usable ? List.of() : List.of("/parts/0/gauge"));
    }

    @Test
    void massOrBlankOrFoldIsNeeded() {
        ObjectNode takeOff = (ObjectNode) JSON.readTree(USABLE);
        ObjectNode part = (ObjectNode) takeOff.at("/parts/0");
        part.remove("blank");
        assertThat(faults(takeOff)).isEmpty();
        part.remove("massKg");
        assertThat(faults(takeOff)).extracting(Fault::pointer).containsExactly("/parts/0/massKg");
        part.set(
                "fold",
                JSON.readTree(
                        "{\"lengthMm\":500,\"legsMm\":[50,80],\"bends\":[{\"radiusMm\":2}]}"));
        assertThat(faults(takeOff)).isEmpty();
    }

    @Test
    void allFaultsAreToldTogether() {
        JsonNode takeOff = JSON.readTree(USABLE);
        set(takeOff, JsonPointer.compile("/parts/0/thicknessMm"), JSON.readTree("-2"));
        set(takeOff, JsonPointer.compile("/parts/0/operations/0/heightMm"), JSON.readTree("-2"));
        set(takeOff, JsonPointer.compile("/extras/0/cost/amount"), JSON.readTree("\"-3\""));

        assertThat(faults(takeOff))
                .extracting(Fault::pointer)
                .containsExactly(
                        "/parts/0/thicknessMm",
                        "/parts/0/operations/0/heightMm",
                        "/extras/0/cost/amount");
    }

    @Test
    void formingIsNoAssemblyWork() {
        JsonNode takeOff = JSON.readTree(USABLE);
        ((ArrayNode) takeOff.at("/assembly")).add(takeOff.at("/parts/0/operations/3"));

        assertThat(faults(takeOff)).extracting(Fault::pointer).containsExactly("/assembly/1/type");
    }

    @Test
    void limitsOfPartsOperationsAndQuantitiesHoldOnBothSides() {
        JsonNode takeOff = JSON.readTree(USABLE);
        ArrayNode parts = (ArrayNode) takeOff.at("/parts");
        while (parts.size() < 50) {
            parts.add(parts.get(0));
        }
        assertThat(faults(takeOff)).isEmpty();
        parts.add(parts.get(0));
        assertThat(faults(takeOff)).extracting(Fault::pointer).containsExactly("/parts");

        JsonNode many = JSON.readTree(USABLE);
        ArrayNode operations = (ArrayNode) many.at("/parts/0/operations");
        while (operations.size() < 499) {
            operations.add(operations.get(5));
        }
        assertThat(faults(many)).isEmpty();
        operations.add(operations.get(5));
        assertThat(faults(many)).extracting(Fault::pointer).containsExactly("/parts");

        JsonNode priced = JSON.readTree(USABLE);
        ArrayNode quantities = (ArrayNode) priced.at("/quantities");
        for (int i = 2; quantities.size() < 25; i++) {
            quantities.add(100 + i);
        }
        assertThat(faults(priced)).isEmpty();
        quantities.add(99);
        assertThat(faults(priced)).extracting(Fault::pointer).containsExactly("/quantities");
    }

    private static List<Fault> faults(JsonNode takeOff) {
        return TakeOffCheck.faults(JSON.treeToValue(takeOff, TakeOff.class), WorkedShop.book());
    }

    private static void set(JsonNode root, JsonPointer at, JsonNode value) {
        JsonNode parent = root.at(at.head());
        String last = at.last().getMatchingProperty();
        if (parent instanceof ArrayNode array) {
            array.set(Integer.parseInt(last), value);
        } else {
            ((ObjectNode) parent).set(last, value);
        }
    }
}
