package strokewright.access;

import org.springframework.stereotype.Component;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * How records are kept in {@code jsonb}: what is read back equals what was written. Entities get it
 * by {@code @JdbcTypeCode(SqlTypes.JSON)}; plain SQL uses {@link #write} and {@link #read}. Apart
 * from the reader of requests on purpose: a change of manner there must not reread old documents
 * differently.
 */
@Component
public class Documents {

    private final JsonMapper mapper =
            JsonMapper.builder()
                    .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
                    // documents of an earlier method lack what came later
                    .disable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
                    .build();

    public String write(Object document) {
        return mapper.writeValueAsString(document);
    }

    public <T> T read(String json, Class<T> type) {
        return mapper.readValue(json, type);
    }

    JsonMapper mapper() {
        return mapper;
    }
}
