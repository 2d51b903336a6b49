package strokewright.access;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class PasswordsTests {

    private final Passwords passwords = new Passwords();

    @Test
    void hashesAreArgon2idWithTheParametersThatWeStateAndASaltEach() {
        String hash = passwords.encode("correct horse battery");
        assertThat(hash).startsWith("$argon2id$v=19$m=19456,t=2,p=1$");
        assertThat(passwords.encode("correct horse battery")).isNotEqualTo(hash);
    }

    @Test
    void aRightPasswordStaysRightAndMakesNoOtherOneRight() {
        String hash = passwords.encode("correct horse battery");
        for (int time = 0; time < 3; time++) {
            assertThat(passwords.matches("correct horse battery", hash)).isTrue();
            assertThat(passwords.matches("correct horse batterz", hash)).isFalse();
            assertThat(passwords.matches("", hash)).isFalse();
        }
    }

    @Test
    void aPasswordThatWasRightIsAskedAnewOnceItIsChanged() {
        String before = passwords.encode("correct horse battery");
        assertThat(passwords.matches("correct horse battery", before)).isTrue();
        String after = passwords.encode("another battery horse");
        assertThat(passwords.matches("correct horse battery", after)).isFalse();
    }

    @Test
    void nameAndPasswordThatRunTogetherAreNotMixedUp() {
        String hash = passwords.encode("a");
        assertThat(passwords.matches("a", hash)).isTrue();
        assertThat(
                        passwords.matches(
                                hash.charAt(hash.length() - 1) + "a",
                                hash.substring(0, hash.length() - 1)))
                .isFalse();
    }
}
