package strokewright.whatif;

import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import strokewright.web.Api;

/** What another shop book would do to the open drafts; nothing is stored. */
@Api("/api/v1/quotes/effect")
class EffectApi {

    private final Effects effects;

    EffectApi(Effects effects) {
        this.effects = effects;
    }

    @PostMapping
    Effect effect(@RequestBody EffectAsked asked) {
        return effects.of(asked);
    }
}
