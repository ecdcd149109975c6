package org.kilnside.session;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Reading;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.sensor.SignalWatch;

/**
 * What the ware has had, reading by reading, and whether the sensor that says so can be believed. A function of the
 * accepted readings and the sensor alone, so the same live, after a restart and when a gap has been filled. Confined to
 * the session's thread.
 */
final class WareWatch {
    /** The cone is read from the integrals this often, in kiln time: it moves by less than 0.03 in it. */
    private static final long READ_EVERY_MS = 10_000;

    /** A kiln this near its board's temperature has not been heated, so the board tells the room's. */
    private static final double COLD_WITHIN_K = 8;

    private final HeatWork work;
    private SensorInPlace sensor;
    private SignalWatch signal;
    private Optional<Temperature> ambient = Optional.empty();
    private Optional<ConeReached> cone = Optional.empty();
    private long readAtMs;
    private List<Findings.Doubt> doubts = List.of();

    WareWatch(SensorInPlace sensor, ConeSeries series) {
        this.work = new HeatWork(ConeTable.of(series));
        this.sensor = sensor;
        this.signal = new SignalWatch(sensor.probe());
    }

    /** It is known what the sensor is; what was suspected of another is forgotten. */
    void sensor(SensorInPlace known) {
        if (!known.probe().equals(sensor.probe())) {
            signal = new SignalWatch(known.probe());
            doubts = List.of();
        }
        sensor = known;
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

    /** Whether the ware has had a cone. */
    boolean isDown(Cone cone) {
        return work.share(cone).orElse(0) >= 1;
    }

    /** What it has had; empty before the first reading. */
    Optional<ConeReached> soFar() {
        return cone;
    }

    ConeTable table() {
        return work.table();
    }

    SensorUncertainty uncertainty() {
        return sensor.uncertainty();
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
