package org.kilnside.files;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Stream;

/** Counts the cells of a log that are left out while their row stays, and remembers the first. */
final class IgnoredCells {
    private int count;
    private Optional<Log.IgnoredCell> first = Optional.empty();

    int count() {
        return count;
    }

    Optional<Log.IgnoredCell> first() {
        return first;
    }

    void add(int line, String column, String found, String expected) {
        count++;
        if (first.isEmpty()) {
            first = Optional.of(new Log.IgnoredCell(line, column, found, expected));
        }
    }

    /** Takes another column's cells in. */
    void addAll(IgnoredCells others) {
        count += others.count;
        first = Stream.concat(first.stream(), others.first.stream())
                .min(Comparator.comparingInt(Log.IgnoredCell::line));
    }

    /** The numbers that were expected, as the file writes them: {@code a number from 0 to 100}. */
    static String range(double lowest, double highest, int tenths, boolean fahrenheit) {
        return "a number from " + written(lowest, tenths, fahrenheit) + " to " + written(highest, tenths, fahrenheit);
    }

    static String written(double value, int tenths, boolean fahrenheit) {
        BigDecimal number = BigDecimal.valueOf(fahrenheit ? value * 1.8 + 32 : value)
                .movePointRight(tenths)
                .setScale(2, RoundingMode.HALF_EVEN);
        return (number.signum() == 0 ? BigDecimal.ZERO : number.stripTrailingZeros()).toPlainString();
    }
}
