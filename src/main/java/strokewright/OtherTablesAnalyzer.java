package strokewright;

import org.flywaydb.core.api.exception.FlywayValidateException;
import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;

/** A database whose tables were made by another build, in another way. */
class OtherTablesAnalyzer extends AbstractFailureAnalyzer<FlywayValidateException> {

    @Override
    protected FailureAnalysis analyze(Throwable failure, FlywayValidateException cause) {
        String reason =
                String.valueOf(cause.getMessage())
                        .lines()
                        .filter(line -> line.startsWith("Detected") || line.contains("mismatch"))
                        .findFirst()
                        .map(line -> " (" + line.strip().replaceFirst("\\.$", "") + ")")
                        .orElse("");
        return new FailureAnalysis(
                "The tables in the database were made by another build of Strokewright, and this"
                        + " one cannot bring them up to date"
                        + reason
                        + ".",
                "Start the build that made them, or name another database: for the embedded one"
                        + " set STROKEWRIGHT_DATABASE_FOLDER. The data was left as it is.",
                failure);
    }
}
