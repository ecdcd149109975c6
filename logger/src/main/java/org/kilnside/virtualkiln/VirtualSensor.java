package org.kilnside.virtualkiln;

import java.util.OptionalInt;
import java.util.Random;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.ChipModel;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ReferenceFunction;
import org.kilnside.sensor.SensorFault;

/**
 * A thermocouple that lags, drifts, slips and fails, and the codes its amplifier gives for it.
 *
 * <p>The sheath takes heat by radiation from ware, wall and elements and by convection from the air beside it; the
 * junction follows the sheath. With the lid propped, cold air falls past the sensor first, so it reads air long before
 * the ware has cooled.
 */
public final class VirtualSensor {
    /** What the sheath sees: ware, hot face, a little of the ring beside it. An estimate. */
    private static final double SEES_WARE = 0.45;

    private static final double SEES_FACE = 0.47;
    private static final double SEES_RING = 0.08;
    private static final double EMISSIVITY = 0.8;
    /** Convection on a thin rod, W/(m² K), with the lid shut. */
    private static final double CONVECTION = 9;
    /** The same in the draught of a lid wide open, on top. */
    private static final double DRAUGHT_CONVECTION = 40;
    /** A gap from which on the air beside the sensor is mostly the room's, m. */
    private static final double OPEN_GAP_M = 0.03;

    private static final double BEAD_HEAT_CAPACITY_JM2K = 300;
    private static final int SHEATH = 0;
    private static final int BEAD = 1;

    private final SensorSpec spec;
    private final ChipModel chip;
    private final ReferenceFunction function;
    private final Random random;
    private final ThermalNetwork body = new ThermalNetwork(2);
    private final double coldestC;
    private final double hottestC;

    private double offsetC;
    private double gain;
    private double noiseC;
    private double spikesPerHour;
    private double slipped;
    private double shortedShare;
    private boolean reversed;
    private boolean frozen;
    private int faultBits;
    private boolean silentOpen;
    private RawSignal last = new RawSignal(OptionalInt.empty(), OptionalInt.empty(), 0);

    VirtualSensor(SensorSpec spec, double startC, long seed) {
        this.spec = spec;
        chip = ChipModel.of(spec.probe());
        function = ReferenceFunction.of(spec.probe().type());
        coldestC = function.lowest().celsius() + 0.01;
        hottestC = function.highest().celsius() - 0.01;
        random = new Random(seed);
        body.setTemperatureC(SHEATH, startC);
        body.setTemperatureC(BEAD, startC);
        mend();
    }

    // ---- what goes wrong with it

    /** As it was built: everything that went wrong is put right. */
    public void mend() {
        offsetC = spec.offsetC();
        gain = spec.gain();
        noiseC = spec.noiseC();
        spikesPerHour = spec.spikesPerHour();
        slipped = 0;
        shortedShare = 0;
        reversed = false;
        frozen = false;
        faultBits = 0;
        silentOpen = false;
    }

    /** Slips out of the chamber into the wall: 0 = in place, 1 = at the shell. */
    public void slip(double share) {
        slipped = share;
    }

    /** Its wires touch on the way out: it reads the temperature of that place; 0 = at the tip, 1 = at the terminals. */
    public void shortWires(double share) {
        shortedShare = share;
    }

    public void drift(double newOffsetC, double newGain) {
        offsetC = newOffsetC;
        gain = newGain;
    }

    public void noise(double newNoiseC, double newSpikesPerHour) {
        noiseC = newNoiseC;
        spikesPerHour = newSpikesPerHour;
    }

    public void reverseLeads(boolean leadsReversed) {
        reversed = leadsReversed;
    }

    /** The amplifier goes on giving its last code. */
    public void freeze(boolean isFrozen) {
        frozen = isFrozen;
    }

    /** The amplifier reports a fault. */
    public void report(SensorFault fault) {
        faultBits |= fault.bit();
    }

    /** The circuit is open but the amplifier does not say so: its input floats and the code wanders near the terminals. */
    public void openUnnoticed(boolean isOpen) {
        silentOpen = isOpen;
    }

    // ---- time

    void step(double seconds, VirtualKiln kiln) {
        int level = Math.min(spec.level(), kiln.levels() - 1);
        double open = Math.min(1, kiln.lidGapM() / OPEN_GAP_M);
        double airC = kiln.airC() - 0.8 * open * (kiln.airC() - kiln.roomC());
        double convection = CONVECTION + open * (DRAUGHT_CONVECTION - CONVECTION);
        double wareC = kiln.outerWareC(level);
        double faceC = kiln.faceC();
        double ringC = kiln.elementC(level);
        if (slipped > 0) {
            double wallC = kiln.shellC() + (1 - slipped) * (faceC - kiln.shellC());
            double in = Math.max(0, 1 - 3 * slipped);
            wareC = wallC + in * (wareC - wallC);
            ringC = wallC + in * (ringC - wallC);
            airC = wallC + in * (airC - wallC);
            faceC = wallC + in * (faceC - wallC);
        }
        stepBody(body, seconds, spec, convection, airC, new double[] {SEES_WARE, SEES_FACE, SEES_RING}, new double[] {
            wareC, faceC, ringC
        });
    }

    /**
     * A rod in surroundings, per m² of its surface: the same lines serve the handbook's thermocouple junctions.
     *
     * @param sees shares of the surface that see each radiating temperature
     */
    private static void stepBody(
            ThermalNetwork body,
            double seconds,
            SensorSpec spec,
            double convectionWM2K,
            double airC,
            double[] sees,
            double[] seenC) {
        body.begin();
        body.holds(SHEATH, spec.sheathHeatCapacityJM2K(), seconds);
        body.surroundings(SHEATH, convectionWM2K, airC);
        for (int i = 0; i < sees.length; i++) {
            double radiation = EMISSIVITY * sees[i] * Radiation.coefficient(body.temperatureC(SHEATH), seenC[i]);
            body.surroundings(SHEATH, radiation, seenC[i]);
        }
        body.holds(BEAD, BEAD_HEAT_CAPACITY_JM2K, seconds);
        body.exchange(SHEATH, BEAD, BEAD_HEAT_CAPACITY_JM2K / spec.beadLagS());
        body.solve();
    }

    /** °C at the junction, whatever the amplifier makes of it. */
    public double tipC() {
        return body.temperatureC(BEAD);
    }

    /**
     * What the amplifier says now.
     *
     * @param terminalsC °C of its own terminals
     * @param seconds since the last time, for the odds of a spike
     */
    RawSignal signal(double terminalsC, double seconds) {
        double noise = noiseC * random.nextGaussian();
        double spike = random.nextDouble();
        double spikeC = (random.nextBoolean() ? 1 : -1) * (60 + 340 * random.nextDouble());
        if (frozen) {
            return last;
        }
        double shortC = tipC() + shortedShare * (terminalsC - tipC());
        double shownTipC = shortC * (1 + gain) + offsetC + noise;
        if (silentOpen) {
            shownTipC = terminalsC + 3 * noise;
        }
        if (spike < spikesPerHour * seconds / 3600) {
            shownTipC += spikeC;
        }
        last = reversed ? reversedSignal(shownTipC, terminalsC) : chip.signal(tip(shownTipC), at(terminalsC));
        if (faultBits != 0) {
            // With its input open or shorted the chip's number means nothing; they give zero or full scale.
            last = new RawSignal(OptionalInt.of(0), last.coldJunction(), faultBits);
        }
        return last;
    }

    /** The voltage has the other sign; a chip that linearises meets it on the cold branch of its table. */
    private RawSignal reversedSignal(double tipC, double terminalsC) {
        Amplifier amplifier = spec.probe().amplifier();
        double terminalsMv = function.emfMv(terminalsC);
        double voltageMv = terminalsMv - function.emfMv(tip(tipC).celsius());
        RawSignal upright = chip.signal(at(terminalsC), at(terminalsC));
        if (amplifier.linearises()) {
            double emfMv = Math.max(voltageMv + terminalsMv, function.lowestInvertibleMv());
            double shownC = Math.max(amplifier.lowestC(), function.temperatureC(emfMv));
            return chip.signal(Temperature.ofCelsius(shownC), at(terminalsC));
        }
        double shownC = voltageMv / amplifier.nominalMvPerK(spec.probe().type()).orElseThrow() + terminalsC;
        double heldC = Math.max(amplifier.lowestC(), Math.min(amplifier.highestC(), shownC));
        int code = (int) StrictMath.rint(heldC / amplifier.thermocoupleStepC());
        return new RawSignal(OptionalInt.of(code), upright.coldJunction(), 0);
    }

    private Temperature tip(double temperatureC) {
        return Temperature.ofCelsius(Math.max(coldestC, Math.min(hottestC, temperatureC)));
    }

    private static Temperature at(double temperatureC) {
        return Temperature.ofCelsius(temperatureC);
    }
}
