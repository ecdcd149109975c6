package org.kilnside.thermal;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Remark.Kind;

/**
 * An output that the curve gainsays: it stands {@linkplain PinnedOutput at full}, it {@linkplain ReversedOutput goes
 * against the curve}, or it says nothing for half an hour and more while the kiln climbs on as steadily as heat alone makes it. Lines written less often than a relay switches may meet it off each time, a relay may stick, an
 * output may be written in another unit: the number is the kiln's all the same, and what the elements give is not known.
 */
final class ContradictedOutput {
    /** What elements, hot face and a sheathed sensor still hold carries a kiln for some minutes, s. */
    private static final double FOR_S = 1800;

    private static final double CLIMBS_K = 30;

    /** What carries a kiln on dies away: of a steady climb each third has this share at the least. */
    private static final double LEAST_THIRD = 0.24;

    private static final double NOTHING = 0.005;
    private static final int FEWEST_POINTS = 8;

    private ContradictedOutput() {}

    /** What gainsays an output, and since when. */
    static Optional<Remark> remark(Course course) {
        return Stream.of(
                        remark(Kind.OUTPUT_CONTRADICTED, nothingSinceS(course)),
                        remark(Kind.FULL_OUTPUT_CONTRADICTED, PinnedOutput.sinceS(course)),
                        remark(Kind.REVERSED_OUTPUT_CONTRADICTED, ReversedOutput.onTheWayUpS(course)),
                        remark(Kind.FULL_OUTPUT_WHILE_COOLING, ReversedOutput.onTheWayDownS(course)))
                .flatMap(each -> each)
                .findFirst();
    }

    private static Stream<Remark> remark(Kind kind, OptionalDouble sinceS) {
        return sinceS.stream().mapToObj(since -> new Remark(kind, Optional.of(since)));
    }

    /** Whether it is gainsaid anywhere. */
    static boolean isIn(Course course) {
        return remark(course).isPresent();
    }

    private static OptionalDouble nothingSinceS(Course course) {
        int from = 0;
        double highestC = course.temperatureC[0];
        for (int i = 0; i < course.size; i++) {
            // After a lid was shut the number climbs too, but to nowhere it has not been.
            boolean newGround = course.temperatureC[i] >= highestC;
            highestC = Math.max(highestC, course.temperatureC[i]);
            if (!(course.output[i] <= NOTHING)) {
                from = i + 1;
                continue;
            }
            while (from + 1 < i && course.timeS[i] - course.timeS[from + 1] >= FOR_S) {
                from++;
            }
            boolean lasts = course.timeS[i] - course.timeS[from] >= FOR_S && i - from >= FEWEST_POINTS;
            if (newGround && lasts && climbs(course, course.timeS[from], course.timeS[i])) {
                return OptionalDouble.of(course.timeS[from]);
            }
        }
        return OptionalDouble.empty();
    }

    private static boolean climbs(Course course, double fromS, double toS) {
        double third = (toS - fromS) / 3;
        double[] celsius = new double[4];
        for (int i = 0; i <= 3; i++) {
            celsius[i] = course.smoothAt(fromS + i * third, fromS, toS);
        }
        double climbed = celsius[3] - celsius[0];
        double least = LEAST_THIRD * climbed;
        return climbed > CLIMBS_K
                && celsius[1] - celsius[0] > least
                && celsius[2] - celsius[1] > least
                && celsius[3] - celsius[2] > least
                && !course.overlapsGap(fromS, toS);
    }
}
