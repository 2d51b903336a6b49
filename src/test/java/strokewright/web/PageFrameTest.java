package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.content;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.support.DefaultListableBeanFactory;
import org.springframework.context.support.GenericApplicationContext;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.security.authentication.TestingAuthenticationToken;
import org.springframework.stereotype.Controller;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.RequestPostProcessor;
import org.springframework.test.web.servlet.setup.MockMvcBuilders;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.thymeleaf.spring6.SpringTemplateEngine;
import org.thymeleaf.spring6.templateresolver.SpringResourceTemplateResolver;
import org.thymeleaf.spring6.view.ThymeleafViewResolver;

class PageFrameTest {

    private final MockMvc mvc = mvc();

    @Test
    void aPageStandsInTheFrameWithShopUserAndThePlacesOfTheRole() throws Exception {
        mvc.perform(get("/sample").with(estimator()))
                .andExpect(status().isOk())
                .andExpect(content().string(containsString("<title>Sample · Strokewright</title>")))
                .andExpect(content().string(containsString("Bent Corner Works")))
                .andExpect(content().string(containsString("Sam Example")))
                .andExpect(
                        content()
                                .string(
                                        containsString(
                                                "<a href=\"/here\" aria-current=\"page\">Here</a>")))
                .andExpect(
                        content()
                                .string(
                                        containsString(
                                                "<nav class=\"around\" aria-label=\"Here\">")))
                .andExpect(content().string(not(containsString("aria-current=\"true\""))))
                .andExpect(content().string(not(containsString("/owners-only"))))
                .andExpect(content().string(containsString("the machine’s manual")))
                .andExpect(content().string(containsString("12.5 mm")));
    }

    @Test
    void numbersFollowTheLanguageOfTheBrowser() throws Exception {
        mvc.perform(get("/sample").with(estimator()).header("Accept-Language", "de-AT,de;q=0.9"))
                .andExpect(content().string(containsString("12,5 mm")));
    }

    @Test
    void nobodySignedInSeesNeitherPlacesNorSignOut() throws Exception {
        mvc.perform(get("/sample"))
                .andExpect(status().isOk())
                .andExpect(content().string(not(containsString("class=\"places\""))))
                .andExpect(content().string(not(containsString("/sign-out"))));
    }

    @Test
    void theTitleBlockStandsOnlyWhereAPageAsksForIt() throws Exception {
        String page =
                mvc.perform(get("/sample").with(estimator()))
                        .andReturn()
                        .getResponse()
                        .getContentAsString();
        assertThat(page.split("Identification number", -1)).hasSize(2);
        assertThat(page).doesNotContain("class=\"finding");
    }

    @Test
    void thePageHasNoInlineScriptOrStyle() throws Exception {
        mvc.perform(get("/sample").with(estimator()))
                .andExpect(content().string(not(containsString("style=\""))))
                .andExpect(content().string(not(containsString("<style"))))
                .andExpect(content().string(not(containsString("<script>"))))
                .andExpect(content().string(not(containsString(" onclick"))));
    }

    @Controller
    static class Sample {
        @GetMapping("/sample")
        String sample() {
            return "sample-page";
        }
    }

    record Person(String shopName, String displayName) implements Visitor {}

    private static RequestPostProcessor estimator() {
        return (MockHttpServletRequest request) -> {
            request.setUserPrincipal(
                    new TestingAuthenticationToken(
                            new Person("Bent Corner Works", "Sam Example"), "", "ROLE_ESTIMATOR"));
            request.addUserRole("ESTIMATOR");
            return request;
        };
    }

    private static MockMvc mvc() {
        var context = new GenericApplicationContext();
        context.registerBean(
                "here", Place.class, () -> new Place("here", "Here", "/here", Set.of(), 1));
        context.registerBean(
                "below",
                Place.class,
                () -> new Place("below", "Below", "/here/below", Set.of(), 1, "here"));
        context.registerBean(
                "owners",
                Place.class,
                () -> new Place("owners", "Owners", "/owners-only", Set.of("OWNER"), 2));
        context.refresh();
        var resolver = new SpringResourceTemplateResolver();
        resolver.setApplicationContext(context);
        resolver.setPrefix("classpath:/templates/");
        resolver.setSuffix(".html");
        var engine = new SpringTemplateEngine();
        engine.setTemplateResolver(resolver);
        var views = new ThymeleafViewResolver();
        views.setTemplateEngine(engine);
        views.setCharacterEncoding("UTF-8");
        var frames =
                new PageFrames(
                        ((DefaultListableBeanFactory) context.getBeanFactory())
                                .getBeanProvider(Place.class));
        var collected =
                new InterceptorRegistry() {
                    List<Object> all() {
                        return getInterceptors();
                    }
                };
        frames.addInterceptors(collected);
        return MockMvcBuilders.standaloneSetup(new Sample())
                .setViewResolvers(views)
                .setLocaleResolver(PageFrames.localeResolver())
                .addInterceptors(
                        collected.all().stream()
                                .map(org.springframework.web.servlet.HandlerInterceptor.class::cast)
                                .toArray(org.springframework.web.servlet.HandlerInterceptor[]::new))
                .build();
    }
}
