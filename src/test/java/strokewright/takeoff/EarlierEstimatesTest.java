package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import strokewright.access.Documents;
import strokewright.estimate.Estimate;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Estimates that an earlier method stored lack what came later, and are read all the same. */
class EarlierEstimatesTest {

    @Test
    void estimateOfMethodOneIsReadAndShown() {
        Documents documents = new Documents();
        Estimate today =
                Reckoned.of(SmallShop.roundFrame(), SmallShop.BOOK, SmallShop.EN).estimate();
        ObjectNode stored = (ObjectNode) JsonMapper.shared().readTree(documents.write(today));
        stored.remove("plan");
        stored.get("quantities")
                .forEach(q -> ((ObjectNode) q).remove(List.of("passage", "provingRound")));
        Estimate read = documents.read(stored.toString(), Estimate.class);

        assertThat(read.operations()).isEqualTo(today.operations());
        assertThat(read.plan()).isNull();
        assertThat(read.quantities())
                .allSatisfy(q -> assertThat(Words.passage(q)).matches("\\d+ tool changes?"));
    }
}
