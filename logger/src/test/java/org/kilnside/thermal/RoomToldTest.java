package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.virtualkiln.Ambient;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/**
 * What a room told from memory does to a forecast asked at 200 °C for 60 °C: it was looked at in the warm hour of an unheated
 * studio, or in another corner of it, and the kiln was lit at what its room was. Virtual kilns: independent.
 */
class RoomToldTest {
    private static final double ROOM_C = 12;
    private static final Schedule PLAN = Programs.glaze(1200, 80);

    private static double leftS(VirtualTrial trial, double toldC) {
        double askedS = trial.belowS(200);
        return Forecaster.forecast(ForecastQuestion.about(trial.until(askedS, true))
                                .withAmbient(Temperature.ofCelsius(toldC))
                                .withBelow(List.of(Temperature.ofCelsius(60))))
                        .below()
                        .get(0)
                        .when()
                        .orElseThrow()
                        .atS()
                - askedS;
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2})
    void eightKelvinsBesideTheRoomMoveTheTimeByLessThanThreePercent(int kiln) {
        VirtualTrial trial = VirtualTrial.run(
                new Population(Population.Family.HEAVY_BRICK, 9)
                        .specimen(kiln)
                        .glazeFiring(PLAN, 0)
                        .ambient(Ambient.steady(ROOM_C))
                        .interval(10)
                        .start(),
                PLAN,
                45,
                Double.POSITIVE_INFINITY);
        double right = leftS(trial, ROOM_C);
        for (double off : new double[] {-8, 8}) {
            assertThat(leftS(trial, ROOM_C + off) / right).as("%+.0f K", off).isBetween(0.97, 1.03);
        }
    }
}
