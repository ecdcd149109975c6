package org.kilnside.virtualkiln;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.Thermometer;

/**
 * A home-built controller: reads the guiding amplifier, follows its program, closes relays.
 *
 * <p>It knows the kiln only by the amplifier's codes, so it
 * is misled by whatever misleads the sensor.
 */
public final class VirtualController {
    private static final double REACHED_WITHIN_C = 2;
    private static final double HIGHEST_SETPOINT_C = 1370;

    private final ControllerSpec spec;
    private final Thermometer thermometer;
    private List<Segment> program;

    private double sinceOnS;
    private boolean started;
    private boolean over;
    private int segment;
    private double setpointC;
    private boolean rising = true;
    private double heldS;
    private final Relays relays;

    VirtualController(ControllerSpec spec, Probe guide, Schedule program) {
        this.spec = spec;
        this.program = program.segments();
        thermometer = Thermometer.of(guide);
        relays = Relays.of(spec.regulation());
    }

    /** Another program is chosen before it starts; afterwards it would begin that program anew. */
    public void choose(Schedule other) {
        program = other.segments();
        beginAgain();
    }

    /** Its program ends now; the relays stay open. */
    public void end() {
        over = true;
        relays.off();
    }

    public boolean isOver() {
        return over;
    }

    /** Its power went and came back. */
    void restart() {
        sinceOnS = 0;
        relays.off();
        switch (spec.afterPowerCut()) {
            case STAY_OFF -> over = true;
            case GO_ON -> {}
            case BEGIN_AGAIN -> beginAgain();
        }
    }

    private void beginAgain() {
        started = false;
        over = false;
        segment = 0;
        heldS = 0;
        relays.off();
    }

    /**
     * Goes on by a step.
     *
     * @return share of the step for which the relays are closed
     */
    double step(double seconds, RawSignal signal) {
        sinceOnS += seconds;
        Optional<Temperature> shown = spec.corrects() ? thermometer.temperature(signal) : thermometer.shown(signal);
        if (over || sinceOnS < spec.startDelayS() || shown.isEmpty()) {
            // Without a temperature it cannot steer: relays open, the program stands still.
            relays.off();
            return 0;
        }
        double measuredC = shown.get().celsius();
        if (!started) {
            started = true;
            setpointC = measuredC;
        }
        follow(seconds, measuredC);
        if (over || program.get(segment) instanceof Segment.FreeCooling) {
            relays.off();
        } else {
            relays.steer(seconds, setpointC - measuredC);
        }
        return relays.closed(seconds);
    }

    private void follow(double seconds, double measuredC) {
        Segment now = program.get(segment);
        if (now instanceof Segment.Ramp ramp) {
            double targetC = Math.min(ramp.to().celsius(), HIGHEST_SETPOINT_C);
            double away = targetC - setpointC;
            if (away != 0) {
                rising = away > 0;
            }
            double lag = rising ? setpointC - measuredC : measuredC - setpointC;
            if (away != 0 && !(spec.waits() && lag > spec.waitBandC())) {
                double stride = ramp.rate().kelvinPerHour() / 3600 * seconds;
                setpointC = Math.abs(away) <= stride ? targetC : setpointC + Math.signum(away) * stride;
            }
            if (setpointC == targetC) {
                double missing = rising ? targetC - measuredC : measuredC - targetC;
                if (!spec.waits() || heldS > 0 || missing <= REACHED_WITHIN_C) {
                    heldS += seconds;
                }
                if (heldS > 0 && heldS >= ramp.hold().toMillis() / 1000.0) {
                    next();
                }
            }
        } else {
            setpointC = measuredC;
            boolean last = segment == program.size() - 1;
            boolean low = !last
                    && program.get(segment + 1) instanceof Segment.Ramp ramp
                    && measuredC <= ramp.to().celsius();
            if (last && measuredC < 40 || low) {
                next();
            }
        }
    }

    private void next() {
        heldS = 0;
        if (segment == program.size() - 1) {
            end();
        } else {
            segment++;
        }
    }

    /** What it sends beside the temperature. */
    public ControllerReport report() {
        boolean running = started && !over && sinceOnS >= spec.startDelayS();
        boolean steering = running && program.get(segment) instanceof Segment.Ramp;
        return new ControllerReport(
                spec.reports().output() ? Optional.of(new Share(relays.output())) : Optional.empty(),
                steering && spec.reports().setpoint()
                        ? Optional.of(Temperature.ofCelsius(setpointC))
                        : Optional.empty(),
                running && spec.reports().segment() ? OptionalInt.of(segment + 1) : OptionalInt.empty());
    }
}
