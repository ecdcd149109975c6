package org.kilnside.book;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jdbi.v3.core.JdbiException;
import org.kilnside.book.BookException.Reason;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.CalibratedThermometer;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.FiringBook.FiringStart;

/**
 * What the book knows of one kiln beyond its single firings: the sensors it had and where, what comparisons and witness
 * cones say of them, and the true curves of its firings. Part of a {@link Book}, closed with it; one thread at a time.
 *
 * <p>What cones say is worked out when it is first asked for, which reads the firing's curve: not on a thread that must
 * not wait.
 */
public final class KilnHistory {
    private static final int GUIDING = 1;

    private final Path book;
    private final Connection connection;
    private final boolean writable;
    private final String kiln;

    KilnHistory(Path book, Connection connection, boolean writable, String kiln) {
        this.book = book;
        this.connection = connection;
        this.writable = writable;
        this.kiln = kiln;
    }

    /** By how much the cones of one firing say that the ware was hotter than the sensor read. */
    public record OffsetOfFiring(long firing, WitnessOffset offset) {}

    /** So many of a kiln's newest firings say what the next will be like: older loads and elements say less. */
    public static final int REMEMBERED = 3;

    /** All sensors this kiln has had, by channel, oldest first. */
    public List<FittedSensor> sensors() {
        return asked(() -> SensorRows.of(connection, kiln));
    }

    /** The sensor of a channel at a moment; empty when the book was not told. */
    public Optional<FittedSensor> fitted(int channel, Instant at) {
        return sensors().stream()
                .filter(sensor -> sensor.channel() == channel && sensor.wasThere(at))
                .reduce((earlier, later) -> later);
    }

    /** The guiding sensor at a moment, with all that is known of it by now; empty when the book was not told of it. */
    public Optional<SensorInPlace> guide(Instant at) {
        return fitted(GUIDING, at).map(this::known);
    }

    /**
     * The guiding sensor at a moment as what is keyed into the controller goes by it. Where the book noted the sensor by
     * itself, nobody has said whether the controller shows its board's number as it is or corrects it: no such difference
     * is reckoned with then, as before there was a sensor in the book.
     */
    public Optional<SensorInPlace> guideAsAnswered(Instant at) {
        return fitted(GUIDING, at)
                .map(sensor -> isUnasked(sensor) ? known(sensor).shownBy(Optional.empty()) : known(sensor));
    }

    /**
     * Whether the book noted a sensor by itself, so that nobody was asked what the controller shows: it has no name and no
     * place, and begins with a firing to the millisecond.
     */
    public boolean isUnasked(FittedSensor sensor) {
        return sensor.sensor().sensor().isEmpty()
                && sensor.sensor().place().isEmpty()
                && asked(() -> SensorRows.beginsWithAFiring(connection, kiln, sensor.fittedAt()));
    }

    /** A sensor with all that is known of it: comparisons first, and what witness cones say of what is left. */
    public SensorInPlace known(FittedSensor sensor) {
        List<WitnessOffset> offsets =
                offsets(sensor).stream().map(OffsetOfFiring::offset).toList();
        return with(sensor, offsets, offsets.size() - 1);
    }

    /** The same as far as it was known before a firing: without what the cones of that one or of later ones say. */
    private SensorInPlace knownBefore(FittedSensor sensor, long firing) {
        List<WitnessOffset> offsets = before(offsets(sensor), firing);
        return with(sensor, offsets, offsets.size() - 1);
    }

    /** The same by all that is known by now, for one of its firings: a sensor that drifts was less off then. */
    private SensorInPlace knownAt(FittedSensor sensor, long firing) {
        List<OffsetOfFiring> all = offsets(sensor);
        boolean itsOwn = all.stream().anyMatch(each -> each.firing() == firing);
        int index = before(all, firing).size() - (itsOwn ? 0 : 1);
        return with(sensor, all.stream().map(OffsetOfFiring::offset).toList(), Math.max(0, index));
    }

    private static List<WitnessOffset> before(List<OffsetOfFiring> offsets, long firing) {
        return offsets.stream()
                .filter(each -> each.firing() < firing)
                .map(OffsetOfFiring::offset)
                .toList();
    }

    /** What witness cones said of a firing's guiding sensor, in its place, before that firing, oldest first. */
    public List<WitnessOffset> offsetsBefore(long firing) {
        return asked(() -> fitted(GUIDING, startOf(firing).startedAt())
                .map(sensor -> before(offsets(sensor), firing))
                .orElse(List.of()));
    }

    private SensorInPlace with(FittedSensor sensor, List<WitnessOffset> offsets, int index) {
        Calibration compared = compared(sensor);
        return sensor.sensor()
                .calibrated(offsets.isEmpty() ? compared : compared.then(WitnessOffset.calibration(offsets, index)));
    }

    /** A text that is another one whenever something has changed from which the sensors are known. */
    String changes() {
        return asked(() -> SensorRows.changes(connection, kiln));
    }

    /** What comparisons alone say of a sensor. */
    public Calibration compared(FittedSensor sensor) {
        List<ComparedPoint> points = points(sensor.number());
        Optional<ComparedPoint> everywhere =
                points.stream().filter(point -> point.readingC().isEmpty()).reduce((earlier, later) -> later);
        if (everywhere.isPresent()) {
            ComparedPoint point = everywhere.get();
            return Calibration.offset(point.correctionK(), point.halfWidthK(), point.by());
        }
        return points.isEmpty()
                ? Calibration.NONE
                : Calibration.of(points.stream().map(ComparedPoint::point).toList());
    }

    /** The comparisons of a sensor, oldest first. */
    public List<ComparedPoint> points(long sensor) {
        return asked(() -> SensorRows.points(connection, sensor));
    }

    /** What the witness cones of a sensor's firings say of it, oldest first; firings whose cones leave it open are not in it. */
    public List<OffsetOfFiring> offsets(FittedSensor sensor) {
        if (sensor.channel() != GUIDING) {
            return List.of();
        }
        return asked(() -> {
            List<OffsetOfFiring> offsets = new ArrayList<>();
            for (long firing : SensorRows.firingsWithCones(connection, kiln, sensor.fittedAt(), sensor.removedAt())) {
                Optional<WitnessOffset> offset = SensorRows.offset(connection, firing);
                if (offset.isEmpty() && sensor.sensor().fits(probeOf(firing))) {
                    offset = workedOut(firing, sensor);
                }
                offset.ifPresent(found -> offsets.add(new OffsetOfFiring(firing, found)));
            }
            return offsets;
        });
    }

    private Optional<WitnessOffset> workedOut(long firing, FittedSensor sensor) throws SQLException {
        List<NotedCone> cones = WitnessRows.of(connection, firing);
        Trace curve = trueCurve(firing, sensor.sensor().calibrated(compared(sensor)));
        // Cones of one series a firing: the others are shown but not reckoned with.
        ConeSeries series = seriesOf(firing);
        Optional<WitnessOffset> offset = WitnessOffset.of(ConeTable.of(series), curve, NotedCone.packs(cones, series));
        if (offset.isPresent() && writable) {
            WitnessRows.store(connection, firing, sensor.number(), offset.get());
        }
        return offset;
    }

    /**
     * The guiding sensor of a firing, with all that is known of it by now: as the book was told, or else as the
     * controller said.
     */
    public SensorInPlace sensorOf(long firing) {
        return asked(() -> {
            Probe said = probeOf(firing);
            return fitted(GUIDING, startOf(firing).startedAt())
                    .map(sensor -> knownAt(sensor, firing))
                    .filter(sensor -> sensor.fits(said))
                    .orElse(SensorInPlace.asSaid(said));
        });
    }

    /** The guiding sensor of a firing, with what was known of it when that firing was lit. */
    public SensorInPlace sensorBefore(long firing) {
        return asked(() -> {
            Probe said = probeOf(firing);
            return fitted(GUIDING, startOf(firing).startedAt())
                    .map(sensor -> knownBefore(sensor, firing))
                    .filter(sensor -> sensor.fits(said))
                    .orElse(SensorInPlace.asSaid(said));
        });
    }

    /** The cones a firing is judged by, wherever it is shown and nobody asks for others. */
    public ConeSeries seriesOf(long firing) {
        return asked(() -> NotedCone.judging(
                WitnessRows.of(connection, firing), startOf(firing).series()));
    }

    /**
     * The cone a firing came to.
     *
     * @param good its true readings
     * @return empty where there is no telling
     */
    public Optional<ConeReached> coneOf(long firing, Trace good) {
        return good.size() < 2
                ? Optional.empty()
                : Optional.of(HeatWork.of(ConeTable.of(seriesOf(firing)), good)
                        .reached(sensorOf(firing).uncertainty()));
    }

    /** The good readings of a firing as the truth behind them by a sensor of one's own choice. */
    public Trace curve(long firing, SensorInPlace sensor) {
        return asked(() -> trueCurve(firing, sensor));
    }

    /** The good readings of a firing as the truth behind them: corrected by all that is known of its sensor by now. */
    public Trace curve(long firing) {
        return curve(firing, sensorOf(firing));
    }

    /** The true curves of the ended firings before one, oldest first. */
    public List<Trace> earlier(long firing, int most) {
        return List.copyOf(earlierByNumber(firing, most).values());
    }

    /** The same under their numbers. */
    public SortedMap<Long, Trace> earlierByNumber(long firing, int most) {
        return asked(() -> {
            SortedMap<Long, Trace> curves = new TreeMap<>();
            for (long number : SensorRows.firingsBefore(connection, kiln, firing, most)) {
                curves.put(number, curve(number));
            }
            return curves;
        });
    }

    /**
     * Sees to it that the book has a sensor for what cones say of it: where it was told of none, the one the controller
     * named, from the first firing in a row with it on.
     */
    void ensureGuide(long firing) {
        asked(() -> {
            Probe said = probeOf(firing);
            Instant at = startOf(firing).startedAt();
            List<FittedSensor> guides = sensors().stream()
                    .filter(sensor -> sensor.channel() == GUIDING)
                    .toList();
            boolean known = guides.stream()
                    .anyMatch(sensor -> sensor.fittedAt().isAfter(at)
                            || sensor.wasThere(at) && sensor.sensor().fits(said));
            if (!known && writable) {
                fit(GUIDING, SensorInPlace.asSaid(said), firstWith(said, firing, guides.isEmpty()));
            }
            return firing;
        });
    }

    private Instant firstWith(Probe said, long firing, boolean anyEarlier) throws SQLException {
        Instant first = startOf(firing).startedAt();
        if (anyEarlier) {
            for (long earlier : SensorRows.firingsBefore(connection, kiln, firing, Integer.MAX_VALUE)) {
                if (!probeOf(earlier).equals(said)) {
                    break;
                }
                first = startOf(earlier).startedAt();
            }
        }
        return first;
    }

    private Trace trueCurve(long firing, SensorInPlace sensor) throws SQLException {
        ProbeEpochs probes = new ProbeEpochs(FiringRows.sensors(connection, firing));
        CalibratedThermometer thermometer = CalibratedThermometer.of(sensor);
        if (!thermometer.corrects() && sensor.uncorrected().isEmpty()) {
            return GoodReadings.of(FiringQueries.trace(connection, firing, probes))
                    .curve();
        }
        Trace.Builder all = new Trace.Builder();
        FiringQueries.readings(connection, firing, probes, reading -> {
            if (reading instanceof Reading.Measured) {
                Optional<Temperature> truth =
                        thermometer.temperature(reading.first().raw());
                truth.ifPresent(value -> all.add(
                        reading.elapsedMs(), value.celsius(), inTruth(reading.controller(), thermometer, reading)));
            }
        });
        return GoodReadings.of(all.view()).curve();
    }

    /** A set-point is in the numbers the controller shows: here as the truth it stands for, like the temperature beside it. */
    private static ControllerReport inTruth(ControllerReport said, CalibratedThermometer thermometer, Reading reading) {
        return new ControllerReport(
                said.output(),
                said.setpoint()
                        .flatMap(shown ->
                                thermometer.behind(shown, reading.first().raw())),
                said.segment());
    }

    private Probe probeOf(long firing) {
        List<SensorEpoch> epochs = FiringRows.sensors(connection, firing);
        return epochs.isEmpty()
                ? Probe.UNKNOWN
                : epochs.get(epochs.size() - 1).probes().get(0);
    }

    private FiringStart startOf(long firing) {
        return FiringRows.start(connection, firing)
                .orElseThrow(() -> new BookException(
                        Reason.NO_SUCH_FIRING,
                        "The firing book " + book + " has no firing " + firing
                                + ": \"book list\" shows those it has."));
    }

    /**
     * Notes a sensor; one that stood on the same channel until then is taken out at that moment.
     *
     * @return the change, to be undone
     */
    public KilnEdit fit(int channel, SensorInPlace sensor, Instant at) {
        return changed(editor -> editor.fit(kiln, channel, sensor, at));
    }

    /** Notes a comparison of a sensor; gives the change, to be undone. */
    public KilnEdit compare(long sensor, Calibration.Point point, boolean everywhere, Instant at) {
        return changed(editor -> editor.compare(sensor, point, everywhere, at));
    }

    /**
     * Does a change, or undoes one by its inverse.
     *
     * @throws BookException when what is to be changed is no longer as it was; nothing is changed then
     */
    public void apply(KilnEdit edit) {
        changed(editor -> editor.apply(edit));
    }

    private KilnEdit changed(Change change) {
        if (!writable) {
            throw new BookException(
                    Reason.READ_ONLY, "The firing book " + book + " can only be read: nothing can be noted in it.");
        }
        return asked(() -> change.by(new KilnEditor(book, connection)));
    }

    @FunctionalInterface
    private interface Change {
        KilnEdit by(KilnEditor editor) throws SQLException;
    }

    private <T> T asked(Question<T> question) {
        try {
            return question.ask();
        } catch (SQLException | JdbiException e) {
            throw SqliteTrouble.of(book, SqliteTrouble.within(e));
        }
    }

    @FunctionalInterface
    private interface Question<T> {
        T ask() throws SQLException;
    }
}
