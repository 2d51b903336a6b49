package strokewright.quote;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * LibreOffice without a window: opens a file, calculates it anew and saves it in another format. In
 * a profile of its own, so that it neither needs nor changes anybody's settings.
 */
final class Spreadsheet {

    private static final long LONGEST_SECONDS = 120;

    /** Otherwise it trusts the stored results of files that other programs wrote. */
    private static final String ALWAYS_CALCULATE =
            """
            <?xml version="1.0" encoding="UTF-8"?>
            <oor:items xmlns:oor="http://openoffice.org/2001/registry">
             <item oor:path="/org.openoffice.Office.Calc/Formula/Load">
              <prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop>
             </item>
            </oor:items>
            """;

    private final Path folder;

    Spreadsheet(Path folder) {
        this.folder = folder;
        try {
            Files.createDirectories(folder.resolve("profile/user"));
            Files.writeString(
                    folder.resolve("profile/user/registrymodifications.xcu"), ALWAYS_CALCULATE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * @param format "xlsx" or "pdf"
     */
    byte[] calculated(byte[] xlsx, String format) {
        try {
            Path in = Files.write(folder.resolve("quote.xlsx"), xlsx);
            Path out = Files.createDirectories(folder.resolve("out"));
            Process program =
                    new ProcessBuilder(
                                    List.of(
                                            "soffice",
                                            "-env:UserInstallation="
                                                    + folder.resolve("profile").toUri(),
                                            "--headless",
                                            "--norestore",
                                            "--convert-to",
                                            format,
                                            "--outdir",
                                            out.toString(),
                                            in.toString()))
                            .redirectErrorStream(true)
                            .redirectOutput(folder.resolve("log").toFile())
                            .start();
            if (!program.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS)) {
                program.descendants().forEach(ProcessHandle::destroyForcibly);
                program.destroyForcibly();
                throw new IllegalStateException("still at work after " + LONGEST_SECONDS + " s");
            }
            Path made = out.resolve("quote." + format);
            byte[] bytes = Files.readAllBytes(made);
            Files.delete(made);
            return bytes;
        } catch (IOException e) {
            throw new UncheckedIOException(
                    "LibreOffice is needed. Type: sudo apt-get install -y libreoffice-calc", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }
}
