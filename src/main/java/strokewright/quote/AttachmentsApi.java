package strokewright.quote;

import io.swagger.v3.oas.annotations.media.Content;
import io.swagger.v3.oas.annotations.media.Schema;
import io.swagger.v3.oas.annotations.responses.ApiResponse;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.URI;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.web.Api;

/** Drawings of quotes over HTTP. */
@Api("/api/v1/quotes/{number}/attachments")
class AttachmentsApi {

    private final Attachments attachments;
    private final AttachmentFiles files;

    AttachmentsApi(Attachments attachments, AttachmentFiles files) {
        this.attachments = attachments;
        this.files = files;
    }

    /**
     * @param items in the order in which they came
     */
    record Listed(List<Attachment> items) {}

    @GetMapping
    Listed list(@PathVariable String number) {
        return new Listed(attachments.of(number));
    }

    /** The body is the file itself; sent again, it is answered with what is kept already. */
    @PostMapping(
            consumes = {
                MediaType.APPLICATION_PDF_VALUE,
                MediaType.IMAGE_PNG_VALUE,
                MediaType.IMAGE_JPEG_VALUE,
                "image/svg+xml",
                MediaType.APPLICATION_OCTET_STREAM_VALUE
            })
    @ApiResponse(
            responseCode = "201",
            content = @Content(schema = @Schema(implementation = Attachment.class)))
    ResponseEntity<Attachment> add(
            @PathVariable String number,
            @RequestParam(required = false) @Nullable String name,
            HttpServletRequest request)
            throws IOException {
        Attachment kept = files.take(number, name, request.getInputStream());
        return ResponseEntity.created(
                        URI.create("/api/v1/quotes/" + number + "/attachments/" + kept.id()))
                .body(kept);
    }

    @GetMapping("/{id}")
    void get(@PathVariable String number, @PathVariable UUID id, HttpServletResponse response)
            throws IOException {
        files.give(number, id, response);
    }

    @DeleteMapping("/{id}")
    ResponseEntity<Void> remove(@PathVariable String number, @PathVariable UUID id) {
        attachments.remove(number, id);
        return ResponseEntity.noContent().build();
    }
}
