package strokewright;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Database folders for tests of the launcher, with the programs unpacked once for all of them. */
final class TestFolders {

    private static final Path SHARED = Path.of("target", "test-programs").toAbsolutePath();

    private TestFolders() {}

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
