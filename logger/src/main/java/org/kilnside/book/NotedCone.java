package org.kilnside.book;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessPack;

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

    /**
     * The cones a firing is judged by: of the kind first noted for it, as those stood in the kiln, or else of the kind its
     * kiln had when it began.
     */
    public static ConeSeries judging(List<NotedCone> cones, ConeSeries ofKiln) {
        return cones.isEmpty() ? ofKiln : cones.get(0).series();
    }

    /** The packs of one series among a firing's cones, a pack a shelf, in the order they were noted; of one cone noted twice the first. */
    public static List<WitnessPack> packs(List<NotedCone> cones, ConeSeries series) {
        Map<String, List<WitnessCone>> shelves = new LinkedHashMap<>();
        for (NotedCone noted : cones) {
            List<WitnessCone> shelf = shelves.computeIfAbsent(noted.shelf, name -> new ArrayList<>());
            boolean first = shelf.stream().noneMatch(seen -> seen.cone().equals(noted.cone));
            if (noted.series == series && first) {
                shelf.add(new WitnessCone(noted.cone, noted.degrees, noted.seenDownMs));
            }
        }
        return shelves.entrySet().stream()
                .filter(shelf -> !shelf.getValue().isEmpty())
                .map(shelf -> new WitnessPack(shelf.getKey(), shelf.getValue()))
                .toList();
    }
}
