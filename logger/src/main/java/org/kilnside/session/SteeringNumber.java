package org.kilnside.session;

/**
 * Whether a controller steers by its amplifier's number as it is, or by the temperature behind it, as far as its set-point
 * tells. A controller on its set-point settles it: one of the two is then near the set-point and the other is not. Until
 * that has shown nothing is decided. Confined to its firing's thread.
 */
final class SteeringNumber {
    /** Where the two differ by less, lag and swing say more than they do, K. */
    private static final double APART_K = 8;

    /** So much nearer, for so long, K s: ten kelvin for a minute. */
    private static final double ENOUGH = 600;

    private static final double MOST = 2 * ENOUGH;
    private static final double LONGEST_STEP_S = 60;
    private static final double MOST_NEARER_K = 20;

    private double forAsItIs;
    private long lastMs = Long.MIN_VALUE;
    private Answer answer = Answer.NOT_TOLD;

    /** What the set-point tells. */
    enum Answer {
        NOT_TOLD,
        /** It steers by the amplifier's number. */
        AS_IT_IS,
        /** It steers by the temperature. */
        CORRECTED
    }

    Answer answer() {
        return answer;
    }

    /**
     * Takes a reading with a set-point.
     *
     * @param truthC the temperature
     * @param correctedC what the set-point is if the controller corrects, °C
     * @param asItIsC what it is if it does not, °C
     */
    void take(long elapsedMs, double truthC, double correctedC, double asItIsC) {
        double seconds = lastMs == Long.MIN_VALUE ? 0 : Math.min(LONGEST_STEP_S, (elapsedMs - lastMs) / 1000.0);
        lastMs = elapsedMs;
        if (Math.abs(correctedC - asItIsC) < APART_K) {
            return;
        }
        double nearer = Math.abs(truthC - correctedC) - Math.abs(truthC - asItIsC);
        forAsItIs += seconds * Math.max(-MOST_NEARER_K, Math.min(MOST_NEARER_K, nearer));
        forAsItIs = Math.max(-MOST, Math.min(MOST, forAsItIs));
        if (forAsItIs >= ENOUGH) {
            answer = Answer.AS_IT_IS;
        } else if (forAsItIs <= -ENOUGH) {
            answer = Answer.CORRECTED;
        }
    }
}
