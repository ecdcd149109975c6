package org.kilnside.review;

import java.util.Random;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/**
 * A second kiln that is not there, of other physics than the program's virtual kiln and than its models: one body of
 * air and elements, one of ware, eight of wall, radiation between them, stepped explicitly; under a plain controller that
 * either runs by the clock or waits. The review was not tuned on it.
 */
final class PlainKiln {
    static final double STEP_S = 5;

    private static final int WALL = 8;
    private static final double STEFAN = 5.67e-8;

    private final double airJk;
    private final double wareJk;
    private final double[] wallJk = new double[WALL];
    private final double[] wallWk = new double[WALL];
    private final double areaM2;
    private final double leakWk;
    private final double roomC;
    private final double sensorMix;
    private final double sensorLagS;
    private final boolean waits;
    private final double bandC;

    double powerW;

    private double airC;
    private double wareC;
    private double sensorC;
    private final double[] wallC = new double[WALL];

    private double integral;
    private double setpointC;
    private int segment;
    private double heldS;
    private boolean over;
    private double output;

    PlainKiln(Random random) {
        double litres = 40 + 160 * random.nextDouble();
        double size = Math.pow(litres / 70, 2.0 / 3);
        areaM2 = 1.05 * size;
        airJk = 9_000 * size;
        wareJk = litres * (0.3 + 0.35 * random.nextDouble()) * 1_050;
        double thick = 0.065 + 0.05 * random.nextDouble();
        double density = 500 + 500 * random.nextDouble();
        double conductivity = 0.16 + 0.14 * random.nextDouble();
        for (int i = 0; i < WALL; i++) {
            double grown = areaM2 * (1 + 0.5 * i / WALL);
            wallJk[i] = grown * thick / WALL * density * 1_050;
            wallWk[i] = conductivity * grown / (thick / WALL);
        }
        leakWk = 0.8 * size * (0.5 + random.nextDouble());
        roomC = 5 + 18 * random.nextDouble();
        sensorMix = 0.2 + 0.5 * random.nextDouble();
        sensorLagS = 20 + 60 * random.nextDouble();
        waits = random.nextBoolean();
        bandC = 15 + 20 * random.nextDouble();
        airC = wareC = sensorC = roomC;
        java.util.Arrays.fill(wallC, roomC);
        setpointC = roomC;
    }

    boolean waits() {
        return waits;
    }

    double trueC() {
        return sensorC;
    }

    double output() {
        return output;
    }

    double setpointC() {
        return setpointC;
    }

    boolean isOver() {
        return over;
    }

    void end() {
        over = true;
    }

    boolean isSteering(Schedule program) {
        return !over && program.segments().get(segment) instanceof Segment.Ramp;
    }

    /** One step: the controller sees a number, its elements get a share of their power. */
    void step(Schedule program, double shownC, double powerShare) {
        steer(program, shownC);
        double watts = powerW * powerShare * output;
        double radiant = 0.55 * areaM2 * STEFAN * (fourth(airC) - fourth(wareC)) + 4 * areaM2 * (airC - wareC);
        double intoWall = 0.6 * areaM2 * STEFAN * (fourth(airC) - fourth(wallC[0])) + 6 * areaM2 * (airC - wallC[0]);
        double leak = leakWk * (airC - roomC);
        airC += (watts - radiant - intoWall - leak) / airJk * STEP_S;
        wareC += radiant / wareJk * STEP_S;
        double flow = intoWall;
        for (int i = 0; i < WALL; i++) {
            double factor = 0.65 + 0.0006 * wallC[i];
            double onward = i == WALL - 1
                    ? areaM2 * 1.6 * (9 + 0.03 * (wallC[i] - roomC)) * (wallC[i] - roomC) * 0.4
                    : wallWk[i] * factor * (wallC[i] - wallC[i + 1]);
            wallC[i] += (flow - onward) / wallJk[i] * STEP_S;
            flow = onward;
        }
        double seen = sensorMix * airC + (1 - sensorMix) * wareC;
        sensorC += (seen - sensorC) / sensorLagS * STEP_S;
    }

    private static double fourth(double celsius) {
        double kelvin = celsius + 273.15;
        return kelvin * kelvin * kelvin * kelvin;
    }

    private void steer(Schedule program, double shownC) {
        if (over) {
            output = 0;
            return;
        }
        if (!(program.segments().get(segment) instanceof Segment.Ramp ramp)) {
            output = 0;
            over = segment == program.segments().size() - 1;
            return;
        }
        double goal = ramp.to().celsius();
        double stride = ramp.rate().kelvinPerHour() / 3600 * STEP_S;
        boolean up = goal >= setpointC;
        double lag = up ? setpointC - shownC : shownC - setpointC;
        if (setpointC != goal && !(waits && lag > 12)) {
            setpointC = Math.abs(goal - setpointC) <= stride ? goal : setpointC + (up ? stride : -stride);
        }
        if (setpointC == goal && (!waits || heldS > 0 || Math.abs(goal - shownC) < 3)) {
            heldS += STEP_S;
            if (heldS >= Math.max(STEP_S, ramp.hold().toSeconds())) {
                heldS = 0;
                segment++;
                if (segment >= program.segments().size()) {
                    segment--;
                    over = true;
                }
            }
        }
        double error = (setpointC - shownC) / bandC;
        output = Math.max(0, Math.min(1, error + integral));
        if (error + integral > 0 && error + integral < 1) {
            integral = Math.max(0, Math.min(1, integral + error * STEP_S / 500));
        }
    }
}
