package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.estimate.TakeOff;
import strokewright.web.Numbers;

class TakeOffTypingTest {

    /** Every field of every kind of line, none at its default. */
    private static final String EVERYTHING =
            """
            {"title":"Everything","information":"old-part","quantities":[3,1000],"mainQuantity":1000,"alreadyMade":4,"proveFirst":false,
             "parts":[{"name":"A","perAssembly":2,"grade":"G","thicknessMm":0.8125,"massKg":1234.567,
               "blank":{"lengthMm":1950.25,"widthMm":0.1},"surface":"visible","edge":"sheared","templateGapMm":0.3,
               "tolerance":"f","supply":"customer","machine":"Big one",
               "operations":[
                {"type":"curve-edge","sense":"stretch","lengthMm":1885.1,"radiusMm":1300,"startRadiusMm":9000,"heightMm":40,"count":3,"reachMm":12.5,"tool":"T","override":{"minutes":12.25,"reason":"seen before"}},
                {"type":"turn-flange","sense":"shrink","radiusMm":60,"heightMm":12,"angleDeg":45,"sweepDeg":180.5,"count":2},
                {"type":"dish","diameterMm":400,"depthMm":20,"rimShare":0.25,"trimMm":5,"tool":"T","crownTool":"C"},
                {"type":"smooth","areaMm2":150000,"timesOver":2},
                {"type":"flatten","areaMm2":12345.678,"timesOver":3,"reachMm":1},
                {"type":"take-out-dents","spots":6,"strokesPerSpot":77},
                {"type":"follow-outline","path":"M0 0\\nH250.5 A60 60 0 0 1 310 60","heightMm":20,"flange":"outside","count":2,"tool":"T","stretchTool":"S"},
                {"type":"follow-outline","segments":[{"lengthMm":1200},{"lengthMm":0.1,"radiusMm":-1300.25}],"heightMm":7},
                {"type":"standard","standard":"Guillotine cut","amount":1e-7}]},
              {"name":"B","grade":"G","thicknessMm":12345678.5,"operations":[]},
              {"name":"In gauge","grade":"G","thicknessMm":1.51892,"gauge":"16 ga steel","operations":[]},
              {"name":"By weight","grade":"G","thicknessMm":0.6858,"gauge":"20 oz copper","operations":[]},
              {"name":"C","grade":"G","thicknessMm":1.5,"grain":"along-length","irreplaceable":true,"dimensions":7,"operations":[],
               "fold":{"lengthMm":1250.5,"legsMm":[20,50.25,30],
                 "bends":[{"openingDeg":90,"radiusMm":1.5},{"openingDeg":135.5,"radiusMm":0,"way":"down"}]}}],
             "assembly":[{"type":"standard","standard":"TIG weld","amount":1.9}],
             "extras":[{"name":"=Powder","per":"piece","kind":"special-direct","cost":{"amount":"1234.50","currency":"EUR"}}]}
            """;

    @ParameterizedTest
    @MethodSource("takeOffs")
    void whatIsTypedAgainReadsAsTheSame(TakeOff takeOff) {
        for (Numbers numbers : new Numbers[] {SmallShop.EN, SmallShop.DE}) {
            TakeOffReading.Read read =
                    TakeOffReading.read(
                            TakeOffTyping.of(takeOff, SmallShop.BOOK, numbers),
                            SmallShop.BOOK,
                            numbers,
                            Set.of());

            assertThat(read.faults()).isEmpty();
            assertThat(Situations.JSON.writeValueAsString(read.takeOff()))
                    .isEqualTo(Situations.JSON.writeValueAsString(takeOff));
        }
    }

    static Stream<TakeOff> takeOffs() {
        return Stream.concat(
                Stream.concat(
                        Stream.of(Situations.takeOff(EVERYTHING)), Situations.takeOffs().stream()),
                Stream.of("round-sign-frame", "copper-bowl", "counter-edge", "cover-with-dents")
                        .map(TakeOffTypingTest::demo));
    }

    private static TakeOff demo(String name) {
        try (InputStream in =
                TakeOffTypingTest.class.getResourceAsStream(
                        "/demo-data/quotes/" + name + ".json")) {
            return Situations.JSON.readValue(in, TakeOff.class);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
