package org.kilnside.files;

import java.util.Optional;

/**
 * Whether a log's output is in per cent at all. Controllers also write a share of 1, tenths, or a pulse width up to 255
 * or 1000; taken for per cent such a column makes elements weak or strong that are neither. The scale is never guessed.
 */
final class OutputScale {
    /** Of so many cells one may be broken, and a couple in any log; a hair above full is a controller's rounding. */
    private static final int ONE_BROKEN_OF = 300;

    private static final int FEW = 2;
    private static final double ROUNDED_UP = 1.01;

    /** No kiln climbs so far, K, with elements never on for more than so much of the time. */
    private static final double CLIMBS_K = 200;

    private static final double HARDLY_ON = 0.01;

    /** A kiln of three times the elements it needs does not become this hot, °C, on a tenth of them; a soft start ends before. */
    private static final double HOT_C = 500;

    private static final double A_TENTH = 0.1;

    private int numbers;
    private int above;
    private int highestLine;
    private double highest;
    private double highestPossible;

    /** Takes a number the column gives; 1 = full on. */
    void saw(double share, int line) {
        numbers++;
        above += share > ROUNDED_UP ? 1 : 0;
        highestPossible = share <= ROUNDED_UP ? Math.max(highestPossible, share) : highestPossible;
        if (share > highest) {
            highest = share;
            highestLine = line;
        }
    }

    /**
     * Why the column is no percentage, for a person; empty where it may be one.
     *
     * @param firstC where the kiln began
     * @param hottestC where it came to; no single spike
     */
    Optional<String> noPercentage(double firstC, double hottestC) {
        if (above > Math.max(FEW, numbers / ONE_BROKEN_OF)) {
            return Optional.of(above + " of " + numbers + " numbers above 100, the highest " + percent(highest)
                    + " in line " + highestLine + "; expected per cent from 0 to 100; write it in per cent");
        }
        boolean climbs = hottestC > firstC + CLIMBS_K;
        boolean tooLittle = highestPossible <= HARDLY_ON || highestPossible <= A_TENTH && hottestC > HOT_C;
        return climbs && highestPossible > 0 && tooLittle
                ? Optional.of(
                        "never above " + percent(highestPossible) + " while the kiln climbs to " + Math.round(hottestC)
                                + " °C; expected per cent from 0 to 100; write it in per cent, or, if it is, check the sensor")
                : Optional.empty();
    }

    private static String percent(double share) {
        return IgnoredCells.written(share, 2, false);
    }
}
