package org.kilnside.session;

import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorUncertainty;

/** What the ware of a simulated firing has had by its true temperatures, against what its plan gives as written. */
final class TrueCone {
    private static final ConeTable CONES = ConeTable.of(ConeSeries.SELF_SUPPORTING);

    private final HeatWork work = new HeatWork(CONES);
    private final ConePosition meant;

    TrueCone(Schedule plan) {
        meant = PlanHeat.of(CONES, plan.curveFrom(Temperature.ofCelsius(20)), SensorUncertainty.UNKNOWN)
                .atEndOfTop();
    }

    void add(long elapsedMs, double celsius) {
        work.add(elapsedMs, celsius);
    }

    /** By how many cones the ware has had more than that. */
    double beyond() {
        return work.isEmpty()
                ? 0
                : meant.stepsTo(work.reached(SensorUncertainty.UNKNOWN).cone()).orElse(0);
    }
}
