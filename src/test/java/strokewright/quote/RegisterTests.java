package strokewright.quote;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.client.EntityExchangeResult;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import strokewright.Person;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.access.SignedIn;
import strokewright.estimate.Estimate;
import strokewright.estimate.ShopBook;
import strokewright.office.Workbook;
import strokewright.quote.SeededQuotes.Made;
import strokewright.quote.SeededQuotes.Piece;
import strokewright.shopbook.ShopBooks;

/** What the register says, compared with the documents of the quotes, read one by one. */
class RegisterTests extends ServiceTest {

    private static final List<String> HEADS =
            List.of(
                    "Number",
                    "Revision",
                    "Date",
                    "Valid until",
                    "State",
                    "Reason",
                    "Customer",
                    "Contact",
                    "Their reference",
                    "Order number",
                    "Title",
                    "Position",
                    "Option",
                    "Quantity",
                    "Net each",
                    "Net total",
                    "Tax",
                    "Currency",
                    "Planned hours",
                    "Material",
                    "Lead time, days",
                    "Estimator",
                    "Edition",
                    "Information");

    @Autowired private Quotes quotes;
    @Autowired private ShopBooks books;
    @Autowired private JdbcClient sql;
    @Autowired private PlatformTransactionManager transactions;

    private TestShop shop;
    private SignedIn estimator;
    private List<Made> made;

    @BeforeEach
    void seed() {
        shop = openShop();
        estimator = shop.user(Role.ESTIMATOR);
        made = seeded(shop, 40);
    }

    private List<Made> seeded(TestShop shop, int count) {
        SignedIn who = shop.user(Role.ESTIMATOR);
        ShopBook book = who.call(books::current);
        return who
                .call(
                        () ->
                                new TransactionTemplate(transactions)
                                        .execute(
                                                status ->
                                                        new SeededQuotes(
                                                                        sql,
                                                                        shop.id(),
                                                                        List.of(who.userId()),
                                                                        book)
                                                                .make(new Random(21), count)))
                .stream()
                .sorted(
                        Comparator.comparingInt((Made m) -> m.number().year())
                                .thenComparingInt(m -> m.number().n()))
                .toList();
    }

    @Test
    void aRowAQuoteSaysWhatItsDocumentSays() throws IOException {
        List<List<String>> expected = made.stream().map(this::ofAQuote).toList();
        assertThat(csv("")).isEqualTo(withHeads(expected, RegisterTests::guarded));
        assertThat(xlsx("?rows=quotes")).isEqualTo(withHeads(expected, text -> text));
    }

    @Test
    void aRowAQuantitySaysWhatTheEstimatesSay() throws IOException {
        List<List<String>> expected = made.stream().flatMap(this::byQuantity).toList();
        assertThat(expected).hasSizeGreaterThan(150);
        assertThat(csv("?rows=quantities")).isEqualTo(withHeads(expected, RegisterTests::guarded));
        assertThat(xlsx("?rows=quantities")).isEqualTo(withHeads(expected, text -> text));
    }

    @Test
    void takesTheFiltersOfTheSearch() throws IOException {
        List<List<String>> some =
                made.stream()
                        .filter(m -> m.customer() == 2 && m.state() != State.DRAFT)
                        .map(this::ofAQuote)
                        .toList();
        assertThat(some).hasSizeBetween(3, 30);
        String states = "state=issued&state=lapsed&state=accepted&state=declined&state=withdrawn";
        assertThat(csv("?customer=m%C3%BCll&" + states))
                .isEqualTo(withHeads(some, RegisterTests::guarded));
        assertThat(csv("?text=nothingofthekind")).hasSize(1);
    }

    @Test
    void aRealQuoteIsOneRowWithItsPriceEach() throws IOException {
        TestShop fresh = openShop();
        shop = fresh;
        String number =
                fresh.user(Role.ESTIMATOR)
                        .call(
                                () ->
                                        quotes.begin(
                                                "@Harbour",
                                                null,
                                                strokewright.takeoff.Situations.takeOff(
                                                        QuotesApiTests.TAKE_OFF.replace(
                                                                "\"quantities\":[1,5]",
                                                                "\"quantities\":[1,5],\"mainQuantity\":5,\"information\":\"sketch\"")),
                                                List.of()));
        QuoteDocument quote = fresh.user(Role.ESTIMATOR).call(() -> quotes.get(number)).document();
        Estimate.ForQuantity main = quote.items().get(0).main();
        assertThat(csv("").get(1))
                .isEqualTo(
                        List.of(
                                        number,
                                        "1",
                                        quote.date().toString(),
                                        "",
                                        "draft",
                                        "",
                                        "'@Harbour",
                                        "",
                                        "",
                                        "",
                                        "Round sign frame",
                                        "1",
                                        "",
                                        "5",
                                        main.priceEach().amount().toPlainString(),
                                        quote.total().net().amount().toPlainString(),
                                        quote.total().tax().amount().toPlainString(),
                                        "EUR",
                                        hours(main.hours().plan()),
                                        "AL99.5-O",
                                        "",
                                        "The estimator",
                                        "1",
                                        "sketch")
                                .stream()
                                .map(RegisterTests::plain)
                                .toList());
    }

    @Test
    void faultsAreToldAsProblemsAndTheFloorSeesNone() {
        byte[] problem = file("?rows=items&netFrom=x", "text/csv", Role.OFFICE, 400);
        assertThat(new String(problem, StandardCharsets.UTF_8)).contains("?netFrom");
        file("", Workbook.XLSX, Role.FLOOR, 403);
    }

    @Test
    void listsStayJsonForWhoeverDoesNotAskForAFile() {
        for (String accept : List.of("*/*", "application/json")) {
            EntityExchangeResult<byte[]> answer = answer("?size=1", accept, Role.OFFICE, 200);
            assertThat(answer.getResponseHeaders().getContentType())
                    .isEqualTo(MediaType.APPLICATION_JSON);
        }
    }

    @Test
    void thePageGivesTheFilesInTheLocalesManner() {
        Person person = new Person(port());
        person.signIn(shop.user(Role.OFFICE).userName(), TestShop.PASSWORD);
        HttpResponse<String> file =
                person.open(
                        "/quotes/register?file=csv&rows=quotes&customer=harbour",
                        "Accept-Language",
                        "de");
        assertThat(file.headers().firstValue("Content-Disposition").orElse(""))
                .containsPattern("quotes-20[0-9-]{8}.csv");
        assertThat(file.body()).startsWith("\ufeffNumber;Revision;Date;");
        Made one = made.stream().filter(m -> m.customer() == 0).findFirst().orElseThrow();
        assertThat(file.body()).contains(one.net().toPlainString().replace('.', ','));
        assertThat(person.open("/quotes/search?customer=harbour").body())
                .contains("/quotes/register?rows=quantities&amp;customer=harbour");
    }

    // What is expected --------------------------------------------------------------------------

    private QuoteDocument document(Made quote) {
        return estimator.call(() -> quotes.get(quote.number().toString())).document();
    }

    private List<String> ofAQuote(Made quote) {
        QuoteDocument document = document(quote);
        List<PricedItem> counted =
                document.items().stream().filter(item -> !item.option()).toList();
        PricedItem only = counted.size() == 1 ? counted.get(0) : null;
        double hours = counted.stream().mapToDouble(i -> i.main().hours().plan()).sum();
        List<String> row = head(quote, document);
        row.add(document.title());
        row.add(only == null ? "" : String.valueOf(only.position()));
        row.add("");
        row.add(only == null ? "" : String.valueOf(only.main().quantity()));
        row.add(only == null ? "" : only.main().priceEach().amount().toPlainString());
        row.add(document.total().net().amount().toPlainString());
        row.add(document.total().tax().amount().toPlainString());
        row.add("EUR");
        row.add(counted.isEmpty() ? "" : hours(hours));
        row.add(
                quote.pieces().stream()
                        .filter(piece -> !piece.option())
                        .flatMap(piece -> piece.grades().stream())
                        .distinct()
                        .collect(Collectors.joining(", ")));
        tail(row, document, "drawing");
        return row;
    }

    private Stream<List<String>> byQuantity(Made quote) {
        QuoteDocument document = document(quote);
        List<List<String>> rows = new ArrayList<>();
        for (PricedItem item : document.items()) {
            Piece piece = quote.pieces().get(item.position() - 1);
            for (Estimate.ForQuantity priced : item.estimate().quantities()) {
                List<String> row = head(quote, document);
                row.add(item.title());
                row.add(String.valueOf(item.position()));
                row.add(item.option() ? "yes" : "no");
                row.add(String.valueOf(priced.quantity()));
                row.add(priced.priceEach().amount().toPlainString());
                row.add(priced.price().offer().amount().toPlainString());
                row.add(priced.price().tax().amount().toPlainString());
                row.add("EUR");
                row.add(hours(priced.hours().plan()));
                row.add(String.join(", ", piece.grades()));
                tail(row, document, "drawing");
                rows.add(row);
            }
        }
        return rows.stream();
    }

    private static List<String> head(Made quote, QuoteDocument document) {
        return new ArrayList<>(
                List.of(
                        document.number(),
                        "1",
                        document.date().toString(),
                        quote.validUntil() == null ? "" : quote.validUntil().toString(),
                        document.state().word(),
                        document.state() == State.DECLINED ? "price" : "",
                        document.customer().name(),
                        said(document.contact()),
                        said(document.terms().customerReference()),
                        said(quote.orderNumber())));
    }

    private static void tail(List<String> row, QuoteDocument document, String information) {
        row.addAll(
                List.of(
                        String.valueOf(document.terms().leadTimeDays()),
                        document.createdBy(),
                        String.valueOf(document.shopBookEdition()),
                        information));
    }

    private static String said(@Nullable String text) {
        return text == null ? "" : text;
    }

    private static String hours(double hours) {
        return BigDecimal.valueOf(hours).setScale(3, RoundingMode.HALF_UP).toPlainString();
    }

    private static String guarded(String text) {
        return text.startsWith("=") ? "'" + text : text;
    }

    /** Numbers are compared as numbers: a workbook does not keep trailing noughts. */
    private static List<List<String>> withHeads(
            List<List<String>> rows, Function<String, String> text) {
        return Stream.concat(Stream.of(HEADS), rows.stream())
                .map(row -> row.stream().map(text).map(RegisterTests::plain).toList())
                .toList();
    }

    private static String plain(String text) {
        return text.matches("[0-9]+\\.[0-9]+")
                ? new BigDecimal(text).stripTrailingZeros().toPlainString()
                : text;
    }

    // Read back ---------------------------------------------------------------------------------

    private List<List<String>> csv(String query) throws IOException {
        String text = new String(file(query, "text/csv", Role.OFFICE, 200), StandardCharsets.UTF_8);
        try (CsvReader<CsvRecord> records = CsvReader.builder().ofCsvRecord(text)) {
            return records.stream()
                    .map(r -> r.getFields().stream().map(RegisterTests::plain).toList())
                    .toList();
        }
    }

    private List<List<String>> xlsx(String query) throws IOException {
        byte[] file = file(query, Workbook.XLSX, Role.OFFICE, 200);
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(file))) {
            XSSFSheet sheet = book.getSheetAt(0);
            assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
            List<List<String>> rows = new ArrayList<>();
            for (Row row : sheet) {
                List<String> values = new ArrayList<>();
                for (int i = 0; i < HEADS.size(); i++) {
                    values.add(text(row.getCell(i)));
                }
                rows.add(values);
            }
            return rows;
        }
    }

    private static String text(@Nullable Cell cell) {
        if (cell == null || cell.getCellType() == CellType.BLANK) {
            return "";
        }
        assertThat(cell.getCellType()).isIn(CellType.STRING, CellType.NUMERIC);
        if (cell.getCellType() == CellType.STRING) {
            String text = cell.getStringCellValue();
            assertThat(cell.getCellStyle().getQuotePrefixed()).isEqualTo(text.startsWith("="));
            return text;
        }
        return DateUtil.isCellDateFormatted(cell)
                ? cell.getLocalDateTimeCellValue().toLocalDate().toString()
                : plain(BigDecimal.valueOf(cell.getNumericCellValue()).toPlainString());
    }

    private byte[] file(String query, String accept, Role role, int status) {
        EntityExchangeResult<byte[]> answer = answer(query, accept, role, status);
        if (status == 200) {
            assertThat(answer.getResponseHeaders().getContentType().toString()).startsWith(accept);
            assertThat(answer.getResponseHeaders().getFirst(HttpHeaders.CONTENT_DISPOSITION))
                    .contains("attachment");
        }
        return answer.getResponseBody();
    }

    private EntityExchangeResult<byte[]> answer(
            String query, String accept, Role role, int status) {
        return shop.as(role)
                .get()
                .uri(URI.create("http://localhost:" + port() + "/api/v1/quotes" + query))
                .header(HttpHeaders.ACCEPT, accept)
                .exchange()
                .expectStatus()
                .isEqualTo(status)
                .expectBody(byte[].class)
                .returnResult();
    }
}
