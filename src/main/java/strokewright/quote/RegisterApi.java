package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Set;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.office.Csv;
import strokewright.office.Xlsx;
import strokewright.quantity.InvalidInput;
import strokewright.web.Api;

/** The register over HTTP: the list of quotes as a file. */
@Api("/api/v1/quotes")
class RegisterApi {

    private final RegisterFiles files;

    RegisterApi(RegisterFiles files) {
        this.files = files;
    }

    @GetMapping(produces = Xlsx.MEDIA_TYPE)
    void workbook(
            HttpServletRequest asked,
            @RequestParam(defaultValue = "quotes") String rows,
            HttpServletResponse response) {
        send(asked, rows, new Register.Form.Workbook(), response);
    }

    @GetMapping(produces = Csv.MEDIA_TYPE)
    void separated(
            HttpServletRequest asked,
            @RequestParam(defaultValue = "quotes") String rows,
            HttpServletResponse response) {
        send(asked, rows, new Register.Form.Separated(Csv.Manner.PLAIN), response);
    }

    private void send(
            HttpServletRequest asked,
            String rows,
            Register.Form form,
            HttpServletResponse response) {
        QuoteSearch search = SearchReading.ofProgram(asked.getParameterMap(), Set.of("rows"));
        files.send(search, rows(rows), form, response);
    }

    static Register.Rows rows(String word) {
        return switch (word) {
            case "quotes" -> Register.Rows.QUOTES;
            case "quantities" -> Register.Rows.QUANTITIES;
            default -> throw new InvalidInput("?rows", "must be one of quotes, quantities");
        };
    }
}
