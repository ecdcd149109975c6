package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** A vent's fan that ran before the cooling began, and runs on. Virtual kilns are independent of the model. */
class VentThroughoutTest {
    private static final double ASKED_C = 600;
    private static final Ventilated ON = new Ventilated(0, Ventilated.How.VENT_ON);

    private record Answer(double error, boolean held) {}

    private static List<VirtualTrial> ventilated() {
        List<VirtualTrial> trials = new ArrayList<>();
        for (Population.Family family : List.of(Population.Family.LIGHT_BRICK, Population.Family.HEAVY_BRICK)) {
            for (int kiln = 0; kiln < 3; kiln++) {
                trials.add(VirtualTrial.glaze(
                        family,
                        kiln,
                        Programs.glaze(1200, 70),
                        Double.POSITIVE_INFINITY,
                        Disturbance.at(1, Happenings.vent(0.0007))));
            }
        }
        return trials;
    }

    private static Answer asked(VirtualTrial trial, List<Ventilated> said) {
        double asked = trial.belowS(ASKED_C);
        Forecast.When when = Forecaster.forecast(ForecastQuestion.about(trial.until(asked, true))
                        .withAmbient(Temperature.ofCelsius(trial.roomC()))
                        .withVentilated(said))
                .below()
                .get(2)
                .when()
                .orElseThrow();
        double truth = trial.belowS(60);
        return new Answer((when.atS() - truth) / (truth - asked), when.fromS() <= truth && truth <= when.toS());
    }

    @Test
    void aFanToldToHaveRunSinceItWasLitMakesTheTimesTruer() {
        double told = 0;
        double untold = 0;
        int held = 0;
        for (VirtualTrial trial : ventilated()) {
            Answer with = asked(trial, List.of(ON));
            told += Math.abs(with.error());
            untold += Math.abs(asked(trial, List.of()).error());
            held += with.held() ? 1 : 0;
        }
        assertThat(told).isLessThan(0.8 * untold);
        assertThat(held).isGreaterThanOrEqualTo(5);
    }

    @Test
    void whatWasShutBeforeTheCoolingBeganIsShut() {
        VirtualTrial trial = VirtualTrial.glaze(Population.Family.LIGHT_BRICK, 1, Programs.glaze(1200, 70));
        Ventilated off = new Ventilated(3600, Ventilated.How.SHUT);
        assertThat(asked(trial, List.of(ON, off))).isEqualTo(asked(trial, List.of()));
    }

    @Test
    void whatIsShutOnTheWayDownWasNotOpenThroughout() {
        VirtualTrial trial = ventilated().get(0);
        Course course = Course.of(trial.until(trial.belowS(ASKED_C), true));
        Phases phases = Phases.of(course);
        Ventilated off = new Ventilated(trial.belowS(800), Ventilated.How.SHUT);
        assertThat(LastSpan.of(course, phases, List.of(ON)).throughout()).isEqualTo(Optional.of(ON.how()));
        assertThat(LastSpan.of(course, phases, List.of(ON, off)).throughout()).isEmpty();
    }
}
