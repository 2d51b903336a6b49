package strokewright.quote;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import strokewright.estimate.ShopBook;
import strokewright.office.Csv;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.shopbook.ShopBooks;
import strokewright.web.Numbers;

/** Quotes by what somebody still knows of them. */
@Controller
class SearchPage {

    private static final int SHOWN = 50;

    /** What people look for most; the rest is folded away until it is used. */
    private static final Set<String> FIRST = Set.of("number", "customer", "text", "state");

    private final FoundQuotes found;
    private final ShopBooks books;
    private final RegisterFiles files;

    SearchPage(FoundQuotes found, ShopBooks books, RegisterFiles files) {
        this.found = found;
        this.books = books;
        this.files = files;
    }

    /**
     * The form as it was sent.
     *
     * @param fields what stands in each, by the name of its parameter
     * @param states that are ticked
     * @param faults of fields that could not be read
     * @param query of an address that asks for the same
     */
    record Form(Map<String, String> fields, List<String> states, List<Fault> faults, String query) {

        static Form of(HttpServletRequest request, List<Fault> faults) {
            Map<String, String> fields = new LinkedHashMap<>();
            List<String> query = new ArrayList<>();
            for (String name : SearchReading.NAMES) {
                for (String value : values(request, name)) {
                    fields.put(name, value);
                    query.add(name + "=" + URLEncoder.encode(value, StandardCharsets.UTF_8));
                }
            }
            return new Form(fields, values(request, "state"), faults, String.join("&", query));
        }

        private static List<String> values(HttpServletRequest request, String name) {
            String[] given = request.getParameterValues(name);
            return given == null
                    ? List.of()
                    : Stream.of(given).map(String::strip).filter(v -> !v.isEmpty()).toList();
        }

        public String at(String name) {
            return fields.getOrDefault(name, "");
        }

        /** What is wrong with a field; null when nothing is. */
        public @Nullable String fault(String name) {
            return faults.stream()
                    .filter(f -> f.pointer().equals("?" + name))
                    .map(Fault::message)
                    .findFirst()
                    .orElse(null);
        }

        public boolean isOpen() {
            return !FIRST.containsAll(fields.keySet());
        }
    }

    /**
     * @param before the number below which this page of the list begins
     */
    @GetMapping("/quotes/search")
    String search(
            HttpServletRequest request,
            @RequestParam Optional<String> before,
            Locale locale,
            Model model) {
        Numbers numbers = Numbers.of(locale);
        SearchReading.Typed typed = SearchReading.ofPeople(request.getParameterMap(), numbers);
        model.addAttribute("form", Form.of(request, typed.faults()));
        model.addAttribute("states", Stream.of(State.values()).map(State::word).toList());
        model.addAttribute("metals", metals(books.current()));
        if (typed.faults().isEmpty()) {
            list(typed.search(), before.flatMap(QuoteNumber::read), numbers, model);
        }
        return "quote/search";
    }

    /**
     * The register of what was found, for a spreadsheet program.
     *
     * @param file xlsx or csv
     */
    @GetMapping("/quotes/register")
    void register(
            HttpServletRequest request,
            @RequestParam(defaultValue = "quotes") String rows,
            @RequestParam(defaultValue = "xlsx") String file,
            Locale locale,
            HttpServletResponse response) {
        SearchReading.Typed typed =
                SearchReading.ofPeople(request.getParameterMap(), Numbers.of(locale));
        if (!typed.faults().isEmpty()) {
            throw new InvalidInput(typed.faults());
        }
        Register.Form form =
                file.equals("csv")
                        ? new Register.Form.Separated(
                                Csv.Manner.forPeople(Numbers.of(locale).typed(0.5).charAt(1)))
                        : new Register.Form.Workbook();
        files.send(typed.search(), RegisterApi.rows(rows), form, response);
    }

    private void list(
            QuoteSearch search, Optional<QuoteNumber> before, Numbers numbers, Model model) {
        QuoteViews views = new QuoteViews(numbers);
        List<FoundQuotes.Entry> list = found.list(search, before.orElse(null), SHOWN + 1);
        List<FoundQuotes.Entry> shown = list.subList(0, Math.min(SHOWN, list.size()));
        long count = found.count(search);
        model.addAttribute("quotes", shown.stream().map(views::row).toList());
        model.addAttribute("count", count == 1 ? "One quote" : numbers.show(count) + " quotes");
        model.addAttribute("all", search.isAll());
        model.addAttribute("first", before.isEmpty());
        model.addAttribute("older", list.size() > SHOWN ? shown.get(SHOWN - 1).number() : null);
    }

    /** Families first, then grades, as they stand in the shop book. */
    private static List<String> metals(ShopBook book) {
        return Stream.concat(
                        book.grades().stream().map(ShopBook.Grade::family).distinct(),
                        book.grades().stream().map(ShopBook.Grade::code))
                .toList();
    }
}
