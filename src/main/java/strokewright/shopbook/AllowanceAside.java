package strokewright.shopbook;

import java.util.ArrayList;
import java.util.List;
import org.springframework.stereotype.Component;
import strokewright.estimate.ShopBook;
import strokewright.web.Numbers;

/** How the allowances come about. */
@Component
final class AllowanceAside implements RowAside {

    @Override
    public String section() {
        return BookParts.TIMES;
    }

    @Override
    public List<Said> of(ShopBook book, int index, Numbers numbers) {
        ShopBook.Times times = book.times();
        RateSteps steps = new RateSteps(numbers);
        List<Said> said = new ArrayList<>();
        if (times.machineAllowanceBasis() != null) {
            said.add(
                    new Said(
                            "Allowance at the forming machine"
                                    + RateAside.counting(times.machineAllowancePercent() == null),
                            steps.of(times.machineAllowanceBasis())));
        }
        if (times.benchAllowanceBasis() != null) {
            said.add(
                    new Said(
                            "Allowance at the bench"
                                    + RateAside.counting(times.benchAllowancePercent() == null),
                            steps.of(times.benchAllowanceBasis())));
        }
        return said;
    }
}
