package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Where the heat was gone for a while. */
final class Dips {
    /** A kiln this hot is still in its firing, °C. */
    private static final double HOT_C = 200;

    /** A kiln that rises by so much once more after a fall is heated again, K. */
    private static final double HEATED_AGAIN_K = 25;

    private Dips() {}

    /** Falls of at least 12 °C in mid-heating, over before the top is left, that no plan asked for. */
    static List<Conduct.Dip> of(
            Bins bins, TopPhase phase, Conduct.Asks asks, boolean output, Conduct.Schedule schedule) {
        List<Conduct.Dip> dips = new ArrayList<>();
        double highest = bins.celsius[0];
        int highestAt = 0;
        int end = bins.at(phase.leftS());
        for (int i = 1; i <= end; i++) {
            if (bins.celsius[i] >= highest) {
                highest = bins.celsius[i];
                highestAt = i;
                continue;
            }
            if (highest - bins.celsius[i] < 12) {
                continue;
            }
            int back = i;
            double lowest = bins.celsius[i];
            int lowestAt = i;
            while (back <= end && bins.celsius[back] < highest - 2) {
                if (bins.celsius[back] < lowest) {
                    lowest = bins.celsius[back];
                    lowestAt = back;
                }
                back++;
            }
            if (back <= end || bins.timeS[end] - bins.timeS[lowestAt] > 600) {
                double fromS = bins.timeS[highestAt];
                double toS = bins.timeS[lowestAt];
                double out = bins.meanOutput(fromS + 120, toS);
                double lag = bins.meanLag(fromS + 120, toS);
                boolean asking =
                        output && !Double.isNaN(out) ? out > 0.5 : Double.isNaN(lag) || lag > 3 || !asks.known();
                dips.add(new Conduct.Dip(fromS, toS, highest, highest - lowest, asking));
            }
            i = Math.max(i, Math.min(back, end));
            highest = Math.max(highest - 2, bins.celsius[i]);
            highestAt = i;
        }
        if (!schedule.heatsAgain()) {
            heatedAgain(bins, phase, asks).ifPresent(dips::add);
        }
        return dips;
    }

    /** A fall from the highest that was no end: later on the kiln was heated once more, and did not come so high again. */
    private static Optional<Conduct.Dip> heatedAgain(Bins bins, TopPhase phase, Conduct.Asks asks) {
        int left = bins.at(phase.leftS());
        int lowest = left;
        for (int i = left; i < bins.size; i++) {
            lowest = bins.celsius[i] < bins.celsius[lowest] ? i : lowest;
            if (bins.celsius[i] > bins.celsius[lowest] + HEATED_AGAIN_K && bins.celsius[lowest] > HOT_C) {
                return Optional.of(new Conduct.Dip(
                        bins.timeS[left],
                        bins.timeS[lowest],
                        bins.celsius[left],
                        bins.celsius[left] - bins.celsius[lowest],
                        asks.known()));
            }
        }
        return Optional.empty();
    }
}
