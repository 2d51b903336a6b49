package strokewright;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Database folders for tests of the launcher, with the programs unpacked once for all of them. */
final class TestFolders {

    private static final Path SHARED = ofThisFork("test-programs");

    private TestFolders() {}

    /** Two of the test runs that go on side by side share none. */
    static Path ofThisFork(String name) {
        String fork = System.getProperty("test.fork", "fork-1");
        return Path.of("target", name + "-" + fork).toAbsolutePath();
    }

    static synchronized Path fresh(Path parent) throws IOException {
        Files.createDirectories(SHARED);
        Path programs = PostgresBinaries.in(SHARED);
        Path folder = parent.resolve("db");
        Files.createDirectory(folder);
        Files.createSymbolicLink(folder.resolve(programs.getFileName()), programs);
        return folder;
    }

    /** Before the folder is deleted, so that nobody follows the link. */
    static synchronized void unlink(Path parent) throws IOException {
        Path link = parent.resolve("db").resolve(PostgresBinaries.in(SHARED).getFileName());
        if (Files.isSymbolicLink(link)) {
            Files.delete(link);
        }
    }
}
