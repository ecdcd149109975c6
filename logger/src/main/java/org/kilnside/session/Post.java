package org.kilnside.session;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A computer that keeps watch: how it would make an alarm heard, and what stands in the way.
 *
 * @param role what it does
 * @param awake how its system stands to being kept awake
 * @param sleepWhy why it may fall asleep, or needs no asking, in one part of a sentence; empty otherwise
 * @param sounds whether it sounds alarms itself
 * @param soundTrouble why nothing is heard of it; empty as long as nothing speaks against it
 * @param hasCommand whether the user gave it an alarm command
 * @param commandTrouble what went wrong with the command's last run; empty when nothing did
 * @param testedAt when its alarm was last tested and heard; empty when it never was
 * @param heard where a test that the recorder raised was last heard, by computer; empty for a copy
 * @param waiting how much of what was said on a copy has not reached the recorder yet
 * @param tooLate how much of it came too late to be of use, and has to be said again if it still holds
 * @param followers how many other copies follow it; empty for a copy
 */
public record Post(
        Role role,
        Awake awake,
        Optional<String> sleepWhy,
        boolean sounds,
        Optional<String> soundTrouble,
        boolean hasCommand,
        Optional<String> commandTrouble,
        Optional<Instant> testedAt,
        List<Heard> heard,
        int waiting,
        int tooLate,
        OptionalInt followers) {
    public Post {
        heard = List.copyOf(heard);
    }

    /**
     * Where and when a person heard the test of the night's alarm.
     *
     * @param computer the name of the computer that rang
     */
    public record Heard(String computer, Instant at) {}

    /** What a computer does. */
    public enum Role {
        RECORDER,
        COPY
    }

    /** How its system stands to being kept awake. */
    public enum Awake {
        NOT_ASKED,
        ASKING,
        KEPT,
        NEVER_SLEEPS,
        REFUSED
    }

    /** Whether an alarm may go unheard here. */
    public boolean hasTrouble() {
        return awake == Awake.REFUSED || soundTrouble.isPresent() || commandTrouble.isPresent() || isBehind();
    }

    /** Whether something a person said here has not been taken down. */
    public boolean isBehind() {
        return waiting > 0 || tooLate > 0;
    }
}
