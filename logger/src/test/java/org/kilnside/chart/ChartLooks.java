package org.kilnside.chart;

import java.awt.Color;
import java.awt.Font;

/** A look for tests, every colour its own so that a pixel tells what drew it. */
public final class ChartLooks {
    public static final ChartLook PLAIN = new ChartLook(
            new Color(0xffffff),
            new Color(0xfefefe),
            new Color(0xf0f8ff),
            new Color(0xe0e0e8),
            new Color(0x000060),
            new Color(0xc04000),
            new Color(0xc0, 0x40, 0, 24),
            new Color(0x007060),
            new Color(0x400080),
            new Color(0x806000),
            new Font(Font.SANS_SERIF, Font.PLAIN, 13));

    private ChartLooks() {}
}
