package org.kilnside.book;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.review.ReviewQuestion;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorInPlace;

/**
 * What the book knows of a firing for its review; the same from whichever face it is asked.
 *
 * @param readings its good readings, corrected by what was known of the sensor before it: what its own cones say of it
 *     is for the review to find
 * @param sensor its guiding sensor, as known then
 * @param series the cones it is judged by, unless somebody says otherwise
 * @param cones its witness cones
 * @param offsets what witness cones said of the sensor in its place before, oldest first
 * @param earlier true curves of the kiln's firings before it, oldest first
 */
public record BookedReview(
        GoodReadings readings,
        SensorInPlace sensor,
        ConeSeries series,
        List<NotedCone> cones,
        List<WitnessOffset> offsets,
        List<Trace> earlier) {
    /** Further back the kiln had other elements and other furniture. */
    private static final int MOST_EARLIER = 6;

    public BookedReview {
        cones = List.copyOf(cones);
        offsets = List.copyOf(offsets);
        earlier = List.copyOf(earlier);
    }

    public static BookedReview of(Book book, RecordedFiring firing) {
        Optional<String> kiln = firing.start().kiln();
        KilnHistory history = book.history(kiln.orElse(""));
        SensorInPlace sensor = history.sensorBefore(firing.number());
        return new BookedReview(
                GoodReadings.of(history.curve(firing.number(), sensor)),
                sensor,
                history.seriesOf(firing.number()),
                book.witnessCones(firing.number()),
                kiln.isPresent() ? history.offsetsBefore(firing.number()) : List.of(),
                kiln.isPresent() ? history.earlier(firing.number(), MOST_EARLIER) : List.of());
    }

    /** The question, against a plan, by the cones of one series. */
    public ReviewQuestion against(Schedule plan, ConeSeries meant) {
        return ReviewQuestion.about(readings, plan)
                .withTable(ConeTable.of(meant))
                .withSensor(sensor.uncertainty())
                .withShown(sensor.uncorrected())
                .withWitness(NotedCone.packs(cones, meant))
                .withOffsets(offsets)
                .withEarlier(earlier.stream().filter(curve -> curve.size() > 1).toList());
    }
}
