package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.schedule.Schedule;

/**
 * Stretches of heating whose output is told, or guessed from how far the kiln lags behind.
 *
 * @param fullForS for how long up to now full output is guessed, s; empty where it is told, or nothing lately looks full
 */
record PoweredStretches(List<FiringData.Powered> stretches, OptionalDouble fullForS) {
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

    /**
     * The same of a climb, for how it will cool: what the output says of wall and load is bent by all the model has not got
     * (times to 200 °C asked on the way up scatter by 17 %, with 0.01 by 18 and with 0.03 by 17; own trials).
     */
    private static final double OUTPUT_SIGMA_CLIMBING = 0.02;

    /** While bound water may leave: how much there is can be fitted, not just when it goes. Of full output. */
    private static final double WATER_SIGMA = 0.06;

    /**
     * What they are off by over the last stretches of a kiln on its way up, of full output and of the output: virtual kilns
     * with steady mains lie within a half to one per cent of what is fitted to them. What is further back counts less, by
     * half after some three hours: mains drift, and the model's own error is another one where the kiln was colder.
     */
    private static final double LATELY_SIGMA = 0.002;

    private static final double LESS_SURE_PER_HOUR = 0.3;

    private static final double GUESSED_SIGMA = 0.03;

    /** Of so many outputs told one is independent of the others: a controller's pulses go on for a while. */
    private static final double TOLD_FOR_ONE = 4;

    /** Full output so lately tells of now, s. */
    private static final double LATELY_S = 1800;

    /** A kiln that keeps up with its plan: an output as good as any guess, and how far off that may be. */
    private static final double SOME_OUTPUT = 0.7;

    private static final double SOME_OUTPUT_SIGMA = 0.3;

    /** @param coolsForS for how long the kiln has been left to cool; 0 while it is not */
    static PoweredStretches told(Course course, double[] driveS, double[] driveC, double aboveC, double coolsForS) {
        double cooled = Math.max(0, Math.min(1, (coolsForS - COOLING_S) / (COOLED_S - COOLING_S)));
        double sigma = coolsForS == 0
                ? OUTPUT_SIGMA
                : OUTPUT_SIGMA_COOLING + cooled * (OUTPUT_SIGMA_COOLED - OUTPUT_SIGMA_COOLING);
        return new PoweredStretches(
                of(course.output, course, driveS, driveC, sigma, sigma, aboveC), OptionalDouble.empty());
    }

    /** The same for how a kiln on its way up will cool. */
    static List<FiringData.Powered> ofAClimb(Course course, double[] driveS, double[] driveC) {
        double sigma = OUTPUT_SIGMA_CLIMBING;
        return of(course.output, course, driveS, driveC, sigma, sigma, ABOVE_C);
    }

    /** The same for where a kiln on its way up will get to: what it does now tells more of that than what it did. */
    static List<FiringData.Powered> lately(Course course, double[] driveS, double[] driveC) {
        return of(course.output, course, driveS, driveC, LATELY_SIGMA, LATELY_SIGMA, ABOVE_C).stream()
                .map(each -> each.lessSure(1 + LESS_SURE_PER_HOUR * (course.lastS() - driveS[each.to()]) / 3600))
                .toList();
    }

    /**
     * With a guess of the output where the controller gives none: full while the kiln lags its set-point or its plan, or
     * climbs ever more slowly, else something in between over the last hour.
     */
    static PoweredStretches guessed(Course course, double[] driveS, double[] driveC, Optional<Schedule> plan) {
        double nowS = course.lastS();
        boolean[] full = FullOutputGuess.of(course, plan);
        double[] guess = new double[course.size];
        boolean lately = false;
        for (int i = 0; i < course.size; i++) {
            guess[i] = full[i] ? 1 : Double.NaN;
            lately |= full[i] && course.timeS[i] > nowS - LATELY_S;
        }
        if (lately) {
            List<FiringData.Powered> stretches =
                    of(guess, course, driveS, driveC, GUESSED_SIGMA, GUESSED_SIGMA, ABOVE_C);
            if (!stretches.isEmpty()) {
                int since = course.size;
                while (since > 0 && full[since - 1]) {
                    since--;
                }
                double forS = since < course.size ? nowS - course.timeS[since] : 0;
                return new PoweredStretches(stretches, OptionalDouble.of(forS));
            }
        }
        for (int i = 0; i < course.size; i++) {
            guess[i] = course.timeS[i] > nowS - 3600 ? SOME_OUTPUT : Double.NaN;
        }
        return new PoweredStretches(
                of(guess, course, driveS, driveC, GUESSED_SIGMA, SOME_OUTPUT_SIGMA, ABOVE_C), OptionalDouble.empty());
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
