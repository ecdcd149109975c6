package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.When;
import org.kilnside.virtualkiln.Population;

/** First firings of virtual kilns of which the size and power are known, asked in their first hours. Independent of the model. */
class DescribedKilnTest {
    private static final long UNTOUCHED_SEED = 20_261_128;
    private static final int KILNS = 4;
    private static final Population.Family[] FAMILIES = {
        Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK, Population.Family.LAYERED
    };

    private record Asked(VirtualTrial trial, double nowS, Arrival byCurve, Arrival described) {
        double truthS() {
            return trial.aboveS(trial.plan().top().celsius() - 2);
        }
    }

    private static List<Asked> asked(double hours) {
        List<Asked> all = new ArrayList<>();
        for (Population.Family family : FAMILIES) {
            for (int i = 0; i < KILNS; i++) {
                VirtualTrial trial = VirtualTrial.of(family, UNTOUCHED_SEED, i, 0, false);
                Kiln kiln = ImaginedFiringsTrial.described(new Population(family, UNTOUCHED_SEED).specimen(i), family);
                all.add(new Asked(
                        trial,
                        hours * 3600,
                        arrival(trial, hours * 3600, nothing(kiln)),
                        arrival(trial, hours * 3600, nothing(kiln).describedAs(kiln))));
            }
        }
        return all;
    }

    private static KilnMemory nothing(Kiln kiln) {
        return KilnMemory.none(kiln.wall().map(wall -> WallKind.valueOf(wall.name())));
    }

    private static Arrival arrival(VirtualTrial trial, double nowS, KilnMemory memory) {
        return Forecaster.forecast(ForecastQuestion.about(trial.until(nowS, true))
                        .withPlan(trial.plan())
                        .withAmbient(Temperature.ofCelsius(trial.roomC()))
                        .withMemory(memory))
                .arrival()
                .orElseThrow();
    }

    private static double width(Arrival arrival) {
        When when = arrival.when().orElseThrow();
        return when.toS() - when.fromS();
    }

    @Test
    void twoHoursAfterLightingTheTopIsAsSureAsBeforeIt() {
        List<Asked> asked = asked(2);
        assertThat(asked).allMatch(each -> width(each.described()) <= width(each.byCurve()));
        assertThat(asked)
                .filteredOn(each -> width(each.described()) < 0.2 * (each.truthS() - each.nowS()))
                .hasSizeGreaterThanOrEqualTo(asked.size() * 3 / 4);
        assertThat(asked)
                .filteredOn(each -> {
                    When when = each.described().when().orElseThrow();
                    return when.fromS() <= each.truthS() && each.truthS() <= when.toS();
                })
                .hasSizeGreaterThanOrEqualTo(asked.size() - 1);
    }

    @Test
    void aDescriptionDoesNotSayWhetherItGetsThere() {
        assertThat(asked(2))
                .allMatch(each -> each.described().reaches() == each.byCurve().reaches());
    }

    @Test
    void aKilnWithoutItsSizeOrPowerIsAskedByItsCurveAlone() {
        VirtualTrial trial = VirtualTrial.of(Population.Family.LIGHT_BRICK, UNTOUCHED_SEED, 0, 0, false);
        Arrival byCurve = arrival(trial, 7200, KilnMemory.none(Optional.empty()));
        Arrival named = arrival(trial, 7200, KilnMemory.none(Optional.empty()).describedAs(Kiln.named("a kiln")));
        assertThat(named).isEqualTo(byCurve);
    }
}
