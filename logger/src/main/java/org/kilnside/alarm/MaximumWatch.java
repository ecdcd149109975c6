package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Channel;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;

/**
 * Above the highest temperature that plan, ware or kiln may have. Of several sensors the highest rules. Looked at with
 * every reading; three more above than below are believed, or one where the controller prints seldom. A margin for overshoot
 * is left where the plan itself goes to the maximum.
 */
final class MaximumWatch {
    private static final int BELIEVED = 3;

    /** Lines further apart than this do not come in threes within the half minute promised. */
    private static final long SELDOM_MS = 8_000;

    private final Limit[] all;
    private long lastMs;

    /** A plan that stays this far below a maximum does not come to it by overshooting. */
    private static final double PLANNED_BELOW_K = 5;

    MaximumWatch(AlarmLimits limits, Optional<Schedule> plan) {
        double topC = plan.map(its -> its.top().celsius()).orElse(Double.NEGATIVE_INFINITY);
        double marginK = limits.overMaximum().kelvin();
        all = new Limit[] {
            new Limit(
                    AlarmKind.ABOVE_PLAN_MAXIMUM,
                    plan.map(Schedule::top),
                    limits.overTop().kelvin()),
            new Limit(AlarmKind.ABOVE_WARE_MAXIMUM, limits.wareMaximum(), margin(limits.wareMaximum(), topC, marginK)),
            new Limit(AlarmKind.ABOVE_KILN_MAXIMUM, limits.kilnMaximum(), margin(limits.kilnMaximum(), topC, marginK))
        };
    }

    private static double margin(Optional<Temperature> maximum, double topC, double marginK) {
        return maximum.filter(its -> topC < its.celsius() - PLANNED_BELOW_K).isPresent() ? 0 : marginK;
    }

    private static final class Limit {
        private final AlarmKind kind;
        private final OptionalDouble maximumC;
        private final double fromC;
        private int above;
        private int witnessAbove;
        private long sinceMs;

        Limit(AlarmKind kind, Optional<Temperature> maximum, double marginK) {
            this.kind = kind;
            this.maximumC =
                    maximum.map(Temperature::celsius).map(OptionalDouble::of).orElse(OptionalDouble.empty());
            this.fromC = maximumC.orElse(Double.POSITIVE_INFINITY) + marginK;
        }
    }

    /** A good temperature of the guiding sensor. */
    void guide(long elapsedMs, double celsius, AlarmLedger ledger) {
        int needed = elapsedMs - lastMs > SELDOM_MS ? 1 : BELIEVED;
        lastMs = elapsedMs;
        for (Limit limit : all) {
            if (celsius <= limit.fromC) {
                limit.above = Math.max(0, limit.above - 1);
                if (limit.witnessAbove == 0 && celsius < limit.fromC - 2) {
                    ledger.clear(limit.kind, elapsedMs);
                }
                continue;
            }
            if (limit.above == 0 && limit.witnessAbove == 0) {
                limit.sinceMs = elapsedMs;
            }
            limit.above = Math.min(BELIEVED, limit.above + 1);
            if (limit.above >= needed) {
                raise(limit, elapsedMs, celsius, ledger);
            }
        }
    }

    /** The other channels of a line. */
    void witnesses(Reading reading, AlarmLedger ledger) {
        double hottest = Double.NEGATIVE_INFINITY;
        for (Channel channel : reading.channels()) {
            if (channel.number() > 1
                    && channel.raw().faultBits() == 0
                    && channel.temperature().isPresent()) {
                hottest = Math.max(hottest, channel.temperature().get().celsius());
            }
        }
        if (hottest == Double.NEGATIVE_INFINITY) {
            return;
        }
        for (Limit limit : all) {
            if (hottest <= limit.fromC) {
                limit.witnessAbove = 0;
                continue;
            }
            if (limit.witnessAbove++ == 0 && limit.above == 0) {
                limit.sinceMs = reading.elapsedMs();
            }
            if (limit.witnessAbove >= BELIEVED) {
                raise(limit, reading.elapsedMs(), hottest, ledger);
            }
        }
    }

    private static void raise(Limit limit, long elapsedMs, double celsius, AlarmLedger ledger) {
        double maximumC = limit.maximumC.orElseThrow();
        ledger.raise(
                limit.kind,
                Finding.since(limit.sinceMs, Measure.ofCelsius(celsius), Measure.ofCelsius(maximumC))
                        .withBadness((celsius - maximumC) / 20),
                elapsedMs);
    }
}
