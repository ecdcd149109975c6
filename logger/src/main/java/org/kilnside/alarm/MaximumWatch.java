package org.kilnside.alarm;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import java.util.stream.Stream;
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

    private final Supplier<AlarmLimits> limits;
    private final Optional<Temperature> top;
    private final List<Limit> all;
    private long lastMs;

    /** A plan that stays this far below a maximum does not come to it by overshooting. */
    private static final double PLANNED_BELOW_K = 5;

    MaximumWatch(Supplier<AlarmLimits> limits, Optional<Schedule> plan) {
        this.limits = limits;
        this.top = plan.map(Schedule::top);
        this.all = Stream.of(AlarmKind.ABOVE_PLAN_MAXIMUM, AlarmKind.ABOVE_WARE_MAXIMUM, AlarmKind.ABOVE_KILN_MAXIMUM)
                .map(Limit::new)
                .toList();
    }

    private Optional<Temperature> maximum(AlarmKind kind) {
        return switch (kind) {
            case ABOVE_PLAN_MAXIMUM -> top;
            case ABOVE_WARE_MAXIMUM -> limits.get().wareMaximum();
            default -> limits.get().kilnMaximum();
        };
    }

    private double fromC(AlarmKind kind) {
        OptionalDouble maximumC = celsius(maximum(kind));
        if (maximumC.isEmpty()) {
            return Double.POSITIVE_INFINITY;
        }
        if (kind == AlarmKind.ABOVE_PLAN_MAXIMUM) {
            return maximumC.getAsDouble() + limits.get().overTop().kelvin();
        }
        boolean plannedBelow = celsius(top).orElse(Double.NEGATIVE_INFINITY) < maximumC.getAsDouble() - PLANNED_BELOW_K;
        return maximumC.getAsDouble()
                + (plannedBelow ? 0 : limits.get().overMaximum().kelvin());
    }

    private static OptionalDouble celsius(Optional<Temperature> it) {
        return it.map(Temperature::celsius).map(OptionalDouble::of).orElse(OptionalDouble.empty());
    }

    private static final class Limit {
        private final AlarmKind kind;
        private int above;
        private int witnessAbove;
        private long sinceMs;

        Limit(AlarmKind kind) {
            this.kind = kind;
        }
    }

    /** A good temperature of the guiding sensor. */
    void guide(long elapsedMs, double celsius, AlarmLedger ledger) {
        int needed = elapsedMs - lastMs > SELDOM_MS ? 1 : BELIEVED;
        lastMs = elapsedMs;
        for (Limit limit : all) {
            double fromC = fromC(limit.kind);
            if (celsius <= fromC) {
                limit.above = Math.max(0, limit.above - 1);
                if (limit.witnessAbove == 0 && celsius < fromC - 2) {
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
            if (hottest <= fromC(limit.kind)) {
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

    private void raise(Limit limit, long elapsedMs, double celsius, AlarmLedger ledger) {
        double maximumC = celsius(maximum(limit.kind)).orElseThrow();
        ledger.raise(
                limit.kind,
                Finding.since(limit.sinceMs, Measure.ofCelsius(celsius), Measure.ofCelsius(maximumC))
                        .withBadness((celsius - maximumC) / 20),
                elapsedMs);
    }
}
