package org.kilnside.thermal;

import java.util.List;

/**
 * By how much the model is usually wrong of a kiln like this one. No kiln has the model's physics: shelves give off
 * their heat late, lids differ from walls, a sensor looks at one more than at the other, and the fit makes up for it
 * with numbers that are a little off, in ways that come again. So some thousands of simulated kilns of a dozen kinds of
 * physics, none of them the model's, were let cool and asked on the way, and a small network was set on ln(true
 * remaining time / forecast): what the fit looks like goes in, the error to be expected comes out. How it was set, on
 * what it was judged and what it gains is told in docs/decisions/0021.
 *
 * <p>It knows kilns that are let cool, shut, and whose heating the log shows; of others it says nothing. Fibre is left to
 * the model: the more probable it is, the less is taken.
 */
final class TrialBias {
    private static final double LEAST_ALONE_S = 240;
    private static final double MOST_ALONE_S = 40_000;
    private static final double USUAL_ALONE_S = 6000;
    private static final double USUAL_HEATING_S = 40_000;
    private static final double LEAST_HEATING_S = 3600;
    private static final double LEAST_FALL = 0.01;

    /** The nearer the temperature asked for, the less room there is to be wrong: below this fall it goes to none. */
    private static final double FULL_FROM_FALL = 0.25;

    /** So much of it is taken: physics that were left out of the setting were served best by three quarters to all of it. */
    private static final double SHARE = 0.9;

    /**
     * Hotter than 600 °C less of it is taken, half from 800 °C up: there a young cooling looks much the same whatever the wall, and kilns
     * unlike those it was set on were taken for them (docs/decisions/0021).
     */
    private static final double WHOLE_BELOW_C = 600;

    private static final double HALF_FROM_C = 800;
    private static final double HALF = 0.5;

    /** So soon after the top none of them was asked. */
    private static final double WHOLE_FROM_S = 600;

    /** The network was set with a ware's film that might scatter more: what it is told is in those spreads. */
    private static final double WARE_FILM_AS_SET = Prior.WARE_FILM_SPREAD / Prior.WARE_FILM_WIDE;

    /**
     * It was set on fits held against a smoothed curve. Held against each stretch's own readings those of a young cooling come
     * out longer by so much, ln; from a hundred minutes on the two agree (own trials).
     */
    private static final double YOUNG = 0.035;

    private static final double YOUNG_S = 3000;
    private static final double OLD_S = 6000;

    /**
     * What is left when the network has spoken comes late to the last temperatures, ln: 1.8 % to 60 °C in the mean of twelve
     * populations of brick asked at 400 °C and 1.0 % asked at 200 °C, 1.0 and 0.4 % to 120 °C; at 600 °C and above some are as early as
     * others are late (own trials, docs/decisions/0021).
     */
    private static final double LATE_AT_LAST = 0.012;

    private static final double NOT_LATE_FROM_C = 600;
    private static final double LATEST_C = 400;
    private static final double LESS_LATE_C = -200;
    private static final double LATE_FROM_C = 150;
    private static final double WHOLLY_LATE_C = 60;

    private TrialBias() {}

    /** Whether it is left to cool from its top, shut, and was seen to heat. */
    static boolean knows(FiringData data) {
        return !data.free.isEmpty()
                && !data.heatingUnseen()
                && !data.openedNow()
                && !data.phases.drivenNow()
                && DrivenFall.lastedS(data.course, data.phases) < DrivenFall.LED_FOR_S;
    }

    /**
     * What to add to ln(remaining time).
     *
     * @param thresholdsC what the remaining times are asked for
     * @return one a threshold; 0 where nothing is known
     */
    static double[] of(FiringData data, List<FiringFit.Weighted> fits, double[] thresholdsC) {
        double[] bias = new double[thresholdsC.length];
        List<FiringFit.Weighted> known = fits.stream()
                .filter(each -> each.fit().kind() != WallKind.FIBRE)
                .toList();
        if (!knows(data) || known.isEmpty()) {
            return bias;
        }
        FittedKiln likeliest = known.get(0).fit();
        double[] seen = seen(data, known);
        double room = likeliest.kiln().ambientC();
        double brick = known.stream().mapToDouble(FiringFit.Weighted::weight).sum();
        double hot = within(0, 1, (data.nowC - WHOLE_BELOW_C) / (HALF_FROM_C - WHOLE_BELOW_C));
        double asked = brick * Math.min(1, data.leftAloneForS() / WHOLE_FROM_S);
        double share = SHARE * (1 - HALF * hot);
        double young = YOUNG * within(0, 1, (OLD_S - data.leftAloneForS()) / (OLD_S - YOUNG_S));
        for (int i = 0; i < thresholdsC.length; i++) {
            double fall = Math.log(Math.max(1, data.nowC - room) / Math.max(1, thresholdsC[i] - room));
            if (fall > 0) {
                seen[seen.length - 1] = Math.log(Math.max(LEAST_FALL, fall));
                double late = late(data.nowC, thresholdsC[i]);
                bias[i] = asked
                        * Math.min(1, fall / FULL_FROM_FALL)
                        * (share * (TrialBiasNumbers.answer(seen) - young) - late);
            }
        }
        return bias;
    }

    /** How late the last temperatures usually come, ln of the remaining time. */
    private static double late(double nowC, double thresholdC) {
        return LATE_AT_LAST
                * Math.min(
                        within(0, 1, (NOT_LATE_FROM_C - nowC) / (NOT_LATE_FROM_C - LATEST_C)),
                        within(0, 1, (nowC - LESS_LATE_C) / (LATEST_C - LESS_LATE_C)))
                * within(0, 1, (LATE_FROM_C - thresholdC) / (LATE_FROM_C - WHOLLY_LATE_C));
    }

    /** By how much that widens the half-width: some kinds of kilns come early there, and half of it is as uncertain as it is usual. */
    static double doubtOfLate(double nowC, double thresholdC) {
        return late(nowC, thresholdC) / 2;
    }

    /** What the network is told, in the order of {@link TrialBiasNumbers}; the last, the fall, is left open. */
    private static double[] seen(FiringData data, List<FiringFit.Weighted> fits) {
        FittedKiln likeliest = fits.get(0).fit();
        double[] z = likeliest.solution().parameters();
        KilnParameters kiln = likeliest.kiln();
        FiringFit.Misfit misfit = FiringFit.misfit(likeliest);
        boolean told = likeliest.prior().hasPower();
        double alone = data.leftAloneForS();
        double heated = data.nowS - alone - data.course.timeS[0];
        double layered = 0;
        for (FiringFit.Weighted each : fits) {
            layered += each.fit().kind() == WallKind.LAYERED ? each.weight() : 0;
        }
        double[] seen = new double[TrialBiasNumbers.INPUTS];
        for (int p = 0; p < Prior.BASIC; p++) {
            seen[p] = within(2.5, z[p] * (p == Prior.WARE_FILM ? WARE_FILM_AS_SET : 1));
        }
        int next = Prior.BASIC;
        seen[next++] = Math.log(Math.max(LEAST_ALONE_S, Math.min(MOST_ALONE_S, alone)) / USUAL_ALONE_S);
        seen[next++] = within(1.5, Math.log(Math.max(LEAST_HEATING_S, heated) / USUAL_HEATING_S));
        seen[next++] = Math.log(misfit.cooling() + 0.03) + 2;
        seen[next++] = misfit.output().isPresent() ? Math.log(misfit.output().getAsDouble() + 0.03) + 2 : 0;
        seen[next++] = layered;
        seen[next++] = within(2, (data.course.temperatureC[data.phases.peak()] - 1100) / 100);
        seen[next++] = told ? within(1.5, Math.log(kiln.psiC()) - 7.5) : 0;
        seen[next++] = kiln.boundWaterK() / 100;
        seen[next++] = (kiln.ambientC() - 15) / 10;
        seen[next++] = told ? 1 : 0;
        seen[next] = Math.log(data.nowC / 500);
        return seen;
    }

    private static double within(double least, double most, double value) {
        return Math.max(least, Math.min(most, value));
    }

    private static double within(double most, double value) {
        return within(-most, most, value);
    }
}
