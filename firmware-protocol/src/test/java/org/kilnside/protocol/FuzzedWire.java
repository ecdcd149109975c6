package org.kilnside.protocol;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * What must hold whatever comes over the wire; Jazzer calls it with inputs of its own making, {@link FuzzedWireTest}
 * with those that are kept.
 *
 * <p>The first byte of an input says how the rest is cut into reads, and whether the checksums in it are put right
 * first: only so does a fuzzer get past them to the grammar behind.
 */
public final class FuzzedWire {
    private static long bytes;

    private FuzzedWire() {}

    /** Before the first input: says at the end how many bytes have been read, because runs alone say little. */
    public static void fuzzerInitialize() {
        Runtime.getRuntime().addShutdownHook(new Thread(() -> System.err.println("READ " + bytes + " BYTES"), "count"));
    }

    /** Reads one input, in whole and in pieces, and compares. */
    public static void fuzzerTestOneInput(byte[] input) {
        if (input.length == 0) {
            return;
        }
        int how = input[0] & 0xFF;
        byte[] stream = new byte[input.length - 1];
        System.arraycopy(input, 1, stream, 0, stream.length);
        if ((how & 1) == 1) {
            putChecksumsRight(stream);
        }
        bytes += stream.length;
        Outcome whole = read(stream, Math.max(1, stream.length));
        Outcome pieces = read(stream, 1 + (how >> 1));
        if (!whole.equals(pieces)) {
            throw new IllegalStateException("in whole " + whole + ", in pieces " + pieces);
        }
        for (Message message : whole.messages) {
            readsBack(message);
        }
    }

    private record Outcome(List<Message> messages, List<Long> counts) {}

    private static Outcome read(byte[] stream, int piece) {
        List<Message> messages = new ArrayList<>();
        List<Long> fates = new ArrayList<>();
        WireReader reader = new WireReader(new WireReader.Listener() {
            @Override
            public void message(Message message) {
                messages.add(message);
            }

            @Override
            public void line(WireReader.Fate fate, Verdict verdict, byte[] line, int from, int to) {
                if (to <= from || to - from > LineFramer.LONGEST) {
                    throw new IllegalStateException("a line of " + (to - from) + " bytes was shown");
                }
                fates.add(fate.ordinal() * 100L + verdict.ordinal());
                fates.add((long) Crc16.of(line, from, to));
            }
        });
        for (int from = 0; from < stream.length; from += piece) {
            reader.take(stream, from, Math.min(stream.length, from + piece));
        }
        List<Long> counts = new ArrayList<>(List.of(
                reader.good(),
                reader.unknown(),
                reader.badChecksum(),
                reader.malformed(),
                reader.repeated(),
                reader.lost(),
                reader.bytes()));
        if (reader.good() != messages.size()) {
            throw new IllegalStateException(reader.good() + " good lines gave " + messages.size() + " messages");
        }
        counts.addAll(fates);
        return new Outcome(messages, counts);
    }

    /** What was read can be written, in a line of the length allowed, and is read again as the same. */
    private static void readsBack(Message message) {
        byte[] line = LineEncoder.encode(message);
        if (line.length > LineFramer.LONGEST) {
            throw new IllegalStateException(line.length + " bytes for " + message);
        }
        LineDecoder decoder = new LineDecoder();
        Verdict verdict = decoder.decode(line, 0, line.length - 1);
        if (verdict.defect() || !decoder.message().equals(message)) {
            throw new IllegalStateException(message + " was written as " + new String(line, StandardCharsets.US_ASCII)
                    + ", read as " + verdict);
        }
    }

    /** Puts the right checksum at the end of each line that ends as one with a checksum does. */
    private static void putChecksumsRight(byte[] stream) {
        int from = 0;
        for (int at = 0; at < stream.length; at++) {
            if (stream[at] == '\n') {
                int tilde = at - 5;
                if (tilde > from && stream[tilde] == '~') {
                    byte[] digits = String.format("%04X", Crc16.of(stream, from, tilde - 1))
                            .getBytes(StandardCharsets.US_ASCII);
                    System.arraycopy(digits, 0, stream, tilde + 1, digits.length);
                }
                from = at + 1;
            }
        }
    }
}
