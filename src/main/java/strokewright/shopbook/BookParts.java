package strokewright.shopbook;

import static strokewright.shopbook.BookField.built;
import static strokewright.shopbook.BookField.choice;
import static strokewright.shopbook.BookField.choiceOr;
import static strokewright.shopbook.BookField.length;
import static strokewright.shopbook.BookField.lines;
import static strokewright.shopbook.BookField.money;
import static strokewright.shopbook.BookField.named;
import static strokewright.shopbook.BookField.namedOr;
import static strokewright.shopbook.BookField.namedOrOther;
import static strokewright.shopbook.BookField.number;
import static strokewright.shopbook.BookField.origin;
import static strokewright.shopbook.BookField.share;
import static strokewright.shopbook.BookField.text;
import static strokewright.shopbook.BookField.thickness;
import static strokewright.shopbook.BookField.whole;
import static strokewright.shopbook.BookField.yesNo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import strokewright.shopbook.BookSection.Shape;

/**
 * Every part, section and field of the shop book with its words: the one place that pages which
 * edit it, compare editions or tell faults read. A test holds it against the records.
 */
final class BookParts {

    static final String GRADES = "grades";
    static final String FAMILIES = "families";
    static final String TOOLS = "tools";
    static final String STANDARDS = "standards";
    static final String WORK_CENTRES = "work-centres";
    static final String TIMES = "times";
    static final String PRICE_SCHEME = "price-scheme";

    private static final String ANY = "any";
    private static final String LOGARITHM = "0.25: four times in five between 0.73 and 1.38 times";

    static final List<BookPart> ALL =
            List.of(
                    new BookPart(
                            "grades",
                            "Grades",
                            "The metals that this shop works, and how far each can be strained.",
                            List.of(grades())),
                    new BookPart(
                            "sheets",
                            "Metal prices",
                            "What sheet costs: by the mass of the blanks, or as stock sheets of one"
                                    + " size that blanks are laid out on.",
                            List.of(sheets())),
                    new BookPart(
                            "machines",
                            "Machines",
                            "What each forming machine can take and how fast it strokes.",
                            List.of(machines())),
                    new BookPart(
                            "tools",
                            "Tools",
                            "The pairs of forming tools, their bite and how long they take to put"
                                    + " in.",
                            List.of(tools())),
                    new BookPart(
                            "families",
                            "Bite by family",
                            "How much of a tool’s bite a metal family takes, where nothing was"
                                    + " measured.",
                            List.of(families())),
                    new BookPart(
                            "pass-limits",
                            "Pass limits",
                            "What a tool does in a metal family, measured or set; it goes before"
                                    + " the tool’s own bite and the machine’s figures.",
                            List.of(passLimits())),
                    new BookPart(
                            "times",
                            "Times and limits",
                            "What forming is reckoned with besides machine, tool and metal.",
                            List.of(times(), handling(), corrections())),
                    new BookPart(
                            "standards",
                            "Time standards",
                            "How long other work takes, and where it is done.",
                            List.of(standards())),
                    new BookPart(
                            "work-centres",
                            "Work centres",
                            "Where hours are booked, and what an hour costs there.",
                            List.of(workCentres())),
                    new BookPart(
                            "price-scheme",
                            "Price scheme",
                            "From cost to price.",
                            List.of(priceScheme())),
                    new BookPart(
                            "routes",
                            "Routes",
                            "What another route of an item begins with.",
                            List.of(routes())),
                    new BookPart(
                            "proposals",
                            "Proposed lines",
                            "Other work that is proposed wherever its condition holds, in this"
                                    + " order.",
                            List.of(proposals())),
                    new BookPart(
                            "cutting",
                            "Cutting",
                            "How blanks are cut from stock sheets.",
                            List.of(cutting())),
                    new BookPart(
                            "bending",
                            "Bending",
                            "How folded parts are developed, and what the folder can do.",
                            List.of(bending(), kFactors())),
                    new BookPart(
                            "inspection",
                            "Inspection",
                            "How many pieces the final check looks at, and how long it takes.",
                            List.of(inspection())),
                    new BookPart(
                            "uncertainty",
                            "Uncertainty",
                            "How sure the shop is of what it reckons with. Spreads are standard"
                                    + " deviations of the natural logarithm: 0.25 means that four"
                                    + " times in five the truth lies between 0.73 and 1.38 times"
                                    + " the figure.",
                            List.of(uncertainty())),
                    new BookPart(
                            "learned",
                            "Learned factors",
                            "What finished jobs taught about one kind of work.",
                            List.of(learned())));

    private BookParts() {}

    static Optional<BookPart> part(String key) {
        return ALL.stream().filter(p -> p.key().equals(key)).findFirst();
    }

    static List<BookSection> sections() {
        return ALL.stream().flatMap(p -> p.sections().stream()).toList();
    }

    static Optional<BookSection> section(String key) {
        return sections().stream().filter(s -> s.key().equals(key)).findFirst();
    }

    static BookPart partOf(BookSection section) {
        return ALL.stream().filter(p -> p.sections().contains(section)).findFirst().orElseThrow();
    }

    private static BookSection grades() {
        return table(
                GRADES,
                "/grades",
                "Grades",
                "grade",
                List.of("code"),
                text("code", "Code").listed(),
                text("name", "Name").listed(),
                named("family", "Family", FAMILIES)
                        .saying("a new one is added at Bite by family")
                        .listed(),
                number("densityKgM3", "Density", "kg/m³").listed(),
                number("tensileMpa", "Tensile strength", "MPa").listed(),
                number("proofMpa", "Proof stress", "MPa").listed(),
                number("annealedProofMpa", "Proof stress, annealed", "MPa")
                        .saying("as delivered when empty"),
                number("strengthCoefficientMpa", "K", "MPa")
                        .saying("of the annealed metal")
                        .listed(),
                number("hardeningExponent", "n", "").saying("of the annealed metal").listed(),
                number("elongationPercent", "Elongation", "%"),
                number("shrinkLimit", "Shrink limit", "")
                        .saying("true strain in one anneal cycle")
                        .listed(),
                number("edgeStretchLimit", "Edge stretch limit", "").saying("0.9 n when empty"),
                number("areaStretchLimit", "Area stretch limit", "").saying("0.7 n when empty"),
                yesNo("annealable", "Annealed here").listed(),
                number("strainPerPass", "Strain per pass", "")
                        .saying("only for metals without a meaningful K and n, such as zinc"),
                number("minimumBendRadius", "Smallest bend radius", "× thickness").saying("inside"),
                number("reductionOfAreaPercent", "Reduction of area", "%")
                        .saying("tells the smallest bend radius where none is stated"),
                number("elasticModulusGpa", "Modulus of elasticity", "GPa")
                        .saying("for springback"),
                origin());
    }

    private static BookSection sheets() {
        return table(
                "sheets",
                "/sheets",
                "Metal prices and stock sheets",
                "price",
                List.of("grade", "thicknessMm", "lengthMm", "widthMm"),
                named("grade", "Grade", GRADES).listed(),
                thickness("thicknessMm", "Thickness")
                        .saying(
                                "mm, inch or gauge of the grade, copper also in oz; empty: every thickness without its own line")
                        .listed(),
                length("lengthMm", "Sheet length").saying("empty: by mass").listed(),
                length("widthMm", "Sheet width").listed(),
                money("pricePerKg", "Price per kg", "/kg").listed(),
                money("pricePerSheet", "Price per sheet", "/sheet")
                        .saying("instead of the price per kg, for one size")
                        .listed(),
                lines(
                        "breaks",
                        "Price breaks",
                        "price break",
                        number("from", "From", "kg or sheets"),
                        money("price", "Price", "")),
                origin());
    }

    private static BookSection machines() {
        return table(
                "machines",
                "/machines",
                "Machines",
                "machine",
                List.of("name"),
                text("name", "Name").listed(),
                thickness("ratedThicknessMm", "Rated thickness").listed(),
                number("ratedStrengthMpa", "Rated for strength", "MPa").listed(),
                length("throatMm", "Throat").listed(),
                number("strokesPerMinute", "Strokes", "1/min").listed(),
                number("strokeWorkJ", "Stroke work", "J")
                        .saying("from the rating when empty")
                        .listed(),
                number("feedEfficiency", "Feed efficiency", "")
                        .saying("share of the stroke rate left under hand feed")
                        .listed(),
                origin());
    }

    private static BookSection tools() {
        return table(
                TOOLS,
                "/tools",
                "Tools",
                "tool",
                List.of("name"),
                text("name", "Name").listed(),
                choice(
                                "kind",
                                "Kind",
                                words(
                                        "shrink", "shrink",
                                        "stretch", "stretch",
                                        "edge", "edge, both senses",
                                        "dome", "dome",
                                        "smooth", "smooth",
                                        "flange", "flange",
                                        "flatten", "flatten"))
                        .listed(),
                choice(
                                "surface",
                                "Faces",
                                words("soft-faced", "soft-faced", "steel-faced", "steel-faced"))
                        .listed(),
                share("biteStrain", "Bite").saying("true strain of one pass").listed(),
                length("jawMm", "Jaw width").saying("for edges").listed(),
                length("rowMm", "Row spacing").saying("for areas").listed(),
                length("pitchMm", "Pitch").listed(),
                number("strokesPerMinute", "Strokes", "1/min").listed(),
                number("changeMinutes", "Change", "min"),
                number("setMinutes", "Set and try", "min"),
                thickness("maxThicknessMm", "Up to thickness")
                        .saying("of steel of 400 MPa; mm, inch or gauge of steel")
                        .listed(),
                origin());
    }

    private static BookSection families() {
        return new BookSection(
                FAMILIES,
                "/familyBite",
                "Metal families",
                "family",
                Shape.MEMBERS,
                false,
                List.of("family"),
                List.of(
                        text("family", "Family"),
                        number("factor", "Share of a tool’s bite", "")
                                .saying("empty only for metals with a strain per pass")));
    }

    private static BookSection passLimits() {
        return table(
                "pass-limits",
                "/passLimits",
                "Pass limits",
                "pass limit",
                List.of("tool", "family"),
                named("tool", "Tool", TOOLS).listed(),
                named("family", "Family", FAMILIES).listed(),
                share("biteStrain", "Bite").saying("the tool’s by its family when empty").listed(),
                number("strokeWorkJ", "Stroke work", "J")
                        .saying("the machine’s when empty")
                        .listed(),
                number("feedEfficiency", "Feed efficiency", "")
                        .saying("the machine’s when empty")
                        .listed(),
                origin());
    }

    private static BookSection times() {
        List<BookField> fields = new ArrayList<>();
        Collections.addAll(
                fields,
                whole("checkEveryPasses", "Template check every", "passes"),
                number("stationSeconds", "One station", "s"),
                length("arcStationMm", "A station along one radius for each"),
                length("outlineStationMm", "A station along a free outline for each"),
                length("areaStationMm", "A station on an area for each square of"),
                whole("areaStationsAtLeast", "Fewest stations on an area", ""),
                length("templateGapMm", "Template gap where none is stated"),
                number("degreesPerTippingPass", "One pass tips a flange by", "°"),
                share("minimumRowStrain", "Smallest strain worth a row"),
                number("shearedEdgeFactor", "Stretch limit of a sheared edge", "")
                        .saying("share of a dressed one’s"),
                thickness("thinSheetMm", "Sheet wrinkles sooner under"),
                length("smallestWorkableRadiusMm", "Smallest workable radius")
                        .saying("a tighter outline has a corner there"),
                number("dentFindSeconds", "Find and feel one dent", "s"),
                namedOr("annealStandard", "Anneal by", STANDARDS, "no standard")
                        .saying("a time standard per dm²"),
                number("annealCoolCleanMinutes", "Cool and clean after each anneal", "min"),
                namedOr("dressMarksStandard", "Dress marks by", STANDARDS, "no standard")
                        .saying("a time standard per dm²"),
                namedOr(
                        "formingWorkCentre",
                        "Forming is charged at",
                        WORK_CENTRES,
                        "the first work centre"),
                length("stockLengthMm", "Longest sheet or strip bought")
                        .saying("empty: without limit"),
                length("folderLengthMm", "Longest piece the folder takes")
                        .saying("empty: without limit"),
                share("practiceSlope", "Practice: twice as many pieces take, each,"),
                whole("practiceReferenceUnit", "Standard times are those of piece", ""),
                whole("practiceFloorUnit", "No more practice from piece", ""),
                number("reserveOnePercent", "Risk reserve, one piece", "%")
                        .saying("on forming and welding minutes"),
                number("reserveMorePercent", "Risk reserve, two pieces and more", "%"),
                number("spareBlankStrain", "A spare blank from strain", ""),
                thickness("spareBlankUnderMm", "A spare blank under thickness"),
                number("machineAllowancePercent", "Allowance at the forming machine", "%")
                        .saying("counts when stated; else its build-up"),
                number("benchAllowancePercent", "Allowance at the bench", "%")
                        .saying("counts when stated; else its build-up"));
        fields.addAll(allowance("machineAllowanceBasis", "At the machine"));
        fields.addAll(allowance("benchAllowanceBasis", "At the bench"));
        fields.add(origin());
        return one(TIMES, "/times", "Times and limits", fields);
    }

    /** The lines of the table of allowances, in the words of {@link AllowanceChoices}. */
    private static List<BookField> allowance(String at, String where) {
        String of = where + ": ";
        List<BookField> fields = new ArrayList<>();
        fields.add(built(at, of + "build-up", "none", "built up from the lines below"));
        fields.add(number(at + "/personalPercent", of + "personal needs", "%"));
        fields.add(number(at + "/fatiguePercent", of + "basic fatigue", "%"));
        for (AllowanceChoices.Line line : AllowanceChoices.of(null)) {
            Map<String, String> words = new LinkedHashMap<>();
            line.choices().forEach(c -> words.put(c.value(), c.words()));
            String path = at + "/" + line.field();
            fields.add(
                    line.field().equals("standing")
                            ? yesNo(path, of + "standing").saying(words.get("true"))
                            : choiceOr(
                                    path,
                                    of + line.label().toLowerCase(Locale.ROOT),
                                    "not chosen: 0 %",
                                    words));
        }
        fields.add(
                number(at + "/liftedKg", of + "mass handled", "kg")
                        .saying("0 to 22 % by the table of masses"));
        fields.add(
                number(at + "/contingencyPercent", of + "small delays", "%")
                        .saying("while the job’s clock runs"));
        return fields;
    }

    private static BookSection handling() {
        return new BookSection(
                "handling",
                "/times/handling",
                "One pick-up of a piece",
                "class",
                Shape.OPEN,
                true,
                List.of(),
                List.of(
                        number("upToKg", "up to", "kg").saying("empty: any"),
                        number("upToAreaM2", "up to", "m²").saying("empty: any"),
                        length("upToLengthMm", "up to").saying("empty: any"),
                        number("seconds", "takes", "s"),
                        whole("people", "people", "")));
    }

    private static BookSection corrections() {
        return new BookSection(
                "corrections",
                "/times/corrections",
                "Correction passes by template gap, widest first",
                "line",
                Shape.OPEN,
                true,
                List.of(),
                List.of(length("gapFromMm", "Gap from"), whole("passes", "Correction passes", "")));
    }

    private static BookSection standards() {
        return table(
                STANDARDS,
                "/standards",
                "Time standards",
                "time standard",
                List.of("name"),
                text("name", "Work").listed(),
                named("workCentre", "Work centre", WORK_CENTRES).listed(),
                number("setupMinutes", "Set-up", "min").listed(),
                number("minutesPerUnit", "Each", "min").listed(),
                choice(
                                "unit",
                                "per",
                                words(
                                        "order", "order",
                                        "job", "job",
                                        "piece", "piece",
                                        "metre", "metre",
                                        "bend", "bend",
                                        "cut", "cut",
                                        "hole", "hole",
                                        "joint", "joint",
                                        "kg", "kg",
                                        "dm²", "dm²",
                                        "spot", "spot",
                                        "station", "station",
                                        "template", "template",
                                        "dimension", "size measured at the final check",
                                        "contour", "contour station at the final check"))
                        .listed(),
                whole("people", "People", "").listed(),
                yesNo("machinePaced", "Paced by a machine").saying("practice cannot shorten it"),
                money("minimumCharge", "Costs at least", ""),
                yesNo("reserve", "Carries the risk reserve").saying("as welding does"),
                choiceOr(
                        "spread/kind",
                        "Spread",
                        "the book’s own",
                        words(
                                "log-normal", "log-normal",
                                "triangular", "three points, triangular",
                                "beta", "three points, rounded (beta)")),
                number("spread/sigma", "Spread of a log-normal", "").saying(LOGARITHM),
                number("spread/low", "Least each", "min").saying("of three points"),
                number("spread/high", "Most each", "min").saying("of three points"),
                origin());
    }

    private static BookSection workCentres() {
        List<BookField> fields = new ArrayList<>();
        Collections.addAll(
                fields,
                text("name", "Name").listed(),
                money("labourRate", "Labour", "/h")
                        .saying("counts when stated; else its build-up")
                        .listed(),
                money("machineRate", "Machine", "/h")
                        .saying("counts when stated; else its build-up; none without either")
                        .listed(),
                origin().listed(),
                built("labourBasis", "Labour rate: build-up", "none", "built up below"),
                number("labourBasis/wagePerHour", "Wage", "¤/h"),
                number("labourBasis/onCostPercent", "On-costs on the wage", "%"),
                number("labourBasis/paidHoursPerYear", "Paid hours a year", "h"),
                number("labourBasis/absentHoursPerYear", "Absent hours a year", "h")
                        .saying("or the days below"),
                number("labourBasis/leaveDays", "Leave", "days a year"),
                number("labourBasis/publicHolidays", "Public holidays", "days a year"),
                number("labourBasis/sickDays", "Sickness", "days a year"),
                number("labourBasis/hoursPerDay", "Hours a working day", "h"),
                number("labourBasis/productivePercent", "Share of the presence on jobs", "%"),
                number("labourBasis/otherPerYear", "Other cost of a person", "¤/year"),
                built("machineBasis", "Machine rate: build-up", "none", "built up below"),
                number("machineBasis/acquisitionValue", "Acquisition value", "¤"),
                number("machineBasis/replacementValue", "Replacement value", "¤")
                        .saying("or the two price indices"),
                number("machineBasis/priceIndexThen", "Price index when bought", ""),
                number("machineBasis/priceIndexNow", "Price index today", ""),
                number("machineBasis/scrappingCost", "Cost of scrapping", "¤"),
                number("machineBasis/residualValue", "Residual value", "¤"),
                number("machineBasis/lifeYears", "Life", "years"),
                number("machineBasis/interestPercent", "Interest", "% a year"),
                choiceOr(
                        "machineBasis/interestOn",
                        "Interest on half of",
                        "the acquisition value (not chosen)",
                        words(
                                "acquisition", "the acquisition value",
                                "replacement", "the replacement value")),
                number("machineBasis/areaM2", "Floor space", "m²"),
                number("machineBasis/spacePerM2Year", "Space", "¤/m² and year"),
                number("machineBasis/spacePerM2Month", "or space", "¤/m² and month"),
                number("machineBasis/powerKw", "Rated power", "kW"),
                number("machineBasis/loadFactor", "Share of it drawn", "").saying("1 when empty"),
                number("machineBasis/energyPerKwh", "Energy", "¤/kWh"),
                number("machineBasis/maintenancePerYear", "Upkeep", "¤/year"),
                number("machineBasis/maintenanceOverLife", "or upkeep over its life", "¤"),
                number("machineBasis/maintenancePercent", "or upkeep as a share", "% a year"),
                choiceOr(
                        "machineBasis/maintenanceOn",
                        "of",
                        "the acquisition value (not chosen)",
                        words(
                                "acquisition", "the acquisition value",
                                "replacement", "the replacement value")),
                number("machineBasis/runningHoursPerYear", "Running hours a year", "h")
                        .saying("or from the total below"),
                number("machineBasis/totalHoursPerYear", "Hours it could run a year", "h"),
                number("machineBasis/idleHoursPerYear", "of these without work", "h"),
                number("machineBasis/maintenanceHoursPerYear", "of these under upkeep", "h"),
                number("machineBasis/usedPercent", "used of what remains", "%")
                        .saying("100 when empty"),
                number("machineBasis/toolCost", "A set of tools", "¤"),
                number("machineBasis/toolLifeHours", "which lasts", "h"),
                number("machineBasis/otherPerYear", "Other cost", "¤/year"));
        return new BookSection(
                WORK_CENTRES,
                "/workCentres",
                "Work centres",
                "work centre",
                Shape.TABLE,
                true,
                List.of("name"),
                fields);
    }

    private static BookSection priceScheme() {
        String surcharge = "surcharge build-up only; ";
        return one(
                PRICE_SCHEME,
                "/priceScheme",
                "Price scheme",
                List.of(
                        choice(
                                "kind",
                                "Scheme",
                                words(
                                        "simple", "simple: rates, mark-up, profit, tax",
                                        "surcharge", "surcharge build-up")),
                        choice(
                                "priceFrom",
                                "Price is made from",
                                words(
                                        "plan", "plan hours",
                                        "mean", "mean hours",
                                        "p65", "hours kept 65 times in 100",
                                        "p80", "hours kept 80 times in 100")),
                        number("materialOverheadPercent", "Material overhead or mark-up", "%")
                                .saying("on material"),
                        number("productionOverheadPercent", "Production overhead", "%")
                                .saying(surcharge + "on labour"),
                        number("administrationPercent", "Administration", "%")
                                .saying(surcharge + "on manufacturing cost"),
                        number("salesPercent", "Sales", "%")
                                .saying(surcharge + "on manufacturing cost"),
                        number("profitPercent", "Profit", "%").saying("on total cost"),
                        number("urgencyPercent", "Urgency", "%").saying("on total cost and profit"),
                        number("settlementDiscountPercent", "Settlement discount", "%")
                                .saying(surcharge + "of the price it is taken off"),
                        number("commissionPercent", "Commission", "%")
                                .saying(surcharge + "of the same price"),
                        number("tradeDiscountPercent", "Trade discount", "%")
                                .saying(surcharge + "of the list price"),
                        number("taxPercent", "Tax", "%").saying("on the offer"),
                        number("boughtOutHandlingPercent", "Handling of bought-out work", "%"),
                        choice(
                                "roundEachTo",
                                "Price each rounded to",
                                words("0.01", "0.01", "0.50", "0.50", "1", "1", "5", "5")),
                        money("minimumOrder", "An order costs at least", "")));
    }

    private static BookSection routes() {
        return one(
                "routes",
                "/routes",
                "Other routes begin with",
                List.of(
                        lines(
                                "jointStandards",
                                "Each welded joint takes",
                                "time standard",
                                namedOr("", "Time standard", STANDARDS, "none")),
                        length("jointTrimMm", "Trim at each welded end of a segment"),
                        namedOr(
                                        "heatShrinkStandard",
                                        "An edge is shrunk by hand by",
                                        STANDARDS,
                                        "no standard")
                                .saying("a time standard per metre"),
                        namedOr("pressStandard", "A press strokes by", STANDARDS, "no standard")
                                .saying("a time standard per piece"),
                        origin()));
    }

    private static BookSection proposals() {
        return new BookSection(
                "proposals",
                "/proposals",
                "Proposed lines",
                "proposed line",
                Shape.TABLE,
                true,
                List.of("code"),
                List.of(
                        text("code", "Code")
                                .saying("a short name; it can be taken out by it")
                                .listed(),
                        choice(
                                        "when",
                                        "Where there is",
                                        words(
                                                "blank", "a blank",
                                                "dish", "a dish",
                                                "curved-edge", "a curved edge",
                                                "stretch", "stretching from a strain on",
                                                "closed", "a closed outline or full circle",
                                                "visible", "a visible surface",
                                                "bends", "a fold",
                                                "radius", "a radius without a template",
                                                "old-part", "an old part",
                                                "several-parts", "more than one part",
                                                "always", "an item: always"))
                                .listed(),
                        number("from", "From strain", "").saying("only for stretching"),
                        named("standard", "Time standard", STANDARDS).listed(),
                        choice(
                                        "amount",
                                        "Amount",
                                        words(
                                                "one", "one",
                                                "cuts", "cuts of the blank",
                                                "perimeter", "metres around the blank",
                                                "circumference", "metres around the disc",
                                                "edge-length", "metres of formed edge",
                                                "ends", "ends of formed edges",
                                                "joints", "joints",
                                                "weld-length", "metres of weld",
                                                "bends", "bends",
                                                "area", "dm² of the blank",
                                                "mass", "kg of the piece",
                                                "templates", "templates",
                                                "meetings", "places where parts meet",
                                                "dimensions", "sizes measured at the final check",
                                                "contour-stations",
                                                        "contour stations at the final check"))
                                .listed(),
                        number("factor", "times", "").listed(),
                        choice(
                                        "place",
                                        "Place",
                                        words(
                                                "before", "before forming",
                                                "after", "after forming"))
                                .listed(),
                        origin()));
    }

    private static BookSection cutting() {
        return one(
                "cutting",
                "/cutting",
                "Cutting",
                List.of(
                        length("kerfMm", "Lost at each cut").saying("0 for shears"),
                        length("edgeMarginMm", "Margin along every edge of a sheet"),
                        choice(
                                "offcuts",
                                "Offcuts",
                                words(
                                        "charged", "charged: whole sheets are paid for",
                                        "kept", "kept: what is worth keeping is not paid for")),
                        length("keptFromMm", "Worth keeping from")
                                .saying("when both sides reach it"),
                        origin()));
    }

    private static BookSection bending() {
        return one(
                "bending",
                "/bending",
                "Bending",
                List.of(
                        choice(
                                "method",
                                "Length in a bend by",
                                words(
                                        "din-6935", "DIN 6935",
                                        "k-factor", "the shop’s own table of k-factors")),
                        number("dieOpeningOfThickness", "Die opening", "× thickness"),
                        number("dieFactor", "Factor of the bend force", "")
                                .saying("by the kind of die"),
                        number("pressForceKn", "The folder presses", "kN")
                                .saying("empty: nobody has to ask"),
                        origin()));
    }

    private static BookSection kFactors() {
        return new BookSection(
                "k-factors",
                "/bending/kFactors",
                "K-factors: the first line that fits holds",
                "line",
                Shape.OPEN,
                true,
                List.of(),
                List.of(
                        namedOr("family", "Family", FAMILIES, "all others"),
                        number("upToRadiusOfThickness", "Inside radius up to", "× thickness")
                                .saying("empty: " + ANY),
                        number("k", "K-factor", "")));
    }

    private static BookSection inspection() {
        return one(
                "inspection",
                "/inspection",
                "Inspection",
                List.of(
                        whole("everyPieceUpTo", "Every piece is checked up to", "pieces"),
                        choice(
                                "level",
                                "Inspection level of ISO 2859-1",
                                words(
                                        "S-1", "S-1", "S-2", "S-2", "S-3", "S-3", "S-4", "S-4", "I",
                                        "I", "II", "II", "III", "III")),
                        number("aqlPercent", "Acceptance quality limit", "%"),
                        number("effort/f", "A size of class f takes", "times"),
                        number("effort/m", "of class m", "times"),
                        number("effort/c", "of class c", "times"),
                        number("effort/v", "of class v", "times"),
                        origin()));
    }

    private static BookSection uncertainty() {
        return one(
                "uncertainty",
                "/uncertainty",
                "Uncertainty",
                List.of(
                        whole("trials", "Trials of the simulation", ""),
                        whole("seed", "Seed", "").saying("the same seed gives the same figures"),
                        number("information/phone", "Hours by phone", ""),
                        number("information/sketch", "Hours by sketch", ""),
                        number("information/photo", "Hours by photo", ""),
                        number("information/drawing", "Hours by drawing", ""),
                        number(
                                "information/drawingAndTemplate",
                                "Hours by drawing and template",
                                ""),
                        number("information/oldPart", "Hours by old part", ""),
                        number("information/repeat", "Hours of a repeat", ""),
                        number("jobSpread", "Hours by drawing, learned", "")
                                .saying(
                                        "takes the place of the assumed ones above, the others in"
                                                + " proportion; empty until finished jobs told"),
                        whole("jobSpreadJobs", "Learned from jobs", ""),
                        number("biteSpread", "Bite, not measured", ""),
                        number("strokeWorkSpread", "Stroke work, not measured", ""),
                        number("measuredSpread", "Either, measured", ""),
                        number("feedEfficiencySpread", "Feed efficiency", ""),
                        number("checkSpread", "Time for one station", ""),
                        number("standardSpread", "Time standard without its own", ""),
                        number("materialPriceSpread", "Price of metal on the day", ""),
                        origin()));
    }

    private static BookSection learned() {
        return table(
                "learned",
                "/learned",
                "Learned factors",
                "factor",
                List.of("kind", "family"),
                namedOrOther(
                                "kind",
                                "Work",
                                STANDARDS,
                                words(
                                        "set-up", "set-up of a job",
                                        "other", "all other work",
                                        "reserve", "risk reserve",
                                        "curve-edge", "curve an edge",
                                        "turn-flange", "turn a flange",
                                        "dish", "dish",
                                        "smooth", "smooth",
                                        "flatten", "flatten",
                                        "take-out-dents", "take out dents",
                                        "follow-outline", "follow an outline"))
                        .listed(),
                namedOr("family", "Family", FAMILIES, "all others").listed(),
                number("planFactor", "Factor on plan minutes", "").listed(),
                number("meanFactor", "Factor to expect", "")
                        .saying("the plan factor when empty")
                        .listed(),
                number("spread", "Spread", "").saying(LOGARITHM).listed(),
                whole("jobs", "Learned from jobs", "").listed(),
                origin());
    }

    private static BookSection table(
            String key,
            String at,
            String title,
            String noun,
            List<String> keys,
            BookField... fields) {
        return new BookSection(
                key, at, title, noun, Shape.TABLE, false, keys, Arrays.asList(fields));
    }

    private static BookSection one(String key, String at, String title, List<BookField> fields) {
        return new BookSection(
                key, at, title, title, Shape.ONE, false, List.of(), List.copyOf(fields));
    }

    /** In the order given: what stands in JSON, and its words. */
    private static Map<String, String> words(String... pairs) {
        Map<String, String> words = new LinkedHashMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            words.put(pairs[i], pairs[i + 1]);
        }
        return Collections.unmodifiableMap(words);
    }
}
