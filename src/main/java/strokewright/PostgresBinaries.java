package strokewright;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.HexFormat;
import java.util.Locale;
import java.util.zip.CRC32;
import java.util.zip.CheckedInputStream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.tukaani.xz.XZInputStream;

/**
 * The server's programs, unpacked once from the class path into a folder that only their user can
 * write: a folder shared with others would let them swap the program that we run.
 */
class PostgresBinaries {

    static final int MAJOR_VERSION = 18;

    private PostgresBinaries() {}

    /** The folder with {@code bin}, unpacked there if it is not yet. */
    static Path in(Path folder) throws IOException {
        String archive = archive();
        Path home = folder.resolve("pg-" + MAJOR_VERSION + "-" + checksum(archive));
        if (!Files.isDirectory(home)) {
            Path unfinished = Files.createTempDirectory(folder, "unfinished-");
            unpack(archive, unfinished);
            Files.move(unfinished, home, StandardCopyOption.ATOMIC_MOVE);
        }
        return home;
    }

    private static String archive() {
        String os = System.getProperty("os.name").toLowerCase(Locale.ROOT);
        String arch = System.getProperty("os.arch").toLowerCase(Locale.ROOT);
        return "postgres-"
                + (os.contains("win") ? "windows" : os.contains("mac") ? "darwin" : "linux")
                + "-"
                + (arch.contains("aarch64") || arch.contains("arm64") ? "arm_64" : "x86_64")
                + ".txz";
    }

    private static InputStream open(String archive) {
        InputStream stream = PostgresBinaries.class.getResourceAsStream("/" + archive);
        if (stream == null) {
            throw new CannotStart(
                    "This build carries no PostgreSQL for this kind of machine (" + archive + ").",
                    "Name a PostgreSQL of your own: set STROKEWRIGHT_DATABASE_URL and the user"
                            + " variables beside it.");
        }
        return new BufferedInputStream(stream, 1 << 16);
    }

    /** In the folder's name, so that a build with newer programs unpacks its own. */
    private static String checksum(String archive) throws IOException {
        CRC32 crc = new CRC32();
        try (CheckedInputStream in = new CheckedInputStream(open(archive), crc)) {
            in.transferTo(java.io.OutputStream.nullOutputStream());
        }
        return HexFormat.of().toHexDigits((int) crc.getValue());
    }

    private static void unpack(String archive, Path into) throws IOException {
        try (TarArchiveInputStream tar =
                new TarArchiveInputStream(new XZInputStream(open(archive)))) {
            for (TarArchiveEntry entry = tar.getNextEntry();
                    entry != null;
                    entry = tar.getNextEntry()) {
                Path target = into.resolve(entry.getName()).normalize();
                if (!target.startsWith(into)) {
                    throw new IOException("entry leads out of its archive: " + entry.getName());
                }
                if (entry.isDirectory()) {
                    Files.createDirectories(target);
                } else if (entry.isSymbolicLink()) {
                    Files.createDirectories(target.getParent());
                    Files.createSymbolicLink(target, Path.of(entry.getLinkName()));
                } else {
                    Files.createDirectories(target.getParent());
                    Files.copy(tar, target);
                    if ((entry.getMode() & 0100) != 0 && !target.toFile().setExecutable(true)) {
                        throw new IOException("cannot make executable: " + target);
                    }
                }
            }
        }
    }
}
