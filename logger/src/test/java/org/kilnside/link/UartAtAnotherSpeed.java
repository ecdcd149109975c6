package org.kilnside.link;

import java.io.ByteArrayOutputStream;

/**
 * What a receiver makes of a line sent at another speed: the bits of 8N1 frames on the wire, sampled by a receiver with
 * its own bit time, which starts at each falling edge and samples in the middle of its bits (common practice). A frame
 * without a stop bit is handed over as it is, as drivers do.
 */
final class UartAtAnotherSpeed {
    private UartAtAnotherSpeed() {}

    static byte[] received(byte[] sent, int sentBaud, int receivedBaud) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        double sentBits = sent.length * 10.0;
        double bit = (double) sentBaud / receivedBaud;
        double at = 0;
        while (at < sentBits) {
            // Wait for the line to fall.
            if (level(sent, at)) {
                at += 0.05;
                continue;
            }
            int value = 0;
            for (int i = 0; i < 8; i++) {
                value |= level(sent, at + bit * (1.5 + i)) ? 1 << i : 0;
            }
            bytes.write(value);
            at += bit * 9.5;
            while (at < sentBits && !level(sent, at)) {
                at += 0.05;
            }
        }
        return bytes.toByteArray();
    }

    /** The line's level at a time in sent bits; high when idle. */
    private static boolean level(byte[] sent, double time) {
        int index = (int) (time / 10);
        if (index >= sent.length) {
            return true;
        }
        int bit = (int) (time - index * 10.0);
        return bit != 0 && (bit == 9 || (sent[index] >> bit - 1 & 1) == 1);
    }
}
