package strokewright.office;

import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;

/**
 * How long 100,000 rows of 24 columns take to be written, as a workbook and as separated values,
 * in a process whose whole heap is 128 MB. On a machine that is busy otherwise, look at the time on
 * a processor.
 */
final class TableBenchmark {

    private static final int ROWS = 100_000;
    private static final int COLUMNS = 24;

    private TableBenchmark() {}

    public static void main(String[] arguments) {
        List<Column> columns = new ArrayList<>();
        for (int i = 0; i < COLUMNS; i++) {
            columns.add(
                    switch (i % 4) {
                        case 0 -> Column.text("Text " + i, 18);
                        case 1 -> Column.number("Number " + i, 3, 10);
                        case 2 -> Column.money("Amount " + i, 2, 12);
                        default -> i % 8 == 3 ? Column.day("Day " + i) : Column.text("Name " + i, 30);
                    });
        }
        for (int round = 1; round <= 5; round++) {
            run("xlsx " + round, out -> Xlsx.write(out, "Register", "Register", columns, rows()));
            run("csv  " + round, out -> Csv.write(out, Csv.Manner.PLAIN, columns, rows()));
        }
    }

    private interface Work {
        void to(OutputStream out);
    }

    private static void run(String what, Work work) {
        AtomicLong bytes = new AtomicLong();
        long begin = System.nanoTime();
        long cpu = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        work.to(counting(bytes));
        double seconds = (System.nanoTime() - begin) / 1e9;
        double own = (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - cpu) / 1e9;
        System.out.printf(
                "%s: %.2f s, of them on a processor %.2f s; %d KB; heap of at most %d MB%n",
                what, seconds, own, bytes.get() >> 10, Runtime.getRuntime().maxMemory() >> 20);
    }

    private static OutputStream counting(AtomicLong bytes) {
        return new OutputStream() {
            @Override
            public void write(int b) {
                bytes.incrementAndGet();
            }

            @Override
            public void write(byte[] all, int offset, int length) {
                bytes.addAndGet(length);
            }
        };
    }

    private static Iterator<List<Value>> rows() {
        return IntStream.range(0, ROWS).mapToObj(TableBenchmark::row).iterator();
    }

    private static List<Value> row(int n) {
        List<Value> row = new ArrayList<>(COLUMNS);
        for (int i = 0; i < COLUMNS; i++) {
            row.add(
                    switch (i % 4) {
                        case 0 -> Value.text("Q-2026-" + n);
                        case 1 -> Value.number(n / 7.0);
                        case 2 -> Value.number(BigDecimal.valueOf(n * 13L + i, 2));
                        default ->
                                i % 8 == 3
                                        ? Value.day(LocalDate.ofEpochDay(20_000 + n % 2_000))
                                        : Value.text("Round sign frame, variant " + n % 97);
                    });
        }
        return row;
    }
}
