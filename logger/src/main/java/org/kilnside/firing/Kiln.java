package org.kilnside.firing;

import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.sensor.Probe;

/**
 * A kiln as a person describes it. What is not known is empty, and nobody guesses it.
 *
 * @param name what the potter calls it
 * @param volume the room inside
 * @param power what the elements take when full on, at the mains voltage they are made for
 * @param wall what the wall is made of
 * @param opening what the potter lifts or opens: decides the word in every text
 * @param isolator where the switch is that takes the mains off, in the potter's words
 * @param tariff what the electricity costs
 * @param limits from the maker's sheet
 * @param thresholds when to crack the lid and when to unload
 * @param sensors the thermocouples the kiln was set up with, the guiding one first; none = as the controller says
 * @param cutOut the independent over-temperature cut-out; empty = nobody has said whether there is one
 * @param alarms from where on something is an alarm, where that is not the usual
 * @param series which kind of cone stands in it: by those its firings are judged
 */
public record Kiln(
        String name,
        Optional<Volume> volume,
        Optional<Power> power,
        Optional<Wall> wall,
        Opening opening,
        Optional<String> isolator,
        Optional<Tariff> tariff,
        Limits limits,
        Thresholds thresholds,
        List<Sensor> sensors,
        Optional<CutOut> cutOut,
        AlarmThresholds alarms,
        ConeSeries series) {
    public Kiln {
        sensors = List.copyOf(sensors);
    }

    /** A kiln whose alarms and cones are as usual, and of whose cut-out nobody has spoken. */
    public Kiln(
            String name,
            Optional<Volume> volume,
            Optional<Power> power,
            Optional<Wall> wall,
            Opening opening,
            Optional<String> isolator,
            Optional<Tariff> tariff,
            Limits limits,
            Thresholds thresholds,
            List<Sensor> sensors) {
        this(
                name,
                volume,
                power,
                wall,
                opening,
                isolator,
                tariff,
                limits,
                thresholds,
                sensors,
                Optional.empty(),
                AlarmThresholds.USUAL,
                ConeSeries.USUAL);
    }

    /** A kiln of which only the name is known. */
    public static Kiln named(String name) {
        return new Kiln(
                name,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Opening.LID,
                Optional.empty(),
                Optional.empty(),
                Limits.UNKNOWN,
                Thresholds.COMMON_PRACTICE,
                List.of());
    }

    /**
     * The switch that takes the power off by itself when all else fails, with a sensor of its own.
     *
     * @param fitted whether there is one
     * @param at the temperature it is set to; empty when that is not known, or none is fitted
     */
    public record CutOut(boolean fitted, Optional<Temperature> at) {
        /** There is none: a caution wherever the kiln is lit. */
        public static final CutOut NONE = new CutOut(false, Optional.empty());

        public CutOut {
            if (!fitted && at.isPresent()) {
                throw new IllegalArgumentException("a cut-out that is not fitted is set to no temperature");
            }
        }
    }

    /** What the wall is made of. */
    public enum Wall {
        /** Insulating firebrick alone. */
        BRICK,
        /** Ceramic fibre: light, quick to heat and to cool. */
        FIBRE,
        /** Brick with slab or fibre behind it. */
        LAYERED
    }

    /** How the kiln opens. */
    public enum Opening {
        LID,
        DOOR
    }

    /**
     * The maker's limits.
     *
     * @param temperature the highest the kiln may go
     * @param rate the fastest it may heat
     */
    public record Limits(Optional<Temperature> temperature, Optional<HeatingRate> rate) {
        public static final Limits UNKNOWN = new Limits(Optional.empty(), Optional.empty());
    }

    /**
     * The temperatures below which the lid may be cracked and the ware unloaded, in the opinion of the source named;
     * none of them means that anything is safe.
     *
     * @param crack crack the lid below this
     * @param unload unload, with gloves, below this; not above {@code crack}
     * @param source whose opinion it is
     */
    public record Thresholds(Temperature crack, Temperature unload, Source source) {
        /** 120 °C and 50 °C (common practice). */
        public static final Thresholds COMMON_PRACTICE =
                new Thresholds(Temperature.ofCelsius(120), Temperature.ofCelsius(50), Source.COMMON_PRACTICE);

        public Thresholds {
            if (unload.isAbove(crack)) {
                throw new IllegalArgumentException(
                        "ware is unloaded below the temperature at which the lid is cracked");
            }
        }

        /** Whose opinion the thresholds are. */
        public enum Source {
            COMMON_PRACTICE,
            POTTER,
            MAKER
        }
    }

    /**
     * One thermocouple of the kiln.
     *
     * @param probe its type, and the amplifier that reads it
     * @param place where it sits, in the potter's words
     */
    public record Sensor(Probe probe, Optional<String> place) {}

    /**
     * What a kilowatt-hour costs.
     *
     * @param pricePerKwh in whole units of the currency, not negative
     * @param currency three letters of ISO 4217
     */
    public record Tariff(double pricePerKwh, String currency) {
        public Tariff {
            if (!(pricePerKwh >= 0) || pricePerKwh == Double.POSITIVE_INFINITY) {
                throw new IllegalArgumentException("a price is a finite number from 0 up, found " + pricePerKwh);
            }
            if (!currency.matches("[A-Z]{3}")) {
                throw new IllegalArgumentException("a currency has three capital letters, found " + currency);
            }
        }
    }
}
