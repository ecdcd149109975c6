package org.kilnside.review;

import java.util.List;

/**
 * One thing to do.
 *
 * @param amounts in the order in which the text of the kind names them, in the numbers the controller shows
 */
public record Advice(Kind kind, List<Amount> amounts) {
    public Advice {
        amounts = List.copyOf(amounts);
    }

    static Advice of(Kind kind, Amount... amounts) {
        return new Advice(kind, List.of(amounts));
    }

    /** What to do; behind each, what its amounts are. */
    public enum Kind {
        /** Set the top higher by a span to a temperature, not more at once. */
        RAISE_TOP_CAREFULLY,
        /** Set the top lower by a span to a temperature. */
        LOWER_TOP,
        /** Set the hold to so many minutes. */
        SET_HOLD,
        /** Set the last ramp to a rate. */
        SET_LAST_RAMP,
        /** Do not raise the top or lengthen the hold: the elements cannot. */
        NO_MORE_TOP,
        /** Until the kiln is stronger, set the top to a temperature, in its interval, which brings a cone down. */
        TOP_WHILE_WEAK,
        /** Have the elements measured and perhaps replaced. */
        MEASURE_ELEMENTS,
        /** Have ring, relay and phase looked at. */
        LOOK_AT_RINGS,
        /** Fire when the mains are steady. */
        FIRE_OFF_PEAK,
        /** Find out why the power went. */
        LOOK_AT_SUPPLY,
        /** Let it go on to the plan's top, a temperature. */
        LET_IT_FINISH,
        /** Check the sensor: place, tip, wires. */
        CHECK_SENSOR,
        /** Compare it with the plan it was fired by. */
        NAME_ITS_PLAN,
        /** What a number of the controller stands for in the ware: number, truth. */
        SHOWN_AND_TRUE,
        /** No higher: the kiln may not go past a temperature. */
        AT_THE_LIMIT,
        /** No higher: clay or glaze may not go past a temperature. */
        AT_THE_LIMIT_OF_THE_WARE,
        /** The load has the cone it wants: the top may stay. */
        LOAD_HAS_ITS_CONE,
        /** Cones of a bisque firing tell an uncorrected board from a sensor that reads low. */
        TELL_BOARD_FROM_SENSOR,
        /** The amplifier's numbers are to be corrected in the controller. */
        CORRECT_AMPLIFIER,
        /** Shelves differ: load, spacing and slower end, never more top. */
        EVEN_OUT,
        /** Slow the cooling: heat on the way down as the plan has it, lid and bung shut. */
        SLOW_COOLING,
        /** Lid, bungs and spyholes stay shut: the plan leaves the kiln to itself. */
        LEAVE_SHUT,
        /** Speed the cooling. */
        QUICKEN_COOLING,
        /** One change a firing, and witness cones to tell. */
        ONE_CHANGE_WITNESS,
        /** Look at glaze thickness, mix and clay. */
        LOOK_AT_GLAZE,
        /** The cheap test that tells which. */
        TEST_TILE,
        /** Re-fire to the full cone from a slow start. */
        REFIRE_FULL,
        /** Absorption test before table use. */
        ABSORPTION_TEST,
        /** Re-firing does not undo it; look for runs, slumping, bloating. */
        LOOK_FOR_OVERFIRING,
        /** Mains work is for an electrician. */
        ELECTRICIAN
    }
}
