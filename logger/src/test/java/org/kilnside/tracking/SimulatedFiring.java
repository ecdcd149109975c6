package org.kilnside.tracking;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/**
 * A small kiln and a controller that fires it, for tracking to follow: independent of the project's own kiln models. Two
 * lumps (ware and chamber; wall), heat loss with temperature, and a proportional-integral controller with a duty of 0 to
 * 1. What the controller itself believes (segment, leg, its own plan clock) is the truth tracking is held to.
 */
final class SimulatedFiring {
    /** How the controller's plan goes on. */
    enum Habit {
        /** By the clock, whatever the kiln does. */
        BY_THE_CLOCK,
        /** The set-point waits when the kiln lags by more than 10 K, and a hold begins when it is reached. */
        WAITS
    }

    /** What it prints. */
    enum Prints {
        TEMPERATURE_ALONE,
        SETPOINT,
        TARGET_AS_SETPOINT,
        SEGMENT,
        RAMPS_AND_HOLDS_COUNTED_APART,
        EVERYTHING
    }

    /** One line and, beside it, the truth. */
    record Line(
            long elapsedMs,
            double temperatureC,
            ControllerReport report,
            int segment,
            boolean hold,
            boolean done,
            double setpointC,
            double trueC,
            boolean lit) {}

    Habit habit = Habit.BY_THE_CLOCK;
    Prints prints = Prints.TEMPERATURE_ALONE;
    double ambientC = 8;
    double startC = 8;
    double powerW = 5600;
    double gain = 0.03;
    double integralPerS = 0.00002;
    double noiseK = 1;
    int lineEveryS = 1;
    long delayS = 0;
    long runForS = 40 * 3600;
    long cutFromS = Long.MAX_VALUE;
    long cutToS = Long.MAX_VALUE;
    long linesMissingFromS = Long.MAX_VALUE;
    long linesMissingToS = Long.MAX_VALUE;
    long restartAtS = Long.MAX_VALUE;
    double lineLost = 0;
    double stopBelowC = 40;
    long seed = 1;

    private static final double CHAMBER_J_PER_K = 22_000;
    private static final double WALL_J_PER_K = 60_000;
    private static final double BETWEEN_W_PER_K = 14;
    private static final double LOSS_W_PER_K = 2.1;
    private static final double WAIT_K = 10;

    List<Line> run(Schedule plan) {
        Random random = new Random(seed);
        List<Line> lines = new ArrayList<>();
        double chamberC = startC;
        double wallC = startC > ambientC ? ambientC + 0.8 * (startC - ambientC) : startC;
        int segment = 0;
        boolean hold = false;
        double heldS = 0;
        boolean done = false;
        double setpointC = startC;
        double integral = 0;
        for (long s = 0; s < runForS; s++) {
            boolean cut = s >= cutFromS && s < cutToS;
            boolean lit = s >= delayS;
            if (s == delayS) {
                setpointC = chamberC;
            }
            if (s == restartAtS) {
                segment = 0;
                hold = false;
                heldS = 0;
                done = false;
                setpointC = chamberC;
            }
            double duty = 0;
            if (lit && !done && !cut) {
                Segment now = plan.segments().get(segment);
                if (now instanceof Segment.Ramp ramp) {
                    double toC = ramp.to().celsius();
                    if (!hold) {
                        boolean up = segment == 0 || !plan.isControlledCooling(segment + 1);
                        boolean wait = habit == Habit.WAITS
                                && (up ? setpointC - chamberC > WAIT_K : chamberC - setpointC > WAIT_K);
                        if (!wait) {
                            double step = ramp.rate().kelvinPerHour() / 3600;
                            setpointC = up ? Math.min(toC, setpointC + step) : Math.max(toC, setpointC - step);
                            if (up && setpointC > toC) {
                                setpointC = toC;
                            }
                        }
                        boolean there = up ? setpointC >= toC : setpointC <= toC;
                        boolean kilnThere = habit == Habit.BY_THE_CLOCK
                                || Math.abs(chamberC - toC) < 2
                                || (up ? chamberC > toC : chamberC < toC);
                        if (there && kilnThere) {
                            setpointC = toC;
                            hold = true;
                            heldS = 0;
                        }
                    } else if (++heldS >= ramp.hold().toSeconds()) {
                        hold = false;
                        segment++;
                        if (segment == plan.segments().size()) {
                            done = true;
                            segment--;
                        }
                    }
                    double error = setpointC - chamberC;
                    integral = Math.max(-0.3, Math.min(1, integral + integralPerS * error));
                    duty = Math.max(0, Math.min(1, gain * error + integral));
                } else {
                    done = true;
                }
            }
            double hot = Math.max(0, chamberC) / 800;
            double flow = BETWEEN_W_PER_K * (1 + hot * hot * hot) * (chamberC - wallC);
            chamberC += (duty * powerW - flow - 0.4 * (chamberC - ambientC)) / CHAMBER_J_PER_K;
            wallC += (flow - LOSS_W_PER_K * (wallC - ambientC)) / WALL_J_PER_K;
            boolean missing =
                    (s >= linesMissingFromS && s < linesMissingToS) || (lineLost > 0 && random.nextDouble() < lineLost);
            if (s % lineEveryS == 0 && !missing) {
                double seen = Math.round((chamberC + noiseK * (2 * random.nextDouble() - 1)) * 4) / 4.0;
                lines.add(new Line(
                        s * 1000,
                        seen,
                        report(plan, segment, hold, lit && !done, setpointC, duty),
                        segment + 1,
                        hold,
                        done,
                        setpointC,
                        chamberC,
                        lit));
            }
            if (done && chamberC < stopBelowC) {
                break;
            }
        }
        return lines;
    }

    private ControllerReport report(
            Schedule plan, int segment, boolean hold, boolean running, double setpointC, double duty) {
        boolean says = running || prints == Prints.EVERYTHING;
        Optional<Share> output = prints == Prints.EVERYTHING ? Optional.of(new Share(duty)) : Optional.empty();
        Optional<Temperature> setpoint = Optional.empty();
        OptionalInt said = OptionalInt.empty();
        if (running && (prints == Prints.SETPOINT || prints == Prints.EVERYTHING)) {
            setpoint = Optional.of(Temperature.ofCelsius(setpointC));
        }
        if (running && prints == Prints.TARGET_AS_SETPOINT) {
            setpoint = plan.segments().get(segment).target();
        }
        if (running && (prints == Prints.SEGMENT || prints == Prints.EVERYTHING)) {
            said = OptionalInt.of(segment + 1);
        }
        if (running && prints == Prints.RAMPS_AND_HOLDS_COUNTED_APART) {
            said = OptionalInt.of(2 * segment + (hold ? 2 : 1));
        }
        return says ? new ControllerReport(output, setpoint, said) : ControllerReport.NONE;
    }
}
