package org.kilnside.outlook;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.thermal.LikelyKilns;

/**
 * What is asked about a plan.
 *
 * @param plan as written; its temperatures are true ones, whatever the controller makes of them
 * @param kiln as its owner describes it
 * @param memory what earlier firings of the kiln taught
 * @param room its temperature, and the kiln's when lit
 * @param loadKg ware and furniture, where weighed; above 0
 * @param ware what it is
 * @param series the cones meant; the kiln's own, unless somebody says otherwise
 * @param sensor what guides: how far it may be off, and which numbers the controller shows
 * @param wanted the cone the load wants; where nobody says, the one the plan aims for
 */
public record OutlookQuestion(
        Schedule plan,
        Kiln kiln,
        KilnMemory memory,
        Temperature room,
        OptionalDouble loadKg,
        Ware ware,
        ConeSeries series,
        SensorInPlace sensor,
        Optional<Cone> wanted) {
    /** A room nobody has measured (common practice). */
    public static final Temperature USUAL_ROOM = Temperature.ofCelsius(15);

    public OutlookQuestion {
        if (loadKg.isPresent() && !(loadKg.getAsDouble() > 0 && loadKg.getAsDouble() < 1e5)) {
            throw new IllegalArgumentException("a load weighs more than nothing, found " + loadKg.getAsDouble());
        }
    }

    /** A plan in a kiln of which nothing but its description is known. */
    public static OutlookQuestion about(Schedule plan, Kiln kiln) {
        return new OutlookQuestion(
                plan,
                kiln,
                KilnMemory.none(Optional.empty()),
                USUAL_ROOM,
                OptionalDouble.empty(),
                Ware.UNKNOWN,
                kiln.series(),
                SensorInPlace.asSaid(Probe.UNKNOWN),
                Optional.empty());
    }

    public OutlookQuestion withPlan(Schedule other) {
        return new OutlookQuestion(other, kiln, memory, room, loadKg, ware, series, sensor, wanted);
    }

    public OutlookQuestion withMemory(KilnMemory other) {
        return new OutlookQuestion(plan, kiln, other, room, loadKg, ware, series, sensor, wanted);
    }

    public OutlookQuestion withRoom(Temperature other) {
        return new OutlookQuestion(plan, kiln, memory, other, loadKg, ware, series, sensor, wanted);
    }

    public OutlookQuestion withLoadKg(OptionalDouble other) {
        return new OutlookQuestion(plan, kiln, memory, room, other, ware, series, sensor, wanted);
    }

    public OutlookQuestion withWare(Ware other) {
        return new OutlookQuestion(plan, kiln, memory, room, loadKg, other, series, sensor, wanted);
    }

    public OutlookQuestion withSensor(SensorInPlace other) {
        return new OutlookQuestion(plan, kiln, memory, room, loadKg, ware, series, other, wanted);
    }

    public OutlookQuestion withSeries(ConeSeries other) {
        return new OutlookQuestion(plan, kiln, memory, room, loadKg, ware, other, sensor, wanted);
    }

    public OutlookQuestion withWanted(Optional<Cone> other) {
        return new OutlookQuestion(plan, kiln, memory, room, loadKg, ware, series, sensor, other);
    }

    /** The kilns this one may be, to be made once and asked about any number of plans. */
    public LikelyKilns kilns() {
        return LikelyKilns.of(kiln, memory, room, loadKg);
    }

    ControllerNumbers numbers() {
        return ControllerNumbers.of(sensor);
    }

    ConeTable table() {
        return ConeTable.of(series);
    }

    /** The cone the load wants, or else the one the plan aims for; empty where neither is said. */
    public Optional<Cone> aim() {
        return wanted.or(() -> plan.aimsFor().flatMap(Cone::find));
    }
}
