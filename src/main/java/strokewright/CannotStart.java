package strokewright;

/** The service cannot start, and the person who started it can do something about it. */
class CannotStart extends RuntimeException {

    private final String action;

    /**
     * @param sentence what is wrong, plainly
     * @param action what to do about it
     */
    CannotStart(String sentence, String action) {
        super(sentence);
        this.action = action;
    }

    String action() {
        return action;
    }
}
