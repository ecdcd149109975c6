/**
 * Curve and plan as a drawing, for the screen as for paper: decimation that loses no peak, axes with their units, what
 * lies under the pointer.
 *
 * <p>Knows: the craft rooms, {@code wording}, and the drawing surface. Must not know: widgets, look and feel (colours
 * and fonts come as a {@link org.kilnside.chart.ChartLook}). A {@link org.kilnside.chart.FiringChart} is confined to
 * the thread that draws it, everything else is immutable. Truth: the firing's curve.
 */
package org.kilnside.chart;
