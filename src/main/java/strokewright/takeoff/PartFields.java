package strokewright.takeoff;

import static strokewright.takeoff.Field.choice;
import static strokewright.takeoff.Field.length;
import static strokewright.takeoff.Field.number;
import static strokewright.takeoff.Field.text;
import static strokewright.takeoff.Field.whole;

import java.util.List;
import java.util.stream.Stream;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff.Information;
import strokewright.takeoff.Field.Kind;
import strokewright.takeoff.Field.Option;

/** What the take-off page asks besides its lines of work. */
final class PartFields {

    private PartFields() {}

    /** About the item. */
    static final List<Field> ITEM =
            List.of(
                    text("title", "Title", ""),
                    choice("information", "Information behind it", PartFields::informations)
                            .saying("hours by hand, four times in five"),
                    text("quantities", "Quantities", "1").saying("like 1, 2, 5"),
                    whole("mainQuantity", "Main quantity", "the first"),
                    whole("alreadyMade", "Already made", "0").saying("practice counts on"),
                    choice(
                                    "proveFirst",
                                    "Prove the first",
                                    new Option("", "by rule"),
                                    new Option("true", "yes"),
                                    new Option("false", "no"))
                            .saying("by rule: yes, unless made before"),
                    text("heldTemplatesMm", "Templates held", "none")
                            .saying("radii in mm, like 180; 260"),
                    number("urgencyPercent", "Urgency", "%", "shop’s usual"));

    /** About one part, asked at once. */
    static final List<Field> PART =
            List.of(
                    text("name", "Part", ""),
                    whole("perAssembly", "Per item", "1"),
                    choice("grade", "Grade", PartFields::grades),
                    new Field(
                            "thicknessMm",
                            "Thickness",
                            Kind.THICKNESS,
                            "mm",
                            "",
                            "mm, in or ga",
                            null),
                    length("blank/lengthMm", "Blank length", ""),
                    length("blank/widthMm", "Blank width", ""),
                    choice(
                            "surface",
                            "Surface",
                            new Option("hidden", "hidden"),
                            new Option("visible", "visible")),
                    choice(
                            "edge",
                            "Edge",
                            new Option("dressed", "dressed"),
                            new Option("sheared", "as sheared")));

    /** About one part, asked on demand. */
    static final List<Field> PART_MORE =
            List.of(
                    number("massKg", "Mass of one", "kg", "from the blank"),
                    length("templateGapMm", "Gap to the template", "shop’s usual"),
                    choice(
                            "tolerance",
                            "ISO 2768-1 class",
                            new Option("c", "c coarse"),
                            new Option("f", "f fine"),
                            new Option("m", "m medium"),
                            new Option("v", "v very coarse")),
                    number("dimensions", "Sizes to check", "", "counted"),
                    choice(
                            "supply",
                            "Metal from",
                            new Option("shop", "the shop"),
                            new Option("customer", "the customer")),
                    choice("machine", "Machine", PartFields::machines),
                    choice(
                            "grain",
                            "Grain",
                            new Option("free", "lies as it comes"),
                            new Option("along-length", "along the blank’s length")),
                    choice(
                            "irreplaceable",
                            "Metal again",
                            new Option("false", "can be bought"),
                            new Option("true", "cannot be bought")));

    /** What is folded of a part, before its first bend. */
    static final List<Field> FOLD =
            List.of(
                    length("fold/lengthMm", "Bend length", ""),
                    length("fold/firstLegMm", "First leg", "").saying("outside"));

    /** A bend and the leg behind it. */
    static final List<Field> BEND =
            List.of(
                    number("openingDeg", "Opens", "°", "90"),
                    length("radiusMm", "Inside radius", ""),
                    choice("way", "Goes", new Option("", "up"), new Option("down", "down")),
                    length("legMm", "Next leg", ""));

    static final List<Field> EXTRA =
            List.of(
                    text("name", "What", ""),
                    choice(
                            "kind",
                            "Kind",
                            new Option("bought-out", "bought out"),
                            new Option("special-direct", "made for this order"),
                            new Option("tooling", "a tool")),
                    choice(
                            "per",
                            "Per",
                            new Option("order", "order"),
                            new Option("piece", "piece")),
                    number("cost", "Cost", "", ""),
                    whole("lifePieces", "Lasts", "for all").saying("pieces, a tool that wears"),
                    whole("leadTimeDays", "Lead time", "none").saying("days until it is there"),
                    number("handlingPercent", "Handling", "%", "shop’s usual")
                            .saying("on bought-out work"));

    /** Typed beside the take-off: what the market pays. */
    static final Field MARKET_PRICE =
            number("marketPriceEach", "Market price each", "", "").saying("what does it leave?");

    /** One of the fields about a part, by its name. */
    static Field field(String name) {
        return PART.stream().filter(f -> f.name().equals(name)).findFirst().orElseThrow();
    }

    /** Each with what it means for the hours. */
    private static List<Option> informations(ShopBook book) {
        return Stream.of(
                        Information.DRAWING,
                        Information.DRAWING_AND_TEMPLATE,
                        Information.PHONE,
                        Information.SKETCH,
                        Information.PHOTO,
                        Information.OLD_PART,
                        Information.REPEAT)
                .map(
                        i ->
                                new Option(
                                        TakeOffReading.kebab(i),
                                        "%s (%s)"
                                                .formatted(
                                                        information(i),
                                                        PriceViews.range(
                                                                book.uncertainty()
                                                                        .information()
                                                                        .of(i)))))
                .toList();
    }

    static String information(Information information) {
        return switch (information) {
            case DRAWING -> "a drawing";
            case DRAWING_AND_TEMPLATE -> "drawing and template";
            case PHONE -> "a phone call";
            case SKETCH -> "a sketch";
            case PHOTO -> "a photo";
            case OLD_PART -> "an old part";
            case REPEAT -> "made before";
        };
    }

    private static List<Option> grades(ShopBook book) {
        return book.grades().stream()
                .map(g -> new Option(g.code(), g.name() + " · " + g.code()))
                .toList();
    }

    private static List<Option> machines(ShopBook book) {
        return Field.first(
                "first that can", book.machines().stream().map(ShopBook.Machine::name).toList());
    }
}
