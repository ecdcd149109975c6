package org.kilnside.book;

import java.time.Instant;
import java.util.OptionalDouble;
import org.kilnside.sensor.Calibration;

/**
 * What a comparison said of a sensor.
 *
 * @param number its number in the book
 * @param sensor the sensor's number
 * @param readingC what the sensor read, °C; empty for a correction that is the same everywhere
 * @param correctionK what had to be added to have the truth
 * @param halfWidthK how far the correction may be off, above 0
 * @param by what it was compared with
 * @param foundAt when
 */
public record ComparedPoint(
        long number,
        long sensor,
        OptionalDouble readingC,
        double correctionK,
        double halfWidthK,
        Calibration.By by,
        Instant foundAt) {
    public ComparedPoint {
        // Says in a sentence what no point can be.
        new Calibration.Point(readingC.orElse(0), correctionK, halfWidthK, by);
    }

    Calibration.Point point() {
        return new Calibration.Point(readingC.orElse(0), correctionK, halfWidthK, by);
    }
}
