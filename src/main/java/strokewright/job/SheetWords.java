package strokewright.job;

import java.time.Clock;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.access.SignedIn;
import strokewright.quantity.Faults;

/** What words of time sheets were chosen to mean in this shop. */
@Component
class SheetWords {

    static final List<String> KINDS = List.of("person", "job", "work");

    private final JdbcClient sql;
    private final Clock clock;

    SheetWords(JdbcClient sql, Clock clock) {
        this.sql = sql;
        this.clock = clock;
    }

    /**
     * @param kind person, job or work
     * @param word as files have it, tidy; of work on one job alone behind the job's number
     * @param meaning id of a person, number of a job or "none", "kind:…", "step:…" or "whole-job"
     */
    record Chosen(String kind, String word, String meaning) {}

    @Transactional(readOnly = true)
    public List<Chosen> all() {
        return sql.sql(
                        """
                        select kind, word, meaning from sheet_word where shop_id = ?
                        order by kind, word
                        """)
                .param(SignedIn.current().shopId())
                .query((row, i) -> new Chosen(row.getString(1), row.getString(2), row.getString(3)))
                .list();
    }

    /** Meanings by kind and word. */
    Map<String, String> byWord() {
        Map<String, String> meanings = new HashMap<>();
        all().forEach(c -> meanings.put(c.kind + " " + c.word, c.meaning));
        return meanings;
    }

    @Transactional
    public void choose(Chosen chosen) {
        Faults faults = new Faults();
        if (chosen.kind == null || !KINDS.contains(chosen.kind)) {
            faults.add("/kind", "must be one of " + String.join(", ", KINDS));
        }
        faults.text("/word", chosen.word);
        faults.text("/meaning", chosen.meaning);
        faults.throwIfAny();
        sql.sql(
                        """
                        insert into sheet_word (shop_id, kind, word, meaning, chosen_at, chosen_by)
                        values (?, ?, ?, ?, ?, ?)
                        on conflict (shop_id, kind, word) do update
                          set meaning = excluded.meaning, chosen_at = excluded.chosen_at,
                            chosen_by = excluded.chosen_by
                        """)
                .params(
                        SignedIn.current().shopId(),
                        chosen.kind,
                        tidy(chosen.word),
                        chosen.meaning,
                        clock.instant().atOffset(ZoneOffset.UTC),
                        SignedIn.current().userId())
                .update();
    }

    @Transactional
    public void forget(String kind, String word) {
        sql.sql("delete from sheet_word where shop_id = ? and kind = ? and word = ?")
                .params(SignedIn.current().shopId(), kind, tidy(word))
                .update();
    }

    static String tidy(String word) {
        return word.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
    }
}
