package strokewright.web;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.core.MethodParameter;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.support.WebDataBinderFactory;
import org.springframework.web.context.request.NativeWebRequest;
import org.springframework.web.method.support.HandlerMethodArgumentResolver;
import org.springframework.web.method.support.ModelAndViewContainer;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;
import strokewright.quantity.InvalidInput;

/**
 * Which page of a list is wanted. A page begins after the last entry of the one before, so that
 * nothing is shown twice or left out when the list changes meanwhile. As a parameter of a
 * controller's method it is read from {@code ?size=20&after=…}.
 *
 * @param size at most so many entries
 * @param after the mark of the last entry before this page, as {@link #answer} was given it; null
 *     for the first page
 */
public record Paging(int size, @Nullable String after) {

    public static final int LARGEST = 200;
    public static final int USUAL = 20;

    /** One page of a list. */
    public record Listed<T>(List<T> items) {

        public Listed {
            items = List.copyOf(items);
        }
    }

    /** How many to fetch: one more than is shown tells whether there is a next page. */
    public int limit() {
        return size + 1;
    }

    /**
     * The page with its links to the next and to the first one (RFC 8288).
     *
     * @param found at most {@link #limit()} entries from after the mark on, in the list's order
     * @param mark what tells an entry's place in that order
     */
    public <T> ResponseEntity<Listed<T>> answer(List<T> found, Function<T, String> mark) {
        List<T> shown = found.subList(0, Math.min(size, found.size()));
        HttpHeaders headers = new HttpHeaders();
        if (found.size() > size) {
            headers.add(HttpHeaders.LINK, link(mark.apply(shown.get(size - 1)), "next"));
        }
        if (after != null) {
            headers.add(HttpHeaders.LINK, link(null, "first"));
        }
        return new ResponseEntity<>(new Listed<>(shown), headers, 200);
    }

    /** Relative to the address asked for, so that no proxy can make it point elsewhere. */
    private String link(@Nullable String mark, String relation) {
        var uri =
                ServletUriComponentsBuilder.fromCurrentRequest()
                        .scheme(null)
                        .host(null)
                        .port(null)
                        .replaceQueryParam("after");
        if (mark != null) {
            uri.replaceQueryParam("after", encoded(mark));
        }
        return "<" + uri.build().toUriString() + ">; rel=\"" + relation + "\"";
    }

    private static String encoded(String mark) {
        return Base64.getUrlEncoder()
                .withoutPadding()
                .encodeToString(mark.getBytes(StandardCharsets.UTF_8));
    }

    private static String decoded(String mark) {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(Base64.getUrlDecoder().decode(mark)))
                    .toString();
        } catch (IllegalArgumentException | CharacterCodingException e) {
            throw unknownMark();
        }
    }

    /** For lists that cannot read the mark they were given. */
    public static InvalidInput unknownMark() {
        return new InvalidInput("?after", "must be taken from a Link header as it stands");
    }

    /** Reads it from the address. */
    static final class Resolver implements HandlerMethodArgumentResolver {

        @Override
        public boolean supportsParameter(MethodParameter parameter) {
            return parameter.getParameterType() == Paging.class;
        }

        @Override
        public Paging resolveArgument(
                MethodParameter parameter,
                @Nullable ModelAndViewContainer container,
                NativeWebRequest request,
                @Nullable WebDataBinderFactory binders) {
            String size = request.getParameter("size");
            String after = request.getParameter("after");
            return new Paging(
                    size == null ? USUAL : size(size), after == null ? null : decoded(after));
        }

        private static int size(String text) {
            if (text.matches("[1-9][0-9]{0,2}") && Integer.parseInt(text) <= LARGEST) {
                return Integer.parseInt(text);
            }
            throw new InvalidInput("?size", "must be a whole number from 1 to " + LARGEST);
        }
    }
}
