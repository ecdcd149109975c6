package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.UnaryOperator;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.VirtualFiring;
import org.kilnside.virtualkiln.VirtualKilns;

/** A firing of the virtual "Tall Drum" whose controller waits and tells all, watched for alarms without forecasts. */
final class WatchedFiring {
    private final AlarmReplay replay;

    WatchedFiring(Schedule plan) {
        replay = new AlarmReplay(
                FiringSettings.of(Optional.of("Tall Drum"), Optional.of(plan), Optional.empty()),
                SensorSpec.typeK(Amplifier.MAX31856).probe(),
                Optional.empty(),
                900_000);
    }

    /** Takes each reading, as the kiln tells it; what comes back is watched. */
    interface Seen {
        Reading reading(long atMs, Temperature shown, Reading told);
    }

    /** Fires until it is enough, and no longer than so many hours. */
    void fire(
            Schedule program,
            UnaryOperator<VirtualFiring.Builder> with,
            long longestHours,
            BooleanSupplier enough,
            Seen seen) {
        VirtualFiring kiln = with.apply(VirtualFiring.of(VirtualKilns.TALL_DRUM, program)
                        .load(Load.biscuit(18, 14))
                        .sensors(SensorSpec.typeK(Amplifier.MAX31856))
                        .controller(ControllerSpec.waiting())
                        .interval(10)
                        .seed(4))
                .start();
        Thermometer thermometer = Thermometer.of(kiln.probes().get(0));
        for (long atMs = 0; atMs < longestHours * 3_600_000 && !enough.getAsBoolean(); ) {
            VirtualFiring.Moment now = kiln.next();
            atMs = now.elapsedMs();
            Temperature shown = thermometer.temperature(now.signals().get(0)).orElseThrow();
            Reading told = SimulatedWatch.reading(now, Optional.of(shown), thermometer, ControllerSpec.Reports.ALL);
            replay.take(seen.reading(atMs, shown, told));
        }
    }

    /** All that happened to alarms. */
    List<AlarmChange> changes() {
        return replay.changes();
    }

    /** What happened to one kind of alarm. */
    List<AlarmChange> changes(AlarmKind kind) {
        return replay.changes().stream()
                .filter(change -> change.alarm().kind() == kind)
                .toList();
    }
}
