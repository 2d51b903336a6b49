package strokewright.access;

import java.io.Serializable;
import java.security.Principal;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.GrantedAuthority;
import org.springframework.security.core.authority.SimpleGrantedAuthority;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.transaction.support.TransactionSynchronizationManager;
import strokewright.web.Visitor;

/**
 * Somebody who has signed in, with the one shop that this somebody works for. Controllers take it
 * as {@code @AuthenticationPrincipal SignedIn who}; everything else asks {@link #current()}. Stored
 * in sessions: a field may be added, not renamed.
 *
 * @param userName unique over all shops, lower case
 */
public record SignedIn(
        UUID shopId, String shopName, UUID userId, String userName, String displayName, Role role)
        implements Visitor, Principal, Serializable {

    /**
     * @throws IllegalStateException when nobody is signed in
     */
    public static SignedIn current() {
        return ifAny().orElseThrow(() -> new IllegalStateException("nobody is signed in"));
    }

    static Optional<SignedIn> ifAny() {
        return Optional.ofNullable(SecurityContextHolder.getContext().getAuthentication())
                .map(Authentication::getPrincipal)
                .filter(SignedIn.class::isInstance)
                .map(SignedIn.class::cast);
    }

    /**
     * Does some work as this somebody: for what no request asks for, such as the demo's data.
     *
     * @throws IllegalStateException inside a transaction, which belongs to one shop from its start
     */
    public <T> T call(Supplier<T> work) {
        if (TransactionSynchronizationManager.isActualTransactionActive()) {
            throw new IllegalStateException("a transaction cannot change its shop half-way");
        }
        SecurityContext before = SecurityContextHolder.getContext();
        SecurityContext mine = SecurityContextHolder.createEmptyContext();
        mine.setAuthentication(authentication());
        SecurityContextHolder.setContext(mine);
        try {
            return work.get();
        } finally {
            SecurityContextHolder.setContext(before);
        }
    }

    /** As {@link #call} for work without a result. */
    public void run(Runnable work) {
        call(
                () -> {
                    work.run();
                    return true;
                });
    }

    Authentication authentication() {
        return UsernamePasswordAuthenticationToken.authenticated(this, null, authorities());
    }

    private Collection<GrantedAuthority> authorities() {
        return List.of(new SimpleGrantedAuthority("ROLE_" + role.name()));
    }

    @Override
    public String getName() {
        return userName;
    }
}
