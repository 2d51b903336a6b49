package strokewright.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.converter.HttpMessageConverter;
import org.springframework.http.converter.HttpMessageConverters;
import org.springframework.security.web.firewall.StrictHttpFirewall;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import strokewright.quantity.PlainText;

/**
 * Which bodies are read and written. The strict reader is no bean on purpose: as a bean it would be
 * put in front of the converters for texts and bytes, and a second, lenient one would be added for
 * {@code *+json}.
 */
@Configuration(proxyBeanMethods = false)
class WebSetup implements WebMvcConfigurer {

    @Override
    public void configureMessageConverters(HttpMessageConverters.ServerBuilder builder) {
        builder.withJsonConverter(new StrictJsonConverter(new StrictJson()));
        builder.configureMessageConvertersList(all -> all.removeIf(WebSetup::foreign));
    }

    /**
     * Refuses, beyond Spring Security's own list, parameters with characters that no form sends and
     * no database stores. Marks that come along when text is pasted are left out later.
     */
    @Bean
    static StrictHttpFirewall firewall() {
        StrictHttpFirewall firewall = new StrictHttpFirewall();
        firewall.setAllowedParameterNames(WebSetup::printable);
        firewall.setAllowedParameterValues(WebSetup::printable);
        return firewall;
    }

    private static boolean printable(@Nullable String text) {
        return text == null
                || PlainText.withoutTurns(text)
                        .chars()
                        .noneMatch(c -> PlainText.isForeign((char) c));
    }

    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        registry.addInterceptor(new NamedContentType()).addPathPatterns("/api/**");
    }

    @Override
    public void addArgumentResolvers(List<HandlerMethodArgumentResolver> resolvers) {
        resolvers.add(new Paging.Resolver());
    }

    /** A Content-Type with an asterisk would otherwise fail as an argument of the framework's. */
    private static final class NamedContentType implements HandlerInterceptor {

        @Override
        public boolean preHandle(
                HttpServletRequest request, HttpServletResponse response, Object handler) {
            String type = request.getContentType();
            if (type != null && type.contains("*")) {
                throw Problem.ofStatus(
                        HttpStatus.UNSUPPORTED_MEDIA_TYPE, "Name the Content-Type of the body.");
            }
            return true;
        }
    }

    /** Libraries on the class path would have the service take YAML, XML or CBOR as well. */
    private static boolean foreign(HttpMessageConverter<?> converter) {
        return converter.getSupportedMediaTypes().stream().anyMatch(WebSetup::foreign);
    }

    private static boolean foreign(MediaType type) {
        String subtype = type.getSubtype();
        return subtype.contains("yaml") || subtype.contains("xml") || subtype.contains("cbor");
    }
}
