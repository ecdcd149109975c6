package org.kilnside.session;

import java.util.Optional;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.HeatingRate;

/**
 * How fast the temperature changes: the slope of a straight line through the last minute, ten minutes and hour (least
 * squares), so that noise and quantisation of single readings do not show. Each is worked out anew sixty times in its
 * window, which keeps the cost of a reading small. Confined to the session's thread.
 */
final class RateMeter {
    private static final long MINUTE_MS = 60_000;

    private final Window one = new Window(MINUTE_MS);
    private final Window ten = new Window(10 * MINUTE_MS);
    private final Window sixty = new Window(60 * MINUTE_MS);
    private Snapshot.Rates rates = Snapshot.Rates.UNKNOWN;

    Snapshot.Rates after(Trace curve) {
        if (curve.isEmpty()) {
            return Snapshot.Rates.UNKNOWN;
        }
        boolean changed = one.update(curve) | ten.update(curve) | sixty.update(curve);
        if (changed) {
            rates = new Snapshot.Rates(one.rate, ten.rate, sixty.rate);
        }
        return rates;
    }

    void reset() {
        one.nextMs = Long.MIN_VALUE;
        ten.nextMs = Long.MIN_VALUE;
        sixty.nextMs = Long.MIN_VALUE;
    }

    private static final class Window {
        private final long lengthMs;
        private long nextMs = Long.MIN_VALUE;
        private Optional<HeatingRate> rate = Optional.empty();

        Window(long lengthMs) {
            this.lengthMs = lengthMs;
        }

        boolean update(Trace curve) {
            long nowMs = curve.elapsedMs(curve.size() - 1);
            if (nowMs < nextMs) {
                return false;
            }
            nextMs = nowMs + lengthMs / 60;
            rate = slope(curve, nowMs);
            return true;
        }

        private Optional<HeatingRate> slope(Trace curve, long nowMs) {
            int from = curve.indexAt(nowMs - lengthMs - 1) + 1;
            int last = curve.size() - 1;
            // Nine tenths of the window must be there, or the name of the rate would promise too much.
            if (last - from < 2 || nowMs - curve.elapsedMs(from) < lengthMs * 9 / 10) {
                return Optional.empty();
            }
            double n = 0;
            double sumT = 0;
            double sumC = 0;
            double sumTT = 0;
            double sumTC = 0;
            double base = curve.temperatureC(last);
            for (int i = from; i <= last; i++) {
                double hours = (curve.elapsedMs(i) - nowMs) / 3_600_000.0;
                double celsius = curve.temperatureC(i) - base;
                n++;
                sumT += hours;
                sumC += celsius;
                sumTT += hours * hours;
                sumTC += hours * celsius;
            }
            double spread = sumTT - sumT * sumT / n;
            return spread <= 0
                    ? Optional.empty()
                    : Optional.of(HeatingRate.ofKelvinPerHour((sumTC - sumT * sumC / n) / spread));
        }
    }
}
