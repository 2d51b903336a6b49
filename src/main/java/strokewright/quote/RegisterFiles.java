package strokewright.quote;

import jakarta.servlet.http.HttpServletResponse;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Component;
import strokewright.access.Shops;
import strokewright.office.Csv;
import strokewright.office.Xlsx;

/**
 * Sends the register as a file. It is written to disk first: so a slow reader holds no connection
 * of the database, and what goes wrong half-way is told instead of a torn file.
 */
@Component
class RegisterFiles {

    private final Register register;
    private final Shops shops;
    private final Clock clock;

    RegisterFiles(Register register, Shops shops, Clock clock) {
        this.register = register;
        this.shops = shops;
        this.clock = clock;
    }

    void send(
            QuoteSearch search,
            Register.Rows rows,
            Register.Form form,
            HttpServletResponse response) {
        boolean separated = form instanceof Register.Form.Separated;
        try {
            Path file = Files.createTempFile("strokewright-register-", null);
            try {
                try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
                    register.write(search, rows, form, out);
                }
                response.setContentType(
                        separated ? Csv.MEDIA_TYPE + ";charset=UTF-8" : Xlsx.MEDIA_TYPE);
                response.setContentLengthLong(Files.size(file));
                response.setHeader(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename(name(rows) + (separated ? ".csv" : ".xlsx"))
                                .build()
                                .toString());
                Files.copy(file, response.getOutputStream());
            } finally {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private String name(Register.Rows rows) {
        return (rows == Register.Rows.QUOTES ? "quotes-" : "quotes-by-quantity-")
                + LocalDate.ofInstant(clock.instant(), shops.current().timeZone());
    }
}
