package strokewright.estimate;

import org.jspecify.annotations.Nullable;

/** A take-off as JSON, changed in single places and then read as the record. */
final class EditedTakeOff {

    private final EditedBook json;

    private EditedTakeOff(EditedBook json) {
        this.json = json;
    }

    static EditedTakeOff of(TakeOff takeOff) {
        return new EditedTakeOff(EditedBook.json(takeOff));
    }

    EditedTakeOff with(String pointer, @Nullable Object value) {
        json.with(pointer, value);
        return this;
    }

    TakeOff takeOff() {
        return EditedBook.JSON.treeToValue(json.root(), TakeOff.class);
    }
}
