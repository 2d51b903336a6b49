package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

@SpringBootTest(classes = WebOnly.class, webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
class StrictJsonTests {

    @LocalServerPort int port;

    private String at(String path) {
        return "http://localhost:" + port + "/api/test" + path;
    }

    private Answer sample(String json) {
        return Answer.postJson(at("/sample"), json);
    }

    private Answer takeOff(String json) {
        return Answer.postJson(at("/take-off"), json);
    }

    @Test
    void valuesComeBackAsTheyWereSent() {
        Answer answer =
                sample(
                        """
                        {"text":"Rim ⌀ 600 \\uD83D\\uDD27","whole":-7,"longer":9007199254740993,"number":2,
                         "decimal":0.10,"truth":true,"flag":true,"day":"2026-03-31",
                         "moment":"2026-03-31T14:30:00Z","id":"0192d3a0-5f1c-7c3e-9a51-3d0f7e2b4c11",
                         "price":{"amount":"0.0000000","currency":"EUR"}}
                        """
                                .replace("0.0000000", "0.000000"));
        assertThat(answer.status()).as(answer.body()).isEqualTo(200);
        assertThat(answer.json().get("text").asString()).isEqualTo("Rim ⌀ 600 🔧");
        assertThat(answer.json().get("longer").asLong()).isEqualTo(9007199254740993L);
        assertThat(answer.body())
                .contains("\"number\":2.0", "\"decimal\":0.10", "\"flag\":true")
                .contains("\"day\":\"2026-03-31\"", "\"moment\":\"2026-03-31T14:30:00Z\"")
                .contains("\"price\":{\"amount\":\"0.000000\",\"currency\":\"EUR\"}");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "text    | 5          | must be a text",
                "text    | ['a']      | must be a text",
                "whole   | 2.0        | must be a whole number from -2147483648 to 2147483647",
                "whole   | 2e0        | must be a whole number from -2147483648 to 2147483647",
                "whole   | 2147483648 | must be a whole number from -2147483648 to 2147483647",
                "whole   | '2'        | must be a whole number from -2147483648 to 2147483647",
                "whole   | true       | must be a whole number from -2147483648 to 2147483647",
                "number  | '2'        | must be a number",
                "number  | ''         | must be a number",
                "number  | 'NaN'      | must be a number",
                "number  | {'a':1}    | must be a number",
                "number  | 1e400      | is too large a number",
                "number  | -1e400     | is too large a number",
                "number  | 1e-400     | is too small a number: write 0 if it is nothing",
                "number  | -0.0       | is minus zero: write 0",
                "decimal | 1E+13      | must be a number of at most 30 digits, 12 after the point",
                "decimal | 1E-13      | must be a number of at most 30 digits, 12 after the point",
                "decimal | 1e99999999999 | is too large a number",
                "truth   | 'true'     | must be true or false",
                "truth   | 1          | must be true or false",
                "flag    | null       | must be true or false",
                "day     | '31.3.2026'| must be a date such as 2026-03-31",
                "day     | 20543      | must be a date such as 2026-03-31",
                "day     | [2026,3,31]| must be a date such as 2026-03-31",
                "day     | '2026-02-30'| must be a date such as 2026-03-31",
                "day     | '-99999-12-31'| must be a date such as 2026-03-31",
                "day     | '+10000-01-01'| must be a date such as 2026-03-31",
                "moment  | 0          | must be a time in UTC such as 2026-03-31T14:30:00Z",
                "id      | '1-1-1-1-1'| must be an id of 36 characters",
                "wholes  | 5          | must be a list",
                "wholes  | ''         | must be a list",
                "wholes  | {}         | must be a list",
                "named   | []         | must be an object with fields",
                "named   | ''         | must be an object with fields",
                "more    | 'x'        | must be a list",
            })
    void aWrongKindOfValueIsToldAtItsField(String field, String value, String message) {
        Answer answer = sample(("{'" + field + "':" + value + "}").replace('\'', '"'));
        answer.isProblem(400);
        assertThat(answer.pointers()).containsExactly("/" + field);
        assertThat(answer.message("/" + field)).isEqualTo(message);
        assertThat(answer.json().get("type").asString()).isEqualTo("/problems/invalid-fields");
    }

    @Test
    void allFaultsAreToldTogetherEachWithItsPointer() {
        Answer answer =
                takeOff(
                        """
                        {"title":5,"information":"hearsay","quantities":[1,"2",2.5],"colour":"red",
                         "parts":[
                          {"name":"Rim","thicknessMm":"2","surface":"VISIBLE","blank":7,"operations":[
                            {"type":"curve-edge","lengthMm":"long","sense":"","radiusMm":[300],"depth":1},
                            {"lengthMm":true,"type":"curve-edge","heightMm":1e400},
                            {"type":"fold"},{"lengthMm":1},{"type":7},"smooth",null,
                            {"tool":5,"type":"smooth","areaMm2":-0.0}]},
                          "part",[]],
                         "assembly":{"type":"standard"},
                         "extras":[{"name":"Coat\\u0000","cost":{"amount":85,"currency":"euro","tax":1}},
                                   {"cost":{}},{"cost":"85.00 EUR"},
                                   {"per":"order","per":"piece"}]}
                        """);
        answer.isProblem(400);
        assertThat(answer.pointers())
                .containsExactlyInAnyOrder(
                        "/title",
                        "/information",
                        "/quantities/1",
                        "/quantities/2",
                        "/colour",
                        "/parts/0/thicknessMm",
                        "/parts/0/surface",
                        "/parts/0/blank",
                        "/parts/0/operations/0/lengthMm",
                        "/parts/0/operations/0/sense",
                        "/parts/0/operations/0/radiusMm",
                        "/parts/0/operations/0/depth",
                        "/parts/0/operations/1/lengthMm",
                        "/parts/0/operations/1/heightMm",
                        "/parts/0/operations/2/type",
                        "/parts/0/operations/3/type",
                        "/parts/0/operations/4/type",
                        "/parts/0/operations/5",
                        "/parts/0/operations/7/tool",
                        "/parts/0/operations/7/areaMm2",
                        "/parts/1",
                        "/parts/2",
                        "/assembly",
                        "/extras/0/name",
                        "/extras/0/cost/amount",
                        "/extras/0/cost/currency",
                        "/extras/0/cost/tax",
                        "/extras/1/cost/amount",
                        "/extras/1/cost/currency",
                        "/extras/2/cost",
                        "/extras/3/per");
        assertThat(answer.message("/information"))
                .isEqualTo(
                        "must be one of phone, sketch, photo, drawing, drawing-and-template,"
                                + " old-part, repeat");
        assertThat(answer.message("/parts/0/operations/2/type"))
                .isEqualTo(
                        "is not known: one of curve-edge, dish, flatten, follow-outline, smooth, standard,"
                                + " take-out-dents, turn-flange");
        assertThat(answer.message("/parts/0/operations/3/type")).startsWith("is missing: one of");
        assertThat(answer.message("/parts/0/operations/0/depth"))
                .startsWith("is not a field here; there are: count, heightMm, lengthMm");
        assertThat(answer.message("/extras/3/per")).isEqualTo("stands twice: each field once");
    }

    @Test
    void aRecordThatCanBeMadeOfATextIsReadBothWays() {
        assertThat(sample("{\"whom\":\"Rita\"}").json().at("/whom/name").asString())
                .isEqualTo("Rita");
        assertThat(sample("{\"whom\":{\"name\":\"Rita\",\"age\":7}}").status()).isEqualTo(200);
        assertThat(sample("{\"whom\":{\"name\":5,\"agee\":7}}").isProblem(400).pointers())
                .containsExactlyInAnyOrder("/whom/name", "/whom/agee");
        for (String wrong : new String[] {"5", "true", "[]", "[\"Rita\"]"}) {
            assertThat(sample("{\"whom\":" + wrong + "}").isProblem(400).pointers())
                    .containsExactly("/whom");
        }
        assertThat(sample("{\"whom\":\"Ri\\u0000ta\"}").isProblem(400).pointers())
                .containsExactly("/whom");
    }

    @Test
    void pointersEscapeSlashAndTilde() {
        assertThat(sample("{\"a/b~c\":1}").isProblem(400).pointers()).containsExactly("/a~1b~0c");
        assertThat(sample("{\"more\":[{\"x\":1},{\"more\":[{\"y\":{\"z\":1}}]}]}").pointers())
                .containsExactlyInAnyOrder("/more/0/x", "/more/1/more/0/y");
        assertThat(sample("{\"named\":{\"a\":1,\"b\":\"2\"}}").pointers())
                .containsExactly("/named/b");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "\\u0000",
                "\\u0007",
                "\\u001f",
                "\\u007f",
                "\\u0085",
                "\\u202e",
                "\\u2066",
                "\\ud800",
                "\\udc00x",
                "\\uffff",
                "\\n"
            })
    void textWithCharactersThatNobodyCanPrintIsRefused(String escape) {
        Answer answer = sample("{\"text\":\"Rim" + escape + "\",\"whole\":\"x\"}").isProblem(400);
        assertThat(answer.pointers()).containsExactlyInAnyOrder("/text", "/whole");
        assertThat(sample("{\"named\":{\"Rim" + escape + "\":1}}").isProblem(400).pointers())
                .hasSize(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{'text':'a'               | /text  | ends too early, at line 1, column",
                "{'text':                  | /text  | ends too early, at line 1, column",
                "{'text':'a                | /text  | ends too early, at line 1, column",
                "{'wholes':[1,2            | /wholes/1 | ends too early",
                "{'number':NaN}            | /number | is not JSON from line 1, column",
                "{'number':+1}             | /number | is not JSON from line 1, column",
                "{'number':01}             | /number | is not JSON from line 1, column",
                "{'number':.5}             | /number | is not JSON from line 1, column",
                "{'number':Infinity}       | /number | is not JSON from line 1, column",
                "{'number':1,}             | /number | is not JSON from line 1, column",
                "{text:1}                  | ``     | is not JSON from line 1, column",
                "{'text':'a'} {}           | ``     | goes on after its end, at line 1, column 14",
                "{'text':'a'} x            | ``     | is not JSON from line 1, column",
                "hello                     | ``     | is not JSON from line 1, column",
                "null                      | ``     | is missing: a JSON document",
                "[]                        | ``     | must be an object with fields",
                "5                         | ``     | must be an object with fields",
                "'text'                    | ``     | must be an object with fields",
                "''                        | ``     | must be an object with fields",
                "// note                   | ``     | is not JSON from line 1, column",
            })
    void whatIsNotOneDocumentIsToldWithItsPlace(String body, String pointer, String message) {
        Answer answer = sample(body.replace('\'', '"')).isProblem(400);
        assertThat(answer.message(pointer)).startsWith(message);
    }

    @Test
    void faultsSeenBeforeTheTextBreaksOffAreToldToo() {
        assertThat(sample("{\"text\":\"\\u0000\",\"text\":\"b\",").isProblem(400).pointers())
                .containsExactly("/text", "/text", "/text");
    }

    @Test
    void nothingAtAllIsMissing() {
        assertThat(sample("").isProblem(400).message("")).isEqualTo("is missing: a JSON document");
        assertThat(sample("  \n").isProblem(400).message(""))
                .isEqualTo("is missing: a JSON document");
    }

    @Test
    void nestingHasALimit() {
        String deep = "{\"more\":[".repeat(15) + "]}".repeat(15);
        assertThat(sample(deep).status()).isEqualTo(200);
        String deeper = "{\"more\":[".repeat(40) + "]}".repeat(40);
        assertThat(sample(deeper).isProblem(400).json().at("/errors/0/message").asString())
                .contains("nested at most 32 deep");
        sample("[".repeat(100_000)).isProblem(400);
        sample("{\"x\":" + "[".repeat(5000) + "]".repeat(5000) + "}").isProblem(400);
    }

    @Test
    void numbersOfManyDigitsAreToldAtTheirField() {
        assertThat(sample("{\"number\":0." + "3".repeat(90) + "}").status()).isEqualTo(200);
        assertThat(
                        sample("{\"number\":" + "9".repeat(200_000) + ",\"whole\":\"x\"}")
                                .isProblem(400)
                                .pointers())
                .containsExactly("/number", "/whole");
        assertThat(sample("{\"decimal\":" + "9".repeat(1_000_000) + "}").isProblem(400).pointers())
                .containsExactly("/decimal");
    }

    @Test
    void aBodyOverOneMebibyteIsTooLarge() {
        String frame = "{\"text\":\"\"}";
        String largest = "{\"text\":\"" + "x".repeat((1 << 20) - frame.length()) + "\"}";
        assertThat(sample(largest).status()).isEqualTo(200);
        sample(largest + " ").isProblem(413);
        Answer.to(
                        java.net.http.HttpRequest.newBuilder(java.net.URI.create(at("/sample")))
                                .header("Content-Type", "application/json")
                                .POST(
                                        java.net.http.HttpRequest.BodyPublishers.ofInputStream(
                                                () ->
                                                        new java.io.ByteArrayInputStream(
                                                                new byte[1_500_000]))))
                .isProblem(413);
        Answer.post(at("/sample"), "application/json", new byte[20_000_000]).isProblem(413);
    }

    @Test
    void manyFaultsAreToldUpToAHundred() {
        Answer answer = sample("{\"wholes\":[" + "true,".repeat(5000) + "1]}").isProblem(400);
        assertThat(answer.pointers()).hasSize(101);
        assertThat(answer.message("")).isEqualTo("has 4900 more faults");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "application/problem+json",
                "application/vnd.example+json",
                "application/yaml",
                "application/x-yaml",
                "text/yaml",
                "application/xml",
                "text/xml",
                "application/cbor",
                "text/plain",
                "text/json",
                "application/x-www-form-urlencoded",
                "multipart/form-data; boundary=x",
                "application/octet-stream",
                "application/json;charset=utf-16",
                "application/json;charset=iso-8859-1",
                "*/*",
                "nonsense"
            })
    void otherKindsOfBodyAreRefused(String contentType) {
        Answer.post(at("/sample"), contentType, "{\"text\":\"a\"}".getBytes(StandardCharsets.UTF_8))
                .isProblem(415);
    }

    @Test
    void aBodyWithoutContentTypeOrWithAnEncodingIsRefused() {
        var body = java.net.http.HttpRequest.BodyPublishers.ofString("{\"text\":\"a\"}");
        var uri = java.net.URI.create(at("/sample"));
        Answer.to(java.net.http.HttpRequest.newBuilder(uri).POST(body)).isProblem(415);
        Answer.to(
                        java.net.http.HttpRequest.newBuilder(uri)
                                .header("Content-Type", "application/json")
                                .header("Content-Encoding", "gzip")
                                .POST(body))
                .isProblem(415);
    }

    @Test
    void onlyUtf8IsRead() {
        byte[] utf16 = "{\"text\":\"a\"}".getBytes(StandardCharsets.UTF_16LE);
        Answer.post(at("/sample"), "application/json", utf16).isProblem(400);
        byte[] latin = "{\"text\":\"\u00e4\"}".getBytes(StandardCharsets.ISO_8859_1);
        Answer answer = Answer.post(at("/sample"), "application/json", latin).isProblem(400);
        assertThat(answer.message("")).isEqualTo("is not UTF-8 text");
        Answer withMark =
                Answer.post(
                        at("/sample"),
                        "application/json; charset=UTF-8",
                        "\uFEFF{\"text\":\"\u00e4\"}".getBytes(StandardCharsets.UTF_8));
        assertThat(withMark.json().get("text").asString()).isEqualTo("ä");
    }

    @Test
    void anAnswerThatCannotBeServedIsRefused() {
        Answer.to(
                        java.net.http.HttpRequest.newBuilder(java.net.URI.create(at("/sample")))
                                .header("Content-Type", "application/json")
                                .header("Accept", "application/yaml")
                                .POST(
                                        java.net.http.HttpRequest.BodyPublishers.ofString(
                                                "{\"text\":\"a\"}")))
                .isProblem(406);
    }

    @Test
    void aShopBookIsReadAsStrictly() {
        Answer answer =
                Answer.postJson(
                                at("/shop-book"),
                                """
                        {"currency":"EURO","tools":[{"kind":"hammer","surface":3}],"familyBite":{"stainless":"0.4"},
                         "times":{"handling":[{"people":1.5}],"corrections":{}},"standards":[{"unit":"furlong"}],
                         "workCentres":[{"labourRate":{"amount":"42,00","currency":"EUR"}}],
                         "priceScheme":{"kind":"simple","minimumOrder":{"amount":"1e3","currency":"XXX"}},"gradez":[]}
                        """)
                        .isProblem(400);
        assertThat(answer.pointers())
                .containsExactlyInAnyOrder(
                        "/currency",
                        "/tools/0/kind",
                        "/tools/0/surface",
                        "/familyBite/stainless",
                        "/times/handling/0/people",
                        "/times/corrections",
                        "/standards/0/unit",
                        "/workCentres/0/labourRate/amount",
                        "/priceScheme/minimumOrder/amount",
                        "/priceScheme/minimumOrder/currency",
                        "/gradez");
    }
}
