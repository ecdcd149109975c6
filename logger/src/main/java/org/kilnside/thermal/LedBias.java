package org.kilnside.thermal;

import java.util.List;

/**
 * By how much the model is usually late of a kiln whose elements led it down slowly and told by how much they were on. It lays what
 * they gave to a wall that loses more while it is hot, and to less while it is not, than the walls of any kilns it was held
 * against: this program's own brick kilns and three outside simulators were all told too late while they were led and just after, by 2 to 10 % to
 * 200 °C, hardly any more some hours after being let go. Least errors of the own ones came at 4 % and three quarters of an hour; it was
 * rounded up looking at the three (decision 0021).
 */
final class LedBias {
    /** ln of forecast over true remaining time while it is led. */
    private static final double LATE = 0.05;

    /** Left alone for so long, its curve has told two thirds of that, s. */
    private static final double TOLD_S = 3600;

    private LedBias() {}

    /**
     * What to add to ln(remaining time) of a kiln of brick.
     *
     * @return 0 where it was not led, or nobody told its output
     */
    static double of(FiringData data, List<FiringFit.Weighted> fits) {
        if (data.outputUntold() || data.heatingUnseen() || data.openedNow()) {
            return 0;
        }
        double brick = fits.stream()
                .filter(each -> each.fit().kind() == WallKind.BRICK)
                .mapToDouble(FiringFit.Weighted::weight)
                .sum();
        double led = Math.min(1, DrivenFall.lastedS(data.course, data.phases) / DrivenFall.LED_FOR_S);
        return -LATE * led * brick * Math.exp(-data.leftAloneForS() / TOLD_S);
    }
}
