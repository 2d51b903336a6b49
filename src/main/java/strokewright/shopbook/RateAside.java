package strokewright.shopbook;

import java.util.ArrayList;
import java.util.List;
import org.springframework.stereotype.Component;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/** How the rates of a work centre come about. */
@Component
final class RateAside implements RowAside {

    @Override
    public String section() {
        return BookParts.WORK_CENTRES;
    }

    @Override
    public List<Said> of(ShopBook book, int index, Numbers numbers) {
        ShopBook.WorkCentre centre = book.workCentres().get(index);
        RateSteps steps = new RateSteps(numbers);
        List<Said> said = new ArrayList<>();
        String money = ", in " + book.currency();
        if (centre.labourBasis() != null) {
            said.add(
                    new Said(
                            "Labour rate" + counting(centre.isLabourDerived()) + money,
                            steps.of(centre.labourBasis())));
        }
        if (centre.machineBasis() != null) {
            said.add(
                    new Said(
                            "Machine rate" + counting(centre.isMachineDerived()) + money,
                            steps.of(centre.machineBasis())));
        }
        return said;
    }

    static String counting(boolean counts) {
        return counts ? "" : ", for comparison: the stated one counts";
    }
}
