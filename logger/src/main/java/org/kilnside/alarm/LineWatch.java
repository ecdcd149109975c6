package org.kilnside.alarm;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.function.Supplier;
import org.kilnside.firing.Channel;
import org.kilnside.firing.Reading;
import org.kilnside.quantity.Temperature;

/** What the lines themselves say: that they come, that the sensor gives something, how hot the box is. */
final class LineWatch {
    private static final long NEVER = Long.MIN_VALUE;
    private static final long GONE_AFTER_MS = 60_000;
    private static final int GONE_LEAST_LINES = 2;

    /** A loose wire that comes and goes does not end its alarm with each touch. */
    private static final int BACK_AFTER_LINES = 10;

    private static final long BACK_AFTER_MS = 60_000;
    private static final long HOT_FOR_MS = 60_000;

    /** A controller whose interval nobody knows may print each ten minutes, and a little late. */
    private static final long SILENCE_OF_UNKNOWN_MS = 660_000;

    /** Numbers that no kiln can have come to, for this long, are no relay's noise. */
    private static final long WITHHELD_MS = 120_000;

    private static final int WITHHELD_LINES = 3;
    private static final double WAS_WARM_K = 20;
    private static final double REVERSED_K = 30;
    private static final double COOLED_K = 3;
    private static final long WITNESS_STALE_MS = 300_000;

    private final Supplier<AlarmLimits> limits;
    private final FrozenWatch frozen = new FrozenWatch();
    private long lastLineMs = NEVER;
    private long listensFromMs = NEVER;
    private boolean ended;
    private long brokenSinceMs = NEVER;
    private int brokenLines;
    private long goodSinceMs = NEVER;
    private int goodLines;
    private long boxHotSinceMs = NEVER;
    private long acceptedMs = NEVER;
    private double acceptedC;
    private int withheldLines;
    private boolean wasWarm;
    private long reversedSinceMs = NEVER;
    private double hottestWitnessC;
    private long witnessMs = NEVER;
    private double guideC;
    private long guideMs = NEVER;

    LineWatch(Supplier<AlarmLimits> limits) {
        this.limits = limits;
    }

    void take(Reading reading, AlarmLedger ledger) {
        long nowMs = reading.elapsedMs();
        if (nowMs < lastLineMs) {
            return;
        }
        lastLineMs = nowMs;
        ledger.clear(AlarmKind.NO_READINGS, nowMs);
        seeWitnesses(reading);
        if (reading.first().number() == 1) {
            frozen.line(reading);
            watchSensor(reading, ledger);
            watchBox(reading, ledger);
        }
    }

    private void seeWitnesses(Reading reading) {
        for (Channel channel : reading.channels()) {
            if (channel.number() > 1
                    && channel.raw().faultBits() == 0
                    && channel.temperature().isPresent()) {
                double celsius = channel.temperature().get().celsius();
                boolean stale = witnessMs == NEVER || reading.elapsedMs() - witnessMs > WITNESS_STALE_MS;
                // Of several lines of one moment the hottest stays; noise of single readings is taken off by halves.
                hottestWitnessC =
                        stale ? celsius : Math.max(celsius, hottestWitnessC + (celsius - hottestWitnessC) / 30);
                witnessMs = reading.elapsedMs();
            }
        }
    }

    private void watchSensor(Reading reading, AlarmLedger ledger) {
        long nowMs = reading.elapsedMs();
        if (reading instanceof Reading.Measured measured) {
            guideC = measured.temperature().celsius();
            guideMs = nowMs;
            watchWithheld(nowMs, ledger);
            watchReversed(measured, ledger);
            if (goodLines++ == 0) {
                goodSinceMs = nowMs;
            }
            if (goodLines >= BACK_AFTER_LINES || goodLines > 1 && nowMs - goodSinceMs >= BACK_AFTER_MS) {
                brokenLines = 0;
                ledger.clear(AlarmKind.SENSOR_GONE, nowMs);
            }
            return;
        }
        goodLines = 0;
        if (brokenLines++ == 0) {
            brokenSinceMs = nowMs;
        }
        if (nowMs - brokenSinceMs >= GONE_AFTER_MS && brokenLines >= GONE_LEAST_LINES) {
            ledger.raise(AlarmKind.SENSOR_GONE, Finding.since(brokenSinceMs), nowMs);
        }
    }

    private void watchWithheld(long nowMs, AlarmLedger ledger) {
        withheldLines++;
        if (acceptedMs != NEVER && nowMs - acceptedMs >= WITHHELD_MS && withheldLines > WITHHELD_LINES) {
            Finding jump = Finding.since(acceptedMs, Measure.ofCelsius(guideC), Measure.ofCelsius(acceptedC));
            ledger.raise(AlarmKind.SENSOR_LYING, jump, nowMs);
        }
    }

    /** No kiln that was warm is far colder than its own board: leads exchanged make the reading fall as it heats. */
    private void watchReversed(Reading.Measured reading, AlarmLedger ledger) {
        Optional<Temperature> board = reading.first().coldJunction();
        if (board.isEmpty() || acceptedMs == NEVER) {
            return;
        }
        double under = board.get().celsius() - guideC;
        wasWarm |= under < -WAS_WARM_K;
        if (!wasWarm || under < REVERSED_K) {
            reversedSinceMs = NEVER;
            return;
        }
        if (reversedSinceMs == NEVER) {
            reversedSinceMs = reading.elapsedMs();
        }
        if (reading.elapsedMs() - reversedSinceMs >= GONE_AFTER_MS) {
            Finding colder =
                    Finding.since(reversedSinceMs, Measure.ofCelsius(guideC), new Measure.OfTemperature(board.get()));
            ledger.raise(AlarmKind.SENSOR_REVERSED, colder, reading.elapsedMs());
        }
    }

    /** A temperature was found good; all before it are judged. */
    void accepted(long elapsedMs, double celsius) {
        acceptedMs = elapsedMs;
        acceptedC = celsius;
        withheldLines = 0;
    }

    private void watchBox(Reading reading, AlarmLedger ledger) {
        Optional<Temperature> board = reading.first().coldJunction();
        if (board.isEmpty()) {
            return;
        }
        long nowMs = reading.elapsedMs();
        double over = board.get().celsius() - limits.get().boxMaximum().celsius();
        if (over <= 0) {
            boxHotSinceMs = NEVER;
            if (over < -COOLED_K) {
                ledger.clear(AlarmKind.BOX_TOO_HOT, nowMs);
            }
            return;
        }
        if (boxHotSinceMs == NEVER) {
            boxHotSinceMs = nowMs;
        }
        if (nowMs - boxHotSinceMs >= HOT_FOR_MS) {
            Finding hot = Finding.since(
                    boxHotSinceMs,
                    new Measure.OfTemperature(board.get()),
                    new Measure.OfTemperature(limits.get().boxMaximum()));
            ledger.raise(AlarmKind.BOX_TOO_HOT, hot.withBadness(over / 10), nowMs);
        }
    }

    /** Lines are awaited from now on, whenever the last one came. */
    void listensFrom(long nowMs) {
        listensFromMs = nowMs;
    }

    /** Whoever has fired and unloaded may switch the controller off. */
    void firingEnded(long nowMs, AlarmLedger ledger) {
        ended = true;
        ledger.clear(AlarmKind.NO_READINGS, nowMs);
    }

    /** Nothing may have come for a while; empty = nobody knows yet how often lines come. */
    void silent(long nowMs, OptionalLong lineIntervalMs, AlarmLedger ledger) {
        long sinceMs = Math.max(lastLineMs, listensFromMs);
        if (sinceMs == NEVER || ended) {
            return;
        }
        long slowMs = lineIntervalMs.isPresent() ? lineIntervalMs.getAsLong() * 7 / 4 : SILENCE_OF_UNKNOWN_MS;
        if (nowMs - sinceMs >= Math.max(limits.get().silence().toMillis(), slowMs)) {
            long silentSinceMs = lastLineMs == NEVER ? listensFromMs : lastLineMs;
            Optional<Measure> usual = lineIntervalMs.isPresent()
                    ? Optional.of(Measure.ofMillis(lineIntervalMs.getAsLong()))
                    : Optional.empty();
            Optional<Measure> silence = Optional.of(Measure.ofMillis(nowMs - silentSinceMs));
            ledger.raise(AlarmKind.NO_READINGS, new Finding(silentSinceMs, 0, silence, usual), nowMs);
        }
    }

    FrozenWatch frozen() {
        return frozen;
    }

    /** The hottest any sensor says now; empty when none says anything. */
    OptionalDouble hottestC() {
        if (guideMs == NEVER) {
            return OptionalDouble.empty();
        }
        boolean witness = witnessMs != NEVER && guideMs - witnessMs < WITNESS_STALE_MS;
        return OptionalDouble.of(witness ? Math.max(guideC, hottestWitnessC) : guideC);
    }
}
