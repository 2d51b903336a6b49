package strokewright.job;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import strokewright.exchange.FileImports;
import strokewright.office.Csv;
import strokewright.office.Xlsx;
import strokewright.web.Api;

/** Time sheets over HTTP, as files, and what their words mean. */
@Api("/api/v1/bookings")
class TimeSheetsApi {

    private final TimeSheets sheets;
    private final SheetWords words;
    private final FileImports imports;

    TimeSheetsApi(TimeSheets sheets, SheetWords words, FileImports imports) {
        this.sheets = sheets;
        this.words = words;
        this.imports = imports;
    }

    /** All rows or none; with {@code preview} nothing is booked. */
    @PostMapping(
            path = "/import",
            consumes = {Csv.MEDIA_TYPE, Xlsx.MEDIA_TYPE, "application/octet-stream"})
    ResponseEntity<?> take(
            FileImports.Asked asked,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key,
            HttpServletRequest request) {
        return imports.body(sheets, request, asked, ifMatch, key);
    }

    @PostMapping(path = "/import", consumes = "multipart/form-data")
    ResponseEntity<?> takeForm(
            FileImports.Asked asked,
            @RequestParam MultipartFile file,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
            @RequestHeader(name = "Idempotency-Key", required = false) @Nullable String key) {
        return imports.part(sheets, file, asked, ifMatch, key);
    }

    /** What was chosen so far. */
    record All(List<SheetWords.Chosen> items) {}

    @GetMapping("/words")
    All all() {
        return new All(words.all());
    }

    /** As the preview offers it. */
    @PostMapping("/words")
    All choose(@RequestBody SheetWords.Chosen chosen) {
        if (chosen.kind() == null || chosen.word() == null || chosen.meaning() == null) {
            words.choose(chosen);
        }
        sheets.choose(chosen.kind(), chosen.word(), chosen.meaning());
        return all();
    }

    @DeleteMapping("/words")
    All forget(@RequestParam String kind, @RequestParam String word) {
        words.forget(kind, word);
        return all();
    }
}
