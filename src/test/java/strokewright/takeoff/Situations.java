package strokewright.takeoff;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import strokewright.estimate.ShopBook;
import strokewright.estimate.TakeOff;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Shop books and take-offs to try things with; the shop is invented. */
public final class Situations {

    public static final JsonMapper JSON =
            JsonMapper.builder().enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES).build();

    private Situations() {}

    /** The full build-up with overheads and discounts. */
    public static ShopBook surchargeBook() {
        try (InputStream in = Situations.class.getResourceAsStream("/take-off/shop-book.json")) {
            return JSON.readValue(in, ShopBook.class);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Hourly rates, a mark-up on material, profit, tax. */
    public static ShopBook simpleBook() {
        return withScheme(surchargeBook(), "kind", "simple");
    }

    public static ShopBook withScheme(ShopBook book, String field, Object value) {
        ObjectNode tree = JSON.valueToTree(book);
        ((ObjectNode) tree.get("priceScheme")).set(field, JSON.valueToTree(value));
        return JSON.treeToValue(tree, ShopBook.class);
    }

    /** Stock sheets by the sheet with breaks, and by the kg with offcuts kept; and by mass. */
    public static List<ShopBook> booksOfMetal() {
        String bySheet =
                """
                [{"grade":"AL99.5-O","thicknessMm":2.0,"lengthMm":2000,"widthMm":1000,
                  "pricePerSheet":{"amount":"61.30","currency":"EUR"},
                  "breaks":[{"from":2,"price":{"amount":"57.15","currency":"EUR"}}]},
                 {"grade":"STEEL-DC","pricePerKg":{"amount":"1.43","currency":"EUR"}}]
                """;
        String byKg =
                """
                [{"grade":"AL99.5-O","thicknessMm":2.0,"lengthMm":2500,"widthMm":1250,
                  "pricePerKg":{"amount":"5.37","currency":"EUR"}},
                 {"grade":"STEEL-DC","thicknessMm":1.5,"lengthMm":2000,"widthMm":1000,
                  "pricePerKg":{"amount":"1.43","currency":"EUR"}}]
                """;
        ObjectNode kept = JSON.valueToTree(withSheets(surchargeBook(), byKg));
        kept.set("cutting", JSON.readTree("{\"offcuts\":\"kept\"}"));
        return List.of(
                surchargeBook(),
                withSheets(surchargeBook(), bySheet),
                withSheets(simpleBook(), byKg),
                JSON.treeToValue(kept, ShopBook.class));
    }

    private static ShopBook withSheets(ShopBook book, String sheets) {
        ObjectNode tree = JSON.valueToTree(book);
        tree.set("sheets", JSON.readTree(sheets));
        return JSON.treeToValue(tree, ShopBook.class);
    }

    public static ShopBook withMetalPrice(ShopBook book, String grade, String perKg) {
        ObjectNode tree = JSON.valueToTree(book);
        for (JsonNode sheet : tree.get("sheets")) {
            if (sheet.get("grade").asString().equals(grade)) {
                ((ObjectNode) sheet)
                        .set(
                                "pricePerKg",
                                JSON.valueToTree(Map.of("amount", perKg, "currency", "EUR")));
            }
        }
        return JSON.treeToValue(tree, ShopBook.class);
    }

    /**
     * @param which labourRate or machineRate
     */
    public static ShopBook withRate(ShopBook book, String centre, String which, String rate) {
        ObjectNode tree = JSON.valueToTree(book);
        for (JsonNode found : tree.get("workCentres")) {
            if (found.get("name").asString().equals(centre)) {
                ((ObjectNode) found)
                        .set(which, JSON.valueToTree(Map.of("amount", rate, "currency", "EUR")));
            }
        }
        return JSON.treeToValue(tree, ShopBook.class);
    }

    /** Two parts, work on the whole, something bought out by the order and by the piece. */
    public static TakeOff roundFrame() {
        return takeOff(
                """
                {"title":"Round sign frame","information":"drawing","quantities":[1,2,5,12],"mainQuantity":2,
                 "parts":[
                  {"name":"Rim","perAssembly":1,"grade":"AL99.5-O","thicknessMm":2.0,"massKg":1.27,
                   "blank":{"lengthMm":1950,"widthMm":120},"surface":"visible",
                   "operations":[
                    {"type":"standard","standard":"Guillotine cut","amount":4},
                    {"type":"curve-edge","sense":"shrink","lengthMm":1885,"radiusMm":300,"heightMm":40},
                    {"type":"smooth","areaMm2":150000,"timesOver":2}]},
                  {"name":"Clip","perAssembly":3,"grade":"STEEL-DC","thicknessMm":1.5,
                   "blank":{"lengthMm":300,"widthMm":40},
                   "operations":[
                    {"type":"standard","standard":"Bend","amount":2},
                    {"type":"curve-edge","sense":"stretch","lengthMm":280,"radiusMm":300,"heightMm":20,"count":2}]}],
                 "assembly":[{"type":"standard","standard":"TIG weld","amount":1.9},
                  {"type":"standard","standard":"Order preparation","amount":1}],
                 "extras":[
                  {"name":"Powder coat","per":"order","kind":"bought-out","cost":{"amount":"85.00","currency":"EUR"}},
                  {"name":"=Hinge pair","per":"piece","kind":"bought-out","cost":{"amount":"3.33","currency":"EUR"}}]}
                """);
    }

    /** Priced for one quantity alone. */
    public static TakeOff bowl() {
        return takeOff(
                """
                {"title":"Bowl","quantities":[1],
                 "parts":[{"name":"Bowl","grade":"AL99.5-O","thicknessMm":2.0,"massKg":0.9,
                   "blank":{"lengthMm":450,"widthMm":450},
                   "operations":[{"type":"dish","diameterMm":300,"depthMm":60,"trimMm":5}]}]}
                """);
    }

    /** A line that costs at least so much, whatever its minutes. */
    public static TakeOff galvanisedCover() {
        return takeOff(
                """
                {"title":"Cover","quantities":[1,3,40],"mainQuantity":3,
                 "parts":[{"name":"Cover","grade":"STEEL-DC","thicknessMm":1.5,
                   "blank":{"lengthMm":600,"widthMm":400},
                   "operations":[{"type":"standard","standard":"Galvanise","amount":2.8},
                    {"type":"standard","standard":"Bend","amount":4}]}]}
                """);
    }

    /**
     * In a hurry, with bought-out work that is handled by the scheme, by its own, and not at all.
     */
    public static TakeOff hurriedBracket() {
        return takeOff(
                """
                {"title":"Bracket","quantities":[1,4],"mainQuantity":4,"urgencyPercent":12.5,
                 "parts":[{"name":"Bracket","grade":"STEEL-DC","thicknessMm":1.5,
                   "blank":{"lengthMm":200,"widthMm":80},
                   "operations":[{"type":"standard","standard":"Bend","amount":2}]}],
                 "extras":[
                  {"name":"Plating","per":"piece","kind":"bought-out","leadTimeDays":6,
                   "cost":{"amount":"7.77","currency":"EUR"}},
                  {"name":"Laser cutting","per":"order","kind":"bought-out","handlingPercent":7.5,
                   "cost":{"amount":"61.13","currency":"EUR"}},
                  {"name":"Jig","per":"order","kind":"special-direct",
                   "cost":{"amount":"18.20","currency":"EUR"}}]}
                """);
    }

    /** The customer's own metal, no forming, nothing bought. */
    public static TakeOff foldedTray() {
        return takeOff(
                """
                {"title":"Tray","quantities":[7,3],"mainQuantity":7,
                 "parts":[{"name":"Tray","grade":"STEEL-DC","thicknessMm":1.0,"supply":"customer",
                   "blank":{"lengthMm":500,"widthMm":300},
                   "operations":[{"type":"standard","standard":"Bend","amount":4}]}]}
                """);
    }

    /** Cannot be made on the machine that the shop has. */
    public static TakeOff tooThick() {
        return takeOff(
                """
                {"title":"Plate ring","quantities":[1],
                 "parts":[{"name":"Ring","grade":"STEEL-DC","thicknessMm":12.0,
                   "blank":{"lengthMm":500,"widthMm":100},
                   "operations":[{"type":"curve-edge","sense":"shrink","lengthMm":450,"radiusMm":300,"heightMm":30}]}]}
                """);
    }

    /** An outline that shrinks and stretches, with a corner. */
    public static TakeOff bow() {
        return takeOff(
                """
                {"title":"Bow","quantities":[1,4],
                 "parts":[{"name":"Bow","grade":"AL99.5-O","thicknessMm":2.0,"massKg":0.5,
                   "operations":[{"type":"follow-outline","heightMm":30,"count":2,
                     "path":"M0 0A200 200 0 0 1 200 200V320A150 150 0 0 0 350 470H430V500"}]}]}
                """);
    }

    public static List<TakeOff> takeOffs() {
        return List.of(
                roundFrame(), bowl(), galvanisedCover(), hurriedBracket(), foldedTray(), bow());
    }

    public static TakeOff takeOff(String json) {
        return JSON.readValue(json, TakeOff.class);
    }
}
