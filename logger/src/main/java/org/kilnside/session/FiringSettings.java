package org.kilnside.session;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.alarm.AlarmLimits;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ToleranceClass;

/**
 * What a person said before the recording.
 *
 * @param kiln the kiln's name
 * @param plan the plan to follow
 * @param planText the plan's file as it was, to the letter
 * @param thresholds when the lid may be cracked and the ware unloaded, and whose opinion that is
 * @param wall what the kiln's wall is made of
 * @param powerKw of all its elements
 * @param described the kiln as its owner describes it
 * @param isolator where the switch is that takes the kiln off the mains, in the potter's words
 * @param alarmLimits from where on something is an alarm
 * @param sensor the guiding sensor, with what is known of it; empty = as the controller says
 * @param series the cones a firing that begins is judged by
 * @param resumeWithin how long the program may have been away and still go on with the same firing
 */
public record FiringSettings(
        Optional<String> kiln,
        Optional<Schedule> plan,
        Optional<String> planText,
        Kiln.Thresholds thresholds,
        Optional<Kiln.Wall> wall,
        OptionalDouble powerKw,
        Optional<Kiln> described,
        Optional<String> isolator,
        AlarmLimits alarmLimits,
        Optional<SensorInPlace> sensor,
        ConeSeries series,
        Duration resumeWithin) {
    /** A firing and its cooling take up to a day and a half; after that, a new recording is a new firing. */
    public static final Duration A_FIRING_LONG = Duration.ofHours(36);

    public static FiringSettings of(Optional<String> kiln, Optional<Schedule> plan, Optional<String> planText) {
        return new FiringSettings(
                kiln,
                plan,
                planText,
                Kiln.Thresholds.COMMON_PRACTICE,
                Optional.empty(),
                OptionalDouble.empty(),
                Optional.empty(),
                Optional.empty(),
                AlarmLimits.USUAL,
                Optional.empty(),
                ConeSeries.USUAL,
                A_FIRING_LONG);
    }

    /** The same with what is known of the kiln. */
    public FiringSettings knowing(Kiln known) {
        return new FiringSettings(
                kiln,
                plan,
                planText,
                known.thresholds(),
                known.wall(),
                known.power().isPresent()
                        ? OptionalDouble.of(known.power().get().kilowatts())
                        : OptionalDouble.empty(),
                Optional.of(known),
                known.isolator(),
                alarmLimits
                        .forKiln(
                                known.limits().temperature(),
                                known.limits().rate(),
                                known.thresholds().crack(),
                                known.thresholds().unload())
                        .with(known.alarms()),
                sensor.or(() -> known.sensors().stream().findFirst().map(FiringSettings::setUp)),
                known.series(),
                resumeWithin);
    }

    /** The same with another sensor: what the book was told goes before what the kiln was set up with. */
    public FiringSettings withSensor(SensorInPlace guide) {
        return new FiringSettings(
                kiln,
                plan,
                planText,
                thresholds,
                wall,
                powerKw,
                described,
                isolator,
                alarmLimits,
                Optional.of(guide),
                series,
                resumeWithin);
    }

    /** The same with other limits for alarms. */
    public FiringSettings withAlarmLimits(AlarmLimits others) {
        return new FiringSettings(
                kiln,
                plan,
                planText,
                thresholds,
                wall,
                powerKw,
                described,
                isolator,
                others,
                sensor,
                series,
                resumeWithin);
    }

    /**
     * The same with what a kiln's owner may set in mid-firing: thresholds, limits, isolator, power and wall; and the kind of
     * cone, by which the firings are judged that have not begun yet. Plan and sensor stay: what is known of a sensor comes
     * from the book.
     */
    public FiringSettings withKilnOf(FiringSettings now) {
        return new FiringSettings(
                kiln,
                plan,
                planText,
                now.thresholds,
                now.wall,
                now.powerKw,
                now.described,
                now.isolator,
                now.alarmLimits,
                sensor,
                now.series,
                resumeWithin);
    }

    /** Whether a forecast would be asked the same of both. */
    boolean asksTheSameAs(FiringSettings other) {
        return thresholds.equals(other.thresholds)
                && wall.equals(other.wall)
                && powerKw.equals(other.powerKw)
                && described.equals(other.described);
    }

    private static SensorInPlace setUp(Kiln.Sensor sensor) {
        return SensorInPlace.uncalibrated(sensor.probe(), "", sensor.place().orElse(""), ToleranceClass.CLASS_2);
    }
}
