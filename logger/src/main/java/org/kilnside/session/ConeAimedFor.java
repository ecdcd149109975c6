package org.kilnside.session;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;

/**
 * What a plan is meant to give the ware, and how far a firing is beyond it while it still heats: a kiln that stalls under its
 * top, or a controller that waits for it, gives cone after cone at a harmless number. Confined to the session's thread.
 */
final class ConeAimedFor {
    /** A kiln this far below its highest has been left to cool, K. */
    private static final double STILL_HEATS_K = 5;

    private static final Temperature ROOM = Temperature.ofCelsius(20);

    private final Optional<Schedule> plan;
    private final Optional<Cone> aim;
    private Optional<ConeTable> table = Optional.empty();
    private Optional<ConePosition> meant = Optional.empty();
    private boolean told;

    ConeAimedFor(Optional<Schedule> plan) {
        this.plan = plan;
        this.aim = plan.flatMap(Schedule::aimsFor).flatMap(Cone::find);
    }

    /** A new firing has begun. */
    void begin() {
        told = false;
    }

    /** Whether the cone aimed for is down; true once. */
    boolean isNewlyDown(WareWatch ware) {
        boolean news = !told && aim.filter(ware::isDown).isPresent();
        told |= news;
        return news;
    }

    /** How many cones the ware has had beyond what the plan means it to; empty where it has not, or heats no more. */
    OptionalDouble beyond(double celsius, WareWatch ware) {
        Optional<ConeReached> soFar = ware.soFar();
        if (soFar.isEmpty() || celsius < soFar.get().peak().celsius() - STILL_HEATS_K) {
            return OptionalDouble.empty();
        }
        OptionalDouble cones = meant(ware)
                .map(position -> position.stepsTo(soFar.get().cone()))
                .orElse(OptionalDouble.empty());
        return cones.stream().filter(each -> each > 0).findFirst();
    }

    /** The cone it aims for, or what it comes to at the end of its top where that is more: that much is meant. */
    private Optional<ConePosition> meant(WareWatch ware) {
        if (table.isEmpty() || !table.get().equals(ware.table())) {
            table = Optional.of(ware.table());
            Optional<ConePosition> aimed = aim.filter(Cone::isWhole).map(ConePosition::at);
            Optional<ConePosition> comes =
                    plan.map(its -> PlanHeat.of(ware.table(), its.curveFrom(ROOM), ware.uncertainty())
                            .atEndOfTop());
            meant = comes.filter(its -> aimed.isEmpty() || its.compareTo(aimed.get()) > 0)
                    .or(() -> aimed);
        }
        return meant;
    }
}
