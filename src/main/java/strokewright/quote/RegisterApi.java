package strokewright.quote;

import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
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

    @Filters
    @GetMapping(produces = Xlsx.MEDIA_TYPE)
    void workbook(
            HttpServletRequest asked,
            @Rows @RequestParam(defaultValue = "quotes") String rows,
            HttpServletResponse response) {
        send(asked, rows, new Register.Form.Workbook(), response);
    }

    @Filters
    @GetMapping(produces = Csv.MEDIA_TYPE)
    void separated(
            HttpServletRequest asked,
            @Rows @RequestParam(defaultValue = "quotes") String rows,
            HttpServletResponse response) {
        send(asked, rows, new Register.Form.Separated(Csv.Manner.PLAIN), response);
    }

    /** What a row of the register is. */
    @Target(ElementType.PARAMETER)
    @Retention(RetentionPolicy.RUNTIME)
    @Parameter(
            description =
                    "Of the register, so of xlsx and csv: a row for each quote, or one for each item"
                            + " in each of its quantities",
            schema = @Schema(allowableValues = {"quotes", "quantities"}))
    @interface Rows {}

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
