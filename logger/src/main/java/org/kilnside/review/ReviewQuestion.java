package org.kilnside.review;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeSeries;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorUncertainty;

/**
 * A firing to be reviewed, and all that is known about it.
 *
 * @param readings its good readings, corrected for the amplifier and by any calibration known before
 * @param plan what it was meant to do
 * @param wanted the cone the load wants; empty when nobody said
 * @param witness what the witness cones showed, a pack a shelf
 * @param earlier good readings of the kiln's earlier firings, oldest first
 * @param sensor how far its sensor may be off
 * @param table the cones meant
 */
public record ReviewQuestion(
        GoodReadings readings,
        Schedule plan,
        Optional<Cone> wanted,
        List<WitnessPack> witness,
        List<Trace> earlier,
        SensorUncertainty sensor,
        ConeTable table) {
    public ReviewQuestion {
        witness = List.copyOf(witness);
        earlier = List.copyOf(earlier);
    }

    /** A firing against its plan, and nothing else known. */
    public static ReviewQuestion about(GoodReadings readings, Schedule plan) {
        return new ReviewQuestion(
                readings,
                plan,
                Optional.empty(),
                List.of(),
                List.of(),
                SensorUncertainty.UNKNOWN,
                ConeTable.of(ConeSeries.SELF_SUPPORTING));
    }

    public ReviewQuestion withWanted(Optional<Cone> cone) {
        return new ReviewQuestion(readings, plan, cone, witness, earlier, sensor, table);
    }

    public ReviewQuestion withWitness(List<WitnessPack> packs) {
        return new ReviewQuestion(readings, plan, wanted, packs, earlier, sensor, table);
    }

    public ReviewQuestion withEarlier(List<Trace> firings) {
        return new ReviewQuestion(readings, plan, wanted, witness, firings, sensor, table);
    }

    public ReviewQuestion withSensor(SensorUncertainty other) {
        return new ReviewQuestion(readings, plan, wanted, witness, earlier, other, table);
    }

    public ReviewQuestion withTable(ConeTable other) {
        return new ReviewQuestion(readings, plan, wanted, witness, earlier, sensor, other);
    }
}
