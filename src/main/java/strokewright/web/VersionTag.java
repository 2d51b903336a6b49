package strokewright.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ETag;
import strokewright.quantity.InvalidInput;

/**
 * The version of a stored thing as HTTP tells it (RFC 9110, section 8.8.3): goes out as {@code
 * ETag}, comes back as {@code If-Match}. As text it is the tag with its quotes.
 *
 * @param version the stored row's, counted up at every change
 */
public record VersionTag(long version) {

    /**
     * Lets a change through only if it was made from this version. Ask inside the transaction;
     * whoever changes the row between here and the commit is caught by its version column.
     *
     * @param ifMatch the header as it came: one tag, a list of them, or {@code *} for any version
     * @throws Problem 428 if it is missing, 412 if this version is not among them (a weak tag never
     *     is: it does not promise the same content)
     */
    public void mustMatch(@Nullable String ifMatch) {
        if (ifMatch == null || ifMatch.isBlank()) {
            throw Problem.ifMatchRequired();
        }
        List<ETag> tags = ETag.parse(ifMatch);
        if (tags.isEmpty()) {
            throw new InvalidInput(
                    "", "has a header If-Match that is not an ETag in quotes, such as " + this);
        }
        ETag own = new ETag(Long.toString(version), false);
        if (tags.stream().noneMatch(tag -> tag.isWildcard() || tag.compare(own, true))) {
            throw Problem.changedMeanwhile();
        }
    }

    @Override
    public String toString() {
        return "\"" + version + "\"";
    }
}
