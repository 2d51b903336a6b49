package strokewright.estimate;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import strokewright.costing.PriceScheme;
import strokewright.quantity.Money;
import strokewright.quantity.Why;
import strokewright.sheet.GeneralTolerance;

/**
 * What the estimator fills in for one item: the parts with their operations, what joins them, and
 * the quantities to price. Left-out fields take the defaults stated here, so that a stored take-off
 * says everything that was reckoned with. {@link TakeOffCheck} says what a usable one looks like.
 *
 * @param quantities how many of the whole item to price
 * @param mainQuantity the quantity that the quote is decided on; the first one when left out
 * @param alreadyMade items of this kind that the shop has made before (practice counts on from
 *     them)
 * @param proveFirst whether the first item goes right through before the others are begun; when
 *     left out, for more than one that is no repeat
 * @param assembly work on the item as a whole
 * @param heldTemplatesMm radii that a template is held for
 * @param leftOut codes of proposed lines of the whole item that were taken out
 * @param urgencyPercent surcharge for this item alone; the price scheme's when left out
 */
public record TakeOff(
        @Nullable String title,
        Information information,
        List<Integer> quantities,
        Integer mainQuantity,
        Integer alreadyMade,
        List<Part> parts,
        List<Operation> assembly,
        List<Extra> extras,
        @Nullable Boolean proveFirst,
        List<Double> heldTemplatesMm,
        List<String> leftOut,
        @Nullable Double urgencyPercent) {

    public TakeOff {
        information = information == null ? Information.DRAWING : information;
        quantities = quantities == null ? List.of(1) : copy(quantities);
        if (mainQuantity == null && !quantities.isEmpty()) {
            mainQuantity = quantities.get(0);
        }
        alreadyMade = alreadyMade == null ? 0 : alreadyMade;
        parts = copy(parts);
        assembly = copy(assembly);
        extras = copy(extras);
        heldTemplatesMm = copy(heldTemplatesMm);
        leftOut = copy(leftOut);
    }

    /** The same without the quantities beside the main one, whose figures do not hang on them. */
    public TakeOff withMainQuantityAlone() {
        return new TakeOff(
                title,
                information,
                List.of(mainQuantity),
                mainQuantity,
                alreadyMade,
                parts,
                assembly,
                extras,
                proveFirst,
                heldTemplatesMm,
                leftOut,
                urgencyPercent);
    }

    /** The same with all minutes computed, none of the estimator's own. */
    public TakeOff withoutOwnMinutes() {
        List<Part> computed =
                parts.stream()
                        .map(
                                part ->
                                        Varied.with(
                                                part,
                                                part.blank(),
                                                part.fold(),
                                                part.operations().stream()
                                                        .map(TakeOff::withoutOwnMinutes)
                                                        .toList()))
                        .toList();
        return computed.equals(parts) ? this : Varied.with(this, computed, assembly);
    }

    private static Operation withoutOwnMinutes(Operation operation) {
        return operation instanceof Operation.Formed formed && formed.override() != null
                ? Reshaped.with(formed, (Operation.Override) null)
                : operation;
    }

    /** The same decided on this quantity, which is added where it is not yet among them. */
    public TakeOff withMainQuantity(Integer quantity) {
        List<Integer> all = new ArrayList<>(quantities);
        if (!all.contains(quantity)) {
            all.add(quantity);
            all.sort(Comparator.naturalOrder());
        }
        return new TakeOff(
                title,
                information,
                all,
                quantity,
                alreadyMade,
                parts,
                assembly,
                extras,
                proveFirst,
                heldTemplatesMm,
                leftOut,
                urgencyPercent);
    }

    /** How long somebody waits for what is bought: the longest of them. */
    @Nullable Integer leadTimeDays() {
        return extras.stream()
                .map(Extra::leadTimeDays)
                .filter(Objects::nonNull)
                .max(Comparator.naturalOrder())
                .orElse(null);
    }

    /** Keeps null entries, so that the check can name them. */
    static <T> List<T> copy(@Nullable List<T> list) {
        return list == null ? List.of() : Collections.unmodifiableList(new ArrayList<>(list));
    }

    /**
     * One kind of piece of sheet.
     *
     * @param perAssembly how many go into one item
     * @param grade code of the grade in the shop book
     * @param massKg mass of one piece as handled; from the blank when left out
     * @param blank the flat rectangle that the piece is cut from
     * @param templateGapMm gap allowed to the template; the shop book's default when left out
     * @param machine name of the forming machine; chosen when left out
     * @param fold what is folded of the flat blank; null for none
     * @param grain whether the blank may be turned on the sheet
     * @param irreplaceable the metal cannot be bought again
     * @param leftOut codes of proposed lines that were taken out
     * @param tolerance class of ISO 2768-1 for cut and folded sizes
     * @param dimensions sizes of one piece that the final check measures; counted from the geometry
     *     when left out
     * @param gauge how the thickness was said where that is no length, like "16 ga" or "20 oz":
     *     told beside {@code thicknessMm}, never reckoned with
     */
    public record Part(
            @Nullable String name,
            Integer perAssembly,
            @Nullable String grade,
            @Nullable Double thicknessMm,
            @Nullable Double massKg,
            @Nullable Blank blank,
            Surface surface,
            Edge edge,
            @Nullable Double templateGapMm,
            Tolerance tolerance,
            Supply supply,
            @Nullable String machine,
            List<Operation> operations,
            @Nullable Fold fold,
            Grain grain,
            Boolean irreplaceable,
            List<String> leftOut,
            @Nullable Integer dimensions,
            @Nullable String gauge) {

        /** Of a thickness that was said in mm. */
        public Part(
                @Nullable String name,
                Integer perAssembly,
                @Nullable String grade,
                @Nullable Double thicknessMm,
                @Nullable Double massKg,
                @Nullable Blank blank,
                Surface surface,
                Edge edge,
                @Nullable Double templateGapMm,
                Tolerance tolerance,
                Supply supply,
                @Nullable String machine,
                List<Operation> operations,
                @Nullable Fold fold,
                Grain grain,
                Boolean irreplaceable,
                List<String> leftOut,
                @Nullable Integer dimensions) {
            this(
                    name,
                    perAssembly,
                    grade,
                    thicknessMm,
                    massKg,
                    blank,
                    surface,
                    edge,
                    templateGapMm,
                    tolerance,
                    supply,
                    machine,
                    operations,
                    fold,
                    grain,
                    irreplaceable,
                    leftOut,
                    dimensions,
                    null);
        }

        public Part {
            perAssembly = perAssembly == null ? 1 : perAssembly;
            surface = surface == null ? Surface.HIDDEN : surface;
            edge = edge == null ? Edge.DRESSED : edge;
            tolerance = tolerance == null ? Tolerance.C : tolerance;
            supply = supply == null ? Supply.SHOP : supply;
            operations = copy(operations);
            grain = grain == null ? Grain.FREE : grain;
            irreplaceable = irreplaceable != null && irreplaceable;
            leftOut = copy(leftOut);
        }

        /** Bends of one piece; 0 without a fold. */
        public int bendCount() {
            return fold == null ? 0 : fold.bends().size();
        }

        /** As an input of a formula; its origin says the gauge. */
        Why.Input thickness(String as) {
            String origin = gauge == null ? "drawing" : "drawing, " + gauge;
            return new Why.Input(as, thicknessMm, "mm", origin);
        }

        Part withBlank(@Nullable Blank other) {
            return new Part(
                    name,
                    perAssembly,
                    grade,
                    thicknessMm,
                    massKg,
                    other,
                    surface,
                    edge,
                    templateGapMm,
                    tolerance,
                    supply,
                    machine,
                    operations,
                    fold,
                    grain,
                    irreplaceable,
                    leftOut,
                    dimensions,
                    gauge);
        }
    }

    /**
     * What is folded of a flat blank along parallel bend lines.
     *
     * @param lengthMm along the bend lines
     * @param legsMm outside lengths, one more than bends: to the sharp corner outside, at a bend
     *     that opens less than 90° to the outermost line of the bend
     * @param bends in their order between the legs
     */
    public record Fold(@Nullable Double lengthMm, List<Double> legsMm, List<FoldBend> bends) {

        public Fold {
            legsMm = copy(legsMm);
            bends = copy(bends);
        }
    }

    /**
     * One bend.
     *
     * @param openingDeg angle between the legs, 180 for flat, 0 for folded back; 90 when left out
     * @param radiusMm inside
     * @param way up when left out; changes how it looks, not its length
     */
    public record FoldBend(Double openingDeg, @Nullable Double radiusMm, Way way) {

        public FoldBend {
            openingDeg = openingDeg == null ? Double.valueOf(90) : openingDeg;
            way = way == null ? Way.UP : way;
        }
    }

    /** Which way a bend goes, seen from the first leg. */
    public enum Way {
        @JsonProperty("up")
        UP,
        @JsonProperty("down")
        DOWN
    }

    /** Where the grain of the sheet has to lie. */
    public enum Grain {
        @JsonProperty("free")
        FREE,
        /** Along the length of the blank, which so lies along the sheet. */
        @JsonProperty("along-length")
        ALONG_LENGTH
    }

    /** A flat rectangle of sheet, mm. */
    public record Blank(@Nullable Double lengthMm, @Nullable Double widthMm) {

        double areaMm2() {
            return lengthMm * widthMm;
        }

        double longerMm() {
            return Math.max(lengthMm, widthMm);
        }

        double shorterMm() {
            return Math.min(lengthMm, widthMm);
        }
    }

    /**
     * Something bought or made specially for the item.
     *
     * @param cost for each piece, or once for the order
     * @param lifePieces a tool wears out: its cost is paid anew for every begun so many pieces of
     *     the item; once when left out
     * @param leadTimeDays until it is there; null where nobody waits for it
     * @param handlingPercent on bought-out work, for ordering, fetching and checking it; the price
     *     scheme's when left out
     */
    public record Extra(
            @Nullable String name,
            Per per,
            ExtraKind kind,
            @Nullable Money cost,
            @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Integer lifePieces,
            @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Integer leadTimeDays,
            @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Double handlingPercent) {

        public Extra {
            per = per == null ? Per.ORDER : per;
            kind = kind == null ? ExtraKind.BOUGHT_OUT : kind;
        }

        /** Handling of bought-out work in percent of its cost: its own, else the scheme's. */
        public double handlingPercentBy(PriceScheme scheme) {
            if (kind != ExtraKind.BOUGHT_OUT) {
                return 0;
            }
            return handlingPercent == null ? scheme.boughtOutHandlingPercent() : handlingPercent;
        }

        /** How often its cost is paid for so many pieces of the item. */
        public int times(int quantity) {
            if (per == Per.PIECE) {
                return quantity;
            }
            return lifePieces == null ? 1 : (quantity + lifePieces - 1) / lifePieces;
        }
    }

    /** What stands behind the quote. */
    public enum Information {
        @JsonProperty("phone")
        PHONE,
        @JsonProperty("sketch")
        SKETCH,
        @JsonProperty("photo")
        PHOTO,
        @JsonProperty("drawing")
        DRAWING,
        @JsonProperty("drawing-and-template")
        DRAWING_AND_TEMPLATE,
        @JsonProperty("old-part")
        OLD_PART,
        @JsonProperty("repeat")
        REPEAT
    }

    /** A visible surface allows only soft-faced tools. */
    public enum Surface {
        @JsonProperty("hidden")
        HIDDEN,
        @JsonProperty("visible")
        VISIBLE
    }

    /** A sheared edge stretches less far before it tears than a dressed one. */
    public enum Edge {
        @JsonProperty("sheared")
        SHEARED,
        @JsonProperty("dressed")
        DRESSED
    }

    /** Class of ISO 2768-1 for cut and folded sizes. */
    public enum Tolerance {
        @JsonProperty("f")
        F,
        @JsonProperty("m")
        M,
        @JsonProperty("c")
        C,
        @JsonProperty("v")
        V;

        GeneralTolerance general() {
            return GeneralTolerance.valueOf(name());
        }
    }

    /** Who supplies the metal. */
    public enum Supply {
        @JsonProperty("shop")
        SHOP,
        @JsonProperty("customer")
        CUSTOMER
    }

    public enum Per {
        @JsonProperty("piece")
        PIECE,
        @JsonProperty("order")
        ORDER
    }

    public enum ExtraKind {
        @JsonProperty("bought-out")
        BOUGHT_OUT,
        @JsonProperty("special-direct")
        SPECIAL_DIRECT,
        /** A tool bought for this item, such as one for a press. */
        @JsonProperty("tooling")
        TOOLING
    }
}
