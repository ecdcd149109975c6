package org.kilnside.command;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.kilnside.book.Book;
import org.kilnside.book.KilnHistory;
import org.kilnside.book.RecordedFiring;
import org.kilnside.files.JsonLines;
import org.kilnside.files.JsonObject;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.link.LinkNotation;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.FollowedFiring;
import org.kilnside.tracking.FiringFigures;
import org.kilnside.tracking.PlanPosition;
import org.kilnside.wording.FiringSummary;
import org.kilnside.wording.Words;

/**
 * A firing out of the book with the figures that follow from it.
 *
 * @param firing as the book has it
 * @param sensor its guiding sensor, with all that is known of it by now
 * @param curve its true readings, corrected by that
 * @param cone what the ware had; empty without a curve
 * @param aligned the plan laid over what happened
 * @param speed kiln time over host time while it was recorded
 */
record FiringFacts(
        RecordedFiring firing,
        SensorInPlace sensor,
        Trace curve,
        Optional<ConeReached> cone,
        List<PlanPosition.PlanPoint> aligned,
        double speed) {
    static FiringFacts of(Book book, long number) {
        RecordedFiring firing = book.firing(number);
        List<Reading> readings = new ArrayList<>();
        book.readings(number, readings::add);
        KilnHistory history = book.history(firing.start().kiln().orElse(""));
        SensorInPlace sensor = history.sensorOf(number);
        FollowedFiring followed = FollowedFiring.of(firing.start().plan(), Optional.of(sensor), readings);
        Trace curve = followed.curve();
        return new FiringFacts(
                firing,
                sensor,
                curve,
                history.coneOf(number, curve),
                followed.position().map(PlanPosition::aligned).orElse(List.of()),
                LinkNotation.speedOf(firing.start().link()));
    }

    /** Whether the controller told its output. */
    boolean tellsOutput() {
        return IntStream.range(0, curve.size()).anyMatch(i -> curve.output(i).isPresent());
    }

    /** @param thresholds of its kiln, for opening and unloading */
    Optional<FiringSummary> summary(Kiln.Thresholds thresholds, Words words) {
        return FiringSummary.of(
                curve,
                firing.start().plan(),
                aligned,
                firing.events(),
                Optional.of(firing.wallClock()),
                speed,
                thresholds,
                words);
    }

    /** The time of day of a moment; empty for a firing that ran faster than life. */
    private Optional<Instant> timeOf(long elapsedMs) {
        return speed == 1 ? Optional.of(firing.wallClock().at(elapsedMs)) : Optional.empty();
    }

    void writeJson(JsonLines lines) {
        Optional<FiringFigures> figures =
                FiringFigures.of(curve, firing.start().plan(), aligned, firing.events(), List.of());
        JsonObject object = new JsonObject()
                .with("firing", firing.number())
                .with("kiln", firing.start().kiln(), name -> name)
                .with("plan", firing.start().plan(), plan -> plan.name())
                .with("link", firing.start().link())
                .with("started", firing.wallClock().at(0).toString())
                .with("readings_in_curve", curve.size())
                .with("peak_c", figures, found -> found.peak().celsius())
                .with("peak_s", figures, found -> found.peakMs() / 1000.0)
                .with("sensor_corrected", !sensor.calibration().equals(Calibration.NONE))
                .with("began_s", figures, found -> found.beganMs() / 1000.0)
                .with("ended_s", figures, found -> found.endedMs() / 1000.0)
                .with("gaps", figures, FiringFigures::gaps)
                .with("longest_gap_s", figures, found -> found.longestGap().toSeconds())
                .with(
                        "events",
                        firing.events().stream()
                                .map(event -> new JsonObject()
                                        .with("elapsed_s", event.elapsedMs() / 1000.0)
                                        .with("time", timeOf(event.elapsedMs()), Instant::toString)
                                        .with("kind", event.kind().name().toLowerCase(java.util.Locale.ROOT))
                                        .with("text", event.text(), text -> text))
                                .toList());
        lines.write(object);
    }
}
