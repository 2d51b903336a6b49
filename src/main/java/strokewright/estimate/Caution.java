package strokewright.estimate;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff.Part;

/**
 * What can hurt somebody at planned work, each with the trigger that calls it up. They remind of
 * the usual; the machine's manual, local codes and licensed practice decide, and no limit here is
 * our own.
 */
public enum Caution {
    FORMING(
            "At the forming machine",
            "Pinch points between the tools: guarded foot control, lock off before changing tools,"
                    + " eye and ear protection, loose sleeves and rings off. Cut-resistant gloves for"
                    + " handling, none at moving tools. Feed nothing short by hand."),
    VIBRATION(
            "Vibration",
            "Hand-held work: plan the stroke minutes of each person and day. EU action value 2.5 and"
                    + " limit 5 m/s² A(8), Directive 2002/44/EC."),
    SHARP_EDGES("Sharp edges", "Deburr before anybody handles the sheet."),
    ANNEALING(
            "Annealing and heating",
            "Aluminium does not glow before it melts: use a temperature marker. Keep a fire watch,"
                    + " secure the cylinders, mark hot pieces. Temperatures are the metal supplier's to"
                    + " state."),
    ZINC_FUME(
            "Zinc fume",
            "Galvanised sheet and zinc give off fume when heated or welded: extract it and protect"
                    + " the breathing."),
    CHROMIUM(
            "Chromium(VI)",
            "Welding and grinding stainless steel sets chromium(VI) free: extract it and protect the"
                    + " breathing."),
    ALUMINIUM_DUST(
            "Aluminium dust",
            "It can explode: grind apart from steel, keep sparks away, clean up wet or with a vacuum"
                    + " made for it."),
    PICKLING(
            "Pickling", "Acid: protect eyes and skin, keep water at hand, dispose of it properly."),
    PRESS(
            "At the press",
            "Crushing: work only behind the guard or with both hands on the control, as the press's"
                    + " manual says; block the ram and lock off before mounting a tool. A tool is"
                    + " rated by its maker, not here."),
    FOLDING(
            "Folding",
            "Pinch points between beam and blade, or punch and die: hands off the sheet at the bend,"
                    + " guards and foot control as the machine's manual says. Long legs swing up fast:"
                    + " stand clear, and hold small pieces with a back gauge or tongs, never by hand"
                    + " between the tools."),
    OLD_PART(
            "Old part",
            "Old paint can hold lead. Never heat or weld a closed tank or one that held fuel."),
    LIFTING_HELP("Lifting", "From 15 kg or 1.5 m ask for help."),
    LIFTING_TWO("Lifting", "Over 25 kg: two people or a hoist."),
    LICENSED_DESIGN(
            "Design and release",
            "Parts that hang overhead, hold pressure, lift, carry people, float, fly or touch food"
                    + " are designed and released by a licensed person. This estimate says nothing"
                    + " about strength.");

    private static final Pattern HEATING = Pattern.compile("\\bheat");
    private static final Pattern FOLDS = Pattern.compile("\\b(fold|bend)");
    private static final Pattern PRESSING = Pattern.compile("\\bpress\\b");
    private static final Pattern ENTRUSTED =
            Pattern.compile(
                    "\\b(sign|canopy|overhead|ceiling|pressure|boiler|tank|vessel|lifting|hook|hoist"
                            + "|chassis|axle|wheel|brake|car|vehicle|motorcycle|trailer|hull|boat"
                            + "|aircraft|plane|wing|propeller|food|kitchen|bakery)s?\\b");

    private final String title;
    private final String text;

    Caution(String title, String text) {
        this.title = title;
        this.text = text;
    }

    public String title() {
        return title;
    }

    public String text() {
        return text;
    }

    /** For work on any of these metals. */
    public static Set<Caution> of(List<Grade> grades) {
        Set<Caution> cautions = EnumSet.noneOf(Caution.class);
        for (Grade grade : grades) {
            if (Boolean.TRUE.equals(grade.annealable())) {
                cautions.add(ANNEALING);
            }
            if (zinc(grade)) {
                cautions.add(ZINC_FUME);
            }
            if (stainless(grade)) {
                cautions.add(CHROMIUM);
            }
            if (aluminium(grade)) {
                cautions.add(ALUMINIUM_DUST);
            }
        }
        return cautions;
    }

    /** For the item as a whole. */
    public static Set<Caution> of(TakeOff takeOff) {
        Set<Caution> cautions = EnumSet.noneOf(Caution.class);
        if (takeOff.information() == TakeOff.Information.OLD_PART) {
            cautions.add(OLD_PART);
        }
        List<String> names = new ArrayList<>();
        names.add(String.valueOf(takeOff.title()));
        takeOff.parts().forEach(p -> names.add(String.valueOf(p.name())));
        if (names.stream().anyMatch(n -> ENTRUSTED.matcher(n.toLowerCase(Locale.ROOT)).find())) {
            cautions.add(LICENSED_DESIGN);
        }
        return cautions;
    }

    /**
     * For handling one piece of a part.
     *
     * @param massKg null while unknown
     */
    public static Set<Caution> of(Part part, @Nullable Double massKg) {
        Set<Caution> cautions = EnumSet.noneOf(Caution.class);
        if (part.blank() != null || part.fold() != null) {
            cautions.add(SHARP_EDGES);
        }
        if (part.fold() != null) {
            cautions.add(FOLDING);
        }
        double kg = massKg == null ? 0 : massKg;
        if (kg > 25) {
            cautions.add(LIFTING_TWO);
        } else if (kg >= 15 || longestMm(part) >= 1500) {
            cautions.add(LIFTING_HELP);
        }
        return cautions;
    }

    /** For one line of work on metal of this grade; none for the assembly. */
    public static Set<Caution> of(Estimate.Line line, Optional<Grade> grade) {
        Set<Caution> cautions = EnumSet.noneOf(Caution.class);
        String work = line.standard() == null ? "" : line.standard().toLowerCase(Locale.ROOT);
        boolean welds = work.contains("weld");
        boolean grinds =
                work.contains("dress")
                        || work.contains("sand")
                        || work.contains("grind")
                        || line.dressMinutes() != null;
        boolean anneals =
                work.contains("anneal")
                        || HEATING.matcher(work).find()
                        || (line.anneals() != null && line.anneals() > 0)
                        || (line.crown() != null && line.crown().anneals() > 0);
        if (line.standard() == null) {
            cautions.add(FORMING);
            cautions.add(VIBRATION);
        }
        if (anneals) {
            cautions.add(ANNEALING);
        }
        if (grade.filter(Caution::zinc).isPresent() && (welds || anneals)) {
            cautions.add(ZINC_FUME);
        }
        if (grade.filter(Caution::stainless).isPresent() && (welds || grinds)) {
            cautions.add(CHROMIUM);
        }
        if (grade.filter(Caution::aluminium).isPresent() && grinds) {
            cautions.add(ALUMINIUM_DUST);
        }
        if (FOLDS.matcher(work).find()) {
            cautions.add(FOLDING);
        }
        if (PRESSING.matcher(work).find()) {
            cautions.add(PRESS);
        }
        if (work.contains("pickl")) {
            cautions.add(PICKLING);
        }
        return cautions;
    }

    static boolean zinc(Grade grade) {
        return String.valueOf(grade.family()).startsWith("zinc")
                || String.valueOf(grade.name()).toLowerCase(Locale.ROOT).contains("galvanised");
    }

    static boolean stainless(Grade grade) {
        return String.valueOf(grade.family()).startsWith("stainless");
    }

    private static boolean aluminium(Grade grade) {
        return String.valueOf(grade.family()).startsWith("aluminium");
    }

    private static double longestMm(Part part) {
        TakeOff.Blank blank = part.blank();
        double length = blank == null || blank.lengthMm() == null ? 0 : blank.lengthMm();
        double width = blank == null || blank.widthMm() == null ? 0 : blank.widthMm();
        return Math.max(length, width);
    }
}
