package org.kilnside.heatwork;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Interval;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SensorUncertainty;

/**
 * The heat work of a firing, grown reading by reading: H = ∫ A·exp(−E/(R·T)) dt for every cone of a series over the
 * straight lines between good readings. Outliers are left out before they come here (see
 * {@link org.kilnside.sensor.OutlierFilter}).
 *
 * <p>The heating counts up to the top and until the curve has fallen 25 °C from it for the last time; the rest of the
 * cooling is kept apart. Both are judged by a mean over a minute ({@link SmoothedLevel}), so that noise does not
 * move them; the corners of a line are taken as they stand. The same readings give the same numbers, bit for bit.
 * Confined to one thread; {@link #copy()} gives a second one to try a future on.
 */
public final class HeatWork {
    /** Down to here on the way down a firing still counts as its top. */
    public static final double NEAR_TOP_K = 25;

    /** So far below a cone's named temperature its rate is negligible: nothing can be said of the time to go. */
    public static final double NOT_YET_K = 150;

    /** A fall from the top that noise does not make. */
    private static final double PASSED_TOP_K = 5;

    /** A rise from the beginning to the top that noise does not make, in the mean over a minute. */
    private static final double ROSE_K = 2;

    private final ConeTable table;
    private final Bending all;
    private Bending heating;
    private boolean cooling;
    private final Gaps gaps;
    private final SmoothedLevel level;
    private final StoodStill stoodStill;

    private boolean begun;
    private long firstMs;
    private long lastMs;
    private double lastC;
    private long peakMs;
    private double peakC;
    private double topC = Double.NEGATIVE_INFINITY;
    private double lowestC = Double.POSITIVE_INFINITY;
    private boolean rose;
    private double levelMs;
    private double levelC;

    public HeatWork(ConeTable table) {
        this.table = table;
        this.all = new Bending(table);
        this.heating = all;
        this.gaps = new Gaps();
        this.level = new SmoothedLevel();
        this.stoodStill = new StoodStill();
    }

    private HeatWork(HeatWork other) {
        table = other.table;
        all = other.all.copy();
        heating = other.cooling ? other.heating.copy() : all;
        cooling = other.cooling;
        gaps = other.gaps.copy();
        level = other.level.copy();
        stoodStill = other.stoodStill.copy();
        begun = other.begun;
        firstMs = other.firstMs;
        lastMs = other.lastMs;
        lastC = other.lastC;
        peakMs = other.peakMs;
        peakC = other.peakC;
        topC = other.topC;
        lowestC = other.lowestC;
        rose = other.rose;
        levelMs = other.levelMs;
        levelC = other.levelC;
    }

    /** The heat work of a whole curve. */
    public static HeatWork of(ConeTable table, Trace curve) {
        HeatWork work = new HeatWork(table);
        for (int i = 0; i < curve.size(); i++) {
            work.add(curve.elapsedMs(i), curve.temperatureC(i));
        }
        return work;
    }

    /** The heat work of a line drawn through corners, such as a plan's: no stretch of it is a gap, however long. */
    public static HeatWork ofLine(ConeTable table, Trace corners) {
        HeatWork work = new HeatWork(table);
        for (int i = 0; i < corners.size(); i++) {
            work.check(corners.elapsedMs(i), corners.temperatureC(i));
            work.addCorner(corners.elapsedMs(i), corners.temperatureC(i));
        }
        return work;
    }

    /** The same heat work, to go on from on its own. */
    public HeatWork copy() {
        return new HeatWork(this);
    }

    /**
     * What the heat work will be when the curve goes on through these corners, joined by straight lines; this one stays
     * as it is.
     *
     * @param ahead ms on the recording's clock and °C, the first at or after the last reading
     */
    public HeatWork goingOn(Trace ahead) {
        HeatWork future = copy();
        for (int i = 0; i < ahead.size(); i++) {
            future.check(ahead.elapsedMs(i), ahead.temperatureC(i));
            future.addCorner(ahead.elapsedMs(i), ahead.temperatureC(i));
        }
        return future;
    }

    public ConeTable table() {
        return table;
    }

    public boolean isEmpty() {
        return !begun;
    }

    /**
     * Adds the next good reading.
     *
     * @param elapsedMs ms on the recording's clock, not before the last
     * @param celsius °C at the tip, corrected and calibrated
     */
    public void add(long elapsedMs, double celsius) {
        check(elapsedMs, celsius);
        long missingMs = gaps.totalMs();
        if (!begun) {
            begin(elapsedMs, celsius);
        } else if (!gaps.mayBridge(lastMs, lastC, elapsedMs, celsius)) {
            jump(elapsedMs, celsius);
        } else if (gaps.totalMs() > missingMs) {
            addLine(elapsedMs, celsius);
            level.startAt(elapsedMs, celsius);
        } else {
            addReading(elapsedMs, celsius);
        }
        moveTo(elapsedMs, celsius);
        stoodStill.add(elapsedMs, celsius, peakC);
    }

    private void addCorner(long elapsedMs, double celsius) {
        if (begun) {
            addLine(elapsedMs, celsius);
        } else {
            begin(elapsedMs, celsius);
            standAt(elapsedMs, celsius);
        }
        moveTo(elapsedMs, celsius);
    }

    private void begin(long elapsedMs, double celsius) {
        begun = true;
        firstMs = elapsedMs;
        peakMs = elapsedMs;
        peakC = celsius;
        levelMs = elapsedMs;
        levelC = celsius;
        level.startAt(elapsedMs, celsius);
        all.startAt(celsius);
    }

    private void check(long elapsedMs, double celsius) {
        if (!Double.isFinite(celsius) || celsius < -Temperature.ZERO_CELSIUS_K) {
            throw new IllegalArgumentException("heat work needs temperatures above -273.15 °C, found " + celsius);
        }
        if (begun && elapsedMs < lastMs) {
            throw new IllegalArgumentException("heat work runs forward in time: a reading at " + elapsedMs
                    + " ms came after one at " + lastMs + " ms");
        }
    }

    private void moveTo(long elapsedMs, double celsius) {
        if (celsius > peakC) {
            peakC = celsius;
            peakMs = elapsedMs;
        }
        lastMs = elapsedMs;
        lastC = celsius;
    }

    /** A reading close behind the last one: whether the top is left is judged by the mean of the last moments. */
    private void addReading(long elapsedMs, double celsius) {
        all.add(lastC, celsius, (elapsedMs - lastMs) / 1000.0);
        level.add(elapsedMs, celsius);
        if (!level.isWhole()) {
            return;
        }
        double limitC = topC - NEAR_TOP_K;
        double nowMs = level.atMs();
        double nowC = level.celsius();
        if (nowC >= limitC) {
            backAtTop();
        } else if (!cooling) {
            double share = Math.max(0, levelC - limitC) / (levelC - nowC);
            Bending since = new Bending(table);
            level.addSince(levelMs + share * (nowMs - levelMs), since);
            leaveTop(all.without(since));
        }
        standAt(nowMs, nowC);
    }

    /** A straight line, over a stretch without readings or a plan's: the top is left where the line says. */
    private void addLine(long elapsedMs, double celsius) {
        standAt(lastMs, lastC);
        double seconds = (elapsedMs - lastMs) / 1000.0;
        double limitC = topC - NEAR_TOP_K;
        if (celsius >= limitC) {
            all.add(lastC, celsius, seconds);
            backAtTop();
        } else if (cooling || lastC <= limitC) {
            leaveTop(all.copy());
            all.add(lastC, celsius, seconds);
        } else {
            double share = (lastC - limitC) / (lastC - celsius);
            all.add(lastC, limitC, seconds * share);
            leaveTop(all.copy());
            all.add(limitC, celsius, seconds * (1 - share));
        }
        standAt(elapsedMs, celsius);
    }

    private void jump(long elapsedMs, double celsius) {
        standAt(lastMs, lastC);
        if (celsius >= topC - NEAR_TOP_K) {
            backAtTop();
        } else {
            leaveTop(all.copy());
        }
        all.startAt(celsius);
        level.startAt(elapsedMs, celsius);
        standAt(elapsedMs, celsius);
    }

    /** Takes the temperature the firing is at. */
    private void standAt(double atMs, double celsius) {
        levelMs = atMs;
        levelC = celsius;
        lowestC = Math.min(lowestC, celsius);
        if (celsius > topC) {
            topC = celsius;
            rose = celsius - lowestC >= ROSE_K;
        }
    }

    private void leaveTop(Bending asItWas) {
        if (!cooling) {
            heating = asItWas;
            cooling = true;
        }
    }

    private void backAtTop() {
        heating = all;
        cooling = false;
    }

    /**
     * What the firing has come to, with what the sensor may be off by.
     *
     * @throws IllegalStateException before the first reading
     */
    public ConeReached reached(SensorUncertainty sensor) {
        if (!begun) {
            throw new IllegalStateException("no reading has been added yet");
        }
        ConePosition cone = ConePosition.of(heating, 0);
        double halfWidthK = halfWidthK(table.series(), sensor, peakC);
        return new ConeReached(
                table.series(),
                cone,
                Interval.ofNineInTen(ConePosition.of(heating, -halfWidthK), ConePosition.of(heating, halfWidthK)),
                cooling ? cone.stepsTo(ConePosition.of(all, 0)) : noCooling(cone),
                Temperature.ofCelsius(peakC),
                peakMs,
                top(sensor),
                Duration.ofMillis(gaps.totalMs()));
    }

    private static OptionalDouble noCooling(ConePosition cone) {
        return cone.past().isPresent() ? OptionalDouble.of(0) : OptionalDouble.empty();
    }

    /**
     * By how much a curve may really have been hotter or colder, in °C, where a cone is read from it: the limits of the
     * sensor at a temperature, and nine in ten of what the rate law of the series may be off by.
     */
    public static double halfWidthK(ConeSeries series, SensorUncertainty sensor, double celsius) {
        double sensorK = sensor.halfWidthC(celsius);
        double chartK = ConeConstants.chartHalfWidthK(series);
        return Math.sqrt(sensorK * sensorK + chartK * chartK);
    }

    private ConeReached.Top top(SensorUncertainty sensor) {
        if (stoodStill.isHighest(peakC) && sensor.endsAt(peakC)) {
            return ConeReached.Top.AT_SENSORS_END;
        }
        if (gaps.mayHideTop(peakC, lastC, NEAR_TOP_K)) {
            return ConeReached.Top.HIDDEN_BY_GAP;
        }
        boolean smoothed = topC > Double.NEGATIVE_INFINITY;
        // Readings that begin hot and fall from the first on are those of a cooling, however few there are yet.
        boolean falls = peakMs == firstMs && peakC > ConeReached.WARM_C && lastC < peakC - PASSED_TOP_K;
        if (!falls && (smoothed ? levelC >= topC - PASSED_TOP_K : lastC >= peakC - PASSED_TOP_K)) {
            return ConeReached.Top.NOT_PASSED;
        }
        boolean climbed = smoothed ? rose : peakMs > firstMs;
        return climbed ? ConeReached.Top.SEEN : ConeReached.Top.BEFORE_FIRST_READING;
    }

    /**
     * How far a cone is down, 0 … 1 and beyond: the share of its heat work done so far, cooling included. Empty when
     * the series does not have the cone.
     */
    public OptionalDouble share(Cone cone) {
        int index = table.cones().indexOf(cone);
        return index < 0 ? OptionalDouble.empty() : OptionalDouble.of(all.work(index));
    }

    /** The time until a cone is down if the temperature stays what it is now. */
    public TimeToGo timeToGo(Cone cone) {
        int index = indexOf(cone);
        if (begun && all.work(index) >= 1) {
            return TimeToGo.DOWN;
        }
        if (!begun || isNotYet(cone, lastC)) {
            return TimeToGo.NOT_YET;
        }
        double seconds = (1 - all.work(index)) / all.ratePerS(index, lastC);
        return TimeToGo.after(seconds);
    }

    /**
     * The time until a cone is down if the curve goes on through these corners.
     *
     * @param ahead the corners still to come, ms on the recording's clock and °C, the first at or after the last reading
     * @param shiftK by which all of the curve is taken to be hotter than read
     */
    public TimeToGo timeToGo(Cone cone, Trace ahead, double shiftK) {
        int index = indexOf(cone);
        if (!begun) {
            return TimeToGo.NOT_YET;
        }
        Bending future = all.copy();
        if (future.work(index, shiftK) >= 1) {
            return TimeToGo.DOWN;
        }
        long atMs = lastMs;
        double atC = lastC;
        for (int i = 0; i < ahead.size(); i++) {
            long legMs = ahead.elapsedMs(i) - atMs;
            double legC = ahead.temperatureC(i) - atC;
            int pieces = (int) Math.max(1, legMs / 30_000);
            for (int piece = 0; legMs > 0 && piece < pieces; piece++) {
                double before = future.work(index, shiftK);
                double seconds = legMs / 1000.0 / pieces;
                future.add(atC + legC * piece / pieces, atC + legC * (piece + 1) / pieces, seconds);
                double after = future.work(index, shiftK);
                if (after >= 1) {
                    double share = (1 - before) / (after - before);
                    return TimeToGo.after((atMs - lastMs) / 1000.0 + (piece + share) * seconds);
                }
            }
            atMs = ahead.elapsedMs(i);
            atC = ahead.temperatureC(i);
        }
        return TimeToGo.NOT_ON_THIS_PATH;
    }

    private boolean isNotYet(Cone cone, double celsius) {
        Optional<Temperature> named = table.temperature(cone);
        return celsius < named.orElseThrow().celsius() - NOT_YET_K;
    }

    private int indexOf(Cone cone) {
        int index = table.cones().indexOf(cone);
        if (index < 0) {
            throw new IllegalArgumentException("the " + table.series().word() + " series has no " + cone);
        }
        return index;
    }
}
