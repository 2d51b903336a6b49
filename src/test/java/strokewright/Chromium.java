package strokewright;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The system's Chromium, one for all tests of a run. Where there is none it is installed if the run
 * may do so ({@code CI=true} or {@code -Dbrowser.install}); else the run fails and says what to
 * type.
 */
final class Chromium {

    private static final List<String> NAMES = List.of("chromium", "chromium-browser");

    private static final List<String> ARGUMENTS =
            List.of(
                    "--disable-quic",
                    "--no-first-run",
                    "--disable-background-networking",
                    "--disable-component-update",
                    "--disable-sync");

    private Chromium() {}

    static Browser running() {
        return Once.BROWSER;
    }

    private static final class Once {
        static final Browser BROWSER = start();
    }

    private static Browser start() {
        Path program = found().orElseGet(Chromium::installed);
        Playwright playwright = Playwright.create();
        Browser browser =
                playwright
                        .chromium()
                        .launch(
                                new BrowserType.LaunchOptions()
                                        .setExecutablePath(program)
                                        .setChromiumSandbox(false)
                                        .setArgs(ARGUMENTS));
        Runtime.getRuntime().addShutdownHook(new Thread(playwright::close));
        return browser;
    }

    static Optional<Path> found() {
        String path = System.getenv().getOrDefault("PATH", "");
        return Stream.concat(Stream.of("/usr/bin"), Stream.of(path.split(File.pathSeparator)))
                .filter(folder -> !folder.isBlank())
                .flatMap(folder -> NAMES.stream().map(name -> Path.of(folder, name)))
                .filter(Files::isExecutable)
                .findFirst();
    }

    private static Path installed() {
        boolean may =
                "true".equals(System.getenv("CI")) || System.getProperty("browser.install") != null;
        if (!may) {
            throw new IllegalStateException(
                    "The browser tests need Chromium. Type: sudo apt-get install -y chromium");
        }
        run("apt-get", "update", "-q");
        run("apt-get", "install", "-y", "-q", "--no-install-recommends", "chromium");
        return found().orElseThrow(
                        () -> new IllegalStateException("Chromium was installed but is not found"));
    }

    private static void run(String... command) {
        try {
            int answer = new ProcessBuilder(command).inheritIO().start().waitFor();
            if (answer != 0) {
                throw new IllegalStateException(
                        String.join(" ", command) + " ended with " + answer);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }
}
