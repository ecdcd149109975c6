package org.kilnside.desktop.book;

import java.util.List;
import java.util.Optional;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.tracking.PlanPosition.PlanPoint;

/**
 * What follows from all readings of a firing.
 *
 * @param number the firing's number
 * @param aligned the plan laid over what happened; empty without one
 * @param cone what it came to; empty where there is no telling
 */
public record FiringStudy(long number, List<PlanPoint> aligned, Optional<ConeReached> cone) {
    public FiringStudy {
        aligned = List.copyOf(aligned);
    }
}
