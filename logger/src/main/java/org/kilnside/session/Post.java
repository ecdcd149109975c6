package org.kilnside.session;

import java.time.Instant;
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
        OptionalInt followers) {
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
        return awake == Awake.REFUSED || soundTrouble.isPresent() || commandTrouble.isPresent();
    }
}
