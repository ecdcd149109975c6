package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/** Stretches of heating whose output is told, or guessed from how far the kiln lags behind. */
record PoweredStretches(List<FiringData.Powered> stretches, boolean fullOutputGuessed) {
    private static final int STEPS = 5;
    private static final double SHORTEST_S = 600;

    /** Below it the output is not held against the curve: water takes its share, °C. */
    static final double ABOVE_C = 150;

    /** What model and controller may be off by: of full output, and of the output. */
    private static final double OUTPUT_SIGMA = 0.01;

    /**
     * The same once the kiln cools: then the curve of the cooling says more of wall and load, and the model's own error of
     * the heating must not speak against it.
     */
    private static final double OUTPUT_SIGMA_COOLING = 0.025;

    /** And once it has cooled for hours: the curve says all there is to know. */
    private static final double OUTPUT_SIGMA_COOLED = 0.06;

    private static final double COOLING_S = 3600;
    private static final double COOLED_S = 10_800;

    /** While bound water may leave: how much there is can be fitted, not just when it goes. Of full output. */
    private static final double WATER_SIGMA = 0.06;

    private static final double GUESSED_SIGMA = 0.03;

    /** Of so many outputs told one is independent of the others: a controller's pulses go on for a while. */
    private static final double TOLD_FOR_ONE = 4;

    /** A kiln this far under its set-point, or under its plan, is taken to be at full output, K. */
    private static final double SETPOINT_LAG_K = 8;

    private static final double PLAN_LAG_K = 15;

    /** Further below its highest than this and its climb was broken off, K. */
    private static final double FALLEN_K = 20;

    /** A kiln that keeps up with its plan: an output as good as any guess, and how far off that may be. */
    private static final double SOME_OUTPUT = 0.7;

    private static final double SOME_OUTPUT_SIGMA = 0.3;

    /** @param coolsForS for how long the kiln has been left to cool; 0 while it is not */
    static PoweredStretches told(Course course, double[] driveS, double[] driveC, double aboveC, double coolsForS) {
        double cooled = Math.max(0, Math.min(1, (coolsForS - COOLING_S) / (COOLED_S - COOLING_S)));
        double sigma = coolsForS == 0
                ? OUTPUT_SIGMA
                : OUTPUT_SIGMA_COOLING + cooled * (OUTPUT_SIGMA_COOLED - OUTPUT_SIGMA_COOLING);
        return new PoweredStretches(of(course.output, course, driveS, driveC, sigma, sigma, aboveC), false);
    }

    /**
     * With a guess of the output where the controller gives none: full while the kiln lags its set-point or its plan,
     * else something in between over the last hour.
     */
    static PoweredStretches guessed(Course course, double[] driveS, double[] driveC, Optional<Schedule> plan) {
        double nowS = course.lastS();
        double[] guess = new double[course.size];
        boolean full = false;
        double began = PlanAlignment.beganS(course);
        // A kiln that lost time to an outage is behind its plan, and need not be at full output for that.
        Optional<PlannedCurve> curve = plan.filter(each -> !hasFallen(course))
                .map(each -> each.curveFrom(Temperature.ofCelsius(course.temperatureC[0])));
        for (int i = 0; i < course.size; i++) {
            double wanted = course.setpointC[i];
            double enough = SETPOINT_LAG_K;
            if (Double.isNaN(wanted) && curve.isPresent()) {
                wanted = curve.get()
                        .temperatureC(Math.round((course.timeS[i] - began) * 1000))
                        .orElse(Double.NaN);
                enough = PLAN_LAG_K;
            }
            boolean lags = wanted - course.temperatureC[i] > enough;
            guess[i] = lags ? 1 : Double.NaN;
            full |= lags && course.timeS[i] > nowS - 1800;
        }
        double relative = GUESSED_SIGMA;
        if (!full) {
            relative = SOME_OUTPUT_SIGMA;
            for (int i = 0; i < course.size; i++) {
                guess[i] = course.timeS[i] > nowS - 3600 ? SOME_OUTPUT : Double.NaN;
            }
        }
        return new PoweredStretches(of(guess, course, driveS, driveC, GUESSED_SIGMA, relative, ABOVE_C), full);
    }

    private static boolean hasFallen(Course course) {
        double highestC = course.temperatureC[0];
        for (int i = 1; i < course.size; i++) {
            highestC = Math.max(highestC, course.temperatureC[i]);
            if (course.temperatureC[i] < highestC - FALLEN_K) {
                return true;
            }
        }
        return false;
    }

    private static List<FiringData.Powered> of(
            double[] outputs,
            Course course,
            double[] driveS,
            double[] driveC,
            double least,
            double relative,
            double aboveC) {
        List<FiringData.Powered> powered = new ArrayList<>();
        int last = driveS.length - 1;
        int to = 0;
        for (int i = 0; i < last; i = Math.max(to, i + 1)) {
            to = Math.min(i + STEPS, last);
            while (to > i && course.overlapsGap(driveS[i], driveS[to])) {
                // Whether the elements were on in a gap nobody knows: a stretch ends before it, the next begins after
                // it.
                to--;
            }
            if (driveC[i] < aboveC || driveS[to] - driveS[i] < SHORTEST_S) {
                continue;
            }
            double sum = 0;
            double squares = 0;
            int known = 0;
            int all = 0;
            for (int k = Math.max(0, course.at(driveS[i]) + 1); k <= course.at(driveS[to]); k++) {
                all++;
                if (!Double.isNaN(outputs[k])) {
                    sum += outputs[k];
                    squares += outputs[k] * outputs[k];
                    known++;
                }
            }
            if (known * 2 > all && sum > 0 && known >= 3) {
                double output = sum / known;
                // An output told as on or off is a coarse mean.
                double scatter = Math.max(0, squares / known - output * output) * TOLD_FOR_ONE / known;
                double water = BoundWaterLeaving.mayLeave(driveC[i], driveC[to]) ? WATER_SIGMA : 0;
                // What the readings are off by at its ends counts for more in a short one.
                double part = (to - i) / (double) STEPS;
                double model = (least + relative * output) / part;
                double sigma = Math.sqrt(model * model + scatter + water * water);
                powered.add(new FiringData.Powered(i, to, output, sigma));
            }
        }
        return powered;
    }
}
