package strokewright.access;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.jspecify.annotations.Nullable;
import org.springframework.security.crypto.argon2.Argon2PasswordEncoder;
import org.springframework.security.crypto.password.PasswordEncoder;

/**
 * Argon2id with the least parameters that OWASP's password storage cheat sheet allows (19 MiB, 2
 * rounds, 1 lane). A program that sends its password with every request would pay that each time,
 * so a password that was right stays known for five minutes, as a keyed hash of hash and password:
 * a changed password is asked anew.
 */
class Passwords implements PasswordEncoder {

    private static final long REMEMBERED_NANOS = Duration.ofMinutes(5).toNanos();
    private static final int MOST_REMEMBERED = 1000;

    private final PasswordEncoder argon2 = new Argon2PasswordEncoder(16, 32, 1, 19456, 2);

    /** Each hashing takes 19 MiB and a core: strangers must not be able to ask for a hundred. */
    private final Semaphore atOnce =
            new Semaphore(Math.max(2, Runtime.getRuntime().availableProcessors()));

    private final Map<ByteBuffer, Long> known = new ConcurrentHashMap<>();
    private final SecretKeySpec secret;

    /** For a user name that does not exist: refusing it at once would tell which names do. */
    private final String nobodysHash;

    Passwords() {
        byte[] random = new byte[32];
        new SecureRandom().nextBytes(random);
        secret = new SecretKeySpec(random, "HmacSHA256");
        nobodysHash = String.valueOf(argon2.encode("nobody"));
    }

    @Override
    public String encode(@Nullable CharSequence password) {
        return alone(() -> String.valueOf(argon2.encode(password)));
    }

    @Override
    public boolean matches(@Nullable CharSequence password, @Nullable String hash) {
        ByteBuffer key = key(String.valueOf(password), String.valueOf(hash));
        Long until = known.get(key);
        if (until != null && until - System.nanoTime() > 0) {
            return true;
        }
        boolean right = alone(() -> argon2.matches(password, hash));
        if (right) {
            remember(key);
        }
        return right;
    }

    /** Takes as long as {@link #matches} and answers nothing. */
    void matchNobody(String password) {
        alone(() -> argon2.matches(password, nobodysHash));
    }

    private void remember(ByteBuffer key) {
        long now = System.nanoTime();
        known.values().removeIf(until -> until - now <= 0);
        if (known.size() < MOST_REMEMBERED) {
            known.put(key, now + REMEMBERED_NANOS);
        }
    }

    private ByteBuffer key(String password, String hash) {
        try {
            Mac mac = Mac.getInstance(secret.getAlgorithm());
            mac.init(secret);
            mac.update(hash.getBytes(StandardCharsets.UTF_8));
            mac.update((byte) 0);
            return ByteBuffer.wrap(mac.doFinal(password.getBytes(StandardCharsets.UTF_8)));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException(e);
        }
    }

    private <T> T alone(java.util.function.Supplier<T> work) {
        atOnce.acquireUninterruptibly();
        try {
            return work.get();
        } finally {
            atOnce.release();
        }
    }
}
