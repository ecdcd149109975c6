package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;

class WireReaderTest {
    private final List<Message> messages = new ArrayList<>();
    private final WireReader reader = new WireReader(messages::add);

    @Test
    void bytesMayComeInAnyPieces() {
        byte[] stream = stream(0, 200);
        Random random = new Random(5);
        for (int from = 0; from < stream.length; ) {
            int to = Math.min(stream.length, from + 1 + random.nextInt(150));
            reader.take(stream, from, to);
            from = to;
        }
        assertThat(sequences()).containsExactlyElementsOf(upTo(0, 200));
        assertThat(reader.good()).isEqualTo(200);
        assertThat(reader.bytes()).isEqualTo(stream.length);
    }

    @Test
    void itIsInStepAgainOneLineAfterJoiningAtAnyByte() {
        byte[] stream = stream(0, 3);
        int firstLine = lineEnd(stream, 0);
        for (int from = 1; from <= firstLine; from++) {
            List<Message> heard = new ArrayList<>();
            WireReader joining = new WireReader(heard::add);
            joining.joinMidStream();
            joining.take(stream, from, stream.length);
            assertThat(heard).hasSize(2);
            assertThat(joining.malformed() + joining.badChecksum()).isZero();
        }
    }

    @Test
    void aHalfLineIsCountedAndTheNextIsRead() {
        take("R 7 7000 t1=41");
        take("\n");
        reader.take(line(8), 0, line(8).length);
        assertThat(sequences()).containsExactly(8);
        assertThat(reader.malformed()).isEqualTo(1);
    }

    @Test
    void aDoubledLineIsTakenOnceAndCounted() {
        byte[] line = line(8);
        reader.take(line, 0, line.length);
        reader.take(line, 0, line.length);
        assertThat(sequences()).containsExactly(8);
        assertThat(reader.repeated()).isEqualTo(1);
        assertThat(reader.lost()).isZero();
    }

    @Test
    void aMegabyteWithoutALineEndCostsOneLineAndNoMemory() {
        byte[] noise = new byte[1_000_000];
        Arrays.fill(noise, (byte) 'U');
        reader.take(noise, 0, noise.length);
        take("\n");
        reader.take(line(1), 0, line(1).length);
        assertThat(reader.malformed()).isEqualTo(1);
        assertThat(sequences()).containsExactly(1);
    }

    @Test
    void noughtBytesAreCountedAndHarmNothing() {
        byte[] noughts = new byte[300];
        reader.take(noughts, 0, noughts.length);
        take("\n");
        reader.take(line(1), 0, line(1).length);
        assertThat(reader.malformed()).isEqualTo(1);
        assertThat(sequences()).containsExactly(1);
    }

    @Test
    void emptyLinesAreNothing() {
        take("\n\r\n\n");
        assertThat(reader.malformed()).isZero();
    }

    @Test
    void aLineWithOneBitTurnedIsCountedByItself() {
        byte[] line = line(8);
        line[5] ^= 1;
        reader.take(line, 0, line.length);
        assertThat(reader.badChecksum()).isEqualTo(1);
        assertThat(messages).isEmpty();
    }

    @Test
    void missingSequenceNumbersAreLostLines() {
        long uptimeMs = 1_000;
        for (int sequence : new int[] {65_533, 65_534, 2, 3, 5}) {
            byte[] line = LineEncoder.encode(reading(sequence, uptimeMs++));
            reader.take(line, 0, line.length);
        }
        assertThat(reader.lost()).as("65535, 0, 1 and 4").isEqualTo(4);
    }

    @Test
    void aRestartOfTheControllerLosesNothingThatIsKnownOf() {
        reader.take(line(500), 0, line(500).length);
        byte[] afterwards = LineEncoder.encode(reading(0, 30));
        reader.take(afterwards, 0, afterwards.length);
        assertThat(reader.lost()).isZero();
        assertThat(messages).hasSize(2);
    }

    @Test
    void anUnknownKindIsCountedAndItsNumberIsNotMissed() {
        reader.take(line(1), 0, line(1).length);
        take(closed("Z 2 2000 whatever that is"));
        reader.take(line(3), 0, line(3).length);
        assertThat(reader.unknown()).isEqualTo(1);
        assertThat(reader.lost()).isZero();
        assertThat(reader.good()).isEqualTo(2);
    }

    @Test
    void anUnknownKeyIsCountedAndTheRestIsRead() {
        take(closed("R 1 1000 t1=4172 zz=5"));
        assertThat(((ReadingLine) messages.get(0)).channels().get(0).thermocouple())
                .isEqualTo(OptionalInt.of(4172));
        assertThat(reader.unknown()).isEqualTo(1);
    }

    @Test
    void readingsOfALaterVersionAreNotRead() {
        take(closed("H 1 1000 v=2 n=1"));
        take(closed("R 2 2000 t1=4172"));
        assertThat(messages).singleElement().isInstanceOf(Hello.class);
        assertThat(reader.unknown()).isEqualTo(1);
        take(closed("H 0 10 v=1 n=1"));
        take(closed("R 1 1010 t1=4172"));
        assertThat(messages).hasSize(3);
    }

    @Test
    void everyByteOfAFloodIsAccountedForAndGoodLinesAreFoundInIt() {
        Random random = new Random(11);
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        for (int sequence = 0; sequence < 2_000; sequence++) {
            byte[] noise = new byte[random.nextInt(400)];
            random.nextBytes(noise);
            stream.writeBytes(noise);
            stream.write('\n');
            stream.writeBytes(line(sequence));
        }
        byte[] bytes = stream.toByteArray();
        reader.take(bytes, 0, bytes.length);
        assertThat(sequences()).containsExactlyElementsOf(upTo(0, 2_000));
        assertThat(reader.bytes()).isEqualTo(bytes.length);
    }

    private void take(String text) {
        byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
        reader.take(bytes, 0, bytes.length);
    }

    private static String closed(String line) {
        return new String(LineEncoder.closed(new StringBuilder(line)), StandardCharsets.US_ASCII);
    }

    private static byte[] line(int sequence) {
        return LineEncoder.encode(reading(sequence, 1_000_000 + sequence));
    }

    private static ReadingLine reading(int sequence, long uptimeMs) {
        return new ReadingLine(
                sequence,
                uptimeMs,
                List.of(new ChannelCodes(1, OptionalInt.of(4172), OptionalInt.of(377), ChannelCodes.NO_FAULT)),
                OptionalInt.of(500),
                OptionalInt.empty(),
                OptionalInt.empty());
    }

    private static byte[] stream(int from, int to) {
        ByteArrayOutputStream stream = new ByteArrayOutputStream();
        for (int sequence = from; sequence < to; sequence++) {
            stream.writeBytes(line(sequence));
        }
        return stream.toByteArray();
    }

    private static int lineEnd(byte[] stream, int from) {
        int at = from;
        while (stream[at] != '\n') {
            at++;
        }
        return at;
    }

    private List<Integer> sequences() {
        return messages.stream().map(Message::sequence).toList();
    }

    private static List<Integer> upTo(int from, int to) {
        List<Integer> numbers = new ArrayList<>();
        for (int i = from; i < to; i++) {
            numbers.add(i);
        }
        return numbers;
    }
}
