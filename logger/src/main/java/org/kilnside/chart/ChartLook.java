package org.kilnside.chart;

import java.awt.Color;
import java.awt.Font;

/**
 * The colours and the type of a drawing. They come from outside: a window takes them from its theme, paper has its own.
 *
 * @param surface behind everything
 * @param past behind what has happened
 * @param future behind what is to come
 * @param grid the lines of the axes' marks
 * @param text axes' words and numbers
 * @param curve what the kiln did
 * @param glow below the curve, translucent
 * @param plan what the plan asks; dashed, so that it differs by more than its colour
 * @param now the line at this moment
 * @param mark lines a person asked for, and the mark of the peak
 * @param font for the axes; the drawing measures its margins from it
 */
public record ChartLook(
        Color surface,
        Color past,
        Color future,
        Color grid,
        Color text,
        Color curve,
        Color glow,
        Color plan,
        Color now,
        Color mark,
        Font font) {}
