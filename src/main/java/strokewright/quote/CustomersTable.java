package strokewright.quote;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import strokewright.exchange.CellFault;
import strokewright.exchange.FileColumn;
import strokewright.exchange.FileReading;
import strokewright.exchange.FileReading.Line;
import strokewright.exchange.FileTable;
import strokewright.exchange.Plan;
import strokewright.exchange.Plan.FieldChange;
import strokewright.exchange.Plan.What;
import strokewright.office.Value;
import strokewright.quantity.Fault;
import strokewright.web.Reading;

/**
 * The customers' cards as a file. A row is a customer by its id, or without one by its name; a name
 * that nobody has yet is a new customer. Nobody is taken out.
 */
@Component
class CustomersTable implements FileTable {

    private static final int CONTACTS_AT_LEAST = 2;
    private static final int STAGES_AT_LEAST = 2;
    private static final String TAX_KINDS = "shop-rate, own-rate, reverse-charge, export, exempt";
    private static final Map<String, TaxRule.Kind> KINDS = kinds();

    private static final FileColumn ID =
            FileColumn.text("Id", 12, "of a customer who is known here; empty for the name alone");
    private static final FileColumn NAME = FileColumn.text("Name", 30, "").isNeeded();
    private static final FileColumn ADDRESS =
            FileColumn.prose("Address", 36, "with lines as on an envelope");
    private static final FileColumn DELIVERY =
            FileColumn.prose("Delivery address", 36, "where it differs")
                    .alsoCalled("deliveryAddress");
    private static final FileColumn EMAIL = FileColumn.text("E-mail", 28, "").alsoCalled("email");
    private static final FileColumn PHONE = FileColumn.text("Phone", 18, "");
    private static final FileColumn TAX_NUMBER =
            FileColumn.text("Tax number", 16, "the customer’s own").alsoCalled("taxNumber");
    private static final FileColumn TAX =
            FileColumn.text("Tax", 14, TAX_KINDS + "; empty: shop-rate").alsoCalled("taxKind");
    private static final FileColumn TAX_PERCENT =
            FileColumn.number("Tax rate", "%", "of own-rate alone").alsoCalled("taxPercent");
    private static final FileColumn TAX_REASON =
            FileColumn.text("Tax reason", 24, "printed where no tax is charged")
                    .alsoCalled("taxReason");
    private static final FileColumn DAYS =
            FileColumn.number("Payment days", "", "from the invoice on; 0 at once")
                    .alsoCalled("paymentDays");
    private static final FileColumn SETTLEMENT =
            FileColumn.number("Settlement discount", "%", "for who pays early")
                    .alsoCalled("settlementDiscountPercent");
    private static final FileColumn SETTLEMENT_DAYS =
            FileColumn.number("Settlement days", "", "how early").alsoCalled("settlementDays");
    private static final FileColumn TRADE =
            FileColumn.number("Trade discount", "%", "off the list price")
                    .alsoCalled("tradeDiscountPercent");
    private static final FileColumn NOTES = FileColumn.prose("Notes", 36, "for the shop alone");

    private static final List<Stage> STAGES = new ArrayList<>();
    private static final List<Contact> CONTACTS = new ArrayList<>();

    static {
        for (int i = 1; i <= Payment.MOST_STAGES; i++) {
            STAGES.add(
                    new Stage(
                            FileColumn.text(
                                    "Stage " + i + " when",
                                    18,
                                    i == 1 ? "such as with the order" : ""),
                            FileColumn.number(
                                    "Stage " + i + " share", "%", i == 1 ? "of the whole" : "")));
        }
        for (int i = 1; i <= CustomerCard.MOST_CONTACTS; i++) {
            CONTACTS.add(
                    new Contact(
                            FileColumn.text("Contact " + i + " name", 20, ""),
                            FileColumn.text("Contact " + i + " role", 14, ""),
                            FileColumn.text("Contact " + i + " e-mail", 24, "")
                                    .alsoCalled("contact " + i + " email"),
                            FileColumn.text("Contact " + i + " phone", 16, "")));
        }
    }

    private record Stage(FileColumn when, FileColumn percent) {}

    private record Contact(FileColumn name, FileColumn role, FileColumn email, FileColumn phone) {

        List<FileColumn> all() {
            return List.of(name, role, email, phone);
        }
    }

    private final Customers customers;

    CustomersTable(Customers customers) {
        this.customers = customers;
    }

    @Override
    public String key() {
        return "customers";
    }

    @Override
    public String title() {
        return "Customers";
    }

    @Override
    public String noun() {
        return "customer";
    }

    @Override
    public String place() {
        return "/customers";
    }

    @Override
    public String navigation() {
        return "customers";
    }

    @Override
    public String effect() {
        return "Quotes that were issued keep the name and address that they were issued with.";
    }

    @Override
    public boolean removes() {
        return false;
    }

    @Override
    public String version() {
        return customers.stand();
    }

    @Override
    public List<FileColumn> columns() {
        return columns(CONTACTS.size(), STAGES.size());
    }

    @Override
    public List<FileColumn> columnsToWrite(boolean begun) {
        int contacts = CONTACTS_AT_LEAST;
        int stages = STAGES_AT_LEAST;
        for (CustomerCard card : customers.all()) {
            contacts = Math.max(contacts, card.contacts().size());
            stages = Math.max(stages, card.payment().stages().size());
        }
        return columns(contacts, stages);
    }

    private static List<FileColumn> columns(int contacts, int stages) {
        List<FileColumn> all =
                new ArrayList<>(
                        List.of(
                                ID,
                                NAME,
                                ADDRESS,
                                DELIVERY,
                                EMAIL,
                                PHONE,
                                TAX_NUMBER,
                                TAX,
                                TAX_PERCENT,
                                TAX_REASON,
                                DAYS,
                                SETTLEMENT,
                                SETTLEMENT_DAYS,
                                TRADE,
                                NOTES));
        STAGES.subList(0, stages)
                .forEach(
                        s -> {
                            all.add(s.when);
                            all.add(s.percent);
                        });
        CONTACTS.subList(0, contacts).forEach(c -> all.addAll(c.all()));
        return all;
    }

    @Override
    public Iterator<List<Value>> rows(boolean begun) {
        List<FileColumn> columns = columnsToWrite(begun);
        return customers.all().stream()
                .map(
                        card -> {
                            Map<FileColumn, Value> values = values(card);
                            return columns.stream()
                                    .map(c -> values.getOrDefault(c, Value.BLANK))
                                    .toList();
                        })
                .iterator();
    }

    private static Map<FileColumn, Value> values(CustomerCard card) {
        Map<FileColumn, Value> values = new LinkedHashMap<>();
        values.put(ID, Value.text(card.id() == null ? null : card.id().toString()));
        values.put(NAME, Value.text(card.name()));
        values.put(ADDRESS, Value.text(card.address()));
        values.put(DELIVERY, Value.text(card.deliveryAddress()));
        values.put(EMAIL, Value.text(card.email()));
        values.put(PHONE, Value.text(card.phone()));
        values.put(TAX_NUMBER, Value.text(card.taxNumber()));
        values.put(TAX, Value.text(word(card.tax().kind())));
        values.put(TAX_PERCENT, Value.number(card.tax().percent()));
        values.put(TAX_REASON, Value.text(card.tax().reason()));
        Payment payment = card.payment();
        values.put(DAYS, Value.number(payment.days()));
        values.put(SETTLEMENT, Value.number(payment.settlementDiscountPercent()));
        values.put(SETTLEMENT_DAYS, Value.number(payment.settlementDays()));
        values.put(TRADE, Value.number(payment.tradeDiscountPercent()));
        values.put(NOTES, Value.text(card.notes()));
        for (int i = 0; i < payment.stages().size(); i++) {
            values.put(STAGES.get(i).when, Value.text(payment.stages().get(i).when()));
            values.put(STAGES.get(i).percent, Value.number(payment.stages().get(i).percent()));
        }
        for (int i = 0; i < card.contacts().size(); i++) {
            CustomerCard.Contact contact = card.contacts().get(i);
            values.put(CONTACTS.get(i).name, Value.text(contact.name()));
            values.put(CONTACTS.get(i).role, Value.text(contact.role()));
            values.put(CONTACTS.get(i).email, Value.text(contact.email()));
            values.put(CONTACTS.get(i).phone, Value.text(contact.phone()));
        }
        values.values().removeIf(v -> v instanceof Value.Blank);
        return values;
    }

    @Override
    public Plan plan(FileReading file, boolean remove) {
        return new Import(file).plan();
    }

    @Override
    public Plan carryOut(FileReading file, boolean remove) {
        customers.oneImportAtATime();
        Import work = new Import(file);
        Plan plan = work.plan();
        if (plan.faults().isEmpty()) {
            customers.put(work.wanted);
        }
        return plan;
    }

    private static Map<String, TaxRule.Kind> kinds() {
        Map<String, TaxRule.Kind> kinds = new LinkedHashMap<>();
        for (TaxRule.Kind kind : TaxRule.Kind.values()) {
            kinds.put(word(kind), kind);
        }
        return kinds;
    }

    private static String word(TaxRule.Kind kind) {
        return kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** One file against the cards of now. */
    private final class Import {

        private final FileReading file;
        private final List<CustomerCard> wanted = new ArrayList<>();
        private final List<CellFault> faults = new ArrayList<>();
        private final List<Plan.Row> rows = new ArrayList<>();
        private final Map<UUID, CustomerCard> byId = new HashMap<>();
        private final Map<String, List<CustomerCard>> byName = new HashMap<>();
        private final Map<Object, Integer> seen = new HashMap<>();
        private final Set<UUID> touched = new HashSet<>();

        Import(FileReading file) {
            this.file = file;
            for (CustomerCard card : customers.all()) {
                byId.put(card.id(), card);
                byName.computeIfAbsent(card.name(), n -> new ArrayList<>()).add(card);
            }
        }

        Plan plan() {
            file.lines().forEach(this::take);
            return new Plan(rows, faults, byId.size() - touched.size(), List.of());
        }

        private void take(Line line) {
            int before = faults.size();
            CustomerCard known = known(line);
            Object key = known == null ? line.typed().getOrDefault(NAME, "") : (Object) known.id();
            Integer first = key.equals("") ? null : seen.putIfAbsent(key, line.row());
            if (first != null) {
                faults.add(file.fault(line, NAME, "stands in row " + first + " already"));
            }
            CustomerCard card = card(line, known);
            for (Fault fault : card.withId(null).faults().all()) {
                faults.add(file.fault(line, column(fault.pointer()), fault.message()));
            }
            if (faults.size() > before) {
                return;
            }
            if (known == null) {
                wanted.add(card);
                rows.add(new Plan.Row(line.row(), What.NEW, card.name(), changes(null, card)));
                return;
            }
            touched.add(known.id());
            List<FieldChange> changes = changes(known, card);
            if (!changes.isEmpty()) {
                wanted.add(card);
            }
            rows.add(
                    new Plan.Row(
                            line.row(),
                            changes.isEmpty() ? What.SAME : What.CHANGED,
                            card.name(),
                            changes));
        }

        private @Nullable CustomerCard known(Line line) {
            String id = line.typed().getOrDefault(ID, "");
            if (!id.isEmpty()) {
                CustomerCard card = byId.get(uuid(id));
                if (card == null) {
                    faults.add(file.fault(line, ID, "names no customer of the shop"));
                }
                return card;
            }
            List<CustomerCard> named =
                    byName.getOrDefault(line.typed().getOrDefault(NAME, ""), List.of());
            if (named.size() > 1) {
                faults.add(
                        file.fault(
                                line,
                                NAME,
                                "is the name of " + named.size() + " customers: say which by Id"));
            }
            return named.size() == 1 ? named.get(0) : null;
        }

        private static @Nullable UUID uuid(String text) {
            try {
                return UUID.fromString(text);
            } catch (IllegalArgumentException e) {
                return null;
            }
        }

        // Cards ---------------------------------------------------------------------------------

        /** What the file has no column for stays. */
        private CustomerCard card(Line line, @Nullable CustomerCard known) {
            CustomerCard was = known == null ? CustomerCard.named("", null) : known;
            return new CustomerCard(
                    was.id(),
                    Objects.requireNonNullElse(text(line, NAME, was.name()), ""),
                    text(line, ADDRESS, was.address()),
                    text(line, DELIVERY, was.deliveryAddress()),
                    text(line, EMAIL, was.email()),
                    text(line, PHONE, was.phone()),
                    text(line, TAX_NUMBER, was.taxNumber()),
                    contacts(line, was.contacts()),
                    tax(line, was.tax()),
                    payment(line, was.payment()),
                    text(line, NOTES, was.notes()));
        }

        private @Nullable String text(Line line, FileColumn column, @Nullable String was) {
            String typed = line.typed().get(column);
            return typed == null ? was : typed.isEmpty() ? null : typed;
        }

        private TaxRule tax(Line line, TaxRule was) {
            String word = line.typed().get(TAX);
            TaxRule.Kind kind = was.kind();
            if (word != null) {
                kind =
                        word.isEmpty()
                                ? TaxRule.Kind.SHOP_RATE
                                : KINDS.get(word.toLowerCase(Locale.ROOT).replaceAll("[ _]", "-"));
                if (kind == null) {
                    faults.add(file.fault(line, TAX, "must be one of " + TAX_KINDS));
                    kind = TaxRule.Kind.SHOP_RATE;
                }
            }
            return new TaxRule(
                    kind,
                    number(line, TAX_PERCENT, was.percent()),
                    text(line, TAX_REASON, was.reason()));
        }

        private Payment payment(Line line, Payment was) {
            return new Payment(
                    whole(line, DAYS, was.days()),
                    number(line, SETTLEMENT, was.settlementDiscountPercent()),
                    whole(line, SETTLEMENT_DAYS, was.settlementDays()),
                    number(line, TRADE, was.tradeDiscountPercent()),
                    stages(line, was.stages()));
        }

        private List<Payment.Stage> stages(Line line, List<Payment.Stage> was) {
            if (STAGES.stream().noneMatch(s -> file.has(s.when) || file.has(s.percent))) {
                return was;
            }
            List<Payment.Stage> stages = new ArrayList<>();
            for (Stage stage : STAGES) {
                String when = text(line, stage.when, null);
                Double percent = number(line, stage.percent, null);
                if (when != null || percent != null) {
                    stages.add(new Payment.Stage(when, percent));
                }
            }
            return stages;
        }

        private List<CustomerCard.Contact> contacts(Line line, List<CustomerCard.Contact> was) {
            if (CONTACTS.stream().flatMap(c -> c.all().stream()).noneMatch(file::has)) {
                return was;
            }
            List<CustomerCard.Contact> contacts = new ArrayList<>();
            for (Contact contact : CONTACTS) {
                if (contact.all().stream().anyMatch(c -> text(line, c, null) != null)) {
                    contacts.add(
                            new CustomerCard.Contact(
                                    text(line, contact.name, null),
                                    text(line, contact.role, null),
                                    text(line, contact.email, null),
                                    text(line, contact.phone, null)));
                }
            }
            return contacts;
        }

        private @Nullable Double number(Line line, FileColumn column, @Nullable Double was) {
            return read(
                    line,
                    column,
                    was,
                    typed -> file.numbers().number(typed.replaceAll("\\s*%$", "")),
                    BigDecimal::doubleValue);
        }

        private @Nullable Integer whole(Line line, FileColumn column, @Nullable Integer was) {
            return read(line, column, was, typed -> file.numbers().whole(typed), this::moderate);
        }

        private Integer moderate(BigDecimal number) {
            return number.min(BigDecimal.valueOf(1_000_000))
                    .max(BigDecimal.valueOf(-1_000_000))
                    .intValue();
        }

        private <T> @Nullable T read(
                Line line,
                FileColumn column,
                @Nullable T was,
                Function<String, Reading> reading,
                Function<BigDecimal, T> as) {
            String typed = line.typed().get(column);
            if (typed == null) {
                return was;
            }
            Reading read = reading.apply(typed);
            if (read.fault() != null) {
                faults.add(file.fault(line, column, read.fault()));
            }
            return read.value() == null ? null : as.apply(read.value());
        }

        // Words ---------------------------------------------------------------------------------

        /** Compared as they are written, so that what goes out changes nothing when it comes in. */
        private List<FieldChange> changes(@Nullable CustomerCard old, CustomerCard now) {
            Map<FileColumn, Value> was = old == null ? Map.of() : values(old);
            Map<FileColumn, Value> is = values(now);
            List<FieldChange> changes = new ArrayList<>();
            for (FileColumn column : columns()) {
                String before = said(was.get(column));
                String after = said(is.get(column));
                boolean named =
                        old == null
                                && (column == NAME || column == TAX && "shop-rate".equals(after));
                if (column != ID && !Objects.equals(before, after) && !named) {
                    changes.add(new FieldChange(column.name(), before, after));
                }
            }
            return changes;
        }

        private @Nullable String said(@Nullable Value value) {
            if (value instanceof Value.Text text) {
                return text.text().strip();
            }
            return value instanceof Value.Number number
                    ? file.numbers().typed(number.number())
                    : null;
        }

        private static @Nullable FileColumn column(String pointer) {
            String[] steps = pointer.split("/");
            if (steps.length < 2) {
                return null;
            }
            return switch (steps[1]) {
                case "name" -> NAME;
                case "address" -> ADDRESS;
                case "deliveryAddress" -> DELIVERY;
                case "email" -> EMAIL;
                case "phone" -> PHONE;
                case "taxNumber" -> TAX_NUMBER;
                case "notes" -> NOTES;
                case "tax" -> steps.length < 3 ? TAX : taxColumn(steps[2]);
                case "payment" -> steps.length < 3 ? DAYS : paymentColumn(steps);
                case "contacts" -> steps.length < 3 ? null : contactColumn(steps);
                default -> null;
            };
        }

        private static FileColumn taxColumn(String field) {
            return field.equals("percent")
                    ? TAX_PERCENT
                    : field.equals("reason") ? TAX_REASON : TAX;
        }

        private static FileColumn paymentColumn(String[] steps) {
            return switch (steps[2]) {
                case "settlementDiscountPercent" -> SETTLEMENT;
                case "settlementDays" -> SETTLEMENT_DAYS;
                case "tradeDiscountPercent" -> TRADE;
                case "stages" -> {
                    Stage stage = STAGES.get(steps.length < 4 ? 0 : Integer.parseInt(steps[3]));
                    yield steps.length > 4 && steps[4].equals("when") ? stage.when : stage.percent;
                }
                default -> DAYS;
            };
        }

        private static FileColumn contactColumn(String[] steps) {
            Contact contact = CONTACTS.get(Integer.parseInt(steps[2]));
            return switch (steps.length < 4 ? "" : steps[3]) {
                case "role" -> contact.role;
                case "email" -> contact.email;
                case "phone" -> contact.phone;
                default -> contact.name;
            };
        }
    }
}
