package org.kilnside.thermal;

import java.util.List;

/**
 * What the plan still wants, laid over what the kiln really did: corners of a curve from now on, joined by straight
 * lines, after which the kiln is left to itself.
 *
 * @param corners rising in time; empty = the output is off from now on
 */
public record PlanAhead(List<Corner> corners) {
    public PlanAhead {
        corners = List.copyOf(corners);
        for (int i = 1; i < corners.size(); i++) {
            if (corners.get(i).elapsedS() < corners.get(i - 1).elapsedS()) {
                throw new IllegalArgumentException("a plan's corners run forward in time, found " + corners.get(i)
                        + " after " + corners.get(i - 1));
            }
        }
    }

    /** One corner: °C wanted at a time on the recording's clock, s. */
    public record Corner(double elapsedS, double temperatureC) {}

    /** When the last of it is over, s; never before now. */
    double endsS(double nowS) {
        return corners.isEmpty()
                ? nowS
                : Math.max(nowS, corners.get(corners.size() - 1).elapsedS());
    }

    /** When the last of a temperature is over by the clock, s; never where it is not wanted any more. */
    double leavesS(double celsius) {
        double leaves = Double.POSITIVE_INFINITY;
        for (Corner corner : corners) {
            leaves = corner.temperatureC() >= celsius - 1 ? corner.elapsedS() : leaves;
        }
        return leaves;
    }

    /** What is wanted at a time; from now to the first corner a straight line from where the kiln is. */
    double wantedC(double seconds, double nowS, double nowC) {
        double beforeS = nowS;
        double beforeC = nowC;
        for (Corner corner : corners) {
            if (seconds <= corner.elapsedS()) {
                double span = corner.elapsedS() - beforeS;
                return span <= 0
                        ? corner.temperatureC()
                        : beforeC + (corner.temperatureC() - beforeC) * (seconds - beforeS) / span;
            }
            beforeS = corner.elapsedS();
            beforeC = corner.temperatureC();
        }
        return beforeC;
    }

    /** The highest temperature still wanted. */
    double topC() {
        return corners.stream().mapToDouble(Corner::temperatureC).max().orElse(Double.NEGATIVE_INFINITY);
    }
}
