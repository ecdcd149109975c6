package org.kilnside.schedule;

import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;

/**
 * A plan as the potter wrote it.
 *
 * @param name what the potter calls it
 * @param aimsFor the cone it is meant to reach, as the potter writes it ({@code "cone 06"}); empty when it aims for none
 * @param clay the clay it is meant for; empty when for any
 * @param notes the potter's own words; empty when there are none
 * @param segments in firing order, at least one; the first is a ramp, free cooling comes last or not at all
 */
public record Schedule(
        String name, Optional<String> aimsFor, Optional<String> clay, Optional<String> notes, List<Segment> segments) {
    public Schedule {
        segments = List.copyOf(segments);
        if (segments.isEmpty()) {
            throw new IllegalArgumentException("a schedule has at least one segment");
        }
        if (!(segments.get(0) instanceof Segment.Ramp)) {
            throw new IllegalArgumentException("a schedule begins with a ramp");
        }
        for (Segment segment : segments.subList(0, segments.size() - 1)) {
            if (segment instanceof Segment.FreeCooling) {
                throw new IllegalArgumentException("free cooling is the last segment of a schedule");
            }
        }
    }

    /** A plan without a description. */
    public Schedule(String name, List<Segment> segments) {
        this(name, Optional.empty(), Optional.empty(), Optional.empty(), segments);
    }

    /** The highest temperature the plan goes to. */
    public Temperature top() {
        return segments.stream()
                .flatMap(segment -> segment.target().stream())
                .max(Temperature::compareTo)
                .orElseThrow();
    }

    /** The segment, counted from 1, that reaches the top first. */
    public int topSegment() {
        Temperature top = top();
        for (int i = 0; i < segments.size(); i++) {
            if (segments.get(i).target().equals(Optional.of(top))) {
                return i + 1;
            }
        }
        throw new IllegalStateException("a schedule has a top");
    }

    /** Whether the plan says that the kiln cools as it will at the end. */
    public boolean endsInFreeCooling() {
        return segments.get(segments.size() - 1) instanceof Segment.FreeCooling;
    }

    /**
     * Whether a segment is controlled cooling: a ramp to a temperature below the one before it. The first segment
     * always heats, whatever the kiln's temperature is when it is lit.
     *
     * @param number the segment, counted from 1
     * @throws IndexOutOfBoundsException when the plan has no such segment
     */
    public boolean isControlledCooling(int number) {
        Segment segment = segments.get(number - 1);
        if (number == 1 || segment.target().isEmpty()) {
            return false;
        }
        Temperature before = segments.get(number - 2).target().orElseThrow();
        return segment.target().get().isBelow(before);
    }

    /** The curve this plan means when the kiln is lit at a temperature and follows exactly. */
    public PlannedCurve curveFrom(Temperature start) {
        return new PlannedCurve(this, start);
    }
}
