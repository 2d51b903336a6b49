package strokewright;

import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.nio.file.attribute.UserPrincipal;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.List;
import java.util.Properties;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.util.FileSystemUtils;

/**
 * The folder of the embedded server: closed to other users, held by one service at a time, and the
 * keeper of the passwords. The kernel frees the lock when the service dies, however it dies.
 */
class DatabaseFolder implements AutoCloseable {

    private static final String WHAT_ELSE =
            "set STROKEWRIGHT_DATABASE_FOLDER to a folder of this user, or name a PostgreSQL of"
                    + " your own with STROKEWRIGHT_DATABASE_URL";

    private final Path path;
    private final boolean root;
    private final FileChannel channel;

    private DatabaseFolder(Path path, boolean root, FileChannel channel) {
        this.path = path;
        this.root = root;
        this.channel = channel;
    }

    /**
     * @throws CannotStart if the folder is another user's, cannot be written, or is in use
     */
    static DatabaseFolder open(Path configured) {
        Path path = configured.toAbsolutePath().normalize();
        boolean root = checkedOwnership(path);
        FileChannel channel = locked(path);
        DatabaseFolder folder = new DatabaseFolder(path, root, channel);
        folder.removeUnfinished();
        return folder;
    }

    Path path() {
        return path;
    }

    Path data() {
        return path.resolve("data");
    }

    Path log() {
        return path.resolve("postgres.log");
    }

    /** Makes a file moved into the folder stay there through a loss of power. */
    void sync() throws IOException {
        if (isPosix(path)) {
            try (FileChannel directory = FileChannel.open(path, StandardOpenOption.READ)) {
                directory.force(true);
            }
        }
    }

    /** PostgreSQL refuses to run as root; the launcher has to know. */
    boolean isOfRoot() {
        return root;
    }

    /** Passwords of the server's three roles, made once and readable by this user alone. */
    Properties secrets() throws IOException {
        Path file = path.resolve("secrets");
        Properties secrets = new Properties();
        if (Files.exists(file)) {
            try (InputStream in = Files.newInputStream(file)) {
                secrets.load(in);
            }
            return secrets;
        }
        if (Files.exists(data())) {
            throw new CannotStart(
                    "The database in "
                            + path
                            + " has lost the file \"secrets\" with its passwords.",
                    "Put that file back from a copy of the folder.");
        }
        SecureRandom random = new SecureRandom();
        for (String role : List.of("superuser", "owner", "service")) {
            byte[] bytes = new byte[24];
            random.nextBytes(bytes);
            secrets.setProperty(
                    role, Base64.getUrlEncoder().withoutPadding().encodeToString(bytes));
        }
        Path unfinished = Files.createTempFile(path, "unfinished-", "", forThisUser(path, false));
        try (FileOutputStream out = new FileOutputStream(unfinished.toFile())) {
            secrets.store(out, null);
            out.getFD().sync();
        }
        Files.move(unfinished, file, StandardCopyOption.ATOMIC_MOVE);
        sync();
        return secrets;
    }

    /** What a killed start left half-made; nobody else works here, for the lock is ours. */
    private void removeUnfinished() {
        try (Stream<Path> entries = Files.list(path)) {
            for (Path entry :
                    entries.filter(e -> e.getFileName().toString().startsWith("unfinished-"))
                            .toList()) {
                FileSystemUtils.deleteRecursively(entry);
            }
        } catch (IOException e) {
            throw notWritable(path, e);
        }
    }

    /** Answers whether the user is root. */
    private static boolean checkedOwnership(Path path) {
        try {
            if (!Files.isDirectory(path)) {
                Files.createDirectories(path.getParent());
                Files.createDirectory(path, forThisUser(path.getParent(), true));
            }
            Path probe = Files.createTempFile(path, "unfinished-", "", forThisUser(path, false));
            try {
                UserPrincipal owner = Files.getOwner(path);
                UserPrincipal me = Files.getOwner(probe);
                if (!owner.equals(me)) {
                    throw new CannotStart(
                            "The folder " + path + " belongs to another user (" + owner + ").",
                            "Start the service as that user, or " + WHAT_ELSE + ".");
                }
                return isPosix(path)
                        && Integer.valueOf(0).equals(Files.getAttribute(probe, "unix:uid"));
            } finally {
                Files.delete(probe);
            }
        } catch (IOException e) {
            throw notWritable(path, e);
        }
    }

    private static CannotStart notWritable(Path path, IOException cause) {
        CannotStart refusal =
                new CannotStart(
                        "The folder "
                                + path
                                + " cannot be made or written by this user"
                                + ownerOf(path)
                                + ".",
                        "Give this user the right to write there, " + WHAT_ELSE + ".");
        refusal.initCause(cause);
        return refusal;
    }

    private static String ownerOf(Path path) {
        try {
            return " (it belongs to " + Files.getOwner(path) + ")";
        } catch (IOException e) {
            return "";
        }
    }

    private static FileChannel locked(Path path) {
        try {
            FileChannel channel =
                    FileChannel.open(
                            path.resolve("lock"),
                            StandardOpenOption.CREATE,
                            StandardOpenOption.WRITE);
            if (lock(channel) == null) {
                channel.close();
                throw new CannotStart(
                        "Another running service uses the folder " + path + ".",
                        "Stop that service first, or give this one a folder of its own: "
                                + "set STROKEWRIGHT_DATABASE_FOLDER.");
            }
            return channel;
        } catch (IOException e) {
            throw notWritable(path, e);
        }
    }

    private static @Nullable FileLock lock(FileChannel channel) throws IOException {
        try {
            return channel.tryLock();
        } catch (OverlappingFileLockException e) { // held in this very process
            return null;
        }
    }

    private static FileAttribute<?>[] forThisUser(Path where, boolean folder) {
        return isPosix(where)
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(
                            PosixFilePermissions.fromString(folder ? "rwx------" : "rw-------"))
                }
                : new FileAttribute<?>[0];
    }

    private static boolean isPosix(Path path) {
        return path.getFileSystem().supportedFileAttributeViews().contains("unix");
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
