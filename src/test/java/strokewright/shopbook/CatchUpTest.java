package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.shopbook.DraftReadingTest.read;
import static strokewright.shopbook.DraftReadingTest.typed;

import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

class CatchUpTest {

    private static final Documents DOCUMENTS = new Documents();
    private static final ShopBook STARTER =
            new StarterBook(DOCUMENTS).in(Currency.getInstance("EUR")).withEdition(1);

    @Test
    void whatWasAddedMeanwhileAndWhatTheDraftChangedAreBothThere() {
        Draft mine = typed(DraftReadingTest.draft(), "tools", 2, "pitchMm", "4", Locale.UK);
        mine = typed(mine, "work-centres", 2, "name", "Shears", Locale.UK);
        ShopBook measured = STARTER.withPassLimits(List.of(limit("stainless"))).withEdition(2);
        CatchUp caught = caughtUp(mine, measured);
        assertThat(caught.told()).isEmpty();
        assertThat(caught.draft().base()).isEqualTo(2);
        assertThat(differences(measured, caught.draft()))
                .containsExactlyInAnyOrder(
                        "Tools / "
                                + STARTER.tools().get(1).name()
                                + " / Pitch: "
                                + Numbers.of(Locale.UK).show(STARTER.tools().get(1).pitchMm())
                                + "\u00a0mm → 4\u00a0mm",
                        "Work centres / "
                                + STARTER.workCentres().get(1).name()
                                + " → Shears / Name: "
                                + STARTER.workCentres().get(1).name()
                                + " → Shears");
        assertThat(read(caught.draft(), Locale.UK).faults()).isEmpty();
    }

    @Test
    void whatBothChangedStaysTheDraftsAndIsTold() {
        Draft mine =
                typed(
                        DraftReadingTest.draft(),
                        "price-scheme",
                        1,
                        "profitPercent",
                        "20",
                        Locale.UK);
        String raised =
                DOCUMENTS
                        .write(STARTER.withEdition(2))
                        .replaceFirst("\"profitPercent\":[0-9.]+", "\"profitPercent\":15");
        CatchUp caught = caughtUp(mine, DOCUMENTS.read(raised, ShopBook.class));
        assertThat(caught.told())
                .containsExactly(
                        "Price scheme, Profit: the new edition says 15\u00a0%, the draft 20\u00a0%;"
                                + " the draft’s stays");
        assertThat(read(caught.draft(), Locale.UK).book().priceScheme().profitPercent())
                .isEqualTo(20);
    }

    @Test
    void namesGoOnMeaningTheSameRowsWhereNumbersShift() {
        // the new edition has lost its first standard, so that all others moved up
        List<ShopBook.Standard> fewer = new ArrayList<>(STARTER.standards());
        fewer.remove(0);
        String without = DOCUMENTS.write(STARTER.withEdition(2));
        ShopBook now = DOCUMENTS.read(replaceStandards(without, fewer), ShopBook.class);
        Draft mine = DraftReadingTest.draft();
        int press = mine.rowOf("standards", STARTER.routes().pressStandard()).orElseThrow();
        mine = typed(mine, "standards", press, "name", "One press stroke", Locale.UK);
        mine = typed(mine, "routes", 1, "heatShrinkStandard", "row " + press, Locale.UK);
        ShopBook book = read(caughtUp(mine, now).draft(), Locale.UK).book();
        assertThat(book.routes().pressStandard()).isEqualTo("One press stroke");
        assertThat(book.routes().heatShrinkStandard()).isEqualTo("One press stroke");
        assertThat(book.standards()).hasSize(STARTER.standards().size() - 1);
    }

    @Test
    void aRowThatIsGoneComesBackOnlyWhereTheDraftChangedIt() {
        List<ShopBook.Standard> fewer = new ArrayList<>(STARTER.standards());
        ShopBook.Standard first = fewer.remove(0);
        ShopBook now =
                DOCUMENTS.read(
                        replaceStandards(DOCUMENTS.write(STARTER.withEdition(2)), fewer),
                        ShopBook.class);
        assertThat(
                        read(caughtUp(DraftReadingTest.draft(), now).draft(), Locale.UK)
                                .book()
                                .standards())
                .isEqualTo(fewer);
        Draft mine =
                typed(DraftReadingTest.draft(), "standards", 1, "minutesPerUnit", "99", Locale.UK);
        CatchUp caught = caughtUp(mine, now);
        assertThat(caught.told()).singleElement().asString().startsWith(first.name());
        assertThat(
                        read(caught.draft(), Locale.UK)
                                .book()
                                .standard(first.name())
                                .orElseThrow()
                                .minutesPerUnit())
                .isEqualTo(99);
    }

    private static String replaceStandards(String book, List<ShopBook.Standard> standards) {
        tools.jackson.databind.node.ObjectNode root =
                DOCUMENTS.read(book, tools.jackson.databind.node.ObjectNode.class);
        root.set(
                "standards",
                DOCUMENTS.read(
                        DOCUMENTS.write(standards), tools.jackson.databind.node.ArrayNode.class));
        return root.toString();
    }

    private static ShopBook.PassLimit limit(String family) {
        return new ShopBook.PassLimit(
                STARTER.tools().get(0).name(), family, 0.006, null, null, "measured");
    }

    private static CatchUp caughtUp(Draft mine, ShopBook current) {
        return CatchUp.of(mine, STARTER, current, mine.with(Numbers.of(Locale.UK)), DOCUMENTS);
    }

    private static List<String> differences(ShopBook from, Draft draft) {
        return DifferencesTest.told(
                Differences.between(
                        BookTree.of(from, DOCUMENTS),
                        read(draft, Locale.UK).tree(),
                        draft.with(Numbers.of(Locale.UK))));
    }
}
