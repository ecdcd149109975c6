package org.kilnside.review;

import java.util.Arrays;

/** A stretch of a curve by its corners: s from its beginning and °C, joined by straight lines. Grows; then only read. */
final class Line {
    private double[] seconds = new double[64];
    private double[] celsius = new double[64];
    private int size;

    Line add(double atS, double atC) {
        if (size == seconds.length) {
            seconds = Arrays.copyOf(seconds, 2 * size);
            celsius = Arrays.copyOf(celsius, 2 * size);
        }
        seconds[size] = atS;
        celsius[size] = atC;
        size++;
        return this;
    }

    int size() {
        return size;
    }

    double seconds(int corner) {
        return seconds[corner];
    }

    double celsius(int corner) {
        return celsius[corner];
    }

    double lengthS() {
        return size == 0 ? 0 : seconds[size - 1] - seconds[0];
    }
}
