package strokewright.shopbook;

import jakarta.servlet.http.HttpServletRequest;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import strokewright.exchange.Exchange;
import strokewright.exchange.FileImports;
import strokewright.exchange.FileTable;
import strokewright.exchange.TableDownload;
import strokewright.office.Csv;
import strokewright.office.Xlsx;
import strokewright.web.Api;

/** Metal prices and time standards over HTTP, as files. */
@Api("/api/v1/shop-book")
class BookTablesApi {

    private final Exchange exchange;
    private final TableDownload download;
    private final FileImports imports;

    BookTablesApi(Exchange exchange, TableDownload download, FileImports imports) {
        this.exchange = exchange;
        this.download = download;
        this.imports = imports;
    }

    /**
     * As csv or workbook, whichever is accepted.
     *
     * @param draft from the draft of the next edition, where there is one
     */
    @GetMapping("/{table:sheets|standards}")
    ResponseEntity<byte[]> file(
            @PathVariable String table,
            @RequestParam(defaultValue = "false") boolean draft,
            @RequestHeader(name = HttpHeaders.ACCEPT, required = false) @Nullable String accept) {
        return download.answer(found(table), draft, accept);
    }

    /** Into the draft of the next edition; with {@code preview} nothing is changed. */
    @PostMapping(
            path = "/{table:sheets|standards}/import",
            consumes = {Csv.MEDIA_TYPE, Xlsx.MEDIA_TYPE, "application/octet-stream"})
    ResponseEntity<?> take(
            @PathVariable String table,
            FileImports.Asked asked,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key,
            HttpServletRequest request) {
        return imports.body(found(table), request, asked, ifMatch, key);
    }

    @PostMapping(path = "/{table:sheets|standards}/import", consumes = "multipart/form-data")
    ResponseEntity<?> takeForm(
            @PathVariable String table,
            FileImports.Asked asked,
            @RequestParam MultipartFile file,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return imports.part(found(table), file, asked, ifMatch, key);
    }

    private FileTable found(String table) {
        return exchange.table(table.equals("sheets") ? "metal-prices" : "time-standards");
    }
}
