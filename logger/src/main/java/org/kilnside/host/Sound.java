package org.kilnside.host;

import org.kilnside.alarm.Grade;

/**
 * The sounds of the three grades, worked out sample by sample: no file is needed, and none can be missing. 16 bits,
 * mono, {@value #RATE} samples a second.
 */
final class Sound {
    static final int RATE = 44_100;

    /** One tone of a sound: Hz, seconds, and silence after it. */
    private record Tone(double fromHz, double toHz, double seconds, double pause) {}

    /** A siren that sweeps through what the ear hears best (2 to 4 kHz is the most sensitive; small speakers start at 500 Hz). */
    private static final Tone[] COME_NOW = {
        new Tone(700, 1_400, 0.45, 0.05),
        new Tone(700, 1_400, 0.45, 0.05),
        new Tone(700, 1_400, 0.45, 0.25),
        new Tone(2_600, 2_600, 0.12, 0.08),
        new Tone(2_600, 2_600, 0.12, 0.08),
        new Tone(2_600, 2_600, 0.12, 0.30)
    };

    private static final Tone[] LOOK_SOON = {new Tone(880, 880, 0.25, 0.08), new Tone(660, 660, 0.35, 0.05)};
    private static final Tone[] GOOD_TO_KNOW = {new Tone(660, 660, 0.18, 0.04), new Tone(990, 990, 0.30, 0.05)};

    /** So long a tone takes to swell and to fade: without it every tone begins and ends with a click. */
    private static final double EDGE_SECONDS = 0.008;

    private Sound() {}

    /**
     * A sound, ready to play.
     *
     * @param loudness of the loudest, 0 … 1
     */
    static byte[] of(Grade grade, double loudness) {
        Tone[] tones = switch (grade) {
            case COME_NOW -> COME_NOW;
            case LOOK_SOON -> LOOK_SOON;
            case GOOD_TO_KNOW -> GOOD_TO_KNOW;
        };
        int samples = 0;
        for (Tone tone : tones) {
            samples += samples(tone.seconds) + samples(tone.pause);
        }
        byte[] bytes = new byte[samples * 2];
        int at = 0;
        for (Tone tone : tones) {
            int length = samples(tone.seconds);
            double phase = 0;
            for (int i = 0; i < length; i++) {
                double through = (double) i / length;
                phase += 2 * Math.PI * (tone.fromHz + (tone.toHz - tone.fromHz) * through) / RATE;
                double edge = Math.min(1, Math.min(i, length - i) / (EDGE_SECONDS * RATE));
                // A third and a fifth harmonic carry through a door better than a pure tone.
                double wave = (Math.sin(phase) + Math.sin(3 * phase) / 3 + Math.sin(5 * phase) / 5) / 0.95;
                int value = (int) Math.round(
                        Math.max(-1, Math.min(1, wave)) * edge * Math.max(0, Math.min(1, loudness)) * Short.MAX_VALUE);
                bytes[at++] = (byte) value;
                bytes[at++] = (byte) (value >> 8);
            }
            at += samples(tone.pause) * 2;
        }
        return bytes;
    }

    private static int samples(double seconds) {
        return (int) Math.round(seconds * RATE);
    }
}
