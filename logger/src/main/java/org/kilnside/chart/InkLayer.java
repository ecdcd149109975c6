package org.kilnside.chart;

import java.awt.AlphaComposite;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.util.Arrays;

/**
 * The curves of a drawing as dots of the device, to be laid over the axes in one go. What it holds stays until it is
 * begun anew, so that a drawing of which only a mark has changed inks no curve. Confined to the thread that draws; its
 * image is used again.
 */
final class InkLayer {
    /** How finely the covered share of a dot is told apart: as finely as its colours can be. */
    private static final int SHARES = 255;

    private BufferedImage image = new BufferedImage(1, 1, BufferedImage.TYPE_INT_ARGB_PRE);
    private int[] dots = new int[1];
    private int width = 1;
    private int height = 1;
    private int left;
    private int top;

    /** How much of each dot of a column is covered: what begins and ends at it, and what it has alone. */
    private float[] steps = new float[3];

    private float[] alone = new float[3];

    /** Clears the layer and lays it over an area of a drawing that stands upright on its device. */
    void begin(Rectangle2D area, AffineTransform toDevice) {
        double x = area.getX() * toDevice.getScaleX() + toDevice.getTranslateX();
        double y = area.getY() * toDevice.getScaleY() + toDevice.getTranslateY();
        left = (int) Math.floor(x);
        top = (int) Math.floor(y);
        int columns = Math.max(1, (int) Math.ceil(x + area.getWidth() * toDevice.getScaleX()) - left);
        int rows = Math.max(1, (int) Math.ceil(y + area.getHeight() * toDevice.getScaleY()) - top);
        if (columns != width || rows != height) {
            image = new BufferedImage(columns, rows, BufferedImage.TYPE_INT_ARGB_PRE);
            dots = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
            width = columns;
            height = rows;
            steps = new float[rows + 2];
            alone = new float[rows + 2];
        } else {
            Arrays.fill(dots, 0);
        }
    }

    int columns() {
        return width;
    }

    /** A drawing's scale in this layer's dots. */
    ChartScale scale(ChartScale drawing, AffineTransform toDevice) {
        return drawing.onDevice(toDevice, left, top);
    }

    /** Fills from the middle of the track down to the bottom: its upper edge lies under the line inked afterwards. */
    void below(PenTrack track, Color colour) {
        int source = shades(colour)[SHARES];
        for (int column = 0; column < width; column++) {
            int strip = column * PenTrack.STRIPS + PenTrack.STRIPS / 2;
            if (track.top(strip) > track.bottom(strip)) {
                continue;
            }
            int from = Math.max(0, Math.round((track.top(strip) + track.bottom(strip)) / 2));
            for (int at = from * width + column; at < dots.length; at += width) {
                dots[at] = over(source, dots[at]);
            }
        }
    }

    /** Inks a line that is whole. */
    void ink(PenTrack track, Color colour) {
        ink(track, colour, 1, 0);
    }

    /**
     * Inks a line.
     *
     * @param on how long a dash is, dots
     * @param off how long the pause after it is, dots; 0 = a whole line
     */
    void ink(PenTrack track, Color colour, double on, double off) {
        int[] shades = shades(colour);
        double way = 0;
        float before = Float.NaN;
        for (int column = 0; column < width; column++) {
            int strip = column * PenTrack.STRIPS + PenTrack.STRIPS / 2;
            float middle = (track.top(strip) + track.bottom(strip)) / 2;
            if (off > 0 && !Float.isNaN(middle) && !Float.isNaN(before)) {
                float fall = middle - before;
                way = (way + Math.sqrt(1 + fall * fall)) % (on + off);
            }
            before = middle;
            if (way <= on) {
                column(track, column, shades);
            }
        }
    }

    private void column(PenTrack track, int column, int[] shades) {
        int first = height;
        int last = -1;
        for (int strip = column * PenTrack.STRIPS; strip < (column + 1) * PenTrack.STRIPS; strip++) {
            float from = track.top(strip) > 0 ? track.top(strip) : 0;
            float to = track.bottom(strip) < height ? track.bottom(strip) : height;
            if (to > from) {
                cover(from, to);
                first = Math.min(first, (int) from);
                last = Math.max(last, (int) to);
            }
        }
        float inside = 0;
        for (int row = first; row <= last; row++) {
            inside += steps[row];
            int share = (int) ((inside + alone[row]) * SHARES / PenTrack.STRIPS + 0.5f);
            steps[row] = 0;
            alone[row] = 0;
            if (row < height && share > 0) {
                int at = row * width + column;
                dots[at] = over(shades[Math.min(SHARES, share)], dots[at]);
            }
        }
    }

    private void cover(float from, float to) {
        int first = (int) from;
        int last = (int) to;
        if (first == last) {
            alone[first] += to - from;
            return;
        }
        alone[first] += first + 1 - from;
        steps[first + 1]++;
        steps[last]--;
        alone[last] += to - last;
    }

    /** Lays the layer over the drawing it was begun for. */
    void paint(Graphics2D g) {
        Graphics2D onDevice = (Graphics2D) g.create();
        onDevice.setTransform(new AffineTransform());
        onDevice.setComposite(AlphaComposite.SrcOver);
        onDevice.drawImage(image, left, top, null);
        onDevice.dispose();
    }

    /** A colour as it is for each covered share of a dot, from none to all. */
    private static int[] shades(Color colour) {
        int[] shades = new int[SHARES + 1];
        for (int share = 0; share <= SHARES; share++) {
            shades[share] = premultiplied(colour, (float) share / SHARES);
        }
        return shades;
    }

    private static int premultiplied(Color colour, float share) {
        float alpha = colour.getAlpha() * share;
        int a = Math.round(alpha);
        int r = Math.round(colour.getRed() * alpha / 255);
        int g = Math.round(colour.getGreen() * alpha / 255);
        int b = Math.round(colour.getBlue() * alpha / 255);
        return a << 24 | r << 16 | g << 8 | b;
    }

    private static int over(int source, int under) {
        int left = 255 - (source >>> 24);
        if (left == 0 || under == 0) {
            return source;
        }
        // Two channels at a time; each product fits its sixteen bits.
        int redBlue = (under & 0xff00ff) * left + 0x800080;
        int alphaGreen = (under >>> 8 & 0xff00ff) * left + 0x800080;
        return source
                + (redBlue + (redBlue >>> 8 & 0xff00ff) >>> 8 & 0xff00ff)
                + (alphaGreen + (alphaGreen >>> 8 & 0xff00ff) & 0xff00ff00);
    }
}
