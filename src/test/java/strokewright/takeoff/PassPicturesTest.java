package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.EN;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import strokewright.estimate.Estimate;

class PassPicturesTest {

    private final PassPictures pictures = new PassPictures(EN);

    @Test
    void rowsAreToldWithStrainAndPassesTheEdgeFirst() {
        Estimate.Line line = Guard.line("Rim", 1);

        String rows = pictures.of(line, "x").get(0);

        assertThat(rows)
                .contains(
                        "Strain by row: at the edge 47.0 %% in %d passes, 30 mm from the edge 13.4 %% in %d passes."
                                .formatted(line.passes().get(1), line.passes().get(0)));
    }

    @Test
    void aPassPlanTellsWhatHoldsEachPassAndWhereToAnneal() {
        Estimate.Line line = Guard.line("Skirt", 1);

        String plan = pictures.of(line, "x").get(1);

        int passes = line.passes().get(line.passes().size() - 1);
        assertThat(plan)
                .contains("stretch 3, worked most, R 90")
                .contains(passes + " passes of the outermost row to 40.5 % strain.")
                .contains("Passes 1 to 6 held by the bite. Pass 7 held by both.")
                .contains("held by both.")
                .contains("held by the stroke work.")
                .containsPattern("Anneal after pass \\d+\\.")
                .contains("Then 2 correction passes.")
                .contains(">anneal</text>");
    }

    /** One stair for each pass, and the corrections on the level behind. */
    @Test
    void theStairsClimbToTheFullStrain() {
        Estimate.Line line = Guard.line("Skirt", 2);
        String plan = pictures.of(line, "x").get(1);
        Matcher stairs = Pattern.compile("class=\"ink\" d=\"M50 132.0([VH0-9.]+)\"").matcher(plan);

        assertThat(stairs.find()).isTrue();
        List<String> rises = Pattern.compile("V").splitAsStream(stairs.group(1)).toList();
        assertThat(rises).hasSize(1 + line.passes().get(0));
        assertThat(rises.get(rises.size() - 1)).startsWith("26H").endsWith("H350");
    }

    @Test
    void aDishShowsItsRingsWithTheCrownAndAPlanForEach() {
        List<String> all = pictures.of(Guard.line("Bowl", 1), "x");

        assertThat(all).hasSize(3);
        assertThat(all.get(0)).contains("Strain by ring: at the edge", "crown 9.7 % in 7 passes");
        assertThat(all.get(1)).contains("Pass plan, rim");
        assertThat(all.get(2)).contains("Pass plan, crown").doesNotContain("correction");
    }

    @Test
    void aMetalThatGoesByAStrainPerPassSaysSo() {
        Reckoned zinc =
                Reckoned.of(
                        SmallShop.roundFrame().with("/parts/p1/grade", "manual"),
                        SmallShop.BOOK,
                        EN);

        String plan = pictures.of(zinc.lines().get("/parts/p1/operations/o1"), "x").get(1);

        assertThat(plan).contains("a stated strain per pass").doesNotContain("bite");
    }

    @Test
    void workThatPutsNoStrainInHasNone() {
        assertThat(pictures.of(Guard.line("Bowl", 2), "x")).isEmpty();
        assertThat(pictures.of(Guard.line("Rim", 3), "x")).isEmpty();
    }

    @Test
    void everyPictureOfAPageHasItsOwnId() {
        List<String> all = pictures.of(Guard.line("Bowl", 1), "x");
        assertThat(all.stream().map(p -> p.replaceAll(".*?<title id=\"([^\"]+)\".*", "$1")))
                .doesNotHaveDuplicates();
    }
}
