package org.kilnside.virtualkiln;

import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.virtualkiln.Disturbance.Happening;

/** What can happen in mid-firing, by name. */
public final class Happenings {
    private Happenings() {}

    // ---- hands

    /** The bung is pulled or put back: 0 = in … 1 = out. */
    public static Happening bung(double open) {
        return firing -> firing.kiln().openBung(open);
    }

    /** The lid is propped up by a gap, m; 0 = closed again. */
    public static Happening lid(double gapM) {
        return firing -> firing.kiln().propLid(gapM);
    }

    /** A vent's fan is switched on, kg/s of air, or off with 0. */
    public static Happening vent(double kilogramsPerSecond) {
        return firing -> firing.kiln().runVent(kilogramsPerSecond);
    }

    // ---- elements, relays, mains

    /** A ring's wire, relay or phase is lost, top = 0. */
    public static Happening ringLost(int ring) {
        return firing -> firing.kiln().setRing(ring, false);
    }

    public static Happening ringBack(int ring) {
        return firing -> firing.kiln().setRing(ring, true);
    }

    /** All elements are broken or their fuse has blown: the controller goes on asking. */
    public static Happening allRingsLost() {
        return firing -> {
            for (int i = 0; i < firing.kiln().levels(); i++) {
                firing.kiln().setRing(i, false);
            }
        };
    }

    /** One ring's relay welds and heats for ever. */
    public static Happening relayWelds(int ring) {
        return firing -> firing.kiln().weldRelay(ring, true);
    }

    /** The one relay (contactor) behind all rings welds. */
    public static Happening allRelaysWeld() {
        return firing -> {
            for (int i = 0; i < firing.kiln().levels(); i++) {
                firing.kiln().weldRelay(i, true);
            }
        };
    }

    /** The kiln's supply goes, the controller's does not: it goes on asking for heat. */
    public static Happening kilnPowerCut() {
        return firing -> firing.kiln().setPowered(false);
    }

    public static Happening kilnPowerBack() {
        return firing -> firing.kiln().setPowered(true);
    }

    /** The power of kiln and controller goes: no more readings. */
    public static Happening powerCut() {
        return firing -> {
            firing.kiln().setPowered(false);
            firing.powerController(false);
        };
    }

    public static Happening powerBack() {
        return firing -> {
            firing.kiln().setPowered(true);
            firing.powerController(true);
        };
    }

    /** The controller restarts within a moment; the kiln does not notice. */
    public static Happening controllerRestarts() {
        return firing -> {
            firing.powerController(false);
            firing.powerController(true);
        };
    }

    // ---- the guiding sensor

    /** It slips out of the chamber into the wall: 1 = to the shell. */
    public static Happening sensorSlips(double share) {
        return firing -> firing.sensor().slip(share);
    }

    /** Its wires touch on the way out, unnoticed: it reads the place where they do; 1 = at the terminals. */
    public static Happening sensorShorted(double share) {
        return firing -> firing.sensor().shortWires(share);
    }

    /** The amplifier reports a fault. */
    public static Happening sensorFault(SensorFault fault) {
        return firing -> firing.sensor().report(fault);
    }

    /** The circuit opens and the amplifier does not notice. */
    public static Happening sensorOpensUnnoticed() {
        return firing -> firing.sensor().openUnnoticed(true);
    }

    /** The amplifier goes on giving its last code. */
    public static Happening sensorFreezes() {
        return firing -> firing.sensor().freeze(true);
    }

    public static Happening leadsReversed() {
        return firing -> firing.sensor().reverseLeads(true);
    }

    /** Its wires are of another type than its amplifier takes them for, such as S on a K input: far low. */
    public static Happening wrongWire(ThermocoupleType type) {
        return firing -> firing.sensor().wire(type);
    }

    /** It reads wrong from now on by an offset, °C, and a share of the temperature. */
    public static Happening sensorDrifts(double offsetC, double gain) {
        return firing -> firing.sensor().drift(offsetC, gain);
    }

    /** Its noise changes: standard deviation, °C, and single wrong readings an hour. */
    public static Happening sensorNoise(double noiseC, double spikesPerHour) {
        return firing -> firing.sensor().noise(noiseC, spikesPerHour);
    }

    /** All that is wrong with it is put right. */
    public static Happening sensorMended() {
        return firing -> firing.sensor().mend();
    }

    /** The controller's box gets hotter than it would by itself, K: something stands against it. */
    public static Happening boxHeats(double kelvin) {
        return firing -> firing.heatBox(kelvin);
    }

    // ---- the program

    /** Somebody or something ends the program early. */
    public static Happening programEnds() {
        return firing -> firing.controller().end();
    }

    /** Another program is started from its beginning. */
    public static Happening otherProgram(Schedule program) {
        return firing -> firing.controller().choose(program);
    }
}
