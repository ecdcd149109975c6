package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class NoiseTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    private final Noise noise = new Noise();
    private final Port port =
            new SerialLinePort((LinkNotation.Serial) LinkNotation.parse("serial:/dev/ttyUSB0?baud=9600"), WORDS);

    @ParameterizedTest
    @CsvSource({
        "115200, 9600", "115200, 57600", "115200, 38400", "115200, 19200", "9600, 115200", "9600, 19200",
        "19200, 9600", "57600, 115200", "38400, 115200", "9600, 4800", "250000, 115200", "1200, 9600"
    })
    void aWrongSpeedIsRecognisedFromWhatComes(int sent, int received) {
        byte[] bytes = UartAtAnotherSpeed.received(someLines(30), sent, received);
        noise.take(bytes, bytes.length);
        assertThat(noise.sentence(port, WORDS))
                .hasValueSatisfying(text -> assertThat(text)
                        .contains("the speed is wrong")
                        .contains("open at 9600 baud")
                        .contains("serial:/dev/ttyUSB0?baud=115200"));
    }

    @Test
    void theRightSpeedIsNoNoise() {
        byte[] bytes = UartAtAnotherSpeed.received(someLines(30), 115_200, 115_200);
        assertThat(bytes).isEqualTo(someLines(30));
        noise.take(bytes, bytes.length);
        assertThat(noise.isNoise()).isFalse();
    }

    @Test
    void aFewSpoiltBytesAreNoWrongSpeed() {
        byte[] bytes = someLines(30);
        Random random = new Random(1);
        for (int i = 0; i < bytes.length / 100; i++) {
            bytes[random.nextInt(bytes.length)] = (byte) 0xF8;
        }
        noise.take(bytes, bytes.length);
        assertThat(noise.isNoise()).isFalse();
    }

    @Test
    void textOfAnotherKindIsSaidToBeText() {
        byte[] bytes = "T=1043.2 SP=1050\nT=1043.4 SP=1050\nT=1043.5 SP=1050\nT=1043.7 SP=1050\n"
                .getBytes(StandardCharsets.US_ASCII);
        noise.take(bytes, bytes.length);
        assertThat(noise.sentence(port, WORDS))
                .hasValueSatisfying(text -> assertThat(text)
                        .contains("Text comes from /dev/ttyUSB0")
                        .contains("kilnside ports /dev/ttyUSB0"));
    }

    @Test
    void aStreamWithoutALineEndIsSaidToBeOne() {
        byte[] bytes = "20.5 20.5 ".repeat(200).getBytes(StandardCharsets.US_ASCII);
        noise.take(bytes, bytes.length);
        assertThat(noise.sentence(port, WORDS))
                .hasValueSatisfying(text -> assertThat(text).contains("without a line end"));
    }

    @Test
    void itIsSaidInThePottersOwnLanguage() {
        byte[] bytes = UartAtAnotherSpeed.received(someLines(30), 115_200, 9_600);
        noise.take(bytes, bytes.length);
        Words dutch = Words.of(Locale.forLanguageTag("nl"), Preferences.of(Locale.forLanguageTag("nl")));
        assertThat(noise.sentence(port, dutch))
                .hasValueSatisfying(text -> assertThat(text)
                        .startsWith("Wat van /dev/ttyUSB0 komt is ruis")
                        .endsWith("zoals in serial:/dev/ttyUSB0?baud=115200."));
    }

    @Test
    void tooLittleSaysNothing() {
        noise.take(new byte[] {1, 2, 3}, 3);
        assertThat(noise.sentence(port, WORDS)).isEmpty();
    }

    private static byte[] someLines(int count) {
        Lines lines = new Lines();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (int i = 0; i < count; i++) {
            bytes.writeBytes(LineEncoder.encode(lines.reading(1_000L * i, 600 + i)));
        }
        return bytes.toByteArray();
    }
}
