package strokewright.exchange;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import org.springframework.util.MimeTypeUtils;
import strokewright.office.Csv;
import strokewright.office.Xlsx;
import strokewright.web.Problem;

/** A table as an answer that is kept as a file. */
@Component
public class TableDownload {

    private final Exchange exchange;

    TableDownload(Exchange exchange) {
        this.exchange = exchange;
    }

    /**
     * As a program asks for it.
     *
     * @throws Problem 406 when it wants neither
     */
    public ResponseEntity<byte[]> answer(FileTable table, boolean begun, @Nullable String accept) {
        List<MediaType> wanted = new ArrayList<>(MediaType.parseMediaTypes(accept));
        MediaType csv = MediaType.parseMediaType(Csv.MEDIA_TYPE);
        MediaType xlsx = MediaType.parseMediaType(Xlsx.MEDIA_TYPE);
        if (wanted.isEmpty()) {
            return csv(table, begun, Csv.Manner.PLAIN);
        }
        MimeTypeUtils.sortBySpecificity(wanted);
        for (MediaType type : wanted) {
            if (type.includes(csv)) {
                return csv(table, begun, Csv.Manner.PLAIN);
            }
            if (type.includes(xlsx)) {
                return xlsx(table, begun);
            }
        }
        throw Problem.notAcceptable("text/csv and " + Xlsx.MEDIA_TYPE);
    }

    public ResponseEntity<byte[]> csv(FileTable table, boolean begun, Csv.Manner manner) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        exchange.write(table, begun, manner, out);
        return file(table.key() + ".csv", Csv.MEDIA_TYPE + ";charset=UTF-8", out);
    }

    public ResponseEntity<byte[]> xlsx(FileTable table, boolean begun) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        exchange.write(table, begun, null, out);
        return file(table.key() + ".xlsx", Xlsx.MEDIA_TYPE, out);
    }

    private static ResponseEntity<byte[]> file(
            String name, String type, ByteArrayOutputStream content) {
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType(type))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment().filename(name).build().toString())
                .body(content.toByteArray());
    }
}
