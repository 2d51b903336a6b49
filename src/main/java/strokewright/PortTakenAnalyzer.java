package strokewright;

import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;
import org.springframework.boot.web.server.PortInUseException;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;

/** Names the way out that the framework's own sentence leaves open. */
@Order(Ordered.HIGHEST_PRECEDENCE)
class PortTakenAnalyzer extends AbstractFailureAnalyzer<PortInUseException> {

    @Override
    protected FailureAnalysis analyze(Throwable failure, PortInUseException cause) {
        return new FailureAnalysis(
                "Port " + cause.getPort() + " is taken by another program.",
                "Stop that program, or choose another port: set SERVER_PORT, for example"
                        + " SERVER_PORT="
                        + (cause.getPort() + 1)
                        + ".",
                failure);
    }
}
