package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kilnside.ValidationPage;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ReferenceFunction;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/**
 * Every type of wire on an amplifier set for every other, from the beginning. The voltages are ITS-90's (published); what
 * the kiln then does is the virtual kiln's, whose physics are not the alarms' own.
 */
class WrongWireTest {
    private static final Schedule GLAZE = Programs.glaze(1222, 70);
    private static final long LONGEST_MS = 14 * 3_600_000L;

    /** What came of it: the first alarm that withdraws the number, and how hot the kiln was by then, or became. */
    private record Outcome(Optional<AlarmKind> told, double shownC, double tipC) {}

    @ParameterizedTest
    @CsvSource({"K,S", "N,R", "E,S", "T,B", "S,K", "B,N"})
    void aWireFarFromItsAmplifiersTypeIsToldWhereTheOutputIs(ThermocoupleType wire, ThermocoupleType set) {
        Outcome outcome = fire(wire, set);
        assertThat(outcome.told()).contains(AlarmKind.SENSOR_LYING);
        // A number too low is told before the kiln glows, one too high before the ware is said to be done.
        assertThat(outcome.tipC()).isLessThan(450);
        assertThat(outcome.shownC()).isLessThan(1200);
    }

    @ParameterizedTest
    @CsvSource({"K,K", "S,S", "N,N"})
    void theRightWireIsLeftInPeace(ThermocoupleType wire, ThermocoupleType set) {
        assertThat(fire(wire, set).told()).isEmpty();
    }

    /** A logger of its own beside a sound controller: the kiln fires as it should, and the number runs away upwards. */
    @ParameterizedTest
    @CsvSource({"K,S,SENSOR_LYING", "N,S,SENSOR_LYING", "K,R,SENSOR_LYING", "J,K,SENSOR_SATURATED"})
    void aNumberNoKilnComesToIsToldByTheTemperatureAlone(ThermocoupleType wire, ThermocoupleType set, AlarmKind kind) {
        AlarmReplay replay = new AlarmReplay(
                FiringSettings.of(Optional.empty(), Optional.empty(), Optional.empty()),
                Probe.UNKNOWN,
                Optional.empty(),
                900_000);
        for (int minute = 0; minute < 600; minute++) {
            double trueC = 20 + 2 * minute;
            ReferenceFunction wires = ReferenceFunction.of(wire);
            ReferenceFunction table = ReferenceFunction.of(set);
            double mv = wires.emfMv(Math.min(trueC, wires.highest().celsius())) - wires.emfMv(20) + table.emfMv(20);
            double shownC = mv >= table.highestMv() ? table.highest().celsius() : table.temperatureC(mv);
            replay.take(line(minute * 60_000L, Math.rint(shownC * 10) / 10));
        }
        assertThat(replay.changes())
                .filteredOn(change -> change.what() == AlarmChange.What.RAISED)
                .extracting(change -> change.alarm().kind())
                .contains(kind);
        assertThat(replay.isNumberWithdrawn()).isTrue();
    }

    @Test
    @EnabledIfSystemProperty(named = "kilnside.long", matches = "true")
    void everyWireOnEveryType() {
        List<String> lines = new ArrayList<>();
        StringBuilder head = new StringBuilder("| wire |");
        StringBuilder rule = new StringBuilder("| --- |");
        for (ThermocoupleType set : ThermocoupleType.values()) {
            head.append(" set for ").append(set).append(" |");
            rule.append(" --- |");
        }
        lines.add(head.toString());
        lines.add(rule.toString());
        for (ThermocoupleType wire : ThermocoupleType.values()) {
            StringBuilder line = new StringBuilder("| " + wire + " |");
            for (ThermocoupleType set : ThermocoupleType.values()) {
                Outcome outcome = fire(wire, set);
                line.append(wire == set && outcome.told().isEmpty() ? " |" : cell(outcome));
            }
            lines.add(line.toString());
        }
        ValidationPage.holds("wires", lines);
    }

    private static String cell(Outcome outcome) {
        String degrees = Math.round(outcome.shownC()) + " for " + Math.round(outcome.tipC());
        return outcome.told().isPresent() ? " " + degrees + " |" : " **not**, " + degrees + " |";
    }

    private static Outcome fire(ThermocoupleType wire, ThermocoupleType set) {
        Probe probe = new Probe(set, Amplifier.MAX31856);
        VirtualFiring firing = VirtualFiring.of(VirtualKilns.TALL_DRUM, GLAZE)
                .load(Load.biscuit(18, 14))
                .sensors(SensorSpec.typeK(Amplifier.MAX31856).with(probe))
                .disturbances(wire == set ? List.of() : List.of(Disturbance.at(1, Happenings.wrongWire(wire))))
                .interval(10)
                .seed(4)
                .start();
        FiringSettings settings = FiringSettings.of(Optional.of("Tall Drum"), Optional.of(GLAZE), Optional.empty());
        AlarmReplay replay = new AlarmReplay(settings, probe, Optional.empty(), 900_000);
        Thermometer thermometer = Thermometer.of(probe);
        double hottestC = 0;
        double highestShownC = 0;
        for (long atMs = 0; atMs < LONGEST_MS; ) {
            VirtualFiring.Moment now = firing.next();
            atMs = now.elapsedMs();
            Optional<Temperature> shown = thermometer.temperature(now.signals().get(0));
            replay.take(SimulatedWatch.reading(now, shown, thermometer, ControllerSpec.Reports.ALL));
            Optional<AlarmKind> told = replay.changes().stream()
                    .map(change -> change.alarm().kind())
                    .filter(AlarmKind::withdrawsNumber)
                    .findFirst();
            double shownC = shown.map(Temperature::celsius).orElse(0.0);
            if (told.isPresent()) {
                return new Outcome(told, shownC, now.truth().tipC());
            }
            if (now.truth().tipC() > hottestC) {
                hottestC = now.truth().tipC();
                highestShownC = shownC;
            }
        }
        return new Outcome(Optional.empty(), highestShownC, hottestC);
    }

    private static Reading line(long atMs, double celsius) {
        Temperature shown = Temperature.ofCelsius(celsius);
        int code = (int) Math.round(celsius / Amplifier.CELSIUS.thermocoupleStepC());
        RawSignal raw = new RawSignal(OptionalInt.of(code), OptionalInt.empty(), 0);
        return Reading.of(
                atMs,
                List.of(new Channel(1, raw, Optional.of(shown), Optional.empty())),
                ControllerReport.NONE,
                Origin.LIVE);
    }
}
