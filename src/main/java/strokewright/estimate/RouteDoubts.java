package strokewright.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import strokewright.estimate.ShopBook.Grade;
import strokewright.estimate.TakeOff.Part;
import strokewright.quantity.Finding;
import strokewright.quantity.Severity;

/** What speaks against heating a part by hand to shrink it; common knowledge of the trade. */
public final class RouteDoubts {

    private RouteDoubts() {}

    public static List<Finding> of(TakeOff takeOff, ShopBook book) {
        List<Finding> doubts = new ArrayList<>();
        for (int i = 0; i < takeOff.parts().size(); i++) {
            Part part = takeOff.parts().get(i);
            Optional<Grade> grade = book.grade(part.grade());
            if (grade.isPresent() && heated(part, book)) {
                of(grade.get(), "/parts/" + i + "/grade", doubts);
            }
        }
        return doubts;
    }

    private static boolean heated(Part part, ShopBook book) {
        String byHand = book.routes().heatShrinkStandard();
        return byHand != null
                && part.operations().stream()
                        .anyMatch(
                                o ->
                                        o instanceof Operation.Standard s
                                                && byHand.equals(s.standard()));
    }

    private static void of(Grade grade, String pointer, List<Finding> doubts) {
        if (Caution.stainless(grade)) {
            doubts.add(doubt("heat-on-stainless", pointer, grade));
        }
        if (Caution.zinc(grade)) {
            doubts.add(doubt("heat-on-zinc", pointer, grade));
        }
        if (!grade.annealable() && !Caution.stainless(grade) && !Caution.zinc(grade)) {
            doubts.add(doubt("heat-on-temper", pointer, grade));
        }
    }

    private static Finding doubt(String code, String pointer, Grade grade) {
        return new Finding(code, Severity.DOUBT, pointer, Map.of("grade", grade.code()));
    }
}
