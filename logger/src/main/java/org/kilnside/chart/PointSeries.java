package org.kilnside.chart;

import java.util.List;
import org.jfree.data.DomainOrder;
import org.jfree.data.xy.AbstractXYDataset;
import org.kilnside.quantity.Temperature;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.TemperatureUnit;

/** The points of one line as the chart library reads them, in the unit a person reads. */
final class PointSeries extends AbstractXYDataset {
    private static final long serialVersionUID = 1L;
    private final transient Source source;
    private TemperatureUnit unit = TemperatureUnit.CELSIUS;

    /** Where points come from: ms and °C, NaN for a break. */
    private interface Source {
        int size();

        double timeMs(int index);

        double temperatureC(int index);
    }

    private PointSeries(Source source) {
        this.source = source;
    }

    static PointSeries of(CurvePoints points) {
        return new PointSeries(new Source() {
            @Override
            public int size() {
                return points.size();
            }

            @Override
            public double timeMs(int index) {
                return points.timeMs(index);
            }

            @Override
            public double temperatureC(int index) {
                return points.temperatureC(index);
            }
        });
    }

    static PointSeries of(List<PlanPoint> plan) {
        return new PointSeries(new Source() {
            @Override
            public int size() {
                return plan.size();
            }

            @Override
            public double timeMs(int index) {
                return plan.get(index).elapsedMs();
            }

            @Override
            public double temperatureC(int index) {
                return plan.get(index).temperatureC();
            }
        });
    }

    TemperatureUnit unit() {
        return unit;
    }

    PointSeries in(TemperatureUnit its) {
        unit = its;
        return this;
    }

    @Override
    public DomainOrder getDomainOrder() {
        return DomainOrder.ASCENDING;
    }

    @Override
    public int getSeriesCount() {
        return 1;
    }

    @Override
    public Comparable<?> getSeriesKey(int series) {
        return "line";
    }

    @Override
    public int getItemCount(int series) {
        return source.size();
    }

    @Override
    public double getXValue(int series, int item) {
        return source.timeMs(item);
    }

    @Override
    public double getYValue(int series, int item) {
        double celsius = source.temperatureC(item);
        return Double.isNaN(celsius) || unit == TemperatureUnit.CELSIUS
                ? celsius
                : unit.of(Temperature.ofCelsius(celsius));
    }

    @Override
    public Number getX(int series, int item) {
        return getXValue(series, item);
    }

    @Override
    public Number getY(int series, int item) {
        return getYValue(series, item);
    }
}
