package org.kilnside.desktop.theme;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Image;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.stream.Stream;

/** The program's sign: a drum of a kiln with its glow at the spy hole and a curve across it. Drawn, in any size. */
public final class KilnIcon {
    private KilnIcon() {}

    public static List<Image> images() {
        return Stream.of(16, 24, 32, 48, 64, 128).map(KilnIcon::image).toList();
    }

    private static Image image(int size) {
        BufferedImage image = new BufferedImage(size, size, BufferedImage.TYPE_INT_ARGB);
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.scale(size / 32.0, size / 32.0);
        Color brick = Theme.colour("icon.brick");
        g.setPaint(brick);
        g.fill(new RoundRectangle2D.Double(4, 8, 24, 22, 6, 6));
        g.fill(new RoundRectangle2D.Double(2, 3, 28, 5, 4, 4));
        Path2D curve = new Path2D.Double();
        curve.moveTo(6, 26);
        curve.lineTo(15, 14);
        curve.lineTo(19, 14);
        curve.curveTo(21, 22, 24, 25, 26, 26);
        g.setPaint(Theme.colour("icon.curve"));
        g.setStroke(new BasicStroke(2.4f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(curve);
        g.setPaint(Theme.colour("icon.glow"));
        g.fill(new Ellipse2D.Double(22, 11, 4, 4));
        g.dispose();
        return image;
    }
}
