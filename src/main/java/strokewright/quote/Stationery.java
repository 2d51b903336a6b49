package strokewright.quote;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.NumberFormat;
import java.time.LocalDate;
import java.time.chrono.IsoChronology;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import strokewright.office.Paper;
import strokewright.quantity.Money;

/**
 * The shop's paper: its letterhead with logo, and how figures and dates are written on it.
 *
 * @param shop what it is called where the letterhead says nothing
 */
record Stationery(String shop, Letterhead letterhead, Letterheads.@Nullable Logo logo) {

    Paper.Size size() {
        return switch (letterhead.paper()) {
            case A4 -> Paper.Size.A4;
            case LETTER -> Paper.Size.LETTER;
        };
    }

    Paper.Sender sender() {
        List<String> foot = new ArrayList<>();
        if (letterhead.taxNumber() != null) {
            foot.add("Tax no. " + letterhead.taxNumber());
        }
        foot.addAll(letterhead.bank());
        return new Paper.Sender(
                name(),
                lines(letterhead.address()),
                Stream.of(
                                letterhead.phone() == null ? null : "Tel. " + letterhead.phone(),
                                letterhead.email(),
                                letterhead.web())
                        .filter(Objects::nonNull)
                        .toList(),
                foot,
                logo == null
                        ? null
                        : "data:%s;base64,%s"
                                .formatted(
                                        logo.type(),
                                        Base64.getEncoder().encodeToString(logo.picture())));
    }

    String name() {
        return letterhead.name() == null ? shop : letterhead.name();
    }

    /** The lines that a text was typed in, without empty ones. */
    static List<String> lines(@Nullable String text) {
        return text == null
                ? List.of()
                : text.lines().map(String::strip).filter(line -> !line.isEmpty()).toList();
    }

    String date(LocalDate date) {
        return letterhead.dated(date);
    }

    /** The same for a cell of a workbook; year, month and day where no such format says it. */
    String dateFormat() {
        String pattern =
                DateTimeFormatterBuilder.getLocalizedDateTimePattern(
                        FormatStyle.MEDIUM, null, IsoChronology.INSTANCE, locale());
        return pattern.matches("[dMyu .,/-]+")
                ? pattern.replaceAll("[yu]+", "yyyy").replace('M', 'm')
                : "yyyy-mm-dd";
    }

    /** Without its currency, which stands over the column. */
    String amount(Money money) {
        return number(money.amount());
    }

    String whole(int number) {
        return NumberFormat.getIntegerInstance(locale()).format(number);
    }

    /** At most three decimals, and no more than it has. */
    String number(double value) {
        BigDecimal rounded =
                BigDecimal.valueOf(value).setScale(3, RoundingMode.HALF_UP).stripTrailingZeros();
        return number(rounded.scale() < 0 ? rounded.setScale(0) : rounded);
    }

    /** In kg, to ten grams: as well as one knows it from the sheet. */
    String mass(double kg) {
        return number(BigDecimal.valueOf(kg).setScale(2, RoundingMode.HALF_UP));
    }

    private String number(BigDecimal value) {
        NumberFormat format = NumberFormat.getNumberInstance(locale());
        format.setMinimumFractionDigits(value.scale());
        format.setMaximumFractionDigits(value.scale());
        return format.format(value);
    }

    private Locale locale() {
        return letterhead.forFigures();
    }
}
