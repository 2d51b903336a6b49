package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.estimate.ShopBook;
import tools.jackson.databind.JsonNode;

class DraftsTests extends ServiceTest {

    private static final String NAME = "name";
    private static final Drafts.By HERE = new Drafts.By(1, "page one");
    private static final Drafts.By THERE = new Drafts.By(1, "page two");

    @Autowired private Drafts drafts;
    @Autowired private ShopBooks books;

    private SignedIn owner;

    @BeforeEach
    void aShop() {
        TestShop shop = openShop();
        owner = shop.user(Role.OWNER);
    }

    @Test
    void beginsWithTheFirstChangeAndIsTheCurrentEditionUntilThen() {
        owner.run(
                () -> {
                    assertThat(drafts.facts()).isEmpty();
                    Draft before = drafts.now();
                    rename(HERE, 1, 0L, "Shrink, first pair");
                    Drafts.Facts facts = drafts.facts().orElseThrow();
                    assertThat(facts.base()).isEqualTo(1);
                    assertThat(facts.changedBy()).isEqualTo("The owner");
                    Draft after = drafts.now();
                    assertThat(after.nameOf("tools", 1)).isEqualTo("Shrink, first pair");
                    assertThat(after.rows().keySet()).isEqualTo(before.rows().keySet());
                    assertThat(after.row("tools", 2).orElseThrow().values())
                            .isEqualTo(
                                    reread(before.row("tools", 2).orElseThrow().values(), after));
                });
    }

    @Test
    void ofTwoWhoChangeOneRowTheSecondIsToldAndNothingOfTheFirstIsLost() {
        owner.run(
                () -> {
                    assertThat(rename(HERE, 1, 0L, "Mine").fate()).isEqualTo(Drafts.Fate.KEPT);
                    Drafts.Sent second = rename(THERE, 1, 0L, "Theirs");
                    assertThat(second.fate()).isEqualTo(Drafts.Fate.CHANGED_MEANWHILE);
                    assertThat(second.who()).isEqualTo("The owner");
                    assertThat(drafts.now().nameOf("tools", 1)).isEqualTo("Mine");
                    assertThat(rename(THERE, 1, null, "Theirs").fate()).isEqualTo(Drafts.Fate.KEPT);
                    assertThat(drafts.now().nameOf("tools", 1)).isEqualTo("Theirs");
                });
    }

    @Test
    void twoRowsAreChangedBesideEachOtherAndOnePageNeverStandsAgainstItself() {
        owner.run(
                () -> {
                    assertThat(rename(HERE, 1, 0L, "A").fate()).isEqualTo(Drafts.Fate.KEPT);
                    assertThat(rename(THERE, 2, 0L, "B").fate()).isEqualTo(Drafts.Fate.KEPT);
                    // the answer to the first was lost: the page still knows the old version
                    assertThat(rename(HERE, 1, 0L, "A once more").fate())
                            .isEqualTo(Drafts.Fate.KEPT);
                    assertThat(drafts.now().all("tools").values()).contains("A once more", "B");
                });
    }

    @Test
    void whatIsTypedIntoARowThatWasTakenOutIsToldAndCanPutItBack() {
        BookSection tools = BookParts.section("tools").orElseThrow();
        owner.run(
                () -> {
                    drafts.remove(HERE, tools, 1);
                    assertThat(drafts.now().rowOf("tools", "Shrink, soft-faced")).isEmpty();
                    assertThat(rename(THERE, 1, 0L, "Still wanted").fate())
                            .isEqualTo(Drafts.Fate.REMOVED_MEANWHILE);
                    assertThat(rename(THERE, 1, null, "Still wanted").fate())
                            .isEqualTo(Drafts.Fate.KEPT);
                    assertThat(drafts.now().rowOf("tools", "Still wanted")).hasValue(1);
                });
    }

    @Test
    void rowsAreAddedCopiedMovedAndTakenOut() {
        BookSection handling = BookParts.section("handling").orElseThrow();
        BookSection tools = BookParts.section("tools").orElseThrow();
        owner.run(
                () -> {
                    int copy = drafts.copy(HERE, tools, 1);
                    int again = drafts.copy(HERE, tools, 1);
                    assertThat(drafts.now().all("tools").values().stream().limit(3))
                            .containsExactly(
                                    "Shrink, soft-faced",
                                    "Shrink, soft-faced copy 2",
                                    "Shrink, soft-faced copy");
                    assertThat(copy).isNotEqualTo(again);
                    drafts.move(HERE, handling, 1, 1);
                    drafts.move(HERE, handling, 1, -1);
                    drafts.move(HERE, handling, 1, -1);
                    drafts.move(HERE, handling, 3, 1);
                    int added = drafts.add(HERE, handling);
                    drafts.remove(HERE, handling, 2);
                    assertThat(drafts.now().living(handling))
                            .extracting(Draft.Row::id)
                            .containsExactly(1, 4, 3, 5, added);
                    drafts.putBack(HERE, handling, 2);
                    assertThat(drafts.now().living(handling))
                            .extracting(Draft.Row::id)
                            .containsExactly(1, 2, 4, 3, 5, added);
                });
    }

    @Test
    void isPutAsideAndTakenUpAgain() {
        owner.run(
                () -> {
                    rename(HERE, 1, 0L, "Kept aside");
                    drafts.giveUp();
                    assertThat(drafts.facts()).isEmpty();
                    assertThat(drafts.hasAside()).isTrue();
                    drafts.takeUp();
                    assertThat(drafts.now().nameOf("tools", 1)).isEqualTo("Kept aside");
                    assertThat(drafts.hasAside()).isFalse();
                });
    }

    @Test
    void aPageOfADraftThatIsOverKeepsNothing() {
        owner.run(
                () -> {
                    ShopBook current = books.current();
                    books.change(current.withPassLimits(one(current)), "\"1\"", "measured");
                    assertThatThrownBy(() -> rename(HERE, 1, 0L, "Late"))
                            .isInstanceOf(Drafts.Over.class);
                    assertThat(drafts.facts()).isEmpty();
                });
    }

    /** Ten at once, each at a row of their own: all of it is there, and one draft was begun. */
    @Test
    void manyAtOnceLoseNothing() {
        Set<String> wanted = ConcurrentHashMap.newKeySet();
        IntStream.rangeClosed(1, 10)
                .parallel()
                .forEach(
                        i ->
                                owner.run(
                                        () -> {
                                            String name = "Tool " + i;
                                            wanted.add(name);
                                            rename(new Drafts.By(1, "page " + i), i, 0L, name);
                                        }));
        owner.run(
                () -> {
                    assertThat(drafts.now().all("tools").values()).containsAll(wanted);
                    assertThat(drafts.facts().orElseThrow().version()).isEqualTo(10);
                });
    }

    private static java.util.List<ShopBook.PassLimit> one(ShopBook book) {
        return java.util.List.of(
                new ShopBook.PassLimit(
                        book.tools().get(0).name(), "copper", 0.01, null, null, "measured"));
    }

    private Drafts.Sent rename(Drafts.By by, int row, Long version, String name) {
        return drafts.keep(
                by,
                "tools",
                row,
                version,
                there -> {
                    Map<String, JsonNode> values = new LinkedHashMap<>(there.values());
                    values.put(NAME, Kind.JSON.stringNode(name));
                    return there.with(values);
                });
    }

    /** The numbers of a stored row are the same, whatever class carries them. */
    private static Map<String, JsonNode> reread(Map<String, JsonNode> values, Draft stored) {
        Map<String, JsonNode> there = stored.row("tools", 2).orElseThrow().values();
        assertThat(there.keySet()).isEqualTo(values.keySet());
        values.forEach((path, value) -> assertThat(BookTree.same(value, there.get(path))).isTrue());
        return there;
    }
}
