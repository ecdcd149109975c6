package org.kilnside.alarm;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * What an alarm is about. The codes (the name in small letters with hyphens) stand in books, streams and the output of
 * the command line, and never change their meaning.
 */
public enum AlarmKind {
    /** Nothing has come from the controller for a while. */
    NO_READINGS(Grade.COME_NOW, Advice.LOOK_AT_CONTROLLER),
    /** It heats when it should hold, cool or be off: a relay is stuck, or the controller has lost its head. */
    STUCK_RELAY(Grade.COME_NOW, Advice.SWITCH_OFF),
    /** The amplifier reports a fault, or gives no temperature: open circuit, short to the case. */
    SENSOR_GONE(Grade.COME_NOW, Advice.SWITCH_OFF_AND_LOOK_AT_SENSOR),
    /** The temperature fell as no shut kiln falls: the sensor slipped out, or its wires touch on the way. */
    SENSOR_SLIPPED(Grade.COME_NOW, Advice.SWITCH_OFF_AND_LOOK_AT_SENSOR),
    /** The same number again and again. */
    SENSOR_FROZEN(Grade.COME_NOW, Advice.SWITCH_OFF_AND_LOOK_AT_SENSOR),
    /** The highest number the chip or the wire can give: the kiln is that hot or hotter. */
    SENSOR_SATURATED(Grade.COME_NOW, Advice.SWITCH_OFF_AND_LOOK_AT_SENSOR),
    /** It falls while the kiln heats: the leads are exchanged. */
    SENSOR_REVERSED(Grade.COME_NOW, Advice.SWITCH_OFF_AND_LOOK_AT_SENSOR),
    /** The kiln takes power that the number does not explain: a harmless number over a kiln that runs away. */
    SENSOR_LYING(Grade.COME_NOW, Advice.SWITCH_OFF_AND_LOOK_AT_SENSOR),
    /** Above the highest temperature of the plan. */
    ABOVE_PLAN_MAXIMUM(Grade.COME_NOW, Advice.SWITCH_OFF),
    /** Above what the ware stands. */
    ABOVE_WARE_MAXIMUM(Grade.COME_NOW, Advice.SWITCH_OFF),
    /** Above what the kiln's maker allows. */
    ABOVE_KILN_MAXIMUM(Grade.COME_NOW, Advice.SWITCH_OFF),
    /** It falls while it should rise or hold: power gone, or all elements dead. */
    POWER_GONE(Grade.COME_NOW, Advice.LOOK_AT_POWER),
    /** The controller heats no more, long before the plan's top: its program ended, or somebody ended it. */
    ENDED_EARLY(Grade.COME_NOW, Advice.ASK_WHO_ENDED_IT),
    /** The controller does not follow this plan: another program, or °F for °C. */
    NOT_THIS_PLAN(Grade.LOOK_SOON, Advice.COMPARE_PROGRAM),
    /** At this power the plan's top will not be reached. */
    WILL_NOT_REACH_TOP(Grade.LOOK_SOON, Advice.LOOK_AT_POWER),
    /** The ware has had more than the plan means it to, and it heats on; come now from a whole cone more. */
    BEYOND_CONE(Grade.LOOK_SOON, Advice.END_THE_FIRING),
    /** A third of the power is gone at once: a ring, a relay or a phase. */
    THIRD_OF_POWER_GONE(Grade.LOOK_SOON, Advice.LOOK_AT_POWER),
    /** Faster than ware stands it, in a range where it matters. */
    TOO_FAST(Grade.LOOK_SOON, Advice.SLOW_DOWN),
    /** Candling went over its temperature, towards the boiling point. */
    CANDLING_OVERSHOOT(Grade.LOOK_SOON, Advice.SLOW_DOWN),
    /** Water is still leaving above the boiling point. */
    WATER_LEAVING(Grade.LOOK_SOON, Advice.SLOW_DOWN),
    /** The controller began anew. */
    CONTROLLER_RESTARTED(Grade.LOOK_SOON, Advice.LOOK_AT_CONTROLLER),
    /** The controller's box is hot: its numbers drift, and then it fails. */
    BOX_TOO_HOT(Grade.LOOK_SOON, Advice.COOL_THE_BOX),
    /** The same number for an hour, and nobody has told whether the kiln is held there: a steady hold, or a frozen sensor. */
    NUMBER_STANDS(Grade.LOOK_SOON, Advice.ASK_WHETHER_HELD),
    /** At full output the kiln has cooled for hours: the output told is not what the elements get. */
    OUTPUT_CONTRADICTED(Grade.LOOK_SOON, Advice.LOOK_AT_OUTPUT),
    /** The lid was moved: the number is the air's now, not the ware's. */
    LID_MOVED(Grade.LOOK_SOON, Advice.TAKE_NUMBER_FOR_AIR),
    /** A copy that follows has heard nothing new of the recorder: it, its computer or the network is gone. */
    RECORDER_SILENT(Grade.COME_NOW, Advice.LOOK_AT_RECORDER),
    /** The disk with the book fills up. */
    DISK_FILLING(Grade.LOOK_SOON, Advice.MAKE_ROOM_ON_DISK),
    /** The recording computer runs on its battery. */
    ON_BATTERY(Grade.LOOK_SOON, Advice.PLUG_IN_COMPUTER),
    /** The recording computer may go to sleep. */
    ABOUT_TO_SLEEP(Grade.LOOK_SOON, Advice.KEEP_COMPUTER_AWAKE),
    /** Nothing is wrong: a person tries whether an alarm would be heard tonight. */
    TEST(Grade.COME_NOW, Advice.SAY_HEARD),

    /** A hold of the plan has begun. */
    HOLD_BEGAN(Grade.GOOD_TO_KNOW, Advice.NOTHING),
    /** The ware has had the cone the plan aims for. */
    CONE_REACHED(Grade.GOOD_TO_KNOW, Advice.BE_THERE),
    /** The plan's highest temperature was reached. */
    TOP_REACHED(Grade.GOOD_TO_KNOW, Advice.BE_THERE),
    /** The firing is over. */
    FIRING_ENDED(Grade.GOOD_TO_KNOW, Advice.NOTHING),
    /** Below the temperature at which this kiln's lid may be cracked, in the opinion of whom the kiln's file names. */
    BELOW_LID_THRESHOLD(Grade.GOOD_TO_KNOW, Advice.DECIDE_ON_LID),
    /** Below the temperature for unloading, in the same opinion. */
    BELOW_UNLOAD_THRESHOLD(Grade.GOOD_TO_KNOW, Advice.DECIDE_ON_UNLOADING),
    /** What was said of the time ahead has moved by more than half an hour. */
    FORECAST_MOVED(Grade.GOOD_TO_KNOW, Advice.NOTHING);

    private final Grade grade;
    private final Advice advice;

    AlarmKind(Grade grade, Advice advice) {
        this.grade = grade;
        this.advice = advice;
    }

    /** Whether nothing is left of it once a person knows: it has happened, and what was to be decided is decided. */
    boolean isDoneOnceKnown() {
        return this == ENDED_EARLY;
    }

    /** What to do next; the words for it, and the isolator's place, are others' to find. */
    public enum Advice {
        /** Off at the isolator; this program cannot do it. */
        SWITCH_OFF,
        SWITCH_OFF_AND_LOOK_AT_SENSOR,
        LOOK_AT_CONTROLLER,
        LOOK_AT_POWER,
        ASK_WHO_ENDED_IT,
        LOOK_AT_OUTPUT,
        COMPARE_PROGRAM,
        END_THE_FIRING,
        ASK_WHETHER_HELD,
        SLOW_DOWN,
        COOL_THE_BOX,
        TAKE_NUMBER_FOR_AIR,
        LOOK_AT_RECORDER,
        MAKE_ROOM_ON_DISK,
        PLUG_IN_COMPUTER,
        KEEP_COMPUTER_AWAKE,
        SAY_HEARD,
        BE_THERE,
        DECIDE_ON_LID,
        DECIDE_ON_UNLOADING,
        NOTHING
    }

    /** How bad it is. */
    public Grade grade() {
        return grade;
    }

    public Advice advice() {
        return advice;
    }

    /** The stable code: {@code stuck-relay}. */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The kind with a code; empty when this version knows none. */
    public static Optional<AlarmKind> of(String code) {
        return Arrays.stream(values()).filter(kind -> kind.code().equals(code)).findFirst();
    }

    /** Whether cone, arrival and top-out fall with it: the number is not to be trusted. */
    public boolean withdrawsNumber() {
        return switch (this) {
            case SENSOR_GONE, SENSOR_SLIPPED, SENSOR_FROZEN, SENSOR_SATURATED, SENSOR_REVERSED, SENSOR_LYING -> true;
            default -> false;
        };
    }
}
