package strokewright.quote;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.estimate.TakeOff;
import strokewright.quantity.InvalidInput;
import strokewright.web.Api;

/** Earlier quotes like a take-off, over HTTP; nothing is stored. */
@Api("/api/v1/quotes/similar")
class SimilarApi {

    private final SimilarQuotes similar;

    SimilarApi(SimilarQuotes similar) {
        this.similar = similar;
    }

    /**
     * @param items the likest first
     */
    record Answer(List<SimilarQuotes.Earlier> items) {}

    @PostMapping
    Answer similar(
            @RequestBody TakeOff takeOff, @RequestParam(required = false) @Nullable String except) {
        return new Answer(similar.to(takeOff, except == null ? null : number(except)));
    }

    private static QuoteNumber number(String except) {
        return QuoteNumber.read(except)
                .orElseThrow(
                        () ->
                                new InvalidInput(
                                        "?except", "must be a quote's number, like Q-2026-0012"));
    }
}
