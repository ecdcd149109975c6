package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class RoundTripTest {
    @Test
    void whatIsEncodedIsDecodedAsItWas() {
        SomeMessages messages = new SomeMessages(7);
        LineDecoder decoder = new LineDecoder();
        for (int i = 0; i < 100_000; i++) {
            Message message = messages.next();
            byte[] line = LineEncoder.encode(message);
            assertThat(line.length).isLessThanOrEqualTo(LineFramer.LONGEST);
            assertThat(decoder.decode(line, 0, line.length - 1)).isEqualTo(Verdict.GOOD);
            assertThat(decoder.message()).isEqualTo(message);
        }
    }

    /** Published: the example of PROTOCOL.md, section 3. */
    @Test
    void theExampleOfTheSpecificationIsWrittenByteForByte() {
        assertThat(text(new ReadingLine(
                        1042,
                        5_234_000,
                        List.of(new ChannelCodes(1, OptionalInt.of(4172), OptionalInt.of(377), ChannelCodes.NO_FAULT)),
                        OptionalInt.of(1000),
                        OptionalInt.of(10_500),
                        OptionalInt.of(3))))
                .isEqualTo("R 1042 5234000 t1=4172 j1=377 u=1000 s=10500 g=3 ~7927\n");
    }

    @Test
    void anyOneBitTurnedIsNoticed() {
        byte[] line = LineEncoder.encode(new SomeMessages(3).next());
        LineDecoder decoder = new LineDecoder();
        for (int bit = 0; bit < (line.length - 1) * 8; bit++) {
            byte[] turned = line.clone();
            turned[bit / 8] ^= (byte) (1 << bit % 8);
            assertThat(decoder.decode(turned, 0, turned.length - 1).defect())
                    .as("bit %s", bit)
                    .isTrue();
        }
    }

    @Test
    void theEncoderRefusesWhatTheWireCannotCarry() {
        assertThatThrownBy(() -> LineEncoder.encode(new ReadingLine(
                        1, 1, List.of(), OptionalInt.of(1001), OptionalInt.empty(), OptionalInt.empty())))
                .hasMessage("field u lies in 0 … 1000, found 1001");
        assertThatThrownBy(() -> LineEncoder.encode(hello("a name far too long")))
                .hasMessageContaining("1 to 16 letters");
        assertThatThrownBy(() -> new KeptEnd(65_536, 1, 1, 1)).hasMessageContaining("0 … 65535");
        assertThatThrownBy(() -> new KeptEnd(1, 1L << 32, 1, 1)).hasMessageContaining("0 … 4294967295");
        assertThatThrownBy(() -> new ChannelCodes(5, OptionalInt.empty(), OptionalInt.empty(), OptionalInt.empty()))
                .hasMessageContaining("1 … 4");
    }

    @Test
    void aHostCanAskTwoThingsAndNothingElse() {
        assertThat(new String(Request.hello(), StandardCharsets.US_ASCII)).isEqualTo("?H\n");
        assertThat(new String(Request.kept(-30), StandardCharsets.US_ASCII)).isEqualTo("?K -30\n");
        assertThat(Request.kept(Request.EARLIEST_MINUTE)).hasSizeLessThanOrEqualTo(12);
        assertThatThrownBy(() -> Request.kept(71_583)).hasMessageContaining("71582");
    }

    private static Hello hello(String device) {
        return new Hello(
                1,
                1,
                1,
                Optional.of(device),
                Optional.empty(),
                OptionalInt.empty(),
                List.of(),
                OptionalInt.empty(),
                OptionalInt.empty(),
                OptionalInt.empty());
    }

    private static String text(Message message) {
        return new String(LineEncoder.encode(message), StandardCharsets.US_ASCII);
    }
}
