package strokewright.exchange;

import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import strokewright.office.Column;
import strokewright.office.Csv;
import strokewright.office.Limits;
import strokewright.office.Table;
import strokewright.office.TableFile;
import strokewright.office.Xlsx;
import strokewright.quantity.Fault;
import strokewright.quantity.InvalidInput;
import strokewright.web.Problem;

/** Takes tables out as files and in again: all of a file, or nothing of it. */
@Component
public class Exchange {

    private final List<FileTable> tables;

    Exchange(List<FileTable> tables) {
        this.tables = tables;
    }

    /**
     * @throws Problem 404 when there is none
     */
    public FileTable table(String key) {
        return tables.stream()
                .filter(t -> t.key().equals(key))
                .findFirst()
                .orElseThrow(() -> Problem.notFound("This table"));
    }

    /** What an import would do, with every fault; changes nothing. */
    @Transactional(readOnly = true)
    public Preview preview(FileTable table, SentFile file, Choices choices) {
        Read read = read(table, file, choices);
        Plan plan =
                read.faults.isEmpty()
                        ? table.plan(read.reading, choices.remove())
                        : further(table, read, choices);
        return read.preview(plan, tag(table, file, choices));
    }

    /**
     * What else is wrong with a file that has cells that cannot be read: the faults of its other
     * rows, and the words that they need.
     */
    private static Plan further(FileTable table, Read read, Choices choices) {
        if (!read.reading.hasFaultsOfCellsAlone() || !read.reading.open().isEmpty()) {
            return new Plan(List.of(), List.of(), 0, List.of());
        }
        Set<Integer> told = new HashSet<>();
        read.faults.forEach(f -> told.add(f.row()));
        Plan plan = table.plan(read.reading, choices.remove());
        return new Plan(
                List.of(),
                plan.faults().stream()
                        .filter(f -> f.row() != null && !told.contains(f.row()))
                        .toList(),
                0,
                List.of(),
                plan.words());
    }

    /**
     * Imports a file.
     *
     * @param ifMatch tag of the preview that was looked through, in quotes; null to import without
     * @throws InvalidInput with every fault, each with its row and column; then nothing was done
     * @throws Problem 412 when something changed since that preview
     */
    @Transactional
    public Preview carryOut(
            FileTable table, SentFile file, Choices choices, @Nullable String ifMatch) {
        Read read = read(table, file, choices);
        if (!read.faults.isEmpty()) {
            List<CellFault> all = new ArrayList<>(read.faults);
            all.addAll(further(table, read, choices).faults());
            InvalidInput refused = refused(all);
            throw read.reading.open().isEmpty() ? refused : asking(refused);
        }
        String tag = tag(table, file, choices);
        if (ifMatch != null && !ifMatch.strip().equals("\"" + tag + "\"")) {
            throw Problem.changedMeanwhile();
        }
        Plan plan = table.carryOut(read.reading, choices.remove());
        if (!plan.faults().isEmpty()) {
            throw refused(plan.faults());
        }
        return read.preview(plan, tag);
    }

    private static InvalidInput refused(List<CellFault> faults) {
        List<Fault> told =
                new ArrayList<>(
                        faults.stream()
                                .limit(Preview.MOST_FAULTS)
                                .map(CellFault::asFault)
                                .toList());
        if (faults.size() > Preview.MOST_FAULTS) {
            told.add(
                    new Fault("", "has " + (faults.size() - Preview.MOST_FAULTS) + " more faults"));
        }
        return new InvalidInput(told);
    }

    /** A program has to be told the name of the parameter too. */
    private static InvalidInput asking(InvalidInput refused) {
        List<Fault> told = new ArrayList<>(refused.faults());
        told.add(new Fault("?decimal", "is missing: comma or point"));
        return new InvalidInput(told);
    }

    private record Read(FileReading reading, Preview.TableNames names, List<CellFault> faults) {

        Preview preview(Plan plan, String tag) {
            List<CellFault> all = new ArrayList<>(faults);
            all.addAll(plan.faults());
            return Preview.of(reading, plan, all, names, tag);
        }
    }

    private static Read read(FileTable table, SentFile file, Choices choices) {
        if (choices.remove() && !table.removes()) {
            throw new InvalidInput("?remove", "cannot be asked for here: nothing is taken out");
        }
        Table found =
                TableFile.read(
                        file.content(),
                        file.name(),
                        file.mediaType(),
                        table.title(),
                        Limits.IMPORT);
        FileReading reading = FileReading.of(found, table.columns(), choices);
        List<CellFault> faults = new ArrayList<>(reading.faults());
        if (!reading.open().isEmpty()) {
            faults.add(
                    CellFault.ofFile(
                            "has numbers that could mean two things, such as "
                                    + String.join(" and ", reading.open())
                                    + ": say whether its decimals follow a comma or a point"));
        }
        return new Read(
                reading, new Preview.TableNames(found.sheet(), found.otherSheets()), faults);
    }

    private static String tag(FileTable table, SentFile file, Choices choices) {
        return SentFile.digest(
                file.content(),
                (table.key() + " " + table.version() + " " + choices)
                        .getBytes(StandardCharsets.UTF_8));
    }

    // Out ---------------------------------------------------------------------------------------

    /**
     * Writes what there is.
     *
     * @param manner of separated values; null for a workbook
     */
    @Transactional(readOnly = true)
    public void write(
            FileTable table, boolean begun, Csv.@Nullable Manner manner, OutputStream out) {
        List<Column> columns = table.columnsToWrite(begun).stream().map(FileColumn::look).toList();
        if (manner == null) {
            Xlsx.write(out, table.title(), table.title(), columns, table.rows(begun));
        } else {
            Csv.write(out, manner, columns, table.rows(begun));
        }
    }
}
