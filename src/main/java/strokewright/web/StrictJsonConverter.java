package strokewright.web;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.core.ResolvableType;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpInputMessage;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.converter.json.JacksonJsonHttpMessageConverter;

/**
 * JSON bodies. Reads {@code application/json} alone ({@code *+json} means something of its own that
 * nobody here knows) and writes every kind of JSON.
 */
final class StrictJsonConverter extends JacksonJsonHttpMessageConverter {

    private static final int LARGEST_BODY = 1 << 20;

    private final StrictJson json;

    StrictJsonConverter(StrictJson json) {
        super(json.mapper());
        this.json = json;
    }

    @Override
    public boolean canRead(ResolvableType type, @Nullable MediaType mediaType) {
        return mediaType != null
                && mediaType.equalsTypeAndSubtype(MediaType.APPLICATION_JSON)
                && (mediaType.getCharset() == null
                        || mediaType.getCharset().equals(StandardCharsets.UTF_8))
                && super.canRead(type, mediaType);
    }

    @Override
    public Object read(
            ResolvableType type, HttpInputMessage message, @Nullable Map<String, Object> hints)
            throws IOException {
        if (message.getHeaders().containsHeader(HttpHeaders.CONTENT_ENCODING)) {
            throw Problem.ofStatus(
                    HttpStatus.UNSUPPORTED_MEDIA_TYPE, "Send the body without Content-Encoding.");
        }
        if (message.getHeaders().getContentLength() > LARGEST_BODY) {
            throw Problem.tooLarge();
        }
        byte[] body = message.getBody().readNBytes(LARGEST_BODY + 1);
        if (body.length > LARGEST_BODY) {
            throw Problem.tooLarge();
        }
        return json.read(body, json.mapper().constructType(type.getType()));
    }
}
