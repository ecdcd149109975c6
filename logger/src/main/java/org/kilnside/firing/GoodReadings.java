package org.kilnside.firing;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.sensor.OutlierFilter;

/**
 * A curve without its false readings: what tracking, heat work and forecasts work from.
 *
 * @param curve the true readings
 * @param rejected how many were false
 * @param jumps where the curve changed at once by more than a kiln can and stayed there: something was done to the sensor
 *     or to the log, and what is worked out across it is a guess
 */
public record GoodReadings(Trace curve, int rejected, List<Jump> jumps) {
    public GoodReadings {
        jumps = List.copyOf(jumps);
    }

    /**
     * A lasting change no kiln can make.
     *
     * @param elapsedMs when it was done, on the recording's clock
     * @param fromC before, °C
     * @param toC after, °C
     */
    public record Jump(long elapsedMs, double fromC, double toC) {}

    /** The true readings of a curve, judged by the same filter as live readings are. */
    public static GoodReadings of(Trace all) {
        Judged judged = new Judged(all);
        OutlierFilter<Trace> filter = new OutlierFilter<>(judged);
        for (int i = 0; i < all.size(); i++) {
            filter.offer(all.elapsedMs(i), all.temperatureC(i), all);
        }
        filter.flush();
        return new GoodReadings(judged.good.view(), judged.rejected, judged.jumps);
    }

    private static final class Judged implements OutlierFilter.Listener<Trace> {
        private final Trace all;
        private final Trace.Builder good = new Trace.Builder();
        private int next;
        private int rejected;
        private final List<Jump> jumps = new ArrayList<>();
        private long lastMs;
        private double lastC;

        Judged(Trace all) {
            this.all = all;
        }

        @Override
        public void accepted(long elapsedMs, double celsius, Trace reading) {
            if (good.size() > 0 && !OutlierFilter.isPossible(lastC, celsius, elapsedMs - lastMs)) {
                jumps.add(new Jump(elapsedMs, lastC, celsius));
            }
            lastMs = elapsedMs;
            lastC = celsius;
            good.add(elapsedMs, celsius, all.output(next), all.setpointC(next));
            next++;
        }

        @Override
        public void rejected(long elapsedMs, double celsius, Trace reading) {
            next++;
            rejected++;
        }
    }
}
