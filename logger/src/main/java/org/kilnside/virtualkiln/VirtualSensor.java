package org.kilnside.virtualkiln;

import java.util.OptionalInt;
import java.util.Random;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.ChipModel;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.ReferenceFunction;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.ThermocoupleType;

/**
 * A thermocouple that lags, drifts, slips and fails, and the codes its amplifier gives for it.
 *
 * <p>The sheath takes heat by radiation from ware, wall and elements and by convection from the air beside it; the
 * junction follows the sheath. With the lid propped, cold air falls past the sensor first, so it reads air long before
 * the ware has cooled.
 */
public final class VirtualSensor {
    /** What the sheath sees of ware, hot face and the ring beside it: an estimate. */
    private static final double[] SEES = {0.45, 0.47, 0.08};

    private static final double EMISSIVITY = 0.8;
    /** Convection on a thin rod, W/(m² K), with the lid shut. */
    private static final double CONVECTION = 9;
    /** The same in the draught of a lid wide open, on top. */
    private static final double DRAUGHT_CONVECTION = 40;
    /** A gap from which on the air beside the sensor is mostly the room's, m. */
    private static final double OPEN_GAP_M = 0.03;

    private final SensorSpec spec;
    private final ChipModel chip;
    private final ReferenceFunction function;
    private final Random random;
    private final LaggingBody body;
    private final double[] seenC = new double[SEES.length];
    private final double coldestC;
    private final double hottestC;

    private double offsetC;
    private double gain;
    private double noiseC;
    private double spikesPerHour;
    private double slipped;
    private double shortedShare;
    private boolean reversed;
    private ThermocoupleType wire;
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
        body = new LaggingBody(spec.sheathHeatCapacityJM2K(), EMISSIVITY, spec.beadLagS(), startC);
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
        wire = spec.probe().type();
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

    /** Its wires are of another type than its amplifier takes them for. */
    public void wire(ThermocoupleType type) {
        wire = type;
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
        seenC[0] = wareC;
        seenC[1] = faceC;
        seenC[2] = ringC;
        body.step(seconds, convection, airC, SEES, seenC);
    }

    /** °C at the junction, whatever the amplifier makes of it. */
    public double tipC() {
        return body.coreC();
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
        boolean asMeant = !reversed && wire == spec.probe().type();
        last = asMeant ? chip.signal(tip(shownTipC), at(terminalsC)) : voltage(shownTipC, terminalsC);
        if (faultBits != 0) {
            // With its input open or shorted the chip's number means nothing; they give zero or full scale.
            last = new RawSignal(OptionalInt.of(0), last.coldJunction(), faultBits);
        }
        return last;
    }

    /**
     * What the chip makes of a voltage it was not meant for: of the other sign, or of another pair of wires. A chip
     * that linearises meets it on its own table, one that does not divides by its own sensitivity.
     */
    private RawSignal voltage(double tipC, double terminalsC) {
        ReferenceFunction wires = ReferenceFunction.of(wire);
        double heldTipC =
                Math.max(wires.lowest().celsius(), Math.min(wires.highest().celsius(), tipC));
        double voltageMv = (reversed ? -1 : 1) * (wires.emfMv(heldTipC) - wires.emfMv(terminalsC));
        Amplifier amplifier = spec.probe().amplifier();
        if (amplifier.linearises()) {
            double emfMv = voltageMv + function.emfMv(terminalsC);
            double heldMv = Math.max(function.lowestInvertibleMv(), Math.min(function.highestMv(), emfMv));
            double shownC = Math.max(amplifier.lowestC(), function.temperatureC(heldMv));
            return chip.signal(at(shownC), at(terminalsC));
        }
        double shownC = voltageMv / amplifier.nominalMvPerK(spec.probe().type()).orElseThrow() + terminalsC;
        double heldC = Math.max(amplifier.lowestC(), Math.min(amplifier.highestC(), shownC));
        int code = (int) StrictMath.rint(heldC / amplifier.thermocoupleStepC());
        return new RawSignal(
                OptionalInt.of(code),
                chip.signal(at(terminalsC), at(terminalsC)).coldJunction(),
                0);
    }

    private Temperature tip(double temperatureC) {
        return Temperature.ofCelsius(Math.max(coldestC, Math.min(hottestC, temperatureC)));
    }

    private static Temperature at(double temperatureC) {
        return Temperature.ofCelsius(temperatureC);
    }
}
