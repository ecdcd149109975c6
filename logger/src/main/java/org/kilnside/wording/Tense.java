package org.kilnside.wording;

import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.When;

/** Where a time a forecast gives lies, seen from the newest reading: what has gone by is never told as still to come. */
enum Tense {
    PAST,
    /** So near to the newest reading that nobody can tell on which side of it. */
    ABOUT_NOW,
    AHEAD;

    /** Times are told in minutes, s. */
    private static final double A_MINUTE_S = 60;

    /**
     * The tense of a time.
     *
     * @param askedS what the forecast rests on: a time up to there was seen
     * @param nowS the newest reading, which may be later
     */
    static Tense of(When when, double askedS, double nowS) {
        if (when.atS() <= askedS) {
            return PAST;
        }
        if (Math.abs(when.atS() - nowS) <= A_MINUTE_S) {
            return ABOUT_NOW;
        }
        return when.atS() < nowS ? PAST : AHEAD;
    }

    /** The same of an answer's time for the ware: where nobody sees it, it is ahead until even its late end is past. */
    static Tense of(When when, Forecast answer, double nowS) {
        if (isUnseen(answer)) {
            return when.toS() > Math.max(answer.askedS(), nowS) ? AHEAD : PAST;
        }
        return of(when, answer.askedS(), nowS);
    }

    /** Whether a time told as ahead may have gone by, as nobody sees it. */
    static boolean mayBeOver(When when, Forecast answer, double nowS) {
        return isUnseen(answer) && when.fromS() <= Math.max(answer.askedS(), nowS);
    }

    /** Whether the sensor reads air: nobody sees when the ware goes through a temperature. */
    static boolean isUnseen(Forecast answer) {
        return answer.remarks().stream().anyMatch(remark -> remark.kind() == Forecast.Remark.Kind.SENSOR_READS_AIR);
    }
}
