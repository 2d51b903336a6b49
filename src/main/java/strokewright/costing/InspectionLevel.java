package strokewright.costing;

import com.fasterxml.jackson.annotation.JsonProperty;

/** Inspection levels of ISO 2859-1, table 1: general I to III, special S-1 to S-4. */
public enum InspectionLevel {
    @JsonProperty("S-1")
    S_1,
    @JsonProperty("S-2")
    S_2,
    @JsonProperty("S-3")
    S_3,
    @JsonProperty("S-4")
    S_4,
    @JsonProperty("I")
    I,
    @JsonProperty("II")
    II,
    @JsonProperty("III")
    III;

    /** As printed in the table. */
    public String label() {
        return name().replace('_', '-');
    }

    /** Counted from one in the order of the table: S-1 is 1, II is 6. */
    public int number() {
        return ordinal() + 1;
    }
}
