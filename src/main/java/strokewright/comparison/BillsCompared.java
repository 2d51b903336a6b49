package strokewright.comparison;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import strokewright.comparison.JobComparison.Bought;
import strokewright.costing.Adding;
import strokewright.estimate.QuantityPlan;
import strokewright.estimate.TakeOff;
import strokewright.job.BillEntry;
import strokewright.quantity.Money;

/** What of a job was bought out or made specially, with its handling, and minimum charges. */
final class BillsCompared {

    private final List<Block> blocks;
    private final Cents cents;

    BillsCompared(List<Block> blocks, Cents cents) {
        this.blocks = blocks;
        this.cents = cents;
    }

    private record BoughtName(String name, Bought.Sort sort) {}

    /** Adds what each item took to its block. */
    List<Bought> compared(List<BillEntry> bills) {
        Map<BoughtName, Amounts> bought = new LinkedHashMap<>();
        Set<String> billed = new HashSet<>();
        for (BillEntry bill : bills) {
            if (bill.extra() != null) {
                billed.add(bill.extra());
            }
        }
        for (Block block : blocks) {
            for (Plan of : Plan.values()) {
                extras(bought, block, of, billed);
            }
        }
        for (BillEntry bill : bills) {
            bill(bought, bill);
        }
        return bought.entrySet().stream()
                .filter(e -> !e.getValue().isNothing())
                .map(e -> new Bought(e.getKey().name(), e.getKey().sort(), e.getValue()))
                .toList();
    }

    /**
     * What is made specially in the shop, and minimum charges, send no bill: they are as planned.
     */
    private void extras(Map<BoughtName, Amounts> bought, Block block, Plan of, Set<String> billed) {
        QuantityPlan plan = block.plan(of);
        if (plan == null) {
            return;
        }
        List<BoughtName> names = new ArrayList<>();
        List<BigDecimal> exact = new ArrayList<>();
        for (QuantityPlan.Extra extra : plan.extras()) {
            names.add(
                    new BoughtName(
                            extra.of().name(),
                            extra.of().kind() == TakeOff.ExtraKind.BOUGHT_OUT
                                    ? Bought.Sort.BOUGHT_OUT
                                    : Bought.Sort.SPECIAL_DIRECT));
            exact.add(extra.cost());
        }
        for (QuantityPlan.Extra extra : plan.extras()) {
            names.add(HANDLING);
            exact.add(extra.handling());
        }
        names.add(MINIMUM_CHARGES);
        exact.add(plan.minimumCharges());
        List<BigDecimal> parts = Adding.upTo(plan.cost().specialDirect().amount(), exact);
        Money zero = cents.zero();
        for (int i = 0; i < parts.size(); i++) {
            BoughtName name = names.get(i);
            Money amount = cents.of(parts.get(i));
            boolean asPlanned =
                    of == Plan.MADE
                            && (name.sort == Bought.Sort.MINIMUM_CHARGES
                                    || name.sort == Bought.Sort.SPECIAL_DIRECT
                                            && !billed.contains(name.name));
            bought.merge(
                    name,
                    new Amounts(
                            of == Plan.QUOTED ? amount : zero,
                            of == Plan.MADE ? amount : zero,
                            asPlanned ? amount : zero),
                    Amounts::plus);
            if (asPlanned) {
                block.special = block.special.add(amount.amount());
            }
        }
    }

    private static final BoughtName HANDLING = new BoughtName("Handling", Bought.Sort.HANDLING);
    private static final BoughtName MINIMUM_CHARGES =
            new BoughtName("Up to minimum charges", Bought.Sort.MINIMUM_CHARGES);

    private void bill(Map<BoughtName, Amounts> bought, BillEntry bill) {
        Block block = blocks.get(blocks.size() - 1);
        TakeOff.Extra planned = null;
        for (Block of : blocks) {
            if (planned == null && of.line != null && bill.extra() != null) {
                planned =
                        of.line.item().takeOff().extras().stream()
                                .filter(e -> bill.extra().equals(e.name()))
                                .findFirst()
                                .orElse(null);
                block = planned == null ? block : of;
            }
        }
        Money amount = cents.of(bill.amount());
        double percent =
                planned == null
                        ? block.order.book().priceScheme().boughtOutHandlingPercent()
                        : planned.handlingPercentBy(block.order.book().priceScheme());
        Money handling = cents.percentOf(amount.amount(), percent);
        BoughtName name =
                planned == null
                        ? new BoughtName(bill.name(), Bought.Sort.NOT_PLANNED)
                        : new BoughtName(
                                planned.name(),
                                planned.kind() == TakeOff.ExtraKind.BOUGHT_OUT
                                        ? Bought.Sort.BOUGHT_OUT
                                        : Bought.Sort.SPECIAL_DIRECT);
        Money zero = cents.zero();
        bought.merge(name, new Amounts(zero, zero, amount), Amounts::plus);
        bought.merge(HANDLING, new Amounts(zero, zero, handling), Amounts::plus);
        block.special = block.special.add(amount.amount()).add(handling.amount());
    }
}
