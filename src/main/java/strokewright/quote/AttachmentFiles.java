package strokewright.quote;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Component;

/** How drawings come in and go out over HTTP, the same for pages and programs. */
@Component
class AttachmentFiles {

    private final Attachments attachments;

    AttachmentFiles(Attachments attachments) {
        this.attachments = attachments;
    }

    /** Takes a body that may come slowly: it waits in a file, not in memory. */
    Attachment take(String number, @Nullable String name, InputStream body) throws IOException {
        Path waiting = Files.createTempFile("drawing", null);
        try {
            try (OutputStream out = Files.newOutputStream(waiting)) {
                byte[] piece = new byte[1 << 16];
                int left = Attachments.LARGEST + 1;
                for (int n;
                        left > 0 && (n = body.read(piece, 0, Math.min(piece.length, left))) > 0; ) {
                    out.write(piece, 0, n);
                    left -= n;
                }
            }
            try (InputStream in = Files.newInputStream(waiting)) {
                return attachments.add(number, name, in);
            }
        } finally {
            Files.delete(waiting);
        }
    }

    /** As a file to keep: no browser shows it, guesses at it or runs anything of it. */
    void give(String number, UUID id, HttpServletResponse response) throws IOException {
        Attachment attachment = attachments.get(number, id);
        response.setContentType(attachment.type());
        response.setContentLength(attachment.size());
        response.setHeader(
                HttpHeaders.CONTENT_DISPOSITION,
                ContentDisposition.attachment()
                        .filename(attachment.name(), StandardCharsets.UTF_8)
                        .build()
                        .toString());
        response.setHeader("X-Content-Type-Options", "nosniff");
        response.setHeader("Content-Security-Policy", "default-src 'none'; sandbox");
        response.setHeader(HttpHeaders.CACHE_CONTROL, "private, no-store");
        attachments.copy(attachment, response.getOutputStream());
    }
}
