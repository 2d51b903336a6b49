package strokewright.takeoff;

import static org.assertj.core.api.Assertions.assertThat;
import static strokewright.takeoff.SmallShop.roundFrame;
import static strokewright.takeoff.SmallShop.typed;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import strokewright.ServiceTest;
import strokewright.TestShop;
import strokewright.access.Role;
import strokewright.access.SignedIn;

class TakeOffDraftsTest extends ServiceTest {

    @Autowired private TakeOffDrafts drafts;

    private final TypedTakeOff first = typed("/title", "First");
    private final TypedTakeOff second = typed("/title", "Second");

    @Test
    void whatWasTypedLastComesBackInTheSameOrder() {
        SignedIn who = openShop().user(Role.ESTIMATOR);
        who.run(
                () -> {
                    drafts.keep("new", "page", 1, first);
                    drafts.keep("new", "page", 2, roundFrame());
                });
        assertThat(kept(who)).contains(roundFrame());
    }

    @Test
    void ofTwoRequestsThatOvertakeEachOtherTheLaterTurnStands() {
        SignedIn who = openShop().user(Role.ESTIMATOR);
        who.run(
                () -> {
                    drafts.keep("new", "page", 2, second);
                    drafts.keep("new", "page", 1, first);
                });
        assertThat(kept(who)).contains(second);
    }

    @Test
    void aPageThatIsOpenedAnewGoesBeforeOneThatCountedFurther() {
        SignedIn who = openShop().user(Role.ESTIMATOR);
        who.run(
                () -> {
                    drafts.keep("new", "old page", 99, first);
                    drafts.keep("new", "new page", 1, second);
                });
        assertThat(kept(who)).contains(second);
    }

    @Test
    void oneCanBePutAsideAndFetchedBack() {
        SignedIn who = openShop().user(Role.ESTIMATOR);
        who.run(
                () -> {
                    drafts.keep("new", "page", 1, first);
                    drafts.putAside("new");
                });
        assertThat(kept(who)).isEmpty();
        who.run(
                () -> {
                    assertThat(drafts.hasBefore("new")).isTrue();
                    drafts.keep("new", "page", 2, second);
                    drafts.bringBack("new");
                });
        assertThat(kept(who)).contains(first);
        who.run(() -> drafts.bringBack("new"));
        assertThat(kept(who)).contains(second);
    }

    @Test
    void nobodyElseSeesIt() {
        TestShop shop = openShop();
        shop.user(Role.ESTIMATOR).run(() -> drafts.keep("new", "page", 1, first));
        assertThat(kept(shop.user(Role.OWNER))).isEmpty();
        assertThat(kept(openShop().user(Role.ESTIMATOR))).isEmpty();
    }

    @Test
    void aForgottenOneIsGone() {
        SignedIn who = openShop().user(Role.ESTIMATOR);
        who.run(
                () -> {
                    drafts.keep("new", "page", 1, first);
                    drafts.forget("new");
                });
        assertThat(kept(who)).isEmpty();
    }

    private Optional<TypedTakeOff> kept(SignedIn who) {
        return who.call(() -> drafts.find("new")).map(TakeOffDrafts.Draft::typed);
    }
}
