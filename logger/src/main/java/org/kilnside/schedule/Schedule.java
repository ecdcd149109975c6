package org.kilnside.schedule;

import java.util.List;

/**
 * A plan as the potter wrote it.
 *
 * @param name what the potter calls it
 * @param segments in firing order, at least one
 */
public record Schedule(String name, List<Segment> segments) {
    public Schedule {
        segments = List.copyOf(segments);
        if (segments.isEmpty()) {
            throw new IllegalArgumentException("a schedule has at least one segment");
        }
    }
}
