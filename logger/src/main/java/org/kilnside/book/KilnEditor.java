package org.kilnside.book;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.book.BookException.Reason;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.SensorInPlace;

/** Writes what a person changes of what is known of the sensors; each change one short transaction, all or nothing. */
final class KilnEditor {
    private final Path book;
    private final Connection connection;
    private final PersonsChange change;

    KilnEditor(Path book, Connection connection) {
        this.book = book;
        this.connection = connection;
        this.change = new PersonsChange(connection);
    }

    KilnEdit fit(String kiln, int channel, SensorInPlace sensor, Instant at) throws SQLException {
        return change.inOneTransaction(() -> {
            List<KilnEdit> edits = new ArrayList<>();
            Optional<FittedSensor> last = SensorRows.of(connection, kiln).stream()
                    .filter(each -> each.channel() == channel)
                    .reduce((earlier, later) -> later);
            if (last.isPresent()) {
                if (!at.isAfter(last.get().fittedAt())) {
                    throw new BookException(
                            Reason.CHANGED,
                            "A sensor was fitted on channel " + channel + " of \"" + kiln + "\" on "
                                    + last.get().fittedAt() + " already: say a later day, or mend that one.");
                }
                if (last.get().wasThere(at)) {
                    edits.add(new KilnEdit.Sensor(last, Optional.of(last.get().removed(at))));
                }
            }
            edits.add(new KilnEdit.Sensor(
                    Optional.empty(),
                    Optional.of(new FittedSensor(
                            change.next("sensor"), kiln, channel, uncalibrated(sensor), at, Optional.empty()))));
            return done(new KilnEdit.Together(edits));
        });
    }

    private static SensorInPlace uncalibrated(SensorInPlace sensor) {
        return sensor.calibrated(Calibration.NONE);
    }

    KilnEdit compare(long sensor, Calibration.Point point, boolean everywhere, Instant at) throws SQLException {
        return change.inOneTransaction(() -> {
            if (SensorRows.sensor(connection, sensor).isEmpty()) {
                throw changedElsewhere("the sensor");
            }
            return done(new KilnEdit.Compared(
                    Optional.empty(),
                    Optional.of(new ComparedPoint(
                            change.next("calibration_point"),
                            sensor,
                            everywhere ? OptionalDouble.empty() : OptionalDouble.of(point.readingC()),
                            point.correctionC(),
                            point.halfWidthC(),
                            point.by(),
                            at))));
        });
    }

    KilnEdit apply(KilnEdit edit) throws SQLException {
        return change.inOneTransaction(() -> done(edit));
    }

    private KilnEdit done(KilnEdit edit) throws SQLException {
        if (edit instanceof KilnEdit.Together together) {
            for (KilnEdit each : together.edits()) {
                done(each);
            }
        } else if (edit instanceof KilnEdit.Sensor sensor) {
            sensor(sensor);
        } else if (edit instanceof KilnEdit.Compared compared) {
            compared(compared);
        }
        return edit;
    }

    private void sensor(KilnEdit.Sensor edit) throws SQLException {
        long number = edit.after().or(edit::before).orElseThrow().number();
        if (!SensorRows.sensor(connection, number).equals(edit.before())) {
            throw changedElsewhere("the sensor");
        }
        WitnessRows.forgetOffsetsOf(connection, number);
        SketchRows.outdateOfKiln(
                connection, edit.after().or(edit::before).orElseThrow().kiln());
        if (edit.after().isEmpty()) {
            change.update("DELETE FROM calibration_point WHERE sensor = ?", number);
            change.update("DELETE FROM sensor WHERE number = ?", number);
            return;
        }
        FittedSensor after = edit.after().get();
        change.update(
                "INSERT INTO sensor (number, kiln, channel, name, place, thermocouple_type, amplifier, uncorrected,"
                        + " tolerance_class, fitted_at, removed_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
                        + " ON CONFLICT (number) DO UPDATE SET kiln = excluded.kiln, channel = excluded.channel,"
                        + " name = excluded.name, place = excluded.place,"
                        + " thermocouple_type = excluded.thermocouple_type, amplifier = excluded.amplifier,"
                        + " uncorrected = excluded.uncorrected, tolerance_class = excluded.tolerance_class,"
                        + " fitted_at = excluded.fitted_at, removed_at = excluded.removed_at",
                number,
                after.kiln(),
                after.channel(),
                after.sensor().sensor(),
                after.sensor().place(),
                after.sensor().probe().type().name(),
                after.sensor().probe().amplifier().name(),
                after.sensor().uncorrected().map(Amplifier::name).orElse(null),
                after.sensor().tolerance().ordinal() + 1,
                after.fittedAt().toString(),
                after.removedAt().map(Instant::toString).orElse(null));
    }

    private void compared(KilnEdit.Compared edit) throws SQLException {
        ComparedPoint any = edit.after().or(edit::before).orElseThrow();
        if (!SensorRows.point(connection, any.number()).equals(edit.before())) {
            throw changedElsewhere("the comparison");
        }
        WitnessRows.forgetOffsetsOf(connection, any.sensor());
        Optional<FittedSensor> sensor = SensorRows.sensor(connection, any.sensor());
        if (sensor.isEmpty()) {
            throw changedElsewhere("the sensor");
        }
        SketchRows.outdateOfKiln(connection, sensor.get().kiln());
        change.update("DELETE FROM calibration_point WHERE number = ?", any.number());
        if (edit.after().isPresent()) {
            ComparedPoint after = edit.after().get();
            refuseTwice(after);
            change.update(
                    "INSERT INTO calibration_point (number, sensor, reading_c, correction_k, half_width_k,"
                            + " compared_with, found_at) VALUES (?, ?, ?, ?, ?, ?, ?)",
                    after.number(),
                    after.sensor(),
                    after.readingC().isPresent() ? after.readingC().getAsDouble() : null,
                    after.correctionK(),
                    after.halfWidthK(),
                    after.by().name(),
                    after.foundAt().toString());
        }
    }

    /** Two corrections at one reading contradict each other: the person decides which is the better. */
    private void refuseTwice(ComparedPoint point) throws SQLException {
        for (ComparedPoint other : SensorRows.points(connection, point.sensor())) {
            if (other.readingC().equals(point.readingC())) {
                throw new BookException(
                        Reason.CHANGED,
                        "This sensor has been compared "
                                + (point.readingC().isPresent()
                                        ? "at " + point.readingC().getAsDouble() + " °C"
                                        : "for all temperatures at once")
                                + " already: strike that comparison out first.");
            }
        }
    }

    private BookException changedElsewhere(String what) {
        return new BookException(
                Reason.CHANGED,
                "In the firing book " + book + " " + what
                        + " has been changed by another window meanwhile: look again before you change it.");
    }
}
