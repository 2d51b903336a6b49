package strokewright.takeoff;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.ResponseBody;
import strokewright.forming.SvgText;
import strokewright.web.Numbers;

/** Reads an SVG file for the take-off page's script; what cannot be read is an answer too. */
@Controller
class OutlinesPage {

    @PostMapping(path = "/take-off/outline", consumes = MediaType.TEXT_PLAIN_VALUE)
    @ResponseBody
    OutlineReading read(InputStream text, Locale locale) throws IOException {
        byte[] bytes = text.readNBytes(4 * SvgText.MOST_CHARACTERS + 1);
        return OutlineReading.of(new String(bytes, StandardCharsets.UTF_8), Numbers.of(locale));
    }
}
