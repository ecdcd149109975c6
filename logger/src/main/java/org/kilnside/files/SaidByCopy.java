package org.kilnside.files;

import java.util.Optional;
import java.util.OptionalInt;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * One thing that a person said on a copy, on its way to the recorder as a line of JSON. It is sent until the recorder has
 * confirmed its number, so that a wire that breaks in that moment loses nothing and doubles nothing.
 *
 * @param what what sort of thing
 * @param text the note, the alarm's id, the list, or the computer's name; empty where the kind says it all
 * @param times of an alarm: how often it had been raised when the person answered it
 * @param copy names the copy that says it, as long as it runs
 * @param number counts what this copy has said, from 1
 * @param ageMs how long ago it was said, ms
 */
public record SaidByCopy(What what, Optional<String> text, OptionalInt times, String copy, long number, long ageMs) {
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    /** The sorts of things a copy may say. */
    public enum What {
        NOTE,
        ACKNOWLEDGE,
        LIGHTING,
        FIRING_BEGINS,
        FIRING_ENDS,
        RING_TEST,
        TEST_HEARD;

        /** Whether it holds for this moment alone: a while later it would be wrong. */
        public boolean isOfTheMoment() {
            return this == FIRING_BEGINS || this == FIRING_ENDS || this == RING_TEST;
        }
    }

    /** The line, without its end. */
    public String line() {
        return MAPPER.writeValueAsString(this);
    }

    /** @throws IllegalArgumentException when the line holds no such thing */
    public static SaidByCopy of(String line) {
        try {
            SaidByCopy said = MAPPER.readValue(line, SaidByCopy.class);
            if (said == null || said.what == null || said.copy == null) {
                throw new IllegalArgumentException("not said by a copy: " + line);
            }
            return said;
        } catch (JacksonException e) {
            throw new IllegalArgumentException("not said by a copy: " + line, e);
        }
    }
}
