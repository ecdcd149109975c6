package org.kilnside.desktop.book;

import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.book.NotedCone;
import org.kilnside.book.RecordedFiring;
import org.kilnside.book.WrittenRecord;
import org.kilnside.chart.CurveLevels;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;

/**
 * A firing that is open.
 *
 * @param firing as the book has it
 * @param levels its curve, ready to be drawn; false readings are left out
 * @param record what people have written into it
 * @param clock the time of day of its moments; empty for a kiln that ran faster than life
 * @param speed kiln time over real time while it was recorded
 * @param thresholds when the lid of its kiln may be cracked and its ware unloaded
 */
public record OpenedFiring(
        RecordedFiring firing,
        CurveLevels levels,
        WrittenRecord record,
        Optional<WallClockLine> clock,
        double speed,
        Kiln.Thresholds thresholds) {
    public long number() {
        return firing.number();
    }

    /** When heat began to go in, on the recording's clock, ms; where nobody said so, with the first reading. */
    public long beganMs() {
        Trace curve = levels.curve();
        return firing.events().stream()
                .filter(event -> event.kind() == FiringEvent.Kind.FIRING_BEGAN)
                .mapToLong(FiringEvent::elapsedMs)
                .findFirst()
                .orElse(curve.isEmpty() ? 0 : curve.elapsedMs(0));
    }

    /** When the kiln first was at a temperature or above, having been below, ms; empty when it never was. */
    public OptionalLong firstAtMs(double celsius) {
        Trace curve = levels.curve();
        for (int i = 0; i < curve.size(); i++) {
            if (curve.temperatureC(i) >= celsius) {
                return OptionalLong.of(curve.elapsedMs(i));
            }
        }
        return OptionalLong.empty();
    }

    /** The cones it is judged by; of the kind that a cone noted next is taken for. */
    public ConeSeries series() {
        return NotedCone.judging(record.cones(), firing.start().series());
    }

    public OpenedFiring with(WrittenRecord other) {
        return new OpenedFiring(firing, levels, other, clock, speed, thresholds);
    }
}
