package strokewright.shopbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import strokewright.costing.Allowance;
import strokewright.costing.LabourRate;
import strokewright.costing.MachineHourRate;
import strokewright.web.Numbers;
import tools.jackson.databind.json.JsonMapper;

class RateStepsTest {

    private static final RateSteps STEPS = new RateSteps(Numbers.of(Locale.ENGLISH));

    @Test
    void labourAsOneWouldWriteIt() {
        LabourRate days =
                JsonMapper.shared()
                        .readValue(
                                """
                                {"wagePerHour":24,"onCostPercent":21,"paidHoursPerYear":2080,
                                 "leaveDays":30,"publicHolidays":11,"sickDays":8,"hoursPerDay":8,
                                 "productivePercent":85}""",
                                LabourRate.class);

        assertThat(told(STEPS.of(days)))
                .containsExactly(
                        "Hours absent: (30 + 11 + 8) d × 8 h = 392.0 h a year",
                        "Hours present: 2 080 − 392 = 1 688.0 h a year",
                        "Productive hours: 1 688 × 85 % = 1 434.8 h a year",
                        "A year of labour: 24 × (1 + 21 %) × 2 080 h = 60 403.20 a year",
                        "Labour rate: 60 403.2 / 1 434.8 h = 42.10 an hour");
    }

    @Test
    void machineAsOneWouldWriteIt() {
        MachineHourRate machine =
                JsonMapper.shared()
                        .readValue(
                                """
                                {"acquisitionValue":42000,"priceIndexThen":100,"priceIndexNow":110,
                                 "scrappingCost":800,"lifeYears":12,"interestPercent":5,"areaM2":14,
                                 "spacePerM2Month":9,"powerKw":2.2,"loadFactor":0.6,
                                 "energyPerKwh":0.3,"maintenancePercent":4,
                                 "totalHoursPerYear":1200,"usedPercent":75}""",
                                MachineHourRate.class);

        assertThat(told(STEPS.of(machine)))
                .containsExactly(
                        "Running hours: 1 200 × 75 % = 900.0 h a year",
                        "Replacement value: 42 000 × 110 / 100 = 46 200.00",
                        "Depreciation: (46 200 + 800) / 12 years / 900 h = 4.35 an hour",
                        "Interest: 42 000 / 2 × 5 % / 900 h = 1.17 an hour",
                        "Space: 14 m² × 9 × 12 / 900 h = 1.68 an hour",
                        "Upkeep: 42 000 × 4 % / 900 h = 1.87 an hour",
                        "Energy: 2.2 kW × 0.6 × 0.3 = 0.40 an hour",
                        "Machine rate:  = 9.46 an hour");
    }

    @Test
    void onlyTheLinesOfAnAllowanceThatAddSomething() {
        Allowance standing =
                JsonMapper.shared()
                        .readValue(
                                "{\"standing\":true,\"liftedKg\":10,\"attention\":\"fine\"}",
                                Allowance.class);

        assertThat(told(STEPS.of(standing)))
                .containsExactly(
                        "Personal needs:  = 5 %",
                        "Basic fatigue:  = 4 %",
                        "Standing:  = 2 %",
                        "Mass: 10 kg = 3 %",
                        "Close attention:  = 2 %",
                        "Allowance: of normal time = 16 %");
    }

    private static List<String> told(List<RateSteps.Step> steps) {
        return steps.stream()
                .map(
                        s ->
                                (s.name()
                                                + ": "
                                                + s.reckoned()
                                                + " = "
                                                + s.value()
                                                + " "
                                                + s.unit())
                                        .replace('\u202f', ' ')
                                        .strip())
                .toList();
    }
}
