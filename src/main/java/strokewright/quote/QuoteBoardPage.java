package strokewright.quote;

import java.time.LocalDate;
import java.util.List;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import strokewright.access.Role;
import strokewright.access.SignedIn;

/** Quotes by where they stand: what is due, what waits for whom, what it is worth. */
@Controller
class QuoteBoardPage {

    private static final int LINES = 15;

    private final QuoteBoard board;
    private final QuoteDesk desk;

    QuoteBoardPage(QuoteBoard board, QuoteDesk desk) {
        this.board = board;
        this.desk = desk;
    }

    /**
     * A section of the page.
     *
     * @param about what its quotes have in common
     * @param rest how many of them are not shown
     */
    record Shown(String id, String title, String about, QuoteBoard.Section of, List<Row> rows) {

        public int rest() {
            return of.count() - rows.size();
        }
    }

    /**
     * @param waits for whom and since when, or how it ended
     */
    record Row(QuoteBoard.Line line, String waits) {}

    @GetMapping("/quotes")
    String show(@AuthenticationPrincipal SignedIn who, Model model) {
        QuoteBoard.Overview all = board.overview(LINES);
        model.addAttribute("open", all.open());
        model.addAttribute("openCount", all.due().count() + all.waiting().count());
        model.addAttribute("drafts", all.drafts());
        model.addAttribute("ordered", all.ordered());
        model.addAttribute("latelyDays", QuoteBoard.LATELY_DAYS);
        model.addAttribute("lapsedBefore", all.lapsedBefore());
        model.addAttribute("owner", who.role() == Role.OWNER);
        model.addAttribute(
                "sections",
                List.of(
                        shown(
                                "due",
                                "Due",
                                "offers whose last day is within " + QuoteBoard.DUE_DAYS + " days",
                                all.due()),
                        shown(
                                "lapsed",
                                "Lapsed",
                                "without an answer, in the last "
                                        + QuoteBoard.LATELY_DAYS
                                        + " days",
                                all.lapsed()),
                        shown("drafts", "Drafts", "not issued yet", all.drafts()),
                        shown(
                                "waiting",
                                "Waiting for an answer",
                                "further offers, the nearest last day first",
                                all.waiting()),
                        shown(
                                "ordered",
                                "Ordered",
                                "in the last " + QuoteBoard.LATELY_DAYS + " days",
                                all.ordered()),
                        shown(
                                "refused",
                                "Declined or withdrawn",
                                "in the last " + QuoteBoard.LATELY_DAYS + " days",
                                all.refused())));
        return "quote/board";
    }

    private Shown shown(String id, String title, String about, QuoteBoard.Section section) {
        return new Shown(
                id,
                title,
                about,
                section,
                section.lines().stream().map(l -> new Row(l, waits(l))).toList());
    }

    private String waits(QuoteBoard.Line line) {
        LocalDate today = desk.today();
        return switch (line.state()) {
            case DRAFT ->
                    (line.feasible() ? "for us: can be issued" : "for us: not possible yet")
                            + since(line.changed(), today);
            case ISSUED ->
                    today.equals(line.validUntil())
                            ? "for the customer, last day today"
                            : "for the customer"
                                    + (line.validUntil() == null
                                            ? ""
                                            : ", "
                                                    + QuoteDesk.days(today, line.validUntil())
                                                    + " left");
            case LAPSED -> "lapsed " + QuoteDesk.days(line.validUntil(), today) + " ago";
            case ACCEPTED, DECLINED, WITHDRAWN -> line.state().word();
        };
    }

    private static String since(LocalDate day, LocalDate today) {
        return day.equals(today) ? ", changed today" : ", untouched " + QuoteDesk.days(day, today);
    }
}
