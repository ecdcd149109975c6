package org.kilnside.virtualkiln;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.kilnside.firing.ControllerReport;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;

/**
 * One firing of a virtual kiln under a virtual controller, instant by instant: what the controller would send, and
 * beside it the truth. It goes on for as long as it is asked, long after the program is over.
 */
public final class VirtualFiring {
    /** How far above a temperature it must have been before it can fall through it, K: more than controllers swing. */
    private static final double ABOVE_FIRST_C = 25;
    /** How far below its highest a kiln is that cools, K. */
    private static final double BELOW_TOP_C = 30;

    private final VirtualKiln kiln;
    private final VirtualController controller;
    private final List<VirtualSensor> sensors;
    private final List<Probe> probes;
    private final List<Disturbance> waiting;
    private final double intervalS;
    private final Mains mains;
    private final double mainsPhase;

    private double boxC;
    private double boxExtraK;
    private double highestC = Double.NEGATIVE_INFINITY;
    private double highestAtS;
    private boolean controllerOn = true;
    private double uptimeS;
    private double onShare;
    private long count;
    private List<RawSignal> signals = List.of();

    private VirtualFiring(Builder builder) {
        kiln = VirtualKiln.cold(builder.kiln, builder.load, builder.ambient);
        kiln.ageElements(builder.elementResistance);
        boxC = builder.ambient.atC(0);
        sensors = new ArrayList<>();
        probes = builder.sensors.stream().map(SensorSpec::probe).toList();
        for (int i = 0; i < builder.sensors.size(); i++) {
            sensors.add(new VirtualSensor(builder.sensors.get(i), boxC, builder.seed * 31 + i));
        }
        controller = new VirtualController(builder.controller, probes.get(0), builder.program);
        waiting = new ArrayList<>(builder.disturbances);
        intervalS = builder.intervalS;
        mains = builder.mains;
        mainsPhase = new Random(builder.seed).nextDouble();
    }

    public static Builder of(VirtualKilnSpec kiln, Schedule program) {
        return new Builder(kiln, program);
    }

    /**
     * One instant.
     *
     * @param elapsedMs since the firing's start
     * @param controllerOn whether the controller has power; when not, it sends nothing
     * @param uptimeMs the controller's own; begins anew after its power was gone
     * @param signals what each amplifier says, the guiding one first
     * @param controller what the controller says of itself
     * @param truth what is really so
     */
    public record Moment(
            long elapsedMs,
            boolean controllerOn,
            long uptimeMs,
            List<RawSignal> signals,
            ControllerReport controller,
            Truth truth) {}

    /** What stands behind each channel, the guiding one first. */
    public List<Probe> probes() {
        return probes;
    }

    /** Between two instants, ms. */
    public int intervalMs() {
        return (int) Math.round(intervalS * 1000);
    }

    /** The instant now, then goes on by one interval. The first is at 0, with everything as cold as the room. */
    public Moment next() {
        signals = sensors.stream().map(sensor -> sensor.signal(boxC, intervalS)).toList();
        onShare = controllerOn ? controller.step(intervalS, signals.get(0)) : 0;
        Moment moment = new Moment(
                Math.round(count * intervalS * 1000),
                controllerOn,
                Math.round(uptimeS * 1000),
                signals,
                controller.report(),
                truth());
        kiln.setMains(mains.at(count * intervalS, mainsPhase));
        kiln.step(intervalS, onShare);
        warmBox();
        sensors.forEach(sensor -> sensor.step(intervalS, kiln));
        count++;
        uptimeS = controllerOn ? uptimeS + intervalS : 0;
        strike();
        return moment;
    }

    /** Electronics and the kiln's shell beside it warm the box, in some 40 minutes (common practice). */
    private void warmBox() {
        double goalC = kiln.roomC() + 4 + boxExtraK + 0.06 * (kiln.shellC() - kiln.roomC());
        boxC += (goalC - boxC) * (1 - Math.exp(-intervalS / 2400));
    }

    private void strike() {
        double tipC = sensors.get(0).tipC();
        double elapsedS = count * intervalS;
        if (tipC > highestC) {
            highestC = tipC;
            highestAtS = elapsedS;
        }
        for (Disturbance disturbance : List.copyOf(waiting)) {
            Disturbance.Trigger when = disturbance.when();
            boolean now = when instanceof Disturbance.At at && elapsedS >= at.elapsedS()
                    || when instanceof Disturbance.Rising rising && tipC >= rising.temperatureC()
                    || when instanceof Disturbance.Falling falling
                            && highestC >= falling.temperatureC() + ABOVE_FIRST_C
                            && tipC <= falling.temperatureC()
                    || when instanceof Disturbance.Cooling cooling
                            && tipC < highestC - BELOW_TOP_C
                            && elapsedS >= highestAtS + cooling.afterS();
            if (now) {
                waiting.remove(disturbance);
                disturbance.what().accept(this);
            }
        }
    }

    private Truth truth() {
        double[] wareC = new double[kiln.levels()];
        for (int i = 0; i < wareC.length; i++) {
            wareC[i] = kiln.wareC(i);
        }
        return new Truth(
                sensors.get(0).tipC(),
                wareC,
                kiln.hottestWareC(),
                kiln.shellC(),
                boxC,
                kiln.roomC(),
                kiln.powerW(),
                kiln.waterKg());
    }

    public VirtualKiln kiln() {
        return kiln;
    }

    public VirtualController controller() {
        return controller;
    }

    /** The guiding sensor. */
    public VirtualSensor sensor() {
        return sensors.get(0);
    }

    public List<VirtualSensor> sensors() {
        return List.copyOf(sensors);
    }

    /** The controller's box is heated from outside, K above what it would have; 0 = no more. */
    public void heatBox(double kelvin) {
        boxExtraK = kelvin;
    }

    /** The controller's own power goes or comes back; when it comes back, the controller restarts. */
    public void powerController(boolean on) {
        if (on && !controllerOn) {
            controller.restart();
            uptimeS = 0;
        }
        controllerOn = on;
    }

    /** Sets up a firing; what is not said is a biscuit load in a steady room of 12 °C under a waiting controller. */
    public static final class Builder {
        private final VirtualKilnSpec kiln;
        private final Schedule program;
        private Load load = Load.biscuit(18, 14);
        private Ambient ambient = Ambient.steady(12);
        private ControllerSpec controller = ControllerSpec.waiting();
        private List<SensorSpec> sensors = List.of(SensorSpec.typeK(Amplifier.MAX31855));
        private List<Disturbance> disturbances = List.of();
        private Mains mains = Mains.STEADY;
        private double elementResistance = 1;
        private double intervalS = 1;
        private long seed = 1;

        private Builder(VirtualKilnSpec kiln, Schedule program) {
            this.kiln = kiln;
            this.program = program;
        }

        public Builder load(Load other) {
            load = other;
            return this;
        }

        public Builder ambient(Ambient other) {
            ambient = other;
            return this;
        }

        public Builder controller(ControllerSpec other) {
            controller = other;
            return this;
        }

        /** The guiding sensor first. */
        public Builder sensors(SensorSpec... others) {
            sensors = List.of(others);
            return this;
        }

        public Builder disturbances(Disturbance... others) {
            disturbances = List.of(others);
            return this;
        }

        public Builder disturbances(List<Disturbance> others) {
            disturbances = List.copyOf(others);
            return this;
        }

        public Builder mains(Mains other) {
            mains = other;
            return this;
        }

        /** Resistance of the elements against new ones, 1.1 = aged by 10 %. */
        public Builder elementResistance(double times) {
            elementResistance = times;
            return this;
        }

        /** Seconds between two instants, 1 as the reference firmware has it; up to 60. */
        public Builder interval(double seconds) {
            intervalS = seconds;
            return this;
        }

        /** Everything random comes from this. */
        public Builder seed(long other) {
            seed = other;
            return this;
        }

        public VirtualFiring start() {
            return new VirtualFiring(this);
        }
    }
}
