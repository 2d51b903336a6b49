package strokewright;

import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;

/** Turns the stack trace of a failed start into its sentence and what to do. */
class CannotStartAnalyzer extends AbstractFailureAnalyzer<CannotStart> {

    @Override
    protected FailureAnalysis analyze(Throwable failure, CannotStart cause) {
        return new FailureAnalysis(String.valueOf(cause.getMessage()), cause.action(), failure);
    }
}
