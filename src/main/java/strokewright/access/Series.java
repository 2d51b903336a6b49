package strokewright.access;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * Numbers counted within a shop and a year, without a gap or a double, however many ask at once.
 * Take one last in a transaction: whoever takes the next one waits until it has ended.
 */
@Component
public class Series {

    private final JdbcClient sql;

    /**
     * A number as people read and write it: the letter of its series, year, at least four digits.
     */
    public record Shown(char letter, int year, int n) {

        private static final Pattern FORM = Pattern.compile("([A-Z])-([0-9]{4})-([0-9]{4,9})");

        /** Empty of anything that is not written exactly so. */
        public static Optional<Shown> read(char letter, String text) {
            Matcher m = FORM.matcher(text);
            if (!m.matches()) {
                return Optional.empty();
            }
            Shown number =
                    new Shown(letter, Integer.parseInt(m.group(2)), Integer.parseInt(m.group(3)));
            return Optional.of(number).filter(it -> it.toString().equals(text));
        }

        @Override
        public String toString() {
            return "%c-%04d-%04d".formatted(letter, year, n);
        }
    }

    Series(JdbcClient sql) {
        this.sql = sql;
    }

    /**
     * @param name of the series, such as "quote"
     * @return 1 for the first one of the year
     */
    public int next(String name, int year) {
        return sql.sql(
                        """
                        insert into number_counter as c (shop_id, series, year, last)
                        values (?, ?, ?, 1)
                        on conflict (shop_id, series, year) do update set last = c.last + 1
                        returning last
                        """)
                .params(SignedIn.current().shopId(), name, year)
                .query(Integer.class)
                .single();
    }
}
