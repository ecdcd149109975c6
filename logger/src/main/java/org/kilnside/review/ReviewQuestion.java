package org.kilnside.review;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.SensorUncertainty;

/**
 * A firing to be reviewed, and all that is known about it.
 *
 * @param readings its good readings, corrected for the amplifier and by any calibration known before; set-points beside
 *     them likewise
 * @param plan what it was meant to do
 * @param wanted the cone the load wants; empty when nobody said
 * @param witness what the witness cones showed, a pack a shelf
 * @param earlier good readings of the kiln's earlier firings, oldest first
 * @param offsets what witness cones said of this very sensor in its place in firings before, oldest first
 * @param sensor how far its sensor may be off
 * @param shown the chip whose number the controller shows, and fires by, as it is; empty when its number is the
 *     temperature, or nobody knows
 * @param limit what the kiln may not be taken past, in truth; empty when nobody said
 * @param wareLimit what clay or glaze may not be taken past, in truth; empty when nobody said
 * @param table the cones meant
 */
public record ReviewQuestion(
        GoodReadings readings,
        Schedule plan,
        Optional<Cone> wanted,
        List<WitnessPack> witness,
        List<Trace> earlier,
        List<WitnessOffset> offsets,
        SensorUncertainty sensor,
        Optional<Amplifier> shown,
        Optional<Temperature> limit,
        Optional<Temperature> wareLimit,
        ConeTable table) {
    public ReviewQuestion {
        witness = List.copyOf(witness);
        earlier = List.copyOf(earlier);
        offsets = List.copyOf(offsets);
    }

    /** A firing against its plan, and nothing else known. */
    public static ReviewQuestion about(GoodReadings readings, Schedule plan) {
        return new ReviewQuestion(
                readings,
                plan,
                Optional.empty(),
                List.of(),
                List.of(),
                List.of(),
                SensorUncertainty.UNKNOWN,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                ConeTable.of(ConeSeries.SELF_SUPPORTING));
    }

    public ReviewQuestion withWanted(Optional<Cone> other) {
        return new ReviewQuestion(
                readings, plan, other, witness, earlier, offsets, sensor, shown, limit, wareLimit, table);
    }

    public ReviewQuestion withWitness(List<WitnessPack> other) {
        return new ReviewQuestion(
                readings, plan, wanted, other, earlier, offsets, sensor, shown, limit, wareLimit, table);
    }

    public ReviewQuestion withEarlier(List<Trace> other) {
        return new ReviewQuestion(
                readings, plan, wanted, witness, other, offsets, sensor, shown, limit, wareLimit, table);
    }

    public ReviewQuestion withOffsets(List<WitnessOffset> other) {
        return new ReviewQuestion(
                readings, plan, wanted, witness, earlier, other, sensor, shown, limit, wareLimit, table);
    }

    /** With a sensor; a chip that does not linearise is taken to be shown as it is. */
    public ReviewQuestion withSensor(SensorUncertainty other) {
        Amplifier chip = other.probe().amplifier();
        return new ReviewQuestion(
                readings,
                plan,
                wanted,
                witness,
                earlier,
                offsets,
                other,
                chip.linearises() ? Optional.empty() : Optional.of(chip),
                limit,
                wareLimit,
                table);
    }

    public ReviewQuestion withShown(Optional<Amplifier> other) {
        return new ReviewQuestion(
                readings, plan, wanted, witness, earlier, offsets, sensor, other, limit, wareLimit, table);
    }

    public ReviewQuestion withLimit(Optional<Temperature> other) {
        return new ReviewQuestion(
                readings, plan, wanted, witness, earlier, offsets, sensor, shown, other, wareLimit, table);
    }

    public ReviewQuestion withWareLimit(Optional<Temperature> other) {
        return new ReviewQuestion(
                readings, plan, wanted, witness, earlier, offsets, sensor, shown, limit, other, table);
    }

    public ReviewQuestion withTable(ConeTable other) {
        return new ReviewQuestion(
                readings, plan, wanted, witness, earlier, offsets, sensor, shown, limit, wareLimit, other);
    }
}
