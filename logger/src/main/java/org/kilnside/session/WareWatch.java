package org.kilnside.session;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.firing.Reading;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeSeries;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.SignalWatch;
import org.kilnside.sensor.ToleranceClass;

/**
 * What the ware has had, reading by reading, and whether the sensor that says so can be believed. A function of the
 * accepted readings and the probe alone, so the same live, after a restart and when a gap has been filled. Confined to
 * the session's thread.
 */
final class WareWatch {
    /** The cone is read from the integrals this often, in kiln time: it moves by less than 0.03 in it. */
    private static final long READ_EVERY_MS = 10_000;

    /** A kiln this near its board's temperature has not been heated, so the board tells the room's. */
    private static final double COLD_WITHIN_K = 8;

    private final ConeTable table = ConeTable.of(ConeSeries.SELF_SUPPORTING);

    private Probe probe;
    private HeatWork work = new HeatWork(table);
    private SignalWatch signal;
    private Optional<Temperature> ambient = Optional.empty();
    private Optional<ConeReached> cone = Optional.empty();
    private long readAtMs;
    private List<Findings.Doubt> doubts = List.of();

    WareWatch(Probe probe) {
        this.probe = probe;
        this.signal = new SignalWatch(probe);
    }

    /** The controller said what it has; what was suspected of another sensor is forgotten. */
    void probe(Probe said) {
        if (!said.equals(probe)) {
            probe = said;
            signal = new SignalWatch(said);
            doubts = List.of();
        }
    }

    Probe probe() {
        return probe;
    }

    void take(Reading.Measured reading, double celsius) {
        long elapsedMs = reading.elapsedMs();
        if (work.isEmpty()) {
            ambient =
                    reading.first().coldJunction().filter(board -> Math.abs(board.celsius() - celsius) < COLD_WITHIN_K);
        }
        work.add(elapsedMs, celsius);
        RawSignal raw = reading.first().raw();
        signal.offer(
                elapsedMs,
                raw,
                reading.controller().output().isPresent()
                        ? java.util.OptionalDouble.of(
                                reading.controller().output().get().fraction())
                        : java.util.OptionalDouble.empty());
        if (cone.isEmpty() || elapsedMs - readAtMs >= READ_EVERY_MS) {
            readAtMs = elapsedMs;
            cone = Optional.of(work.reached(uncertainty()));
            doubts = doubts();
        }
    }

    private List<Findings.Doubt> doubts() {
        return signal.suspicions().entrySet().stream()
                .map(each -> new Findings.Doubt(each.getKey(), each.getValue()))
                .sorted(Comparator.comparingLong(Findings.Doubt::sinceMs).thenComparing(Findings.Doubt::what))
                .toList();
    }

    /** What is suspected of the sensor now, and since when. */
    Map<SignalWatch.Suspicion, Long> suspicions() {
        return signal.suspicions();
    }

    SensorUncertainty uncertainty() {
        return new SensorUncertainty(probe, ToleranceClass.CLASS_2, Calibration.NONE);
    }

    /** A copy of the heat work, to try a future on. */
    HeatWork workSoFar() {
        return work.copy();
    }

    /** The room, where the board told it before the firing. */
    Optional<Temperature> ambient() {
        return ambient;
    }

    /** What there is to say, without the forecast. */
    Findings findings() {
        Findings all = new Findings(doubts, cone, Optional.empty());
        return all.isDistrusted() ? new Findings(doubts, Optional.empty(), Optional.empty()) : all;
    }
}
