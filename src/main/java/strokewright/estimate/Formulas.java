package strokewright.estimate;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import strokewright.costing.CostingFormula;
import strokewright.forming.FormingFormula;
import strokewright.quantity.Arithmetic;
import strokewright.quantity.Formula;
import strokewright.sheet.SheetFormula;

/** Every formula that can stand in the trace of an estimate, by the name it has there. */
public final class Formulas {

    private static final List<Formula> ALL =
            Stream.<Formula[]>of(
                            FormingFormula.values(),
                            StandardFormula.values(),
                            SheetFormula.values(),
                            CostingFormula.values(),
                            Arithmetic.values())
                    .flatMap(Arrays::stream)
                    .toList();

    private static final Map<String, Formula> BY_CODE =
            ALL.stream().collect(Collectors.toUnmodifiableMap(Formula::code, Function.identity()));

    private Formulas() {}

    /** From the drawing to minutes, from minutes to money, plain arithmetic last. */
    public static List<Formula> all() {
        return ALL;
    }

    public static Optional<Formula> named(String code) {
        return Optional.ofNullable(BY_CODE.get(code));
    }
}
