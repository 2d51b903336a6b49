package strokewright.web;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ErrorReportValve;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.MediaType;

/**
 * What the container refuses before any of our code is asked: addresses with {@code %00} or a bare
 * {@code <}, headers that are too long.
 */
@Configuration(proxyBeanMethods = false)
class ContainerErrors {

    private static final Logger log = LoggerFactory.getLogger(ContainerErrors.class);

    @Bean
    WebServerFactoryCustomizer<TomcatServletWebServerFactory> plainContainerErrors() {
        return factory ->
                factory.addContextCustomizers(
                        context -> context.getParent().getPipeline().addValve(new Report()));
    }

    private static final class Report extends ErrorReportValve {

        @Override
        protected void report(Request request, Response response, @Nullable Throwable error) {
            if (response.getStatus() < 400 || response.getContentWritten() > 0) {
                return;
            }
            String trace = Trace.of(request);
            log.info("{} from the container, trace {}", response.getStatus(), trace);
            // An address that was not understood is not there to be asked: JSON is the safe guess.
            boolean page =
                    request.getRequestURI() != null && !Errors.underApi(request.getRequestURI());
            String body =
                    page
                            ? "<!DOCTYPE html><html lang=\"en\"><title>Strokewright</title>"
                                    + "<h1>This address cannot be served</h1><p>Trace "
                                    + trace
                                    + "</p></html>"
                            : "{\"type\":\"/problems/refused\",\"title\":\"This request cannot be"
                                    + " served\",\"status\":"
                                    + response.getStatus()
                                    + ",\"traceId\":\""
                                    + trace
                                    + "\"}";
            try {
                response.setContentType(
                        page
                                ? "text/html;charset=utf-8"
                                : MediaType.APPLICATION_PROBLEM_JSON_VALUE);
                response.getOutputStream().write(body.getBytes(StandardCharsets.UTF_8));
                response.finishResponse();
            } catch (IOException | IllegalStateException e) {
                log.debug("nobody is there to be told", e);
            }
        }
    }
}
