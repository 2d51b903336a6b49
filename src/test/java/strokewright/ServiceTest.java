package strokewright;

import static org.springframework.boot.test.context.SpringBootTest.WebEnvironment.RANDOM_PORT;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import org.springframework.util.FileSystemUtils;
import strokewright.access.HashedOnce;
import strokewright.access.Shops;

/**
 * The whole service on a port of its own over one embedded database, shared by all tests of the
 * run: each test opens a fresh shop instead of emptying tables. Tests of any package extend it.
 */
@SpringBootTest(
        webEnvironment = RANDOM_PORT,
        properties = {"spring.jpa.hibernate.ddl-auto=validate"})
@Import(HashedOnce.class)
public abstract class ServiceTest {

    private static final Path FOLDER = TestFolders.ofThisFork("test-database");

    @Autowired private Shops shops;

    @LocalServerPort private int port;

    /** A new database for each run, with the programs kept: they take seconds to unpack. */
    @DynamicPropertySource
    static void database(DynamicPropertyRegistry properties) {
        properties.add("strokewright.database.folder", Once.FRESH::toString);
    }

    /** A shop that no other test sees, with its four users. */
    protected final TestShop openShop() {
        return TestShop.open(shops, port);
    }

    protected final int port() {
        return port;
    }

    private static class Once {

        static final Path FRESH = fresh();

        private static Path fresh() {
            try (DatabaseFolder folder = DatabaseFolder.open(FOLDER)) {
                endOrphan(folder.data());
                FileSystemUtils.deleteRecursively(folder.data());
                return FOLDER;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        /** Left by a run that was killed. */
        private static void endOrphan(Path data) {
            EmbeddedPostgres.pidIn(data)
                    .filter(pid -> EmbeddedPostgres.isServerOf(pid, data))
                    .flatMap(ProcessHandle::of)
                    .ifPresent(
                            server -> {
                                server.destroyForcibly();
                                server.onExit().join();
                            });
        }
    }
}
