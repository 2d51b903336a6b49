package strokewright.web;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.springframework.core.annotation.AliasFor;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

/** A controller for programs: strict JSON in, JSON out, every refusal a problem document. */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@Documented
@RestController
@RequestMapping
public @interface Api {

    /** The path that all its methods share, from {@code /api/} on. */
    @AliasFor(annotation = RequestMapping.class, attribute = "path")
    String[] value();
}
