package strokewright.exchange;

import jakarta.servlet.http.HttpServletRequest;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import org.springframework.web.multipart.MultipartFile;
import strokewright.web.Once;

/** Imports as programs ask for them: looked through first, or done at once. */
@Component
public class FileImports {

    private final Exchange exchange;
    private final Uploads uploads;
    private final Once once;

    FileImports(Exchange exchange, Uploads uploads, Once once) {
        this.exchange = exchange;
        this.uploads = uploads;
        this.once = once;
    }

    /**
     * What a request says of its file, in the address.
     *
     * @param preview only tell what would change
     */
    public record Asked(
            @Nullable Boolean preview,
            @Nullable String decimal,
            @Nullable Boolean remove,
            @Nullable Boolean others) {

        Choices choices() {
            return new Choices(decimal, Boolean.TRUE.equals(remove), Boolean.TRUE.equals(others));
        }
    }

    /** What tells one import from another. */
    private record Sent(String digest, Choices choices, @Nullable String ifMatch) {}

    /** The file is the body of the request. */
    public ResponseEntity<?> body(
            FileTable table,
            HttpServletRequest request,
            Asked asked,
            @Nullable String ifMatch,
            @Nullable String key) {
        return uploads.body(request, file -> answer(table, file, asked, ifMatch, key));
    }

    /** The file is a part of a form. */
    public ResponseEntity<?> part(
            FileTable table,
            MultipartFile part,
            Asked asked,
            @Nullable String ifMatch,
            @Nullable String key) {
        return uploads.part(part, file -> answer(table, file, asked, ifMatch, key));
    }

    private ResponseEntity<?> answer(
            FileTable table,
            SentFile file,
            Asked asked,
            @Nullable String ifMatch,
            @Nullable String key) {
        Choices choices = asked.choices();
        if (Boolean.TRUE.equals(asked.preview)) {
            Preview preview = exchange.preview(table, file, choices);
            return ResponseEntity.ok()
                    .header(HttpHeaders.ETAG, "\"" + preview.tag() + "\"")
                    .body(preview);
        }
        return once.answer(
                key,
                "POST import " + table.key(),
                new Sent(file.digest(), choices, ifMatch),
                () -> ResponseEntity.ok(exchange.carryOut(table, file, choices, ifMatch)));
    }
}
