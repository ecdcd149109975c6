package org.kilnside.desktop.theme;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.util.Map;
import java.util.TreeSet;
import javax.swing.UIDefaults;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Contrasts of both looks by the formula of WCAG 2.1 (relative luminance, sRGB): published. */
public class ContrastTest {
    /** Words on their grounds. */
    private static final String[][] WORDS = {
        {"Kilnside.text", "Kilnside.ground"},
        {"Kilnside.text", "Kilnside.card"},
        {"Kilnside.quiet", "Kilnside.ground"},
        {"Kilnside.quiet", "Kilnside.card"},
        {"Kilnside.quiet", "Button.background"},
        {"Kilnside.quiet", "Kilnside.key"},
        {"Kilnside.text", "Kilnside.key"},
        {"Kilnside.ember", "Kilnside.key"},
        {"Kilnside.ember", "Kilnside.ground"},
        {"Kilnside.ember", "Kilnside.card"},
        {"Kilnside.alarmText", "Kilnside.alarmGround"},
        {"Kilnside.lookText", "Kilnside.lookGround"},
        {"Kilnside.pretendText", "Kilnside.pretendGround"},
        {"Kilnside.pretendText", "Kilnside.pretendStripe"},
        {"Kilnside.chart.text", "Kilnside.chart.surface"},
        {"Kilnside.chart.text", "Kilnside.chart.past"},
        {"Kilnside.chart.text", "Kilnside.chart.future"},
        {"Kilnside.chart.mark", "Kilnside.chart.past"},
        {"Kilnside.chart.mark", "Kilnside.chart.future"},
        {"Kilnside.chart.now", "Kilnside.chart.future"},
        {"Button.foreground", "Button.background"},
        {"Button.default.foreground", "Button.default.background"},
        {"TextField.foreground", "TextField.background"},
        {"Label.foreground", "Panel.background"},
        {"ToolTip.foreground", "ToolTip.background"},
    };

    /** Lines that carry meaning: WCAG asks 3 of them, we ask what we ask of words. */
    private static final String[][] LINES = {
        {"Kilnside.chart.curve", "Kilnside.chart.past"},
        {"Kilnside.chart.plan", "Kilnside.chart.past"},
        {"Kilnside.chart.plan", "Kilnside.chart.future"},
        {"Kilnside.chart.line1", "Kilnside.chart.past"},
        {"Kilnside.chart.line2", "Kilnside.chart.past"},
        {"Kilnside.chart.line3", "Kilnside.chart.past"},
        {"Kilnside.chart.line4", "Kilnside.chart.past"},
        {"Kilnside.chart.line5", "Kilnside.chart.past"},
    };

    @ParameterizedTest
    @EnumSource(Theme.class)
    void everyWordStandsOutFromItsGround(Theme theme) {
        UIDefaults look = theme.look().getDefaults();
        for (String[] pair : WORDS) {
            assertThat(contrast(look.getColor(pair[0]), look.getColor(pair[1])))
                    .as(theme + ": " + pair[0] + " on " + pair[1])
                    .isGreaterThanOrEqualTo(4.5);
        }
    }

    @ParameterizedTest
    @EnumSource(Theme.class)
    void everyLineOfTheChartStandsOutFromItsGround(Theme theme) {
        UIDefaults look = theme.look().getDefaults();
        for (String[] pair : LINES) {
            assertThat(contrast(look.getColor(pair[0]), look.getColor(pair[1])))
                    .as(theme + ": " + pair[0] + " on " + pair[1])
                    .isGreaterThanOrEqualTo(4.5);
        }
    }

    @Test
    void bothLooksHaveTheSameColours() {
        assertThat(keys(Theme.LIGHT)).isEqualTo(keys(Theme.DARK)).hasSizeGreaterThan(25);
    }

    @Test
    void theFormulaGivesThePublishedExtremes() {
        assertThat(contrast(Color.BLACK, Color.WHITE)).isEqualTo(21.0);
        assertThat(contrast(Color.RED, Color.RED)).isEqualTo(1.0);
    }

    private static TreeSet<String> keys(Theme theme) {
        TreeSet<String> keys = new TreeSet<>();
        for (Map.Entry<Object, Object> entry : theme.look().getDefaults().entrySet()) {
            if (entry.getKey().toString().startsWith("Kilnside.")) {
                keys.add(entry.getKey().toString());
            }
        }
        return keys;
    }

    public static double contrast(Color one, Color other) {
        double a = luminance(one) + 0.05;
        double b = luminance(other) + 0.05;
        return Math.max(a, b) / Math.min(a, b);
    }

    private static double luminance(Color colour) {
        return 0.2126 * linear(colour.getRed())
                + 0.7152 * linear(colour.getGreen())
                + 0.0722 * linear(colour.getBlue());
    }

    private static double linear(int channel) {
        double share = channel / 255.0;
        return share <= 0.03928 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
    }
}
