package strokewright.office;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What stands around the text of a paper that goes out of the shop: sender, addressee, and the data
 * fields of its title block as ISO 7200 has them. Every text is shown as it is.
 *
 * @param type of document, e.g. Quote
 * @param number identification number
 * @param revision null where the paper has none
 * @param date of issue, as its reader writes dates
 * @param approvedBy empty as long as nobody did
 * @param addressee line by line, for the window of an envelope
 * @param fields further ones of the title block
 * @param stamp a word on every page, such as DRAFT; null for none
 */
public record Paper(
        Size size,
        String type,
        String number,
        @Nullable String revision,
        String date,
        String title,
        String createdBy,
        String approvedBy,
        Sender sender,
        List<String> addressee,
        List<Field> fields,
        @Nullable String stamp) {

    public Paper {
        addressee = List.copyOf(addressee);
        fields = List.copyOf(fields);
    }

    /** Sizes of ISO 216 and ANSI/ASME Y14.1. */
    public enum Size {
        A4("210mm 297mm"),
        LETTER("8.5in 11in");

        private final String css;

        Size(String css) {
            this.css = css;
        }

        String css() {
            return css;
        }
    }

    /** One more datum of the title block. */
    public record Field(String name, String value) {}

    /**
     * The shop that the paper comes from.
     *
     * @param address line by line, without the name
     * @param contact how to reach it, line by line
     * @param foot at the bottom of the first page, such as tax number and bank
     * @param logo a picture as {@code data:image/png} or {@code data:image/jpeg}; null for none
     */
    public record Sender(
            String name,
            List<String> address,
            List<String> contact,
            List<String> foot,
            @Nullable String logo) {

        public Sender {
            address = List.copyOf(address);
            contact = List.copyOf(contact);
            foot = List.copyOf(foot);
        }

        /** Small, above the addressee. */
        public String oneLine() {
            return Stream.concat(Stream.of(name), address.stream())
                    .collect(Collectors.joining(" · "));
        }
    }
}
