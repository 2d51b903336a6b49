package strokewright.exchange;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.web.multipart.MultipartFile;
import strokewright.office.Limits;
import strokewright.web.Problem;

/**
 * Takes files in without letting them fill the memory: they arrive on disk, and only a few at a
 * time are read from there.
 */
@Component
public class Uploads {

    private static final int AT_A_TIME = 2;
    private static final int SECONDS_TO_WAIT = 20;
    private static final int LARGEST = Limits.IMPORT.bytes();

    private final Semaphore places = new Semaphore(AT_A_TIME, true);

    /**
     * Works with the body of a request.
     *
     * @throws Problem 413 when it is too large, 503 when too many others are at it
     */
    public <T> T body(HttpServletRequest request, Function<SentFile, T> work) {
        if (request.getContentLengthLong() > LARGEST) {
            throw tooLarge();
        }
        Path file = null;
        try {
            file = Files.createTempFile("strokewright-", ".upload");
            copy(request.getInputStream(), file);
            Path arrived = file;
            return oneOfFew(
                    () ->
                            work.apply(
                                    new SentFile(
                                            content(arrived), null, request.getContentType())));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } finally {
            delete(file);
        }
    }

    /**
     * Works with a file of a form.
     *
     * @throws Problem 413 when it is too large, 503 when too many others are at it
     */
    public <T> T part(MultipartFile part, Function<SentFile, T> work) {
        if (part.getSize() > LARGEST) {
            throw tooLarge();
        }
        return oneOfFew(
                () -> {
                    try {
                        return work.apply(
                                new SentFile(
                                        part.getBytes(),
                                        part.getOriginalFilename(),
                                        part.getContentType()));
                    } catch (IOException e) {
                        throw new UncheckedIOException(e);
                    }
                });
    }

    /** Works with a file's content in memory. */
    <T> T oneOfFew(Supplier<T> work) {
        boolean there = false;
        try {
            there = places.tryAcquire(SECONDS_TO_WAIT, TimeUnit.SECONDS);
            if (!there) {
                throw Problem.unavailable(null);
            }
            return work.get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw Problem.unavailable(e);
        } finally {
            if (there) {
                places.release();
            }
        }
    }

    private static Problem tooLarge() {
        return Problem.tooLarge("A file", LARGEST >> 20);
    }

    private static void copy(InputStream from, Path to) throws IOException {
        byte[] block = new byte[1 << 16];
        long all = 0;
        try (OutputStream out = Files.newOutputStream(to)) {
            for (int n = from.read(block); n >= 0; n = from.read(block)) {
                all += n;
                if (all > LARGEST) {
                    throw tooLarge();
                }
                out.write(block, 0, n);
            }
        }
    }

    private static byte[] content(Path file) {
        try {
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void delete(@Nullable Path file) {
        try {
            if (file != null) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
