package strokewright.estimate;

import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.ShopBook.Machine;
import strokewright.estimate.ShopBook.PassLimit;
import strokewright.estimate.ShopBook.Standard;
import strokewright.estimate.ShopBook.Tool;

/** What of a shop book nobody knows exactly, and how far it may be off. */
record Doubts(ShopBook book, TakeOff.Information information) {

    private Uncertainty uncertainty() {
        return book.uncertainty();
    }

    /** Errors of a tool's bite are the same wherever it works one metal family. */
    Parameter bite(Tool tool, Grade grade) {
        return Parameter.logNormal(
                "bite of " + tool.name() + " in " + grade.family(),
                FormingHours.biteMeasured(tool.name(), grade, book)
                        ? uncertainty().measuredSpread()
                        : uncertainty().biteSpread());
    }

    Parameter strokeWork(Tool tool, Grade grade) {
        boolean measured =
                book.passLimit(tool.name(), grade.family())
                        .filter(l -> l.strokeWorkJ() != null)
                        .filter(l -> FormingHours.saysMeasured(l.origin()))
                        .isPresent();
        return Parameter.logNormal(
                "stroke work of " + tool.name() + " in " + grade.family(),
                measured ? uncertainty().measuredSpread() : uncertainty().strokeWorkSpread());
    }

    /** Of the tool in a family where the shop book has its own figure, else of the machine. */
    Parameter feed(Tool tool, Grade grade, Machine machine) {
        PassLimit own =
                book.passLimit(tool.name(), grade.family())
                        .filter(l -> l.feedEfficiency() != null)
                        .orElse(null);
        return own == null
                ? Parameter.logNormal(
                        "feed on " + machine.name(), uncertainty().feedEfficiencySpread())
                : Parameter.logNormal(
                        "feed of " + tool.name() + " in " + grade.family(),
                        FormingHours.saysMeasured(own.origin())
                                ? Math.min(
                                        uncertainty().measuredSpread(),
                                        uncertainty().feedEfficiencySpread())
                                : uncertainty().feedEfficiencySpread());
    }

    Parameter checks() {
        return Parameter.logNormal("checks with the template", uncertainty().checkSpread());
    }

    Parameter minutes(Standard standard) {
        return Parameter.of(
                "minutes of " + standard.name(),
                standard.spread(),
                standard.minutesPerUnit(),
                uncertainty().standardSpread());
    }

    Parameter price(String grade) {
        return Parameter.logNormal("price of " + grade, uncertainty().materialPriceSpread());
    }

    /** One factor for everything that a machine does not pace. */
    Parameter byHand() {
        return Parameter.logNormal("work by hand", uncertainty().ofJob(information));
    }

    /** Whether finished jobs told what all work of a job has in common. */
    boolean jobsAreLearned() {
        return uncertainty().jobSpread() != null;
    }

    /**
     * What finished jobs leave open of a kind of work takes the place of all other doubt about it.
     * What all work of a job has in common comes on top once it was learned as well; until then it
     * is in this spread.
     */
    Parameter learned(String kind, Learned learned) {
        return Parameter.logNormal(
                kind + (learned.family() == null ? "" : " in " + learned.family()) + ", learned",
                learned.spread());
    }
}
