package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

/** The inked line beside the one Java's own renderer strokes through every reading: independent. */
class InkLayerTest {
    private static final int WIDTH = 700;
    private static final int HEIGHT = 400;
    private static final Rectangle2D AREA = new Rectangle2D.Double(0, 0, WIDTH, HEIGHT);
    private static final TimeSpan SPAN = new TimeSpan(0, 7_000_000);
    private static final ChartScale SCALE = new ChartScale(0, WIDTH / 7_000_000.0, 0, 400, 0.4);

    private final InkLayer layer = new InkLayer();
    private final PenTrack track = new PenTrack();

    private static Trace curve(double noiseK, int everyMs) {
        Random random = new Random(11);
        Trace.Builder curve = new Trace.Builder();
        for (long ms = 0; ms <= 7_000_000; ms += everyMs) {
            double share = ms / 7_000_000.0;
            curve.add(ms, 100 + 800 * Math.sin(share * 3.1) + noiseK * random.nextGaussian());
        }
        return curve.view();
    }

    private static BufferedImage paper() {
        return new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
    }

    private BufferedImage inked(Trace curve, AffineTransform transform, double on, double off) {
        BufferedImage image = paper();
        Graphics2D g = image.createGraphics();
        g.setTransform(transform);
        layer.begin(AREA, transform);
        track.follow(
                curve, SPAN, Long.MAX_VALUE, layer.scale(SCALE, transform), layer.columns(), transform.getScaleX());
        layer.ink(track, Color.WHITE, on, off);
        layer.paint(g);
        g.dispose();
        return image;
    }

    private static BufferedImage stroked(Trace curve, AffineTransform transform) {
        BufferedImage image = paper();
        Graphics2D g = image.createGraphics();
        g.setTransform(transform);
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        Path2D path = new Path2D.Double();
        for (int i = 0; i < curve.size(); i++) {
            double x = SCALE.x(curve.elapsedMs(i));
            double y = SCALE.y(curve.temperatureC(i));
            if (i == 0) {
                path.moveTo(x, y);
            } else {
                path.lineTo(x, y);
            }
        }
        g.setPaint(Color.WHITE);
        g.setStroke(new BasicStroke(2, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(path);
        g.dispose();
        return image;
    }

    private static double ink(BufferedImage image) {
        double sum = 0;
        for (int x = 0; x < WIDTH; x++) {
            for (int y = 0; y < HEIGHT; y++) {
                sum += (image.getRGB(x, y) & 255) / 255.0;
            }
        }
        return sum;
    }

    @Test
    void theLineIsTheOneJavaStrokesSmoothOrNoisyAtAnyScale() {
        AffineTransform half = AffineTransform.getTranslateInstance(20.25, 10.5);
        half.scale(0.5, 0.5);
        for (AffineTransform transform : new AffineTransform[] {new AffineTransform(), half}) {
            for (double noiseK : new double[] {0, 1, 6}) {
                for (int everyMs : new int[] {100_000, 2000, 500}) {
                    Trace curve = curve(noiseK, everyMs);
                    BufferedImage ours = inked(curve, transform, 1, 0);
                    BufferedImage theirs = stroked(curve, transform);
                    double apart = 0;
                    int whole = 0;
                    for (int x = 0; x < WIDTH; x++) {
                        for (int y = 0; y < HEIGHT; y++) {
                            int a = ours.getRGB(x, y) & 255;
                            int b = theirs.getRGB(x, y) & 255;
                            apart += Math.abs(a - b) / 255.0;
                            whole += a > 230 && b < 25 || b > 230 && a < 25 ? 1 : 0;
                        }
                    }
                    String which = "noise " + noiseK + " K, every " + everyMs + " ms, " + transform;
                    // A line one dot wide is a little thicker than it should be: strips are a quarter of a dot.
                    assertThat(apart / ink(theirs)).as(which).isLessThan(transform == half ? 0.15 : 0.08);
                    assertThat(whole).as(which).isZero();
                }
            }
        }
    }

    @Test
    void aBrokenLineHasItsShareOfTheInk() {
        Trace curve = curve(0, 2000);
        double share =
                ink(inked(curve, new AffineTransform(), 9, 3.5)) / ink(inked(curve, new AffineTransform(), 1, 0));
        assertThat(share).isBetween(0.66, 0.8);
    }

    @Test
    void oneColourLiesOverAnotherAsJavaLaysIt() {
        BufferedImage ours = paper();
        Trace curve = curve(2, 2000);
        layer.begin(AREA, new AffineTransform());
        track.follow(curve, SPAN, Long.MAX_VALUE, SCALE, WIDTH, 1);
        Color glow = new Color(200, 40, 10, 70);
        layer.below(track, glow);
        layer.below(track, glow);
        Graphics2D g = ours.createGraphics();
        g.setPaint(Color.BLUE);
        g.fill(AREA);
        layer.paint(g);
        g.dispose();
        BufferedImage theirs = paper();
        Graphics2D java = theirs.createGraphics();
        java.setPaint(Color.BLUE);
        java.fill(AREA);
        java.setPaint(glow);
        java.fill(AREA);
        java.fill(AREA);
        java.dispose();
        Color found = new Color(ours.getRGB(WIDTH / 2, HEIGHT - 10));
        Color wanted = new Color(theirs.getRGB(WIDTH / 2, HEIGHT - 10));
        assertThat(Math.abs(found.getRed() - wanted.getRed())).isLessThan(3);
        assertThat(Math.abs(found.getGreen() - wanted.getGreen())).isLessThan(3);
        assertThat(Math.abs(found.getBlue() - wanted.getBlue())).isLessThan(3);
    }
}
