package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Currency;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import strokewright.access.Documents;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;
import tools.jackson.databind.JsonNode;

class DraftReadingTest {

    private static final Documents DOCUMENTS = new Documents();
    private static final ShopBook STARTER =
            new StarterBook(DOCUMENTS).in(Currency.getInstance("EUR")).withEdition(1);
    private static final List<String> TYPED =
            List.of(
                    "",
                    "abc",
                    "0",
                    "-1",
                    "1,5",
                    "1.234",
                    "12 1/2 in",
                    "1e9",
                    "999999999999999999",
                    "16 ga",
                    "20 oz",
                    "row 1",
                    "row 99",
                    "name Nothing",
                    "yes",
                    "built",
                    "k-factor",
                    "simple",
                    "😀",
                    "…",
                    "0.50",
                    "log-normal");

    static IntStream seeds() {
        return IntStream.range(0, 60);
    }

    @Test
    void anUntouchedDraftIsTheBookItself() {
        Draft draft = draft();
        DraftReading reading = read(draft, Locale.UK);
        assertThat(reading.faults()).isEmpty();
        assertThat(reading.book().withEdition(1)).isEqualTo(STARTER);
    }

    /**
     * What is shown in a form and sent back untouched changes nothing, in either manner of writing.
     */
    @Test
    void whatIsShownAndSentBackStaysTheSame() {
        for (Locale locale : List.of(Locale.UK, Locale.GERMANY)) {
            Draft draft = draft();
            Kind.With with = draft.with(Numbers.of(locale));
            for (BookSection section : BookParts.sections()) {
                for (Draft.Row row : draft.all(section)) {
                    Draft.Row back = new TypedRow(shown(section, row, with)).in(section, row, with);
                    assertThat(back.values()).as(section.key()).isEqualTo(row.values());
                }
            }
        }
    }

    @Test
    void readsWhatIsTypedInTheMannerOfItsWriter() {
        Draft draft = typed(draft(), "tools", 1, "biteStrain", "1,35", Locale.GERMANY);
        draft = typed(draft, "grades", 1, "densityKgM3", "2,705", Locale.GERMANY);
        draft = typed(draft, "sheets", 1, "thicknessMm", "16 ga steel", Locale.GERMANY);
        draft = typed(draft, "machines", 1, "throatMm", "24 in", Locale.GERMANY);
        draft = typed(draft, "work-centres", 1, "labourRate", "43,5 eur", Locale.GERMANY);
        ShopBook book = read(draft, Locale.GERMANY).book();
        assertThat(book.tools().get(0).biteStrain()).isEqualTo(0.0135);
        assertThat(book.grades().get(0).densityKgM3()).isEqualTo(2.705);
        assertThat(book.sheets().get(0).thicknessMm()).isEqualTo(1.51892); // 0.0598 in
        assertThat(book.machines().get(0).throatMm()).isEqualTo(609.6);
        assertThat(book.workCentres().get(0).labourRate().toString()).isEqualTo("43.5 EUR");
    }

    /** 16 ga and 20 oz of charts: 0.0508, 0.0598, 0.0635, 0.0625, 0.0270 in. */
    @ParameterizedTest
    @CsvSource({
        "AL99.5-O,16 ga,1.29032",
        "DC04,16 ga,1.51892",
        "DX51D+Z,16 ga,1.6129",
        "X5CRNI18-10,#16,1.5875",
        "CUZN30,gauge 16,1.29032",
        "CU-DHP-R220,16 ga,1.29032",
        "CU-DHP-R220,20 oz,0.6858",
        "ZN-CU-TI,16 ga steel,1.51892"
    })
    void aBareGaugeOfASheetGoesByTheGradeOfItsRow(String grade, String typed, double mm) {
        int sheet = sheetOf(grade);
        Draft draft = typed(draft(), "sheets", sheet, "thicknessMm", typed, Locale.GERMANY);
        DraftReading reading = read(draft, Locale.GERMANY);
        assertThat(reading.faults()).isEmpty();
        assertThat(reading.book().sheets().get(sheet - 1).thicknessMm()).isEqualTo(mm);
    }

    /** It stays as it was typed, so the sheet is as thick as the grade that is chosen has it. */
    @Test
    void anotherGradeMakesAnotherThicknessOfATypedGauge() {
        int sheet = sheetOf("DC04");
        Draft draft = typed(draft(), "sheets", sheet, "thicknessMm", "16 ga", Locale.UK);
        int stainless = draft.rowOf("grades", "X5CRNI18-10").orElseThrow();
        draft = typed(draft, "sheets", sheet, "grade", "row " + stainless, Locale.UK);
        assertThat(read(draft, Locale.UK).book().sheets().get(sheet - 1).thicknessMm())
                .isEqualTo(1.5875);
        Draft.Row row = draft.row("sheets", sheet).orElseThrow();
        BookField field =
                BookParts.section("sheets").orElseThrow().field("thicknessMm").orElseThrow();
        assertThat(
                        field.kind()
                                .typed(
                                        row.values().get("thicknessMm"),
                                        draft.with(Numbers.of(Locale.UK))))
                .isEqualTo("16 ga");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "ZN-CU-TI | 16 ga | gauge 16 of which metal? steel 1.519 mm, galvanised 1.613 mm,"
                        + " stainless 1.588 mm, aluminium 1.290 mm. Type 16 ga and the metal, or the"
                        + " thickness in mm or inch",
                "DC04 | 2 ga | gauge 2 is not in the table for steel: type the thickness in mm or inch",
                "DX51D+Z | 4 ga | gauge 4 is not in the table for galvanised: type the thickness in mm"
                        + " or inch",
                "DC04 | 20 oz | only copper goes by its weight per square foot: 20 oz of it is 0.686 mm."
                        + " Type 20 oz copper, or the thickness in mm, inch or gauge"
            })
    void aGaugeThatTheMetalOfTheRowDoesNotHaveIsTold(String grade, String typed, String told) {
        Draft draft = typed(draft(), "sheets", sheetOf(grade), "thicknessMm", typed, Locale.UK);
        assertThat(read(draft, Locale.UK).faults())
                .singleElement()
                .satisfies(f -> assertThat(f.path()).isEqualTo("thicknessMm"))
                .satisfies(f -> assertThat(f.message()).isEqualTo(told));
    }

    @Test
    void aToolsLimitIsSaidOfSteelAndAMachinesAsksWhichMetal() {
        Draft draft = typed(draft(), "tools", 1, "maxThicknessMm", "12 ga", Locale.UK);
        assertThat(read(draft, Locale.UK).book().tools().get(0).maxThicknessMm())
                .isEqualTo(2.65684); // 0.1046 in
        draft = typed(draft, "machines", 1, "ratedThicknessMm", "8 ga", Locale.UK);
        assertThat(read(draft, Locale.UK).faults())
                .singleElement()
                .satisfies(
                        f ->
                                assertThat(f.message())
                                        .startsWith("gauge 8 of which metal? steel 4.176 mm"));
        draft = typed(draft, "machines", 1, "ratedThicknessMm", "8 ga steel", Locale.UK);
        DraftReading reading = read(draft, Locale.UK);
        assertThat(reading.faults()).isEmpty();
        assertThat(reading.book().machines().get(0).ratedThicknessMm()).isEqualTo(4.17576);
    }

    private static int sheetOf(String grade) {
        return STARTER.sheets().stream().map(ShopBook.Sheet::grade).toList().indexOf(grade) + 1;
    }

    @Test
    void keepsWhatCannotBeReadAndSaysWhatWouldBeRight() {
        Draft draft = typed(draft(), "standards", 3, "minutesPerUnit", "ten", Locale.UK);
        DraftReading reading = read(draft, Locale.UK);
        assertThat(
                        Kept.text(
                                draft.row("standards", 3)
                                        .orElseThrow()
                                        .values()
                                        .get("minutesPerUnit")))
                .isEqualTo("ten");
        assertThat(reading.faults()).hasSize(1);
        DraftReading.Told told = reading.faults().get(0);
        assertThat(told.path()).isEqualTo("minutesPerUnit");
        assertThat(told.row().id()).isEqualTo(3);
        assertThat(told.message()).isEqualTo("must be a number, like 12.5");
    }

    @Test
    void tellsBoundsInTheUnitAndTheMannerOfTheField() {
        Draft draft = typed(draft(), "tools", 1, "biteStrain", "30", Locale.GERMANY);
        assertThat(read(draft, Locale.GERMANY).faults())
                .extracting(DraftReading.Told::message)
                .containsExactly("must be from 0,05 to 20");
    }

    @Test
    void tellsOtherFieldsByTheirLabels() {
        Draft draft = typed(draft(), "grades", 1, "proofMpa", "95", Locale.UK);
        assertThat(read(draft, Locale.UK).faults())
                .extracting(DraftReading.Told::message)
                .contains("must be at most “Tensile strength”, which is 90");
    }

    @Test
    void renamingRenamesEveryUse() {
        Draft draft = typed(draft(), "work-centres", 1, "name", "Forming bay", Locale.UK);
        draft = typed(draft, "standards", 9, "name", "Cut on the shears", Locale.UK);
        draft = typed(draft, "families", 1, "family", "soft aluminium", Locale.UK);
        DraftReading reading = read(draft, Locale.UK);
        assertThat(reading.faults()).isEmpty();
        ShopBook book = reading.book();
        assertThat(book.times().formingWorkCentre()).isEqualTo("Forming bay");
        assertThat(book.grades().get(0).family()).isEqualTo("soft aluminium");
        assertThat(book.familyBite()).containsKey("soft aluminium");
        assertThat(book.standards())
                .filteredOn(s -> "Forming bay".equals(s.workCentre()))
                .hasSameSizeAs(
                        STARTER.standards().stream()
                                .filter(s -> s.workCentre().equals("Forming"))
                                .toList());
    }

    /** While a name is typed it may be empty for a moment, or another row's. */
    @Test
    void aNameThatIsAnotherRowsForAMomentMixesNoUses() {
        Draft draft = typed(draft(), "work-centres", 1, "name", "Cutting", Locale.UK);
        assertThat(read(draft, Locale.UK).faults()).isNotEmpty();
        draft = typed(draft, "work-centres", 1, "name", "", Locale.UK);
        draft = typed(draft, "work-centres", 1, "name", "Forming", Locale.UK);
        assertThat(read(draft, Locale.UK).book().withEdition(1)).isEqualTo(STARTER);
    }

    @Test
    void aRowTakenOutLeavesAFaultWhereItIsUsed() {
        Draft draft = draft();
        int tig = draft.rowOf("standards", "TIG weld").orElseThrow();
        assertThat(draft.usesOf("standards", tig))
                .extracting(u -> u.section().key())
                .contains("routes");
        Draft without = changed(draft, "standards", tig, r -> removed(r));
        assertThat(read(without, Locale.UK).faults())
                .anySatisfy(
                        told -> {
                            assertThat(told.section().key()).isEqualTo("routes");
                            assertThat(told.path()).isEqualTo("jointStandards/1");
                            assertThat(told.message()).startsWith("names no time standard");
                        });
    }

    @Test
    void faultsOfAShortListStandAtTheLineThatWasTyped() {
        Draft draft = typed(draft(), "sheets", 1, "breaks/1/from", "50", Locale.UK);
        draft = typed(draft, "sheets", 1, "breaks/1/price", "5", Locale.UK);
        draft = typed(draft, "sheets", 1, "breaks/4/from", "40", Locale.UK);
        draft = typed(draft, "sheets", 1, "breaks/4/price", "4", Locale.UK);
        DraftReading reading = read(draft, Locale.UK);
        assertThat(reading.book().sheets().get(0).breaks()).hasSize(2);
        assertThat(reading.faults())
                .extracting(DraftReading.Told::path)
                .containsExactly("breaks/4/from");
    }

    @Test
    void aBuildUpCountsOnlyWhereItIsSaidTo() {
        Draft draft = typed(draft(), "times", 1, "machineAllowanceBasis/liftedKg", "10", Locale.UK);
        assertThat(read(draft, Locale.UK).book().times().machineAllowanceBasis()).isNull();
        draft = typed(draft, "times", 1, "machineAllowanceBasis", "built", Locale.UK);
        assertThat(read(draft, Locale.UK).book().times().machineAllowanceBasis().liftedKg())
                .isEqualTo(10);
    }

    /** Whatever is typed wherever: nothing breaks, and every fault has a field or a row. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whateverIsTypedIsReadAndToldAtItsField(int seed) {
        Random random = new Random(seed);
        Draft draft = draft();
        for (int i = 0; i < 25; i++) {
            BookSection section =
                    BookParts.sections().get(random.nextInt(BookParts.sections().size()));
            List<Draft.Row> rows = draft.all(section);
            if (rows.isEmpty()) {
                continue;
            }
            Draft.Row row = rows.get(random.nextInt(rows.size()));
            if (!section.isOne() && random.nextInt(6) == 0) {
                draft = changed(draft, section.key(), row.id(), DraftReadingTest::removed);
                continue;
            }
            BookField field = section.fields().get(random.nextInt(section.fields().size()));
            String path = field.path();
            if (field.kind() instanceof Kind.Lines lines) {
                int inner = random.nextInt(lines.fields().size());
                path = Draft.linePath(path, random.nextInt(4), lines.fields().get(inner));
            }
            String text = TYPED.get(random.nextInt(TYPED.size()));
            draft = typed(draft, section.key(), row.id(), path, text, Locale.UK);
        }
        DraftReading reading = read(draft, Locale.UK);
        DraftViews views = new DraftViews(reading, draft.with(Numbers.of(Locale.UK)), List.of());
        for (DraftReading.Told told : reading.faults()) {
            assertThat(views.fault(told).where()).isNotBlank();
            assertThat(told.message()).isNotBlank().doesNotContainPattern("[a-z][A-Z]");
        }
        for (BookPart part : BookParts.ALL) {
            assertThat(views.view(part, java.util.Set.of(), "p", null, null).sections())
                    .isNotEmpty();
        }
    }

    static Draft draft() {
        return Draft.of(STARTER, BookTree.of(STARTER, DOCUMENTS));
    }

    static DraftReading read(Draft draft, Locale locale) {
        return DraftReading.of(draft, draft.with(Numbers.of(locale)), DOCUMENTS);
    }

    /** The draft with one field as it would be after somebody typed in it. */
    static Draft typed(
            Draft draft, String section, int row, String path, String text, Locale locale) {
        BookSection of = BookParts.section(section).orElseThrow();
        Kind.With with = draft.with(Numbers.of(locale));
        return changed(
                draft,
                section,
                row,
                r -> {
                    Map<String, String> form = shown(of, r, with);
                    form.put(path, text);
                    if (text.isEmpty() && isBox(of, path)) {
                        form.remove(path);
                    }
                    return new TypedRow(form).in(of, r, with);
                });
    }

    private static boolean isBox(BookSection section, String path) {
        return section.field(path).filter(f -> f.kind() instanceof Kind.YesNo).isPresent();
    }

    private static Draft.Row removed(Draft.Row r) {
        return new Draft.Row(
                r.section(),
                r.id(),
                r.place(),
                true,
                r.values(),
                r.version(),
                r.page(),
                r.changedBy(),
                r.changedAt());
    }

    static Draft changed(
            Draft draft,
            String section,
            int row,
            java.util.function.UnaryOperator<Draft.Row> change) {
        Map<String, List<Draft.Row>> rows = new java.util.LinkedHashMap<>(draft.rows());
        rows.computeIfPresent(
                section,
                (key, list) ->
                        list.stream().map(r -> r.id() == row ? change.apply(r) : r).toList());
        return new Draft(draft.base(), draft.currency(), draft.version(), rows);
    }

    /** As the form of a row sends it. */
    private static Map<String, String> shown(BookSection section, Draft.Row row, Kind.With with) {
        Map<String, String> form = new HashMap<>();
        for (Map.Entry<String, JsonNode> value : row.values().entrySet()) {
            BookField field = Draft.leaf(section, value.getKey()).orElseThrow();
            String text =
                    Kept.isUnread(value.getValue())
                            ? Kept.text(value.getValue())
                            : field.kind().typed(value.getValue(), with);
            if (!(field.kind() instanceof Kind.YesNo) || !text.isEmpty()) {
                form.put(value.getKey(), text);
            }
        }
        return form;
    }
}
