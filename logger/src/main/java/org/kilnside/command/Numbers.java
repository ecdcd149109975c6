package org.kilnside.command;

import java.util.Optional;

/** Refuses numbers on the command line that can only be slips. */
final class Numbers {
    private Numbers() {}

    private static String plain(double number) {
        return number == Math.rint(number) && Math.abs(number) < 1e15
                ? Long.toString((long) number)
                : Double.toString(number);
    }

    /** @throws Complaint when a number is given and outside the range, ends included */
    static void within(String option, Optional<Double> found, double least, double most, String unit) {
        if (found.isPresent() && !(found.get() >= least && found.get() <= most)) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    option + ": found " + plain(found.get()) + ", expected " + plain(least) + " to " + plain(most)
                            + " " + unit
                            + "; check the number");
        }
    }
}
