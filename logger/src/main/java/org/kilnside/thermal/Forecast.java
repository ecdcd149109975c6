package org.kilnside.thermal;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Temperature;

/**
 * What the kiln will do, as far as it can be known now. Times are seconds on the recording's clock; intervals hold nine
 * in ten. Never a promise: one sensor, the ware inside is hotter, the kiln maker decides.
 *
 * @param askedS when it was asked: the last reading
 * @param stage where the firing stands
 * @param ambient the room as the model takes it
 * @param below when it will be below each temperature asked for
 * @param arrival whether and when it reaches the top; empty when nobody said what that is
 * @param energy what went in so far, or before lighting what it will take; empty unless the elements' power and output are known
 * @param estimate what the sensor cannot say any more: the ware, when the lid is open
 * @param choices while it cools, what each way of going on would give: shut, bung out, lid propped; else empty
 * @param remarks what this answer rests on and what it cannot know, most important first
 */
public record Forecast(
        double askedS,
        Stage stage,
        Temperature ambient,
        List<Below> below,
        Optional<Arrival> arrival,
        Optional<Energy> energy,
        Optional<Temperature> estimate,
        List<Choice> choices,
        List<Remark> remarks) {
    public Forecast {
        choices = List.copyOf(choices);
        below = List.copyOf(below);
        remarks = List.copyOf(remarks);
    }

    /** What a climb that is worked out of the number rests on. */
    private static final Set<Remark.Kind> OF_THE_CLIMB = Set.of(
            Remark.Kind.AT_ITS_LIMIT,
            Remark.Kind.TOPS_OUT_BEYOND_ELEMENTS,
            Remark.Kind.FULL_OUTPUT_GUESSED,
            Remark.Kind.SETPOINT_RUNS_AHEAD,
            Remark.Kind.MAY_END_BY_THE_CLOCK,
            Remark.Kind.SETPOINT_GOES_ON,
            Remark.Kind.PACE_GOES_ON,
            Remark.Kind.FULL_OUTPUT_GOES_ON);

    /**
     * The same of a sensor that is not to be believed: what a kiln on its way up will do is not worked out of its number. On
     * the way down the curve itself has told the fit more than the number an alarm was raised for.
     */
    public Forecast ofALyingSensor() {
        if (stage != Stage.HEATING && stage != Stage.HOLDING) {
            return this;
        }
        return new Forecast(
                askedS,
                stage,
                ambient,
                below.stream()
                        .map(each -> new Below(each.temperature(), Optional.empty(), Optional.empty()))
                        .toList(),
                arrival.map(
                        each -> new Arrival(each.target(), Reaches.CANNOT_SAY_YET, Optional.empty(), Optional.empty())),
                energy,
                estimate,
                List.of(),
                remarks.stream()
                        .filter(each -> !OF_THE_CLIMB.contains(each.kind()))
                        .toList());
    }

    /** The same where the sensor stood at the highest number it can give: what the kiln did not show it may have reached. */
    public Forecast ofASensorAtItsEnd() {
        return new Forecast(
                askedS,
                stage,
                ambient,
                below,
                arrival.map(each -> stage == Stage.COOLING && each.reaches() == Reaches.NO
                        ? new Arrival(each.target(), Reaches.TOP_UNSEEN, each.when(), each.topsOut())
                        : each),
                energy,
                estimate,
                choices,
                remarks);
    }

    /** Where a firing stands. */
    public enum Stage {
        /** It has not been heated yet. */
        WAITING,
        HEATING,
        HOLDING,
        /** On its way down, left to itself or driven. */
        COOLING
    }

    /** A time with its interval, s. */
    public record When(double atS, double fromS, double toS) {
        /** The time now and ln of the seconds from now, with the half-width of that. */
        static When ofLogs(double nowS, double log, double half) {
            return new When(nowS + Math.exp(log), nowS + Math.exp(log - half), nowS + Math.exp(log + half));
        }

        When plus(double seconds) {
            return new When(atS + seconds, fromS + seconds, toS + seconds);
        }
    }

    /**
     * When the kiln will be below a temperature.
     *
     * @param when empty when that cannot be known
     * @param notBeforeS the earliest it could be, where at least that is known
     * @param neverAbove whether it is never above it in the first place
     */
    public record Below(Temperature temperature, Optional<When> when, Optional<Double> notBeforeS, boolean neverAbove) {
        /** Of a kiln that is above it, or may have been. */
        public Below(Temperature temperature, Optional<When> when, Optional<Double> notBeforeS) {
            this(temperature, when, notBeforeS, false);
        }
    }

    /**
     * One way of cooling on.
     *
     * @param from the temperature from which on it is done; empty where it is so already
     * @param atOnce whether the kiln is there: nothing is left to wait for
     * @param below the ware's times for every temperature asked for
     */
    public record Choice(Way way, Optional<Temperature> from, boolean atOnce, List<Below> below) {
        public Choice {
            below = List.copyOf(below);
        }

        /** What is left or made open. */
        public enum Way {
            SHUT,
            BUNG_OUT,
            LID_PROPPED
        }
    }

    /** Whether the top is within reach. */
    public enum Reaches {
        YES,
        NO,
        CANNOT_SAY_YET,
        /** The kiln is on its way down, and how hot it got the log does not show. */
        TOP_UNSEEN;

        /** The answer, where there is one. */
        public Optional<Boolean> known() {
            return this == YES || this == NO ? Optional.of(this == YES) : Optional.empty();
        }
    }

    /**
     * Reaching the top.
     *
     * @param target the temperature aimed for
     * @param reaches yes only with a time: who cannot say when, as where the plan does not lead there, cannot say whether
     * @param when empty when it will not, or cannot be known
     * @param topsOut the highest it could get within twelve hours at full output; empty when nothing is known of power, and
     *     where it would come above what elements bear
     */
    public record Arrival(Temperature target, Reaches reaches, Optional<When> when, Optional<TopsOut> topsOut) {
        public Arrival {
            if (reaches == Reaches.YES && when.isEmpty()) {
                reaches = Reaches.CANNOT_SAY_YET;
            }
        }
    }

    /** The highest temperature within reach, with its interval. */
    public record TopsOut(Temperature at, Temperature from, Temperature to) {
        /**
         * At this wire of iron, chromium and aluminium melts, °C; of metal heating wires it bears most (<i>common practice</i>).
         * No plan may aim higher.
         */
        static final double ELEMENTS_MELT_C = 1500;

        /** The same as elements let it be told; empty where they would melt first. */
        public Optional<TopsOut> asElementsBear() {
            return at.celsius() > ELEMENTS_MELT_C
                    ? Optional.empty()
                    : Optional.of(
                            new TopsOut(at, from, Temperature.ofCelsius(Math.min(ELEMENTS_MELT_C, to.celsius()))));
        }
    }

    /** One thing to know about a forecast. */
    public record Remark(Kind kind, Optional<Double> atS) {
        static Remark of(Kind kind) {
            return new Remark(kind, Optional.empty());
        }

        /** Why the power guard does not believe the number. */
        static Remark of(PowerGuard.Finding doubt) {
            return doubt.kind() == PowerGuard.Kind.FELL_TOO_FAST
                    ? new Remark(Kind.DO_NOT_TRUST_FALL, Optional.of(doubt.sinceS()))
                    : of(Kind.DO_NOT_TRUST_SENSOR);
        }

        /** What may be remarked. */
        public enum Kind {
            /** There are too few readings to say anything yet. */
            TOO_SHORT,
            /** It has not been heated, so there is no firing to forecast. */
            NEVER_HEATED,
            /** The log starts with a warm kiln: how far its wall was soaked is guessed, and intervals are wider. */
            STARTED_WARM,
            /** The log is silent over its turn from heating to cooling: for how long it heated on nobody knows. */
            TURN_UNSEEN,
            /** The elements went off in mid-climb: how unevenly it is warm is hardly known, and intervals are far wider for some hours. */
            CLIMB_BROKEN_OFF,
            /** It was heated again on its way down: what it showed before says less of the rest, and intervals are wider for an hour or two. */
            HEATED_AGAIN,
            /** At full output, told or taken for it, it hardly gets any hotter, below what is wanted of it. */
            AT_ITS_LIMIT,
            /** The output is not told; as the kiln lags its plan or climbs ever more slowly, it is taken for full. */
            FULL_OUTPUT_GUESSED,
            /** The set-point does not wait for the kiln: a controller that goes by the clock ends its plan before the top. */
            SETPOINT_RUNS_AHEAD,
            /** It lags its plan and no set-point is told: should its controller go by the clock, its plan ends before the top. */
            MAY_END_BY_THE_CLOCK,
            /** The output is not told, so the power left can only be guessed. */
            OUTPUT_UNKNOWN,
            /** The output is told, but not yet from as hot on as tells how strong the elements are. */
            OUTPUT_NOT_SEEN_YET,
            /** The output says nothing while the kiln climbs on: it is not believed, and nothing is worked out of it. */
            OUTPUT_CONTRADICTED,
            /** The output stands at full while the kiln holds or climbs evenly: it is not believed either. */
            FULL_OUTPUT_CONTRADICTED,
            /** The output told falls where the curve asks for more: it is left out. */
            REVERSED_OUTPUT_CONTRADICTED,
            /** It is full while the kiln cools by the hour: it is left out too. */
            FULL_OUTPUT_WHILE_COOLING,
            /** By its output it would get hotter than elements bear: how hot is not told. */
            TOPS_OUT_BEYOND_ELEMENTS,
            /** The elements are on while the kiln cools and no plan says for how long: only the earliest time is known. */
            DRIVEN_COOLING,
            /** The same though there is a plan: it has nothing more for the elements to do. */
            DRIVEN_PAST_PLAN,
            /** It cools more slowly than any kiln left alone: probably led down by elements nobody tells of. */
            COOLS_TOO_SLOWLY,
            /** The same though there is a plan: it leaves the kiln alone by now. */
            COOLS_SLOWLY_PAST_PLAN,
            /** The kiln began to cool faster than it does shut: a bung, a vent or a lid was opened. */
            OPENED,
            /** From its very top it has cooled faster than kilns that are shut: open, or of fibre nobody told of. */
            FALLS_AS_IF_OPEN,
            /** The lid seems open: the sensor reads air, the ware is hotter. */
            SENSOR_READS_AIR,
            /** The kiln takes far more power than it needs at this temperature: the sensor reads low. */
            DO_NOT_TRUST_SENSOR,
            /** The reading fell faster than this kiln can with its elements on: the sensor slipped, or the lid was opened. */
            DO_NOT_TRUST_FALL,
            /** The curve jumped further than a kiln can and stayed there: which side of it is the kiln's nobody can tell. */
            DO_NOT_TRUST_JUMP,
            /** From one moment on the same output heats less: a ring, relay or phase is lost. */
            POWER_MISSING,
            /** The curve jumps further than a kiln can. */
            JUMP,
            /** No plan being known it is taken to climb on as fast as its set-point last did. */
            SETPOINT_GOES_ON,
            /** No plan being known it is taken to climb on as fast as it does. */
            PACE_GOES_ON,
            /** No plan being known it is taken to go on at the full output it has. */
            FULL_OUTPUT_GOES_ON,
            /** It is hotter than its plan ever has it, and not on its way down: it seems to be fired by another. */
            HOTTER_THAN_PLANNED,
            /** Nobody said how hot it is to get. */
            NO_TARGET,
            /** A temperature asked for lies at or under the room's. */
            BELOW_ROOM;

            /** Whether the output is told and not believed. */
            boolean isOutputContradicted() {
                return this == OUTPUT_CONTRADICTED
                        || this == FULL_OUTPUT_CONTRADICTED
                        || this == REVERSED_OUTPUT_CONTRADICTED
                        || this == FULL_OUTPUT_WHILE_COOLING;
            }

            /** Whether the number itself is not to be believed. */
            public boolean distrustsNumber() {
                return this == DO_NOT_TRUST_SENSOR || this == DO_NOT_TRUST_FALL || this == DO_NOT_TRUST_JUMP;
            }
        }
    }
}
