package org.kilnside.virtualkiln;

import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.ThermocoupleType;

/**
 * A thermocouple in a kiln and the amplifier it goes to.
 *
 * @param probe type and amplifier
 * @param level the level of ware it stands at, top = 0
 * @param sheathHeatCapacityJM2K heat held by wire or sheath per m² of its surface: 1500 thin wire … 4000 ceramic tube
 * @param beadLagS time constant of the junction inside the sheath, s
 * @param noiseC standard deviation of one reading, °C
 * @param offsetC what it reads too high at any temperature, °C
 * @param gain what it reads too high per °C; −0.01 = ten degrees low at 1000 °C
 * @param spikesPerHour single wrong readings from relay noise
 */
public record SensorSpec(
        Probe probe,
        int level,
        double sheathHeatCapacityJM2K,
        double beadLagS,
        double noiseC,
        double offsetC,
        double gain,
        double spikesPerHour) {
    public SensorSpec {
        if (level < 0 || !(sheathHeatCapacityJM2K > 0) || !(beadLagS > 0) || !(noiseC >= 0) || !(spikesPerHour >= 0)) {
            throw new IllegalArgumentException(
                    "a sensor has a level from 0 up, a heat capacity and a lag above 0, and noise not below 0");
        }
    }

    /** A sound type K in a thin sheath at the middle of the kiln. */
    public static SensorSpec typeK(Amplifier amplifier) {
        return new SensorSpec(new Probe(ThermocoupleType.K, amplifier), 1, 1800, 4, 0.2, 0, 0, 0);
    }

    public SensorSpec with(Probe otherProbe) {
        return new SensorSpec(
                otherProbe, level, sheathHeatCapacityJM2K, beadLagS, noiseC, offsetC, gain, spikesPerHour);
    }

    public SensorSpec atLevel(int otherLevel) {
        return new SensorSpec(
                probe, otherLevel, sheathHeatCapacityJM2K, beadLagS, noiseC, offsetC, gain, spikesPerHour);
    }

    public SensorSpec withError(double otherOffsetC, double otherGain) {
        return new SensorSpec(
                probe, level, sheathHeatCapacityJM2K, beadLagS, noiseC, otherOffsetC, otherGain, spikesPerHour);
    }

    public SensorSpec withNoise(double otherNoiseC, double otherSpikesPerHour) {
        return new SensorSpec(
                probe, level, sheathHeatCapacityJM2K, beadLagS, otherNoiseC, offsetC, gain, otherSpikesPerHour);
    }

    public SensorSpec withLag(double otherSheathHeatCapacityJM2K, double otherBeadLagS) {
        return new SensorSpec(
                probe, level, otherSheathHeatCapacityJM2K, otherBeadLagS, noiseC, offsetC, gain, spikesPerHour);
    }
}
