package org.kilnside.book;

import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeSeries;
import org.kilnside.heatwork.WitnessCone;

/**
 * A witness cone of a firing as the potter noted it.
 *
 * @param number its number in the book
 * @param shelf where it stood, in the potter's words
 * @param series which kind of cone
 * @param cone which
 * @param degrees how far it bent, 0 … 180, 90 with its tip level with its base; empty when nobody looked
 * @param seenDownMs when it was seen to go down, on the recording's clock; empty when nobody saw
 */
public record NotedCone(
        long number, String shelf, ConeSeries series, Cone cone, OptionalDouble degrees, OptionalLong seenDownMs) {
    public NotedCone {
        degrees.ifPresent(WitnessCone.Bend::ofDegrees);
        if (degrees.isEmpty() && seenDownMs.isEmpty()) {
            throw new IllegalArgumentException(
                    cone + " says nothing yet: note how far it bent (0 to 180 degrees), or when it was seen down");
        }
    }

    /** As the heat work takes it. */
    public WitnessCone witness() {
        WitnessCone.Bend bend =
                degrees.isPresent() ? WitnessCone.Bend.ofDegrees(degrees.getAsDouble()) : WitnessCone.Bend.DOWN;
        return new WitnessCone(cone, bend, seenDownMs);
    }
}
