package strokewright.job;

import java.util.ArrayList;
import java.util.List;
import strokewright.estimate.Estimating;
import strokewright.estimate.ShopBook;
import strokewright.estimate.WorkStep;
import strokewright.job.JobPlan.Planned;

/**
 * A step of a job that time is booked on.
 *
 * @param n counted from one over the whole job; stands on the route card
 * @param item position of the item that it belongs to
 */
public record Step(int n, int item, WorkStep work) {

    /**
     * The steps of so many of each, in the order of the items.
     *
     * @param before how many steps the job has already
     */
    static List<Step> of(List<Planned> items, ShopBook book, int before) {
        List<Step> steps = new ArrayList<>();
        for (Planned planned : items) {
            Estimating.reckon(planned.item().takeOff(), book)
                    .steps(planned.quantity())
                    .forEach(
                            work ->
                                    steps.add(
                                            new Step(
                                                    before + steps.size() + 1,
                                                    planned.item().position(),
                                                    work)));
        }
        return steps;
    }
}
