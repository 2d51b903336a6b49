package strokewright.office;

import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import strokewright.quantity.InvalidInput;

/** Reads every hostile file in a process of its own; says how long and how much it took. */
final class SmallHeap {

    private SmallHeap() {}

    public static void main(String[] arguments) throws Exception {
        ExecutorService four = Executors.newFixedThreadPool(4);
        List<Future<String>> all = new ArrayList<>();
        for (HostileFiles.Hostile file : HostileFiles.all()) {
            all.add(four.submit(() -> refused(file)));
        }
        for (Future<String> line : all) {
            System.out.println(line.get());
        }
        four.shutdown();
        long peak =
                ManagementFactory.getMemoryPoolMXBeans().stream()
                        .filter(p -> p.getType() == MemoryType.HEAP)
                        .map(MemoryPoolMXBean::getPeakUsage)
                        .mapToLong(u -> u.getUsed())
                        .sum();
        System.out.println("all refused; sum of the pools' peaks " + (peak >> 20) + " MB");
    }

    private static String refused(HostileFiles.Hostile file) {
        byte[] content = file.content().get();
        long begin = System.nanoTime();
        try {
            TableFile.read(content, file.name(), null, null, Limits.IMPORT);
        } catch (InvalidInput e) {
            long ms = (System.nanoTime() - begin) / 1_000_000;
            return ms + " ms, " + content.length / 1024 + " KB: " + file + ": " + e.getMessage();
        }
        throw new IllegalStateException("not refused: " + file);
    }
}
