package org.kilnside.desktop.theme;

import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Text broken into lines and made as large as its place allows: nothing is ever clipped. */
public final class FittedText {
    private FittedText() {}

    /**
     * Draws a text from the place's left edge, in the middle of its height.
     *
     * @param largest the size not to go beyond, in points
     */
    public static void draw(Graphics2D g, String text, Font font, double largest, Rectangle2D place) {
        if (text.isEmpty() || place.getWidth() < 1 || place.getHeight() < 1) {
            return;
        }
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        double low = 1;
        double high = largest;
        for (int i = 0; i < 12; i++) {
            double middle = (low + high) / 2;
            if (fits(g, text, font.deriveFont((float) middle), place)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        Font fitted = font.deriveFont((float) (fits(g, text, font.deriveFont((float) largest), place) ? largest : low));
        g.setFont(fitted);
        FontMetrics metrics = g.getFontMetrics();
        List<String> lines = lines(text, metrics, place.getWidth());
        double y = place.getCenterY() - lines.size() * metrics.getHeight() / 2.0 + metrics.getAscent();
        for (String line : lines) {
            g.drawString(line, (float) place.getX(), (float) y);
            y += metrics.getHeight();
        }
    }

    private static boolean fits(Graphics2D g, String text, Font font, Rectangle2D place) {
        FontMetrics metrics = g.getFontMetrics(font);
        List<String> lines = lines(text, metrics, place.getWidth());
        return lines.size() * metrics.getHeight() <= place.getHeight()
                && lines.stream().allMatch(line -> metrics.stringWidth(line) <= place.getWidth());
    }

    /** Broken between words; a number stays with its unit. */
    public static List<String> lines(String text, FontMetrics metrics, double width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        String together = text.replace(" °", "\u00a0°").replaceAll("(\\d) (min|s|h|u)\\b", "$1\u00a0$2");
        for (String word : together.split(" ", -1)) {
            String longer = line.length() == 0 ? word : line + " " + word;
            if (line.length() > 0 && metrics.stringWidth(longer) > width) {
                lines.add(line.toString());
                line = new StringBuilder(word);
            } else {
                line = new StringBuilder(longer);
            }
        }
        lines.add(line.toString());
        return lines;
    }
}
