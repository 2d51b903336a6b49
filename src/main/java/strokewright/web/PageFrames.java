package strokewright.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.security.Principal;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.core.Authentication;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.LocaleResolver;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.springframework.web.servlet.i18n.AcceptHeaderLocaleResolver;

/** Gives every view, the error page included, its {@link PageFrame} and {@link Numbers}. */
@Configuration(proxyBeanMethods = false)
class PageFrames implements WebMvcConfigurer {

    private final ObjectProvider<Place> places;

    PageFrames(ObjectProvider<Place> places) {
        this.places = places;
    }

    /** Page text is English; the browser's language decides how numbers are written and read. */
    @Bean
    static LocaleResolver localeResolver() {
        var resolver = new AcceptHeaderLocaleResolver();
        resolver.setSupportedLocales(List.of(Locale.ENGLISH, Locale.GERMAN));
        resolver.setDefaultLocale(Locale.ENGLISH);
        return resolver;
    }

    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        registry.addInterceptor(
                new HandlerInterceptor() {
                    @Override
                    public void postHandle(
                            HttpServletRequest request,
                            HttpServletResponse response,
                            Object handler,
                            @Nullable ModelAndView view) {
                        if (view != null && !redirects(view)) {
                            frame(view, request);
                        }
                    }
                });
    }

    /** For a view that comes of an exception, which no interceptor sees. */
    ModelAndView frame(ModelAndView view, HttpServletRequest request) {
        return view.addObject("frame", frame(request))
                .addObject("numbers", Numbers.of(locale(request)));
    }

    private static boolean redirects(ModelAndView view) {
        return view.getViewName() != null && view.getViewName().startsWith("redirect:");
    }

    private static Locale locale(HttpServletRequest request) {
        return localeResolver().resolveLocale(request);
    }

    private PageFrame frame(HttpServletRequest request) {
        Principal principal = request.getUserPrincipal();
        if (principal == null) {
            return PageFrame.NOBODY;
        }
        List<Place> open =
                places.stream()
                        .filter(
                                p ->
                                        p.roles().isEmpty()
                                                || p.roles().stream()
                                                        .anyMatch(request::isUserInRole))
                        .sorted(Comparator.comparingInt(Place::order))
                        .toList();
        if (principal instanceof Authentication a && a.getPrincipal() instanceof Visitor v) {
            return new PageFrame(v.shopName(), v.displayName(), open);
        }
        return new PageFrame(null, principal.getName(), open);
    }
}
