package org.kilnside.chart;

import java.awt.Graphics2D;
import java.text.DecimalFormat;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.axis.TickUnits;

/** Degrees of the person's unit at round steps; few marks, as a wall of numbers is not read. */
final class DegreeAxis extends NumberAxis {
    private static final long serialVersionUID = 1L;
    private static final int[] STEPS = {1, 2, 5, 10, 20, 50, 100, 200, 500};

    DegreeAxis() {
        setAxisLineVisible(false);
        setTickMarksVisible(false);
        setAutoRangeIncludesZero(false);
        TickUnits steps = new TickUnits();
        for (int step : STEPS) {
            steps.add(new NumberTickUnit(step, new DecimalFormat("0")));
        }
        setStandardTickUnits(steps);
    }

    @Override
    protected double estimateMaximumTickLabelHeight(Graphics2D g2) {
        return super.estimateMaximumTickLabelHeight(g2) * 1.6;
    }
}
