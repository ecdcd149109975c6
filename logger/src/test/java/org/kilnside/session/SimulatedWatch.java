package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.AlarmLimits;
import org.kilnside.alarm.Grade;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.Thermometer;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.VirtualFiring;

/**
 * One simulated firing watched for alarms, beside its twin to which nothing happens: the same kiln, load, day and noise.
 * A fault shows from the moment the two differ.
 */
final class SimulatedWatch {
    /** A firing and its cooling. */
    private static final long LONGEST_S = 40 * 3600;

    /** Of the MAX6675: 12 bits. */
    private static final int HIGHEST_CODE = 4095;

    private static final double COOLED_C = 42;
    private static final double BOILS_NEARLY_C = 95;

    /** So much water in the ware when the sensor says this is water that still leaves. */
    private static final double BOILS_C = 110;

    private static final double WET_KG = 0.1;

    /** A kiln that comes no nearer to its top than this has not reached it. */
    private static final double SHORT_K = 5;

    /** Half a cone is told; the sensor's own noise and lag leave a little open. */
    private static final double HALF_A_CONE = 0.45;

    final String name;
    private final Setting setting;
    private final AlarmReplay replay;
    private final TrueCone ware;

    /** When the fault showed, ms; empty when it never did. */
    OptionalLong showsMs = OptionalLong.empty();

    OptionalLong happenedMs = OptionalLong.empty();

    /** How one trial is set up. */
    record Setting(
            String name,
            Function<Schedule, VirtualFiring.Builder> firing,
            ControllerSpec controller,
            Schedule plan,
            Optional<Schedule> keyedIn,
            Optional<Disturbance> fault,
            Shows shows,
            Set<AlarmKind> expected,
            double promisedS,
            AlarmLimits limits,
            int intervalS,
            boolean forecasts) {}

    /** From when on a fault shows. */
    enum Shows {
        /** 10 °C above set-point and twin, smoothed over a minute. */
        OVER,
        /** 10 °C off the twin, or a fault reported. */
        OFF_TWIN,
        /** 5 °C below the twin. */
        BELOW_TWIN,
        /** At once. */
        AT_ONCE,
        /** From the first reading. */
        FROM_BEGIN,
        /** When it tops out: an hour at full output has won less than 15 °C. */
        TOPS_OUT,
        /** When the amplifier's terminals are over the limit. */
        BOX_HOT,
        /** From the first reading so hot that water boils where it should not. */
        NEARLY_BOILING,
        /** From the chip's highest number on. */
        AT_ITS_END,
        /** Off its twin, and for five minutes more than half the power at a number for which no kiln needs it. */
        POWER_UNEXPLAINED,
        /** From 95 °C on, in the range where steam leaves, when it comes there faster than raw ware stands. */
        FAST_IN_STEAM,
        /** From the first reading above the limit's own margin. */
        ABOVE_LIMIT,
        /** From 110 °C on, with 100 g of water or more in the ware. */
        STILL_WET
    }

    SimulatedWatch(Setting setting) {
        this.name = setting.name();
        this.setting = setting;
        this.ware = new TrueCone(setting.plan());
        FiringSettings settings = FiringSettings.of(
                        Optional.of("Tall Drum"), Optional.of(setting.plan()), Optional.empty())
                .withAlarmLimits(setting.limits());
        this.replay = new AlarmReplay(
                settings,
                probe(),
                setting.forecasts() ? Optional.of(new ModelForecaster()) : Optional.empty(),
                900_000);
    }

    private org.kilnside.sensor.Probe probe() {
        return setting.firing().apply(setting.plan()).start().probes().get(0);
    }

    /** Runs it: to the end where nothing is expected, else until the time promised is long over. */
    SimulatedWatch run() {
        ControllerSpec.Reports told = setting.controller().reports();
        ControllerSpec all = setting.controller().reporting(ControllerSpec.Reports.ALL);
        VirtualFiring twin = setting.firing()
                .apply(setting.plan())
                .controller(all)
                .interval(setting.intervalS())
                .start();
        struck = false;
        List<Disturbance> faults = new ArrayList<>();
        setting.fault()
                .ifPresent(fault -> faults.add(new Disturbance(fault.when(), firing -> {
                    struck = true;
                    fault.what().accept(firing);
                })));
        VirtualFiring firing = setting.firing()
                .apply(setting.keyedIn().orElse(setting.plan()))
                .controller(all)
                .interval(setting.intervalS())
                .disturbances(faults)
                .start();
        Thermometer thermometer = Thermometer.of(firing.probes().get(0));
        long stopMs = Long.MAX_VALUE;
        long uptimeMs = 0;
        for (long s = 0; s < LONGEST_S; s += setting.intervalS()) {
            VirtualFiring.Moment now = firing.next();
            VirtualFiring.Moment then = twin.next();
            if (struck && happenedMs.isEmpty()) {
                happenedMs = OptionalLong.of(now.elapsedMs());
            }
            Optional<Temperature> shown = thermometer.temperature(now.signals().get(0));
            Optional<Temperature> wanted =
                    thermometer.temperature(then.signals().get(0));
            if (now.controllerOn()) {
                if (now.uptimeMs() < uptimeMs) {
                    replay.happened(FiringEvent.of(now.elapsedMs(), FiringEvent.Kind.CONTROLLER_RESTARTED));
                }
                uptimeMs = now.uptimeMs();
                replay.take(reading(now, shown, thermometer, told));
            } else {
                replay.nothingUntil(now.elapsedMs());
            }
            ware.add(now.elapsedMs(), now.truth().tipC());
            highestC = Math.max(highestC, now.truth().tipC());
            boilingKg = now.truth().tipC() > BOILS_C
                    ? Math.max(boilingKg, now.truth().waterKg())
                    : boilingKg;
            candledC = holdsBelowBoiling(now) ? Math.max(candledC, now.truth().tipC()) : candledC;
            if (showsMs.isEmpty() && shows(now, shown, wanted)) {
                showsMs = OptionalLong.of(now.elapsedMs());
                stopMs = now.elapsedMs() + Math.round(setting.promisedS() * 1000) + 1_800_000;
            }
            boolean cooled = highestC > 300 && then.truth().tipC() < COOLED_C;
            if (now.elapsedMs() > stopMs || cooled) {
                break;
            }
        }
        return this;
    }

    private boolean struck;
    private int above;
    private long hourBeganMs;
    private double hourBeganC;
    private double candledC;
    private double highestC;
    private double boilingKg;
    private double meanOutput;
    private double smoothOverK;
    private double unexplainedS;

    private boolean topsOut(VirtualFiring.Moment now) {
        if (now.elapsedMs() - hourBeganMs >= 3_600_000 || hourBeganMs == 0) {
            boolean out = hourBeganMs > 0
                    && now.controller().setpoint().isPresent()
                    && now.truth().tipC() > 500
                    && now.truth().tipC() < setting.plan().top().celsius() - 25
                    && now.truth().tipC() - hourBeganC < 15
                    && now.truth().tipC() > hourBeganC - 5;
            hourBeganMs = now.elapsedMs();
            hourBeganC = now.truth().tipC();
            return out;
        }
        return false;
    }

    /** A single reading may be noise. */
    private boolean isOften(boolean over) {
        above = over ? above + 1 : 0;
        return above >= 3;
    }

    /** Over twin and set-point, smoothed over a minute: a single reading may be noise. */
    private boolean isOver(VirtualFiring.Moment now, double overTwinK, double shownC) {
        double wantedC = now.controller().setpoint().map(Temperature::celsius).orElse(-999.0);
        double share = Math.min(1, setting.intervalS() / 60.0);
        smoothOverK += (Math.min(overTwinK, shownC - wantedC) - smoothOverK) * share;
        return smoothOverK > 10;
    }

    private boolean isPowerUnexplained(VirtualFiring.Moment now, double shownC, double twinC) {
        // A thermostat's bursts are taken together: a quarter of an hour's mean.
        double share = now.controller().output().map(its -> its.fraction()).orElse(0.0);
        meanOutput += (share - meanOutput) * setting.intervalS() / 600.0;
        unexplainedS = shownC < 250 && meanOutput > 0.5 ? unexplainedS + setting.intervalS() : 0;
        return Math.abs(shownC - twinC) > 10 && unexplainedS >= 300;
    }

    private boolean isFastInSteam(VirtualFiring.Moment now, double shownC) {
        boolean wanted =
                now.controller().setpoint().filter(its -> its.celsius() > 90).isPresent();
        return isOften(wanted && shownC > 95);
    }

    private static boolean holdsBelowBoiling(VirtualFiring.Moment now) {
        return now.controller()
                .setpoint()
                .filter(wanted -> wanted.celsius() < 90)
                .isPresent();
    }

    private boolean shows(VirtualFiring.Moment now, Optional<Temperature> shown, Optional<Temperature> twin) {
        if (setting.fault().isEmpty() && setting.keyedIn().isEmpty()) {
            return false;
        }
        if (setting.shows() == Shows.FROM_BEGIN) {
            return true;
        }
        if (!struck) {
            return false;
        }
        double shownC = shown.map(Temperature::celsius).orElse(-999.0);
        double twinC = twin.map(Temperature::celsius).orElse(shownC);
        return switch (setting.shows()) {
            case OVER -> isOver(now, shownC - twinC, shownC);
            case OFF_TWIN ->
                Math.abs(shownC - twinC) > 10 || now.signals().get(0).faultBits() != 0;
            case BELOW_TWIN -> shownC < twinC - 5;
            case AT_ONCE -> true;
            case FROM_BEGIN -> true;
            case TOPS_OUT -> topsOut(now);
            case BOX_HOT -> now.truth().boxC() > setting.limits().boxMaximum().celsius();
            case NEARLY_BOILING -> isOften(shownC > 96);
            case AT_ITS_END -> isOften(now.signals().get(0).thermocouple().orElse(0) >= HIGHEST_CODE);
            case POWER_UNEXPLAINED -> isPowerUnexplained(now, shownC, twinC);
            case FAST_IN_STEAM -> isFastInSteam(now, shownC);
            case ABOVE_LIMIT -> isOften(shownC > limitC());
            case STILL_WET -> isOften(shownC > BOILS_C) && now.truth().waterKg() >= WET_KG;
        };
    }

    private double limitC() {
        return setting.limits()
                .kilnMaximum()
                .or(() -> setting.limits().wareMaximum())
                .map(maximum ->
                        maximum.celsius() + setting.limits().overMaximum().kelvin())
                .orElse(setting.plan().top().celsius()
                        + setting.limits().overTop().kelvin());
    }

    static Reading reading(
            VirtualFiring.Moment now,
            Optional<Temperature> shown,
            Thermometer thermometer,
            ControllerSpec.Reports told) {
        RawSignal raw = now.signals().get(0);
        ControllerReport report = now.controller();
        return Reading.of(
                now.elapsedMs(),
                List.of(new Channel(1, raw, shown, thermometer.coldJunction(raw))),
                new ControllerReport(
                        told.output() ? report.output() : Optional.empty(),
                        told.setpoint() ? report.setpoint() : Optional.empty(),
                        told.segment() ? report.segment() : OptionalInt.empty()),
                Origin.LIVE);
    }

    /** All that was raised, good news left out. */
    List<AlarmChange> raised() {
        return replay.changes().stream()
                .filter(change -> change.what() == AlarmChange.What.RAISED)
                .filter(change -> change.alarm().grade() != Grade.GOOD_TO_KNOW)
                .toList();
    }

    List<AlarmChange> changes() {
        return replay.changes();
    }

    boolean isNumberWithdrawn() {
        return replay.isNumberWithdrawn();
    }

    /** Seconds from showing to the first of the expected alarms; empty when there was none. */
    Optional<Double> foundAfterS() {
        return replay.changes().stream()
                .filter(change -> change.what() == AlarmChange.What.RAISED
                        && setting.expected().contains(change.alarm().kind())
                        && change.elapsedMs() >= happenedMs.orElse(0))
                .findFirst()
                .map(change -> (change.elapsedMs() - showsMs.orElse(change.elapsedMs())) / 1000.0);
    }

    /** Whether it was found in the time promised, or never showed. */
    boolean isFound() {
        return showsMs.isEmpty()
                || foundAfterS().filter(after -> after <= setting.promisedS()).isPresent();
    }

    /** False alarms before anything happened. */
    List<AlarmChange> falseAlarms() {
        return raised().stream()
                .filter(change ->
                        change.elapsedMs() < happenedMs.orElse(setting.keyedIn().isPresent() ? 0 : Long.MAX_VALUE))
                .toList();
    }

    /** Alarms of a firing to which nothing was done that the truth does not bear out; ones that it does are no false ones. */
    List<AlarmChange> unfounded() {
        return falseAlarms().stream()
                .filter(change ->
                        !(change.alarm().kind() == AlarmKind.CANDLING_OVERSHOOT && candledC >= BOILS_NEARLY_C))
                .filter(change -> !(change.alarm().kind() == AlarmKind.WATER_LEAVING && boilingKg >= WET_KG))
                .filter(change -> !(change.alarm().kind() == AlarmKind.WILL_NOT_REACH_TOP && fellShort()))
                .filter(change -> !(change.alarm().kind() == AlarmKind.BEYOND_CONE && ware.beyond() >= HALF_A_CONE))
                .toList();
    }

    private boolean fellShort() {
        return highestC < setting.plan().top().celsius() - SHORT_K;
    }

    Setting setting() {
        return setting;
    }
}
